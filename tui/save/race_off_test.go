//go:build !race

package save

const raceEnabled = false
