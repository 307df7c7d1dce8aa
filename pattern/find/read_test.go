package find_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/find"
	"bypeg/pattern/patterntest"
)

func orderOf(t testing.TB, form pattern.Form) pattern.Order {
	plan := patterntest.Drawn("|||---", "---|||", "|||---")
	plan.Form = form
	p := patterntest.Build(t, plan)
	return pattern.Order{Pattern: p, Way: p.Way}
}

func TestAnswersAreReadAsTheyAreTyped(t *testing.T) {
	o := orderOf(t, pattern.Panel)
	v, b := find.V, find.Bump
	for _, c := range []struct {
		q    find.Question
		text string
		want find.Clue
	}{
		{find.Question{Kind: find.Yarn}, "left", find.Clue{Kind: find.Yarn, Hangs: find.AtLeft}},
		{find.Question{Kind: find.Yarn}, "R", find.Clue{Kind: find.Yarn, Hangs: find.AtRight}},
		{find.Question{Kind: find.Yarn}, " right end ", find.Clue{Kind: find.Yarn, Hangs: find.AtRight}},
		{find.Question{Kind: find.Yarn}, "bet", find.Clue{Kind: find.Yarn, Hangs: find.Between}},
		{find.Question{Kind: find.Yarn}, "end", find.Clue{Kind: find.Yarn, Hangs: find.AtEnd}},
		{find.Question{Kind: find.LastRow}, "p", find.Clue{Kind: find.LastRow, Row: find.Purled}},
		{find.Question{Kind: find.LastRow}, "Knit", find.Clue{Kind: find.LastRow, Row: find.Knitted}},
		{find.Question{Kind: find.FromPeg}, "peg 4", find.Clue{Kind: find.FromPeg, Peg: 4}},
		{find.Question{Kind: find.Bumps, Peg: 2}, "0", find.Clue{Kind: find.Bumps, Peg: 2}},
		{find.Question{Kind: find.Look, Peg: 2, Deep: 3}, "v b?", find.Clue{Kind: find.Look, Peg: 2, Seen: []find.Seen{v, b, find.Unsure}}},
		{find.Question{Kind: find.Alike, Peg: 2}, "3 v", find.Clue{Kind: find.Alike, Peg: 2, Count: 3, Seen: []find.Seen{v}}},
		{find.Question{Kind: find.Alike, Peg: 2}, "b2", find.Clue{Kind: find.Alike, Peg: 2, Count: 2, Seen: []find.Seen{b}}},
		{find.Question{Kind: find.Alike, Peg: 2}, "3 V's", find.Clue{Kind: find.Alike, Peg: 2, Count: 3, Seen: []find.Seen{v}}},
		{find.Question{Kind: find.Alike, Peg: 2}, "e", find.Clue{Kind: find.Look, Peg: 2, Seen: []find.Seen{find.Edge}}},
		{find.Question{Kind: find.Look, Peg: 2, Deep: 2}, "ve", find.Clue{Kind: find.Look, Peg: 2, Seen: []find.Seen{v, find.Edge}}},
		{find.Question{Kind: find.Alike, Peg: 2}, "vv", find.Clue{Kind: find.Alike, Peg: 2, Count: 2, Seen: []find.Seen{v}}},
	} {
		got, err := c.q.Read(o, c.text)
		require.NoError(t, err, "%s %q", c.q.Kind, c.text)
		assert.Equal(t, c.want, got, "%s %q", c.q.Kind, c.text)
	}
}

func TestWhatIsNoAnswer(t *testing.T) {
	o := orderOf(t, pattern.Panel)
	for _, c := range []struct {
		q          find.Question
		text, says string
	}{
		{find.Question{Kind: find.Yarn}, "", "write left, right, end or between"},
		{find.Question{Kind: find.Yarn}, "middle", "write left, right, end or between"},
		{find.Question{Kind: find.LastRow}, "v", "write knit, purl or both"},
		{find.Question{Kind: find.FromPeg}, "9", "there is no peg 9"},
		{find.Question{Kind: find.FromPeg}, "-1", "a peg, 1 to 6"},
		{find.Question{Kind: find.Ridges}, "eight", "write a number"},
		{find.Question{Kind: find.Bumps, Peg: 1}, "99999999", "write a number"},
		{find.Question{Kind: find.Look, Peg: 1, Deep: 2}, "vx", "the newest first: vb"},
		{find.Question{Kind: find.Alike, Peg: 1}, "5", "write 5 v or 3 b"},
		{find.Question{Kind: find.Alike, Peg: 1}, "vb", "write 5 v or 3 b"},
		{find.Question{Kind: find.Alike, Peg: 1}, "0 v", "1 or more"},
	} {
		_, err := c.q.Read(o, c.text)
		assert.ErrorContains(t, err, c.says, "%s %q", c.q.Kind, c.text)
	}
	_, err := find.Question{Kind: find.Yarn}.Read(orderOf(t, pattern.Tube), "left")
	assert.ErrorContains(t, err, "a tube has no left or right end")
}

func FuzzRead(f *testing.F) {
	for _, s := range []string{"left", "5 v", "\x1b[31m", "vbbv", "9999999999999", "peg 3"} {
		f.Add(uint8(0), s)
	}
	o := orderOf(f, pattern.Panel)
	o.Pattern.Yarns = []pattern.YarnInfo{{Colour: "gr\x1b[31mey"}, {Name: "blue\nred"}}
	f.Fuzz(func(t *testing.T, kind uint8, text string) {
		q := find.Question{Kind: find.Kind(kind) % (find.Loops + 1), Peg: 2, Deep: 2}
		c, err := q.Read(o, text)
		if err == nil {
			require.NoError(t, find.Check(o, c), "what is read can be searched for")
			return
		}
		assert.False(t, strings.ContainsAny(err.Error(), "\x1b\n"), "%q", err.Error())
	})
}
