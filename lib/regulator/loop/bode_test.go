package loop

import (
	"testing"

	"ohmwright/lib/internal/expect"
)

// Every point of the picture is what Response gives there, from the first
// frequency to the last.
func TestBodeIsTheResponse(t *testing.T) {
	t.Parallel()
	plant, amplifier := currentMode(), gmAmplifier()
	b, err := Bode(plant, amplifier, q("100 Hz"), q("100 kHz"))
	expect.Must(t, b, err)
	for name, figure := range map[string]int{"gain": len(b.Gain.Series), "phase": len(b.Phase.Series)} {
		if figure == 0 {
			t.Fatalf("no curve of the %s", name)
		}
	}
	loop, phase := b.Gain.Series[0], b.Phase.Series[0]
	if n := len(loop.X); n != 81 || len(phase.X) != n {
		t.Fatalf("%d points", n)
	}
	for i := 0; i < len(loop.X); i += 8 {
		r, err := Response(plant, amplifier, loop.X[i])
		expect.Must(t, r, err)
		expect.Near(t, "gain in the picture", loop.Y[i], r.Gain.Text(0), 1e-12)
		expect.Near(t, "phase in the picture", phase.Y[i], r.Phase.Text(0), 1e-12)
	}
	expect.Near(t, "first frequency", loop.X[0], "100 Hz", 1e-12)
	expect.Near(t, "last frequency", loop.X[80], "100 kHz", 1e-12)
}
