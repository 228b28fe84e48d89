package note_test

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"text/scanner"
)

// TestScrambledCells does to whole words what FuzzCell does to bytes, which
// the parser rarely lets through: words of good cells are dropped, doubled and
// put into each other's places, and what FuzzCell demands must still hold.
func TestScrambledCells(t *testing.T) {
	t.Parallel()
	rounds := 300
	if testing.Short() {
		rounds = 50
	}
	random := rand.New(rand.NewPCG(1, 2)) // always the same cells
	for range rounds {
		code := scramble(random)
		first, timed := fuzzRun(t, code)
		again, timedAgain := fuzzRun(t, code)
		if !timed && !timedAgain && first != again {
			t.Errorf("the same cells gave\n%s\nand\n%s", first, again)
		}
		if t.Failed() {
			t.Fatalf("in the cell\n%s", code)
		}
	}
}

// scramble makes a text of the words of some seeds.
func scramble(random *rand.Rand) string {
	all := fuzzSeeds
	var code []string
	for range 1 + random.IntN(3) {
		code = append(code, words(all[random.IntN(len(all))])...)
		code = append(code, "\n")
	}
	donor := words(all[random.IntN(len(all))] + "\n" + all[random.IntN(len(all))])
	for range random.IntN(5) {
		if len(code) == 0 || len(donor) == 0 {
			break
		}
		i := random.IntN(len(code))
		switch random.IntN(5) {
		case 0:
			code = slices.Delete(code, i, i+1)
		case 1:
			code = slices.Insert(code, i, code[random.IntN(len(code))])
		case 2:
			code[i] = donor[random.IntN(len(donor))]
		case 3:
			code = slices.Insert(code, i, donor[random.IntN(len(donor)):]...)
		case 4:
			j := random.IntN(len(code))
			code[i], code[j] = code[j], code[i]
		}
	}
	return strings.Join(code, "")
}

// words cuts a text into words, numbers, signs and space.
func words(text string) []string {
	var s scanner.Scanner
	s.Init(strings.NewReader(text))
	s.Mode = scanner.ScanIdents | scanner.ScanInts | scanner.ScanStrings
	s.Whitespace = 0
	s.Error = func(*scanner.Scanner, string) {}
	var list []string
	for s.Scan() != scanner.EOF {
		list = append(list, s.TokenText())
	}
	return list
}
