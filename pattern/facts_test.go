package pattern_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"bypeg/pattern"
	"bypeg/pattern/patterntest"
)

// Facts of the trade, each with where it comes from, and questions people at the
// pegs ask, with their right answers.

func rightHanded(p *pattern.Pattern) pattern.Order {
	return pattern.Order{Pattern: p, Way: pattern.DefaultWay(pattern.RightHand)}
}

func TestAFrameOfFourRidgesHas37RowsAndPurlsOnlyItsSidesInTheField(t *testing.T) {
	// 3 side pegs, 4 ridges, 10 field ridges, 4 ridges, a set-up row. A ridge is two
	// rows: funhobbyvideos.com/loom-knitting-garter-stitch-video-tutorial (20 ridges, 40
	// rows); the sum is arithmetic.
	p := patterntest.Build(t, patterntest.Frame(20, 3, 4, 20))
	assert.Equal(t, 37, p.Grid.Rows())
	assert.Equal(t, 18, p.Ridges(37))
	field := p.Zones[1]
	for row := field.First; row <= field.Last; row++ {
		for col, c := range p.Grid.Row(row).Cells() {
			purl := (row-field.First)%2 == 1 && (col < 3 || col >= 17)
			assert.Equal(t, purl, c.Stitch == pattern.Purl, "row %d column %d", row, col)
		}
	}
}

func TestTwoGarterRowsMakeOneRidge(t *testing.T) {
	// Published: loomatics.ga/2012/05/garter-stitch.html; a ridge is 2 rows, common
	// practice, no source. 30 ridges are 60 rows; 30 rows are 15 ridges.
	p := patterntest.Build(t, patterntest.Frame(12, 2, 30, 2))
	assert.Equal(t, 60, p.Zones[0].Rows())
	assert.Equal(t, 30, p.RidgesIn(0))
	assert.Equal(t, 15, p.Ridges(30))
	assert.Zero(t, p.Ridges(0), "the cast-on edge is not a ridge: common practice, no source")
}

func TestBothEndsOfAFrameAreAlikeOnlyWithAnOddNumberOfRows(t *testing.T) {
	// Arithmetic: rows of knit and purl in turn read the same from both ends only when
	// their number is odd.
	alike := func(p *pattern.Pattern) bool {
		rows := picture(p)
		upside := slices.Clone(rows)
		slices.Reverse(upside)
		return fmt.Sprint(rows) == fmt.Sprint(upside)
	}
	even, odd := patterntest.Frame(10, 2, 3, 8), patterntest.Frame(10, 2, 3, 8)
	even.Zones = even.Zones[:3]
	assert.False(t, alike(patterntest.Build(t, even)), "20 rows: knit row first, purl row last")
	assert.True(t, alike(patterntest.Build(t, odd)), "21 rows: the set-up row closes the frame")
}

func TestAfterAnEvenRowTheYarnIsAwayFromTheTail(t *testing.T) {
	// With a cast-on that runs across once: common practice, no source. With one that
	// goes there and back: from memory.
	plan := patterntest.Frame(12, 2, 2, 4)
	for _, hand := range []pattern.Hand{pattern.RightHand, pattern.LeftHand} {
		for passes, away := range map[int]bool{1: true, 2: false} {
			plan.CastOn.Passes = passes
			o := pattern.Order{Pattern: patterntest.Build(t, plan), Way: pattern.DefaultWay(hand)}
			for row := 0; row <= o.Pattern.Grid.Rows(); row++ {
				assert.Equal(t, away == (row%2 == 0), o.YarnSide(row) != o.TailSide(), "%v hand, %d passes, row %d", hand, passes, row)
			}
		}
	}
}

func TestDirectionsOfRightHandersAsPublished(t *testing.T) {
	// loomknittinghelp.com/looms/rlr/caston.html: a flat panel is cast on left to right
	// and its first row runs right to left; a tube is cast on and knit right to left.
	plan := patterntest.Frame(12, 0, 2, 4)
	o := rightHanded(patterntest.Build(t, plan))
	assert.Equal(t, pattern.ToRight, o.CastOnDirection())
	assert.Equal(t, pattern.ToLeft, o.Direction(1))
	assert.Equal(t, pattern.ToRight, o.Direction(2))
	plan.Form = pattern.Tube
	o = rightHanded(patterntest.Build(t, plan))
	assert.Equal(t, pattern.ToLeft, o.CastOnDirection())
	for row := 1; row <= 5; row++ {
		assert.Equal(t, pattern.ToLeft, o.Direction(row), "charts read every round right to left: vogueknitting.com reading-charts")
	}
}

func TestBackAfterABreakInTheMiddleOfARow(t *testing.T) {
	// 46 pegs, row 1 right to left; arithmetic.
	o := rightHanded(patterntest.Build(t, patterntest.Frame(46, 3, 4, 30)))
	for _, c := range []struct {
		row, peg int
		way      pattern.Direction
	}{{23, 18, pattern.ToLeft}, {24, 29, pattern.ToRight}} {
		at := pattern.Place{Phase: pattern.Working, Row: c.row, Done: 17}
		assert.Equal(t, c.way, o.Direction(c.row))
		assert.Equal(t, c.peg, o.Peg(o.Column(c.row, at.Done)))
		assert.Equal(t, 29, o.Pattern.Of(at)-at.Done)
	}
}

func TestTheYarnsEndTellsOddRowsFromEven(t *testing.T) {
	// Yarn at the left, row 1 right to left: of 30 and 31 rows, 31 are done; arithmetic.
	o := rightHanded(patterntest.Build(t, patterntest.Frame(20, 2, 8, 20)))
	assert.Equal(t, pattern.Left, o.YarnSide(31))
	assert.Equal(t, pattern.Right, o.YarnSide(30))
	assert.Equal(t, pattern.ToRight, o.Direction(32))
}

func runs(o pattern.Order, row int) string {
	var says []string
	for run := range o.Runs(row) {
		says = append(says, fmt.Sprintf("%s%d", run.Stitch.Short(), run.Len()))
	}
	return strings.Join(says, " ")
}

func TestAChartsSecondRowIsWorkedFromItsOtherEnd(t *testing.T) {
	// Seen from the right: k3 p6 k1. Return rows are read left to right:
	// vogueknitting.com reading-charts.
	o := rightHanded(patterntest.Build(t, patterntest.Drawn("|------|||", "||||||||||")))
	assert.Equal(t, "k1 p6 k3", runs(o, 2))
}

func TestLettersAreNotMirroredForTheLeftHand(t *testing.T) {
	// Row 5 was written k4 p2 k10 p4 k4 for the right hand; arithmetic.
	plan := patterntest.Drawn(strings.Repeat("|", 24))
	written := patterntest.Rows("||||--||||||||||----||||")[0]
	plan.Zones[0].Rows = 5
	plain := plan.Zones[0].Strips[0].Lines[0]
	plan.Zones[0].Strips[0].Lines = []pattern.Line{plain, plain, plain, plain, {Cells: written, Written: true}}
	p := patterntest.Build(t, plan)
	assert.Equal(t, "k4 p2 k10 p4 k4", runs(rightHanded(p), 5))
	assert.Equal(t, "k4 p4 k10 p2 k4", runs(pattern.Order{Pattern: p, Way: p.WayFor(pattern.LeftHand)}, 5))
	assert.Equal(t, pattern.ToRight, p.WayFor(pattern.LeftHand).Row1)
}

func TestSeedHasNoRidgesToCount(t *testing.T) {
	// Common practice, no source: seed has a bump beside every V, no line of them.
	row := func(first pattern.Stitch) []pattern.Cell {
		cells := make([]pattern.Cell, 9)
		for i := range cells {
			cells[i].Stitch = first
			if i%2 == 1 {
				cells[i].Stitch = pattern.Knit + pattern.Purl - first
			}
		}
		return cells
	}
	plan := patterntest.Frame(9, 2, 1, 2)
	plan.Zones = []pattern.ZonePlan{{Name: "field", Rows: 8, Strips: []pattern.StripPlan{{
		Pegs: 9, Lines: []pattern.Line{{Cells: row(pattern.Knit)}, {Cells: row(pattern.Purl)}},
	}}}}
	p := patterntest.Build(t, plan)
	assert.False(t, p.HasRidges(0))
	assert.Zero(t, p.Ridges(8))
}
