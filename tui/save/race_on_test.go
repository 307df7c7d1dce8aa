//go:build race

package save

const raceEnabled = true
