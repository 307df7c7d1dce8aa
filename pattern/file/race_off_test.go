//go:build !race

package file

const raceEnabled = false

// raceFactor is how much slower the race detector makes a test: it is off.
const raceFactor = 1
