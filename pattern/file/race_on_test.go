//go:build race

package file

const raceEnabled = true

// raceFactor is how much slower the race detector makes a test, about.
const raceFactor = 10
