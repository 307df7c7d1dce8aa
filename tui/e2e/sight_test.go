//go:build unix

package e2e_test

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"bypeg/pattern/safetext"
)

// place is a row and how many of its pegs are done. The cast-on is row 0.
type place struct{ row, done int }

// sight is the place as the screen of 80 by 24 tells it, twice over: in the picture,
// by the peg in brackets over the ruler, and in words.
type sight struct {
	place
	peg   int    // the number the ruler gives to the peg in brackets
	saved bool   // the brackets are square
	now   string // the line of what the hands do
}

var (
	inHand = regexp.MustCompile(`(?m)^▸ *(\d*) +([←→]).*?([\[(]).[\])].*$`)
	ruler  = regexp.MustCompile(`(?m)^ +[\d ]+ 1$`)
	now    = regexp.MustCompile(`(?m)^NOW +(.*)$`)
	worked = regexp.MustCompile(`(\d+) of (\d+) (?:worked|loops)$`)
	turned = regexp.MustCompile(`^(?:turn: row (\d+)|cast-on) done`)
)

// read reads the place off a screen. It is false where picture and words do not
// agree, as while a new frame is being drawn.
func read(screen string) (sight, bool) {
	line := inHand.FindStringSubmatchIndex(screen)
	pegs := ruler.FindString(screen)
	words := now.FindStringSubmatch(screen)
	if line == nil || pegs == "" || words == nil {
		return sight{}, false
	}
	at := func(group int) string { return screen[line[2*group]:line[2*group+1]] }
	s := sight{saved: at(3) == "[", now: words[1]}
	s.row, _ = strconv.Atoi(at(1))
	cell := safetext.Width(screen[line[0]:line[6]]) + 1 // right of the opening bracket
	s.peg = 1 + (safetext.Width(pegs)-1-cell)/2
	of := 0
	switch w, turn := worked.FindStringSubmatch(s.now), turned.FindStringSubmatch(s.now); {
	case w != nil:
		s.done, _ = strconv.Atoi(w[1])
		of, _ = strconv.Atoi(w[2])
	case turn != nil:
		before, _ := strconv.Atoi(turn[1])
		return s, s.row == before+1 && (s.peg == 1) == (at(2) == "←")
	}
	if at(2) == "←" {
		return s, s.peg == s.done+1
	}
	return s, s.peg == of-s.done
}

func TestReadingThePlaceOffAScreen(t *testing.T) {
	screen := func(row, now string) string {
		return strings.Join([]string{"Title", "   2 →     ━ ━ ━ ━", row, "           4     1", "", "NOW   " + now}, "\n")
	}
	cases := []struct {
		name, screen string
		want         sight
		ok           bool
	}{
		{"a row to the left", screen("▸  3 ←     ┃ ┃[┃]┃", "knit 3   pegs 2 to 4   1 of 4 worked"),
			sight{place{3, 1}, 2, true, "knit 3   pegs 2 to 4   1 of 4 worked"}, true},
		{"a row to the right, not saved yet", screen("▸  2 → 1   ━(━)━ ━", "purl 3   1 of 4 worked"),
			sight{place{2, 1}, 3, false, "purl 3   1 of 4 worked"}, true},
		{"a row's start", screen("▸  2 → 1  [━]━ ━ ━", "turn: row 1 done, yarn at the left"),
			sight{place{2, 0}, 4, true, "turn: row 1 done, yarn at the left"}, true},
		{"the cast-on is done", screen("▸  1 ←     ━ ━ ━[━]", "cast-on done: yarn at the right"),
			sight{place{1, 0}, 1, true, "cast-on done: yarn at the right"}, true},
		{"the cast-on", screen("▸    →    [·]· · ·", "cast on 4   0 of 4 loops"),
			sight{place{0, 0}, 4, true, "cast on 4   0 of 4 loops"}, true},
		{"words behind the picture", screen("▸  3 ←     ┃ ┃[┃]┃", "knit 4   0 of 4 worked"), sight{}, false},
		{"a turn behind the picture", screen("▸  3 ←     ┃ ┃ ┃[┃]", "turn: row 1 done"), sight{}, false},
		{"another screen", "On the loom", sight{}, false},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			s, ok := read(c.screen)
			assert.Equal(t, c.ok, ok)
			if c.ok {
				assert.Equal(t, c.want, s)
			}
		})
	}
}
