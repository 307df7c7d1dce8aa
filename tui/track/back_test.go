package track_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"bypeg/pattern"
	"bypeg/pattern/patterntest"
	"bypeg/tui/track"
)

// Sides and directions: on a panel whose row 1 runs right to left every odd row ends at
// the left and every even one at the right. Common practice, no source.
func TestWhatToLookForWhenComingBack(t *testing.T) {
	plain := func(pegs, rows int) pattern.Order {
		lines := make([]string, rows)
		for i := range lines {
			lines[i] = strings.Repeat("|", pegs)
		}
		p := patterntest.Build(t, patterntest.Drawn(lines...))
		return pattern.Order{Pattern: p, Way: p.Way}
	}
	tube := patterntest.Drawn(strings.Repeat("|", 36), strings.Repeat("|", 36))
	tube.Form = pattern.Tube
	tube.Zones[0].Rows = 20
	round := patterntest.Build(t, tube)
	cases := []struct {
		name string
		o    pattern.Order
		at   pattern.Place
		want []string
	}{
		{"in an odd row", plain(46, 30), at(23, 17), []string{
			"22 rows done.", "Row 23, right to left, has 17 pegs worked: the yarn leaves peg 17, next is peg 18."}},
		{"in an even row", plain(46, 30), at(24, 17), []string{
			"23 rows done.", "Row 24, left to right, has 17 pegs worked: the yarn leaves peg 30, next is peg 29."}},
		{"31 rows done", plain(12, 40), at(32, 0), []string{
			"31 rows done.", "The yarn hangs at the left, beside the tail.", "Next: row 32, left to right, from peg 12."}},
		{"after ripping back to a lifeline at row 40", plain(60, 60), at(41, 0), []string{
			"40 rows done.", "The yarn hangs at the right, away from the tail.", "Next: row 41, right to left, from peg 1."}},
		{"ridges are told where they count", frame(t, pattern.RightHand), at(9, 0), []string{
			"8 rows done: 4 ridges.", "The yarn hangs at the right, away from the tail.", "Next: row 9, right to left, from peg 1."}},
		{"and the row above the last", frame(t, pattern.RightHand), at(10, 0), []string{
			"9 rows done: 4 ridges, and a row above the last.", "The yarn hangs at the left, beside the tail.", "Next: row 10, left to right, from peg 12."}},
		{"the left hand", frame(t, pattern.LeftHand), at(9, 3), []string{
			"8 rows done: 4 ridges.", "Row 9, left to right, has 3 pegs worked: the yarn leaves peg 3, next is peg 4."}},
		{"in a round", pattern.Order{Pattern: round, Way: round.Way}, at(12, 17), []string{
			"11 rounds done.", "Round 12, right to left, has 17 pegs worked: the yarn leaves peg 17, next is peg 18."}},
		{"between rounds", pattern.Order{Pattern: round, Way: round.Way}, at(12, 0), []string{
			"11 rounds done.", "The yarn is at the start of the round: follow the column above the cast-on's tail up.", "Next: round 12, right to left, from peg 1."}},
		{"casting on", plain(88, 4), pattern.Place{Phase: pattern.CastingOn, Done: 76}, []string{"76 loops on the pegs; the next goes on peg 12."}},
		{"before row 1", plain(8, 4), at(1, 0), []string{
			"The cast-on is done: 8 loops, and no row yet.", "The yarn hangs at the right, away from the tail.", "Next: row 1, right to left, from peg 1."}},
		{"binding off", plain(8, 4), pattern.Place{Phase: pattern.BindingOff, Done: 3}, []string{"All rows are done, and 3 loops bound off: next is peg 4."}},
		{"before the bind-off", plain(8, 4), pattern.Place{Phase: pattern.BindingOff}, []string{
			"4 rows done.", "The yarn hangs at the right, away from the tail.", "Next: bind off, from peg 1."}},
		{"nothing is begun", plain(8, 4), pattern.Start(), nil},
		{"off the loom", plain(8, 4), pattern.Place{Phase: pattern.Finishing}, nil},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) { assert.Equal(t, c.want, track.SayBack(c.o, c.at)) })
	}
}
