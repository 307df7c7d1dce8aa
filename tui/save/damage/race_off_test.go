//go:build !race

package damage_test

const raceEnabled = false
