package main

import (
	"bytes"
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/examples"
	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/patterntest"
)

// A slow loom that follows the printed rows and nothing else. It reads what a person
// reads: how many pegs, at which side peg 1 is, which way a row runs, what so many pegs
// take. It has one yarn, which must be at hand where a row starts. It knows nothing of
// orders, columns or grids; what hangs from it at the end is the fabric.

// printedLoom is the loom as it stands before the worker.
type printedLoom struct {
	peg1   string     // the side where peg 1 is
	pegs   int        //
	tube   bool       //
	yarn   string     // the side where the yarn hangs; in a tube, the way it runs
	fabric [][]string // rows, the first below, each by peg number from 1
}

var (
	headLine = regexp.MustCompile(`: (panel|tube), (\d+) pegs?, (\d+) (?:row|round)s?; peg 1 is at the (left|right)$`)
	castLine = regexp.MustCompile(`^cast on (\d+), (left|right) to (left|right)( and back)?: .+$`)
	workLine = regexp.MustCompile(`^(row|round) +(\d+), (left|right) to (left|right): (.+)$`)
	workRun  = regexp.MustCompile(`^(k|p|sl)(\d+)( wyif)?$`)
	// What is told without a count takes one peg, a cross four.
	workOne = regexp.MustCompile(`^(yo|k2tog|ssk|c(4)[fb])$`)
)

// followRows works printed rows from the cast-on to the end.
func followRows(text string) (*printedLoom, error) {
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	if len(lines) < 2 {
		return nil, fmt.Errorf("nothing to follow: %q", text)
	}
	l := &printedLoom{}
	head := headLine.FindStringSubmatch(lines[0])
	if head == nil {
		return nil, fmt.Errorf("no heading: %q", lines[0])
	}
	l.tube, l.pegs, l.peg1 = head[1] == "tube", number(head[2]), head[4]
	if err := l.castOn(lines[1]); err != nil {
		return nil, err
	}
	name := false // the line after an empty one names a zone, whatever it says
	for _, line := range lines[2:] {
		if name || line == "" {
			name = !name
			continue
		}
		if err := l.row(line); err != nil {
			return nil, err
		}
	}
	if rows := number(head[3]); len(l.fabric) != rows {
		return nil, fmt.Errorf("%d rows were promised and %d told", rows, len(l.fabric))
	}
	return l, nil
}

func number(s string) int {
	n, err := strconv.Atoi(s)
	if err != nil {
		panic("the expressions let digits pass only: " + s)
	}
	return n
}

func (l *printedLoom) castOn(line string) error {
	m := castLine.FindStringSubmatch(line)
	if m == nil || m[2] == m[3] || number(m[1]) != l.pegs {
		return fmt.Errorf("no cast-on for %d pegs: %q", l.pegs, line)
	}
	l.yarn = l.after(m[2], m[3])
	if m[4] != "" { // there and back: the yarn is where it began
		l.yarn = m[2]
	}
	return nil
}

// after is what is remembered of the yarn when a row has run from a side to another.
func (l *printedLoom) after(from, to string) string {
	if l.tube {
		return from // the next round starts where this one closed
	}
	return to
}

func (l *printedLoom) row(line string) error {
	m := workLine.FindStringSubmatch(line)
	if m == nil || m[3] == m[4] {
		return fmt.Errorf("no row: %q", line)
	}
	if next := len(l.fabric) + 1; number(m[2]) != next || (m[1] == "round") != l.tube {
		return fmt.Errorf("not row %d: %q", next, line)
	}
	if m[3] != l.yarn {
		return fmt.Errorf("the yarn hangs at the %s: %q", l.yarn, line)
	}
	peg, step := 1, 1
	if m[3] != l.peg1 {
		peg, step = l.pegs, -1
	}
	row := make([]string, l.pegs+1)
	for _, part := range strings.Split(m[5], ", ") {
		run := workRun.FindStringSubmatch(part)
		if one := workOne.FindStringSubmatch(part); one != nil {
			run = []string{part, one[1], cmp.Or(one[2], "1"), ""}
		}
		if run == nil {
			return fmt.Errorf("what is %q in %q", part, line)
		}
		for range number(run[2]) {
			if peg < 1 || peg > l.pegs {
				return fmt.Errorf("more than %d pegs: %q", l.pegs, line)
			}
			row[peg] = run[1] + run[3]
			peg += step
		}
	}
	if slices.Contains(row[1:], "") {
		return fmt.Errorf("not all %d pegs: %q", l.pegs, line)
	}
	l.fabric = append(l.fabric, row)
	l.yarn = l.after(m[3], m[4])
	return nil
}

// seen is the fabric as it hangs before the worker, each row left to right.
func (l *printedLoom) seen() []string {
	var rows []string
	for _, byPeg := range l.fabric {
		row := slices.Clone(byPeg[1:])
		if l.peg1 == "right" {
			slices.Reverse(row)
		}
		rows = append(rows, strings.Join(row, " "))
	}
	return rows
}

// drawn is a pattern's own picture, in the same words.
func drawn(t testing.TB, p *pattern.Pattern) []string {
	words := map[pattern.Stitch]string{
		pattern.Knit: "k", pattern.Purl: "p", pattern.Slip: "sl", pattern.SlipFront: "sl wyif",
		pattern.YarnOver: "yo", pattern.RightTwo: "k2tog", pattern.LeftTwo: "ssk",
	}
	for lean, name := range map[pattern.Side]string{pattern.Left: "c4f", pattern.Right: "c4b"} {
		for _, part := range (pattern.Cross{Front: 2, Back: 2, Lean: lean}).Parts() {
			words[part] = name
		}
	}
	var rows []string
	for row := 1; row <= p.Grid.Rows(); row++ {
		var cells []string
		for _, c := range p.Grid.Row(row).Cells() {
			require.Contains(t, words, c.Stitch)
			cells = append(cells, words[c.Stitch])
		}
		rows = append(rows, strings.Join(cells, " "))
	}
	return rows
}

func TestWhoFollowsThePrintedRowsMakesTheFabric(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		plan := patterntest.Plans().Draw(rt, "plan")
		words := rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{
			"row 1, left to right: p3", "a: tube, 3 pegs, 1 row; peg 1 is at the left", "two\nlines\n\nrow 1", "\x1b[31m", "",
		}))
		plan.Title = words.Draw(rt, "title")
		for i := range plan.Zones {
			plan.Zones[i].Name = words.Draw(rt, "name")
		}
		p := patterntest.Build(t, plan)
		var text bytes.Buffer
		writeRows(&text, pattern.Order{Pattern: p, Way: patterntest.Ways().Draw(rt, "way")})
		loom, err := followRows(text.String())
		require.NoError(rt, err, text.String())
		require.Equal(rt, drawn(t, p), loom.seen(), text.String())
	})
}

func TestWhoFollowsAnExamplesRowsMakesIt(t *testing.T) {
	for _, name := range examples.Names() {
		for _, flags := range [][]string{
			nil,
			{"--hand", "left"},
			{"--peg-1", "left"},
			{"--row-1", "left to right"},
			{"--hand", "left", "--peg-1", "right"},
		} {
			t.Run(strings.TrimSpace(name+" "+strings.Join(flags, " ")), func(t *testing.T) {
				text, ok := examples.Text(name)
				require.True(t, ok)
				p, diags := file.Load(name, text)
				require.NotNil(t, p, "%v", diags)
				r := runHere(t, append([]string{"rows", name}, flags...)...)
				require.Equal(t, exitDone, r.code, r.errors)
				loom, err := followRows(r.out)
				require.NoError(t, err)
				assert.Equal(t, drawn(t, p), loom.seen())
			})
		}
	}
}

func TestAFrameWorkedFromPaperIsAFrame(t *testing.T) {
	loom, err := followRows(runHere(t, "rows", "quay-mat").out)
	require.NoError(t, err)
	rows := loom.seen()
	knit, purl := strings.Repeat("k ", 11)+"k", strings.Repeat("p ", 11)+"p"
	// A knit row, then a purl row make a ridge on a loom, where every row is worked from
	// the front: loomatics.ga/2012/05/garter-stitch.html.
	assert.Equal(t, []string{knit, purl, knit, purl}, rows[:4])
	// Alike at both ends with an odd number of rows: arithmetic.
	upside := slices.Clone(rows)
	slices.Reverse(upside)
	assert.Equal(t, rows, upside)
	// Purl rows of the field purl its borders only: common practice, no source.
	assert.Equal(t, "p p "+strings.Repeat("k ", 8)+"p p", rows[5])
}

func TestThePrintedWaysOfRightHandersAreThePublishedOnes(t *testing.T) {
	// loomknittinghelp.com/looms/rlr/caston.html: a flat panel is cast on left to right
	// and its first row runs right to left; a tube is cast on and knit right to left.
	panel := runHere(t, "rows", "quay-mat").out
	assert.Contains(t, panel, "\ncast on 12, left to right: ")
	assert.Contains(t, panel, "\nrow  1, right to left: ")
	assert.Contains(t, panel, "\nrow  2, left to right: ")
	tube := runHere(t, "rows", "lock-collar").out
	assert.Contains(t, tube, "\ncast on 36, right to left: ")
	// Charts of rounds are read right to left in every round: vogueknitting.com
	// reading-charts.
	assert.NotContains(t, tube, "left to right")
}

func TestSeedWorkedFromPaperHasNoTwoLikeNeighbours(t *testing.T) {
	// Knits and purls change with every peg and every row; what the needle rule for an
	// odd count would make on a loom is rib: arithmetic.
	for _, hand := range []string{"right", "left"} {
		loom, err := followRows(runHere(t, "rows", "two-bank-scarf", "--hand", hand).out)
		require.NoError(t, err)
		rows := loom.seen()
		bank := func(row int) []string { return strings.Fields(rows[row])[2:15] } // 13 pegs beside a side of 2
		for row := 6; row < 6+240; row++ {
			for col := range 13 {
				if col > 0 {
					require.NotEqual(t, bank(row)[col-1], bank(row)[col], "%s hand, row %d", hand, row+1)
				}
				if row > 6 {
					require.NotEqual(t, bank(row - 1)[col], bank(row)[col], "%s hand, row %d", hand, row+1)
				}
			}
		}
	}
}

func TestTheLoomRefusesRowsThatNobodyCanWork(t *testing.T) {
	rows := func(lines ...string) string {
		return strings.Join(append([]string{"Mat: panel, 3 pegs, 2 rows; peg 1 is at the right", "cast on 3, left to right: chain", "", "all"}, lines...), "\n") + "\n"
	}
	cases := []struct{ name, text, says string }{
		{"a row that starts without the yarn", rows("row 1, left to right: k3"), "the yarn hangs at the right"},
		{"two rows the same way", rows("row 1, right to left: k3", "row 2, right to left: k3"), "the yarn hangs at the left"},
		{"a peg too few", rows("row 1, right to left: k1, p1"), "not all 3 pegs"},
		{"a peg too many", rows("row 1, right to left: k4"), "more than 3 pegs"},
		{"a row left out", rows("row 2, right to left: k3"), "not row 1"},
		{"a row too few", rows("row 1, right to left: k3"), "2 rows were promised and 1 told"},
		{"a word nobody knows", rows("row 1, right to left: knit"), "what is"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := followRows(c.text)
			assert.ErrorContains(t, err, c.says)
		})
	}
	l, err := followRows(rows("row 1, right to left: k1, p2", "row 2, left to right: sl1, k2"))
	require.NoError(t, err)
	assert.Equal(t, []string{"p p k", "sl k k"}, l.seen())
}
