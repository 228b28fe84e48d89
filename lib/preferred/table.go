package preferred

import (
	_ "embed"
	"fmt"
	"strconv"
	"strings"
)

//go:embed series.txt
var seriesText string

// decades holds the members of one decade of each series of the standard.
// It is built once and never changed.
var decades = mustReadDecades(seriesText)

// member is a member as the standard prints it and as a number.
type member struct {
	text  string
	value float64
}

func mustReadDecades(text string) map[string][]member {
	d, err := readDecades(text)
	if err != nil {
		panic(err) // the file is part of the program; a test loads it
	}
	return d
}

// readDecades reads series.txt, whose grammar stands at its top.
func readDecades(text string) (map[string][]member, error) {
	var (
		decades = map[string][]member{}
		counts  = map[string]int{}
		name    string
	)
	for i, line := range strings.Split(text, "\n") {
		line, _, _ = strings.Cut(line, "#")
		words := strings.Fields(line)
		if len(words) == 0 {
			continue
		}
		if words[0] == "series" {
			if len(words) != 3 {
				return nil, fmt.Errorf("series.txt:%d: a series line is %q, want: series NAME COUNT", i+1, line)
			}
			n, err := strconv.Atoi(words[2])
			if err != nil || n < 1 {
				return nil, fmt.Errorf("series.txt:%d: the count is %q, want a whole number above 0", i+1, words[2])
			}
			name = words[1]
			if _, twice := counts[name]; twice {
				return nil, fmt.Errorf("series.txt:%d: series %s is there twice", i+1, name)
			}
			counts[name] = n
			continue
		}
		if name == "" {
			return nil, fmt.Errorf("series.txt:%d: members before the first series line", i+1)
		}
		for _, w := range words {
			v, err := strconv.ParseFloat(w, 64)
			if err != nil || v < 1 || v >= 10 {
				return nil, fmt.Errorf("series.txt:%d: member %q of %s is no number from 1 on and below 10", i+1, w, name)
			}
			list := decades[name]
			if len(list) > 0 && v <= list[len(list)-1].value {
				return nil, fmt.Errorf("series.txt:%d: member %s of %s does not rise", i+1, w, name)
			}
			decades[name] = append(list, member{w, v})
		}
	}
	for name, n := range counts {
		list := decades[name]
		if len(list) != n {
			return nil, fmt.Errorf("series.txt: %s has %d members, its count says %d", name, len(list), n)
		}
		if list[0].value != 1 {
			return nil, fmt.Errorf("series.txt: %s starts with %s, want 1", name, list[0].text)
		}
	}
	return decades, nil
}
