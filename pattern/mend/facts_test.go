package mend_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/examples"
	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/fit"
	"bypeg/pattern/mend"
	"bypeg/pattern/patterntest"
)

// The trade's facts, each with where it comes from.

// TestNPegsTakeOneLiftOverLess binds a model off: loops stand on pegs, the lower first. No
// step may ask for a loop that is not there.
// Source: ehow.com/how_6234393, How to Bind Off a Knitting Loom: 8 pegs, 7 lift-overs, 1 loop
// left (the count is ours).
func TestNPegsTakeOneLiftOverLess(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		o := drawn(rt, t)
		b, err := mend.BindOffOf(o, mend.BasicBindOff)
		require.NoError(rt, err)
		require.Equal(rt, o.Pattern.Pegs-1, b.Lifts())
		f := newFabric(o)
		along := f.order(o.Pattern.Grid.Rows() + 1)
		loops := make([]int, o.Pattern.Pegs) // on each peg
		for i := range loops {
			loops[i] = 1
		}
		reached := 0
		for i, s := range b.Steps {
			require.NotEmpty(rt, b.Words(i))
			switch s.Do {
			case mend.WorkPeg:
				require.Equal(rt, 1, loops[s.Col])
				if reached < len(along) && s.Col == along[reached] {
					reached++
				}
			case mend.MoveLoop:
				require.Equal(rt, 1, loops[s.Col])
				loops[s.Col]--
				loops[s.To]++
			case mend.LiftOver:
				require.Equal(rt, 2, loops[s.Col])
				loops[s.Col]--
			case mend.DrawThrough:
				require.Equal(rt, 1, loops[s.Col])
				loops[s.Col]--
			}
		}
		require.Equal(rt, len(along), reached, "every peg in its order, from the yarn on")
		require.Equal(rt, make([]int, len(loops)), loops, "all are off")
	})
}

// TestTheBasicBindOffIsSaidForBothHands: 3 pegs, by either hand.
// Source: as above; left-handers mirror it (from memory), so that the numbers are the same.
func TestTheBasicBindOffIsSaidForBothHands(t *testing.T) {
	for _, h := range []pattern.Hand{pattern.RightHand, pattern.LeftHand} {
		o := garter(t, 3, 4)
		o.Way = o.Pattern.WayFor(h)
		b, err := mend.BindOffOf(o, mend.BasicBindOff)
		require.NoError(t, err)
		var words []string
		for i := range b.Len() {
			words = append(words, b.Words(i))
		}
		assert.Equal(t, []string{
			"knit peg 1",
			"knit peg 2", "move the loop of peg 2 onto peg 1", "on peg 1 lift the lower loop over the upper one", "move the loop of peg 1 onto peg 2",
			"knit peg 3", "move the loop of peg 3 onto peg 2", "on peg 2 lift the lower loop over the upper one", "move the loop of peg 2 onto peg 3",
			"knit the last loop on peg 3 once more", "cut the yarn, 15 cm of it left", "draw the tail through the loop on peg 3 and lift it off", "pull the tail tight",
		}, words)
		assert.Equal(t, 0, b.LiftsBy(3))
		assert.Equal(t, 1, b.LiftsBy(4))
	}
}

// TestAGatheredBindOffTakesTwiceRoundTheLoom: 36 pegs, 20 mm apart: 0.72 m round.
// Source: loomatics.ga/2012/04/bind-off-gathered-round.html: a tail of twice round.
func TestAGatheredBindOffTakesTwiceRoundTheLoom(t *testing.T) {
	o := garter(t, 36, 20)
	_, err := mend.BindOffOf(o, mend.GatheredBindOff)
	require.Error(t, err, "a panel can't be drawn shut")
	o.Pattern.Form, o.Pattern.Loom.SpacingMM = pattern.Tube, 20
	b, err := mend.BindOffOf(o, mend.GatheredBindOff)
	require.NoError(t, err)
	assert.InDelta(t, 1.44, b.Metres.Likely, 1e-9)
	assert.Zero(t, b.Lifts())
	drawn, off := map[int]int{}, map[int]int{}
	for _, s := range b.Steps {
		switch s.Do {
		case mend.DrawThrough:
			drawn[s.Col]++
		case mend.TakeOff:
			require.Equal(t, 1, drawn[s.Col], "no loop comes off that the tail does not hold")
			off[s.Col]++
		}
	}
	assert.Len(t, off, 36)
	assert.Equal(t, "it needs about 1.4 m of yarn, the tail with it", b.NeedWords())
}

// TestTheYarnOfABindOff: 40 in wide: 240 in and a tail of 15 cm at most.
// Source: blacksquirrelberkeley.com/pages/yarn-chicken: six widths and a tail.
func TestTheYarnOfABindOff(t *testing.T) {
	o := garter(t, 100, 10)
	o.Pattern.Gauge = pattern.Gauge{Stitches: 1000 / (40 * 2.54), Rows: 12}
	b, err := mend.BindOffOf(o, mend.BasicBindOff)
	require.NoError(t, err)
	assert.InDelta(t, 240*0.0254+0.15, b.Metres.High, 1e-6)
}

// TestWhereCastOnsLeaveTheYarn lays every kind on the model's pegs.
// Common practice, no source: e-wrap, double e-wrap and chain run across once and leave the
// yarn at the far end. From memory: weave and drawstring go there and back. Published
// (loomknittinghelp.com/looms/rlr/caston.html): a right-hander's panel is cast on from left to
// right and row 1 runs right to left; a tube goes right to left in both.
func TestWhereCastOnsLeaveTheYarn(t *testing.T) {
	for _, name := range pattern.CastOnNames() {
		for _, form := range []pattern.Form{pattern.Panel, pattern.Tube} {
			for _, h := range []pattern.Hand{pattern.RightHand, pattern.LeftHand} {
				plan := patterntest.Frame(7, 0, 2, 4)
				plan.Form = form
				plan.CastOn, _ = pattern.CastOnNamed(name)
				p := patterntest.Build(t, plan)
				o := pattern.Order{Pattern: p, Way: p.WayFor(h)}
				c := mend.CastOnOf(o)
				outside := map[int]int{}
				for i, s := range c.Steps {
					if s.Outside {
						outside[s.Col]++
					}
					assert.NotEmpty(t, c.Words(i))
				}
				require.Len(t, c.Steps, 7*plan.CastOn.Passes)
				first := newFabric(o).order(1)
				if form == pattern.Panel {
					assert.Equal(t, newFabric(o).peg(first[0]), c.Ends(), "row 1 goes on where the yarn is: %s, %s hand", name, h)
				} else {
					assert.Equal(t, newFabric(o).peg(first[6]), c.Ends(), "round 1 goes on to the first peg")
				}
				if plan.CastOn.Passes == 2 {
					assert.Len(t, outside, 7, "woven: one strand before every peg")
					for _, n := range outside {
						assert.Equal(t, 1, n)
					}
				}
			}
		}
	}
	p := patterntest.Build(t, patterntest.Frame(7, 0, 2, 4))
	c := mend.CastOnOf(pattern.Order{Pattern: p, Way: p.Way})
	assert.Equal(t, "make a slip knot on the hook, with a tail of 15 cm, and begin at peg 7, left to right", c.Words(0))
	assert.Equal(t, "peg 7: with the yarn behind it, draw a chain stitch round its front", c.Words(1))
	assert.Equal(t, "peg 1: put the loop of the hook on it", c.Words(7))
	assert.Equal(t, "every peg has one loop, 7 in all; row 1 runs right to left, from peg 1: the yarn comes out at the right, away from the tail", c.EndWords())
}

// TestARidgeIsTwoRows takes garter back a ridge at a time.
// Common practice, no source: two garter rows make one ridge, and the cast-on edge is none.
func TestARidgeIsTwoRows(t *testing.T) {
	o := garter(t, 20, 40)
	for rows := 2; rows < 40; rows += 2 {
		b, err := mend.BackTo(o, pattern.Place{Phase: pattern.BindingOff}, pattern.Place{Phase: pattern.Working, Row: rows + 1})
		require.NoError(t, err)
		assert.Equal(t, rows/2, b.Ridges)
		assert.True(t, b.HasRidges)
	}
}

// TestHeatAndWaterByFibre holds the list against care labels.
// Source: the dots of care labels, cotton 200 C, wool 150, acrylic and nylon 110 (ISO 3758).
// Washing: common practice, no source.
func TestHeatAndWaterByFibre(t *testing.T) {
	for _, c := range []struct {
		fibre string
		says  []string
	}{
		{"cotton", []string{"wash it at 40 C", "at 200 C at most, three dots"}},
		{"merino wool", []string{"wash it at 30 C", "never wring", "pinned to its size", "at 150 C at most, two dots"}},
		{"60 % wool, 40 % acrylic", []string{"at 30 C", "never wring", "at 110 C at most", "steam makes it limp"}},
		{"nylon", []string{"at 110 C at most, one dot on the label"}},
		{"", []string{"the fibre is not known", "do not press it", "never wring"}},
	} {
		p := patterntest.Build(t, patterntest.Frame(12, 3, 2, 6))
		p.Yarns[0].Fibre = c.fibre
		f := mend.FinishOf(p)
		var all []string
		for i := range f.Len() {
			all = append(all, f.Words(i))
		}
		text := strings.Join(all, "\n")
		for _, says := range c.says {
			assert.Contains(t, text, says, c.fibre)
		}
		assert.Equal(t, mend.Relax, f[0].Task)
		assert.Equal(t, mend.WeaveIn, f[1].Task)
	}
}

// TestTheListHasTheCautionsOfThePiece: a hot pad of acrylic, and something for a baby.
func TestTheListHasTheCautionsOfThePiece(t *testing.T) {
	p := patterntest.Build(t, patterntest.Frame(12, 3, 2, 6))
	p.Yarns[0].Fibre = "acrylic"
	for _, use := range []pattern.Use{pattern.HotPad, pattern.Baby} {
		p.Use = use
		var said []string
		for _, todo := range mend.FinishOf(p) {
			if todo.Task == mend.Caution {
				said = append(said, todo.Words)
			}
		}
		assert.NotEmpty(t, said)
		for _, c := range fit.Cautions(&p.Design) {
			assert.Equal(t, !strings.HasPrefix(c, "iron it"), slices.Contains(said, c), c)
		}
	}
}

// TestCautionsAreReadBeforeWaterAndHeat: what is said after the deed is said too late. How
// hot the iron may be is told once.
func TestCautionsAreReadBeforeWaterAndHeat(t *testing.T) {
	p := patterntest.Build(t, patterntest.Frame(12, 3, 2, 6))
	p.Yarns[0].Fibre, p.Use = "wool", pattern.Wearable
	var order []mend.Task
	irons := 0
	for _, todo := range mend.FinishOf(p) {
		order = append(order, todo.Task)
		irons += strings.Count(todo.Words, "150 C")
	}
	assert.Equal(t, []mend.Task{mend.Relax, mend.WeaveIn, mend.Caution, mend.Wash, mend.DryTask, mend.Press, mend.Measure, mend.Weigh}, order)
	assert.Equal(t, 1, irons)
}

// TestTheSizeOfTheListIsThatOfTheReport: to half a centimetre, and of a tube both ways; laid
// flat it is half as wide as it is round (common practice, no source).
func TestTheSizeOfTheListIsThatOfTheReport(t *testing.T) {
	for name, want := range map[string]string{
		"sluice-cloth": "by the pattern it is 21.5 x 21.5 cm;",
		"lock-collar":  "by the pattern it is 45 cm round, 22.5 flat, 30 cm high;",
		"quay-mat":     "by the pattern it is 11 x 8 cm;",
	} {
		text, _ := examples.Text(name)
		p, _ := file.Load(name, text)
		require.NotNil(t, p)
		f := mend.FinishOf(p)
		i := slices.IndexFunc(f, func(d mend.ToDo) bool { return d.Task == mend.Measure })
		assert.Contains(t, f.Words(i), want, name)
	}
}
