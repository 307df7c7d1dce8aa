package rowtext

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/pattern"
	"bypeg/pattern/patterntest"
)

// All that is printed is read back, by the reader that takes it from people, and with
// nothing to doubt.

// across is what a row is measured by: the pegs it ends on where it names pegs not in
// use, else the loops it is worked into.
func across(runs []Run) int {
	n, none := In(runs), 0
	for _, r := range runs {
		if r.Stitch == NoStitch {
			none += r.Count
		}
	}
	if none > 0 {
		return Out(runs) + none
	}
	return n
}

func TestRowsOfAllStepsAreReadBackWithoutADoubt(t *testing.T) {
	all := append(Stitches(), crosses...)
	few := []Stitch{Knit, Purl, YarnOver, KnitTwo, Slip}
	rapid.Check(t, func(t *rapid.T) {
		runs := drawRuns(t, rapid.SampledFrom([][]Stitch{all, few, few[:2]}).Draw(t, "steps"))
		if across(runs) == 0 || In(runs) == 0 {
			return
		}
		for _, text := range []string{drawWording(t).Row(runs), Print(runs)} {
			got, notes, err := ReadRow(text, across(runs))
			require.NoError(t, err, text)
			require.Equal(t, runs, got, text)
			require.Empty(t, notes, text)
		}
	})
}

func TestTextsAreReadBackWithoutADoubt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, w := drawSheet(t), drawWording(t)
		pegs := rapid.IntRange(1, 40).Draw(t, "pegs")
		for i, l := range s.Lines {
			s.Lines[i].Runs = worn(l.Runs, pegs)
		}
		for _, lines := range [][]string{s.Fold(w), s.Each(w)} {
			text := strings.Join(lines, "\n")
			got, err := Read(text, Options{Pegs: pegs, Form: s.Form, Needles: s.Needles, WrongSide: s.WrongSide})
			require.NoError(t, err, text)
			require.Empty(t, got.Warnings, text)
			require.Empty(t, got.Directives, text)
			require.Equal(t, s.Form, got.Form)
			require.Len(t, got.Rows, len(s.Lines), text)
			for i, row := range got.Rows {
				require.Equal(t, s.First+i, row.Number)
				require.Equal(t, s.Lines[i].Runs, row.Runs, "row %d of %s", row.Number, text)
			}
		}
	})
}

// worn is a row made as long as so many loops: begun anew, and cut.
func worn(runs []Run, loops int) []Run {
	var row []Run
	for left := loops; left > 0; {
		for _, r := range runs {
			if n := min(r.Count, left); n > 0 {
				row = push(row, Run{r.Stitch, n})
				left -= n
			}
		}
	}
	return row
}

func TestAnyGridIsReadBackCellByCell(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := drawGrid(rt, t)
		o := pattern.Order{Pattern: p, Way: patterntest.Ways().Draw(rt, "way")}
		for row := 1; row <= p.Grid.Rows(); row++ {
			runs := LineOf(o, row)
			text := drawWording(rt).Row(runs)
			got, notes, err := ReadRow(text, across(runs))
			require.NoError(rt, err, text)
			require.Empty(rt, notes, text)
			require.Equal(rt, p.Grid.Row(row).Cells(), lay(got, p.Pegs, o.Direction(row)), "row %d: %s", row, text)
		}
	})
}

// A grid as a text: what a maker of either hand is told, and what a needle knitter is.
func TestAnyGridIsReadBackAsAText(t *testing.T) {
	texts := 0
	rapid.Check(t, func(rt *rapid.T) {
		p := drawGrid(rt, t)
		w := drawWording(rt)
		hand := rapid.SampledFrom([]pattern.Hand{pattern.RightHand, pattern.LeftHand}).Draw(rt, "hand")
		o := pattern.Order{Pattern: p, Way: pattern.DefaultWay(hand)}
		s, err := SheetOf(o, 1, p.Grid.Rows())
		require.NoError(rt, err)
		if n, err := s.ForNeedles(hand); err == nil && rapid.Bool().Draw(rt, "needles") {
			s = n
		}
		text := strings.Join(s.Fold(w), "\n")
		got, err := Read(text, Options{Pegs: In(s.Lines[0].Runs), Form: p.Form, Needles: s.Needles})
		require.NoError(rt, err, text)
		require.Empty(rt, got.Warnings, text)
		require.Len(rt, got.Rows, len(s.Lines), text)
		for i, row := range got.Rows {
			require.Equal(rt, s.Lines[i].Runs, row.Runs, text)
		}
		texts++
	})
	require.Positive(t, texts)
}

// Whatever is read from people is printed so that it is read as the same rows.
func TestWhatTheCorpusSaysIsPrintedAndReadAgain(t *testing.T) {
	texts := 0
	for _, c := range corpus(t) {
		first, err := Read(c.text, Options{Pegs: c.pegs})
		if err != nil || len(first.Rows) == 0 {
			continue
		}
		s := Sheet{Form: first.Form, First: first.Rows[0].Number, Yarns: 1}
		for i, row := range first.Rows {
			if row.Number != s.First+i {
				break // the text leaves rows out
			}
			s.Lines = append(s.Lines, Line{Runs: row.Runs})
		}
		for _, w := range []Wording{{}, {Tell: TellDirection, Noun: NounStitches}, {Words: Full, Noun: NounPegs}, {Words: Full}} {
			text := strings.Join(s.Fold(w), "\n")
			again, err := Read(text, Options{Pegs: first.Pegs, Form: first.Form})
			require.NoError(t, err, "%s: %s", c.text, text)
			require.Empty(t, again.Warnings, text)
			require.Len(t, again.Rows, len(s.Lines), text)
			for i, row := range again.Rows {
				require.Equal(t, s.Lines[i].Runs, row.Runs, "%s: %s", c.text, text)
				require.Equal(t, s.First+i, row.Number, text)
			}
			texts++
		}
	}
	require.Greater(t, texts, 600)
}
