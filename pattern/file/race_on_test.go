//go:build race

package file

const raceEnabled = true
