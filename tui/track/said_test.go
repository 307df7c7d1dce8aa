package track_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/pattern"
	"bypeg/pattern/patterntest"
	"bypeg/tui/track"
)

func TestWhatWasWorkedIsSaid(t *testing.T) {
	checks := patterntest.Build(t, patterntest.Drawn("|-|-|-|-|-|-"))
	many := pattern.Order{Pattern: checks, Way: checks.Way}
	right, left := frame(t, pattern.RightHand), frame(t, pattern.LeftHand)
	cases := []struct {
		name     string
		order    pattern.Order
		from, to pattern.Place
		want     string
	}{
		{"a peg", right, at(6, 3), at(6, 4), "row 6, knit 1, peg 9"},
		{"two", right, at(6, 3), at(6, 5), "row 6, knit 2, pegs 9, 8"},
		{"across runs", right, at(6, 2), at(6, 4), "row 6, purl 1, peg 10; knit 1, peg 9"},
		{"to the row's end", right, at(6, 9), at(7, 0), "row 6, purl 3, pegs 3 to 1"},
		{"a whole row", right, at(5, 0), at(6, 0), "row 5, knit all 12, pegs 1 to 12"},
		{"the left hand counts from the left", left, at(6, 3), at(6, 4), "row 6, knit 1, peg 9"},
		{"the last row", right, at(13, 11), pattern.Place{Phase: pattern.BindingOff}, "row 13, knit 1, peg 12"},
		{"loops of the cast-on", right, pattern.Start(), pattern.Place{Done: 3}, "cast on 3, pegs 12 to 10"},
		{"the last of them", right, pattern.Place{Done: 11}, at(1, 0), "cast on 1, peg 1"},
		{"loops of the bind-off", right, pattern.Place{Phase: pattern.BindingOff, Done: 10}, pattern.Place{Phase: pattern.Finishing}, "bind off 2, pegs 2, 1"},
		{"what would be a long list is not one", many, at(1, 0), at(1, 6), "row 1, pegs 1 to 6"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.want, track.SayWorked(c.order, c.from, c.to))
		})
	}
}

func TestARowIsSaidWithItsRepeatsTogether(t *testing.T) {
	for drawn, want := range map[string]string{
		"||||||||||||":   "knit all 12",
		"|-":             "purl 1, knit 1",
		"||--||--||--||": "3 times knit 2, purl 2; knit 2",
		"|-|-":           "purl 1, knit 1, purl 1, knit 1",
		"--|||--|||-|-|": "knit 1, purl 1, knit 1, purl 1, knit 3, purl 2, knit 3, purl 2",
		"|||-||-|||-||-": "2 times purl 1, knit 2, purl 1, knit 3",
		"|-|-|-|-|-|-":   "6 times purl 1, knit 1",
	} {
		p := patterntest.Build(t, patterntest.Drawn(drawn))
		o := pattern.Order{Pattern: p, Way: p.Way}
		assert.Equal(t, "row 1, right to left: "+want, track.SayRow(o, 1), drawn)
	}
}

// Whoever hears a row and unfolds what comes again works every peg of it.
func TestASaidRowIsTheRow(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		drawn := strings.Repeat(rapid.StringMatching(`[|\-]{1,9}`).Draw(rt, "unit"), rapid.IntRange(1, 9).Draw(rt, "times")) +
			rapid.StringMatching(`[|\-]{1,5}`).Draw(rt, "rest")
		p := patterntest.Build(t, patterntest.Drawn(drawn))
		said := track.SayRow(pattern.Order{Pattern: p, Way: p.Way}, 1)
		_, list, _ := strings.Cut(said, ": ")
		row := ""
		for _, group := range strings.Split(list, "; ") {
			times := 1
			if n, rest, ok := strings.Cut(group, " times "); ok {
				_, err := fmt.Sscan(n, &times)
				require.NoError(rt, err, said)
				group = rest
			}
			unit := ""
			for _, part := range strings.Split(group, ", ") {
				word, count, _ := strings.Cut(strings.Replace(part, "all ", "", 1), " ")
				n := 0
				_, err := fmt.Sscan(count, &n)
				require.NoError(rt, err, said)
				unit += strings.Repeat(map[string]string{"knit": "|", "purl": "-"}[word], n)
			}
			row += strings.Repeat(unit, times)
		}
		require.Equal(rt, reversed(drawn), row, said)
	})
}

// reversed is a row as it is worked from right to left.
func reversed(s string) string {
	b := []byte(s)
	for i, j := 0, len(b)-1; i < j; i, j = i+1, j-1 {
		b[i], b[j] = b[j], b[i]
	}
	return string(b)
}

func TestProgressIsSaid(t *testing.T) {
	for place, want := range map[pattern.Place]string{
		{Done: 3}:                            "cast-on, 3 of 12 loops; 1%",
		at(6, 3):                             "row 6 of 13: field, row 2 of 4; 2 ridges; 41%",
		{Phase: pattern.BindingOff, Done: 6}: "bind-off, 6 of 12 loops; 6 ridges; 96%",
		{Phase: pattern.Finishing}:           "finished; 6 ridges; 100%",
	} {
		assert.Equal(t, want, track.New(frame(t, pattern.RightHand), place, 2).SayProgress())
	}
}

func TestAWhileIsSaidAsExactlyAsAGuessCanBe(t *testing.T) {
	for seconds, want := range map[float64]string{
		1: "1 min", 61: "2 min", 9 * 60: "9 min", 12 * 60: "10 min", 13 * 60: "15 min", 57 * 60: "55 min",
		58 * 60: "1 h", 78 * 60: "1 h 20", 9*3600 + 50*60: "9 h 50", 10*3600 + 31*60: "11 h",
	} {
		assert.Equal(t, want, track.SayTime(seconds), "%v seconds", seconds)
	}
}

// Before the bind-off both ends are counted, and its yarn is told: the last moment to make
// them alike.
func TestBeforeTheBindOffBothEndsAreCounted(t *testing.T) {
	for _, c := range []struct {
		name string
		plan pattern.Plan
		says string
	}{
		{"a frame", patterntest.Frame(12, 3, 3, 20), "3 ridges at both ends? the bind-off takes about five widths of yarn"},
		{"no borders", patterntest.Drawn("||||", "----"), "the bind-off takes about five widths of yarn"},
	} {
		p := patterntest.Build(t, c.plan)
		tr := track.New(pattern.Order{Pattern: p, Way: p.Way}, pattern.Place{Phase: pattern.BindingOff}, 2)
		check, ok := tr.Check()
		require.True(t, ok, c.name)
		assert.Equal(t, c.says, tr.SayCheck(check), c.name)
	}
}
