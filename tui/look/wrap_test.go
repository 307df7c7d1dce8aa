package look_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"bypeg/pattern/safetext"
	"bypeg/tui/look"
)

func TestRemarksAreBrokenWhereTheyReadBest(t *testing.T) {
	cases := []struct {
		name    string
		width   int
		remarks []string
		want    string
	}{
		{"side by side", 40, []string{"NOT SAVED: disk full.", "s tries again"}, "NOT SAVED: disk full. s tries again"},
		{"one below the other rather than broken", 30, []string{"NOT SAVED: disk full.", "Saved: row 18 peg 17."}, "NOT SAVED: disk full.|Saved: row 18 peg 17."},
		{"a long one between words", 12, []string{"the fabric knows best"}, "the fabric|knows best"},
		{"a date is one word", 12, []string{"since the 2026-01-02"}, "since the|2026-01-02"},
		{"a word longer than a line", 4, []string{"bottommost"}, "bott|ommo|st"},
		{"letters of two cells", 3, []string{"织机"}, "织|机"},
		{"no room at all", 0, []string{"row"}, ""},
		{"no room for a wide letter", 1, []string{"织"}, ""},
		{"nothing to say", 40, nil, ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.want, strings.Join(look.Wrap(c.width, c.remarks...), "|"))
		})
	}
}

func TestWrappingLosesNothingAndFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		width := rapid.IntRange(2, 60).Draw(t, "width")
		remarks := rapid.SliceOfN(rapid.StringMatching(`[a-z.]{1,30}( [a-z织]{1,90}){0,9}`), 0, 4).Draw(t, "remarks")
		lines := look.Wrap(width, remarks...)
		squeeze := func(ss []string) string { return strings.Join(strings.Fields(strings.Join(ss, " ")), "") }
		assert.Equal(t, squeeze(remarks), squeeze(lines))
		for _, line := range lines {
			assert.LessOrEqual(t, safetext.Width(line), width)
		}
	})
}
