//go:build race

package jupyter

// raceDetector makes everything some ten times slower.
const raceDetector = true
