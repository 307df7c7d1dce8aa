package adopt_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/pattern"
	"bypeg/pattern/adopt"
	"bypeg/pattern/rowtext"
)

// readings draws rows that fit one another: blocks that repeat, sometimes in a frame, of
// steps that take and leave one loop each.
func readings(steps []rowtext.Stitch) *rapid.Generator[*rowtext.Reading] {
	return rapid.Custom(func(t *rapid.T) *rowtext.Reading {
		r := &rowtext.Reading{
			Pegs: rapid.IntRange(1, 40).Draw(t, "pegs"),
			Form: rapid.SampledFrom([]pattern.Form{pattern.Panel, pattern.Tube}).Draw(t, "form"),
		}
		for range rapid.IntRange(1, 4).Draw(t, "blocks") {
			var block [][]rowtext.Run
			for range rapid.IntRange(1, 5).Draw(t, "rows") {
				block = append(block, drawRuns(t, r.Pegs, steps))
			}
			for range rapid.IntRange(1, 6).Draw(t, "times") {
				for _, runs := range block {
					n := len(r.Rows)
					r.Rows = append(r.Rows, rowtext.Row{Number: n + 1, Back: r.Form == pattern.Panel && n%2 == 1, In: r.Pegs, Out: r.Pegs, Runs: runs})
				}
			}
		}
		goOn(t, r)
		return r
	})
}

// goOn draws rows that the text wants worked on and on, overlapping ones and none at all
// among them.
func goOn(t *rapid.T, r *rowtext.Reading) {
	for range rapid.IntRange(0, 2).Draw(t, "open repeats") {
		first := rapid.IntRange(0, len(r.Rows)).Draw(t, "first")
		last := rapid.IntRange(first, len(r.Rows)).Draw(t, "last")
		r.Directives = append(r.Directives, rowtext.Note{Msg: "on and on", Open: true, First: first, Last: last})
	}
}

func drawRuns(t *rapid.T, pegs int, steps []rowtext.Stitch) []rowtext.Run {
	var runs []rowtext.Run
	for left := pegs; left > 0; {
		n := rapid.IntRange(1, left).Draw(t, "count")
		s := rapid.SampledFrom(steps).Draw(t, "step")
		if len(runs) > 0 && runs[len(runs)-1].Stitch == s {
			runs[len(runs)-1].Count += n
		} else {
			runs = append(runs, rowtext.Run{Stitch: s, Count: n})
		}
		left -= n
	}
	return runs
}

// even are steps that leave their loop where it was, as the fabric tells them apart.
var even = []rowtext.Stitch{rowtext.Knit, rowtext.Purl, rowtext.Knit, rowtext.Purl, rowtext.Slip, rowtext.SlipFront, rowtext.KnitTBL, rowtext.PurlTBL, rowtext.EWrap}

func TestTheFileHoldsJustTheRowsThatWereRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := readings(even).Draw(t, "rows")
		a, err := adopt.Of("", r, adopt.Options{Row1: pattern.Direction(rapid.IntRange(0, 1).Draw(t, "row 1")), Row1Said: true})
		require.NoError(t, err)
		for i, row := range r.Rows {
			require.Equal(t, row.Runs, a.Rows[i].Runs)
			cells := a.Pattern.Grid.Row(i + 1).Cells()
			at := 0
			for _, run := range row.Runs { // stitch by stitch, from the side where the row starts
				for range run.Count {
					col := at
					if a.Rows[i].Direction == pattern.ToLeft {
						col = len(cells) - 1 - at
					}
					require.Equal(t, run.Stitch.Cells()[0], cells[col].Stitch)
					at++
				}
			}
		}
		sameAsFile(t, a)
		require.Len(t, a.Warnings, len(r.Directives))
		require.Equal(t, len(r.Directives), strings.Count(a.File(""), "on and on"), "each is said where it counts")
	})
}

// TestAFrameIsFoundAndHoldsTheSameRows draws frames of garter around fields.
func TestAFrameIsFoundAndHoldsTheSameRows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sides, inner := rapid.IntRange(2, 5).Draw(t, "sides"), rapid.IntRange(5, 12).Draw(t, "inner")
		bottom, top := rapid.IntRange(0, 4).Draw(t, "bottom"), rapid.IntRange(0, 4).Draw(t, "top")
		field := rapid.IntRange(1, 6).Draw(t, "field")
		r := &rowtext.Reading{Pegs: 2*sides + inner}
		add := func(mid string) {
			n := len(r.Rows)
			edge := strings.Repeat(string("kp"[n%2]), sides)
			runs, err := rowtext.Expand(strings.Join(strings.Split(edge+mid+edge, ""), ", "), r.Pegs)
			require.NoError(t, err)
			r.Rows = append(r.Rows, rowtext.Row{Number: n + 1, Back: n%2 == 1, In: r.Pegs, Out: r.Pegs, Runs: runs})
		}
		for i := range 2 * bottom {
			add(strings.Repeat(string("kp"[i%2]), inner))
		}
		for range field {
			add(strings.Repeat("k", inner))
			add(strings.Repeat("k", inner))
		}
		for i := range 2*top + 1 {
			add(strings.Repeat(string("kp"[i%2]), inner))
		}
		a, err := adopt.Of("", r, adopt.Options{})
		require.NoError(t, err)
		want := adopt.Frame{Sides: sides, Bottom: 2 * bottom, Top: 2*top + 1}
		if top == 0 {
			want.Top = 0 // one knit row more belongs to the field
		}
		assert.Equal(t, want, a.Fabric.Frame)
		assert.Equal(t, adopt.Plain, a.Fabric.Kind)
		assert.Contains(t, a.File(""), fmt.Sprintf("sides  = %d\n", sides))
		sameAsFile(t, a)
		goOn(t, r)
		a, err = adopt.Of("", r, adopt.Options{})
		require.NoError(t, err)
		sameAsFile(t, a)
	})
}

// forNeedles writes a row of a loom for needles: the other way of what adopt does.
func forNeedles(t require.TestingT, runs []rowtext.Run, wrong bool) []rowtext.Run {
	if !wrong {
		return runs
	}
	swapped, err := rowtext.Swapped(runs)
	require.NoError(t, err)
	return swapped
}

func TestFromLoomToNeedlesAndBackIsTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := readings(even[:8]).Draw(t, "rows")
		r.Form = pattern.Panel
		side := rapid.SampledFrom([]adopt.Side{adopt.RightSide, adopt.WrongSide}).Draw(t, "side")
		needles := &rowtext.Reading{Pegs: r.Pegs}
		for i := range r.Rows {
			r.Rows[i].Back = i%2 == 1
			row := r.Rows[i]
			row.Runs = forNeedles(t, row.Runs, (i%2 == 1) == (side == adopt.RightSide))
			needles.Rows = append(needles.Rows, row)
		}
		way := pattern.ToLeft
		if side == adopt.WrongSide {
			way = pattern.ToRight
		}
		loom, err := adopt.Of("", r, adopt.Options{Row1: way, Row1Said: true})
		require.NoError(t, err)
		back, err := adopt.Of("", needles, adopt.Options{From: adopt.Needles, Side: side})
		require.NoError(t, err)
		for i, row := range back.Rows { // from needles to the loom and back
			require.Equal(t, needles.Rows[i].Runs, forNeedles(t, row.Runs, row.Behind))
		}
		for row := 1; row <= len(r.Rows); row++ {
			require.Equal(t, loom.Pattern.Grid.Row(row).Cells(), back.Pattern.Grid.Row(row).Cells(), "row %d", row)
		}
	})
}

func TestShapingStaysOnThePegsThereAreAndTakesEveryLoop(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := &rowtext.Reading{Pegs: rapid.IntRange(8, 30).Draw(t, "pegs")}
		loops := r.Pegs
		for n := range rapid.IntRange(2, 12).Draw(t, "rows") {
			runs := []rowtext.Run{{Stitch: rowtext.Knit, Count: loops}}
			if n > 0 && loops > 5 {
				var head, tail []rowtext.Run
				take := func(name string) []rowtext.Run {
					s := rapid.SampledFrom([]rowtext.Stitch{rowtext.KnitTwo, rowtext.SlipSlipKnit, rowtext.YarnOver, rowtext.PurlTwo, rowtext.Purl}).Draw(t, name)
					return []rowtext.Run{{Stitch: s, Count: 1}}
				}
				head, tail = take("head"), take("tail")
				runs = append(append(head, rowtext.Run{Stitch: rowtext.Knit, Count: loops - rowtext.In(head) - rowtext.In(tail)}), tail...)
			}
			out := rowtext.Out(runs)
			r.Rows = append(r.Rows, rowtext.Row{Number: n + 1, Back: n%2 == 1, In: loops, Out: out, Runs: runs})
			loops = out
		}
		a, err := adopt.Of("", r, adopt.Options{})
		require.NoError(t, err)
		for i, row := range r.Rows {
			cells := a.Pattern.Grid.Row(i + 1)
			require.Equal(t, row.Out, cells.Stitches())
			require.Equal(t, row.In, cells.LoopsIn())
			require.LessOrEqual(t, strings.Count(strings.Trim(seen(a, i+1), "."), "."), 0, "no gap within the work")
		}
		sameAsFile(t, a)
	})
}
