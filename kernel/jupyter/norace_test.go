//go:build !race

package jupyter

const raceDetector = false
