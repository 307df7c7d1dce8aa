package pattern_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"bypeg/pattern"
	"bypeg/pattern/patterntest"
)

// The stitches whose syntax comes later must already fit the model: they can be held
// as cells, told peg by peg for both hands, and worked on a loom.

// withCable is a plain panel of 10 pegs whose second row crosses 3 strands over 3.
func withCable(lean pattern.Side) pattern.Plan {
	plan := patterntest.Drawn("||||||||||", "||||||||||", "||||||||||")
	for i, s := range (pattern.Cross{Front: 3, Back: 3, Lean: lean}).Parts() {
		plan.Zones[0].Strips[0].Lines[1].Cells[2+i].Stitch = s
	}
	return plan
}

// tell writes one row's instructions as a person would follow them: first the loops
// to move, then what each peg takes.
func tell(o pattern.Order, row int) string {
	var says []string
	for _, m := range o.Pattern.Moves(row) {
		how := "behind"
		if m.Front {
			how = "in front"
		}
		says = append(says, fmt.Sprintf("%d to %d %s", o.Peg(m.From), o.Peg(m.To), how))
	}
	for run := range o.Runs(row) {
		says = append(says, fmt.Sprintf("%v %d-%d", run.Stitch, o.Peg(o.Column(row, run.From)), o.Peg(o.Column(row, run.To-1))))
	}
	return strings.Join(says, "; ")
}

func TestLaterStitchesAreToldPegByPegForBothHands(t *testing.T) {
	stripes := patterntest.Drawn("||||||", "||||||", "||||||")
	for _, line := range stripes.Zones[0].Strips[0].Lines {
		for col := 3; col < 6; col++ {
			line.Cells[col].Yarn = 1
		}
	}
	cases := []struct {
		name        string
		plan        pattern.Plan
		row         int
		right, left string
	}{
		{
			"a cable over 6 pegs leaning right", withCable(pattern.Right), 2,
			"5 to 8 behind; 4 to 7 behind; 3 to 6 behind; 8 to 5 in front; 7 to 4 in front; 6 to 3 in front; knit 10-9; 3 over 3, leaning right 8-3; knit 2-1",
			"6 to 3 behind; 7 to 4 behind; 8 to 5 behind; 3 to 6 in front; 4 to 7 in front; 5 to 8 in front; knit 10-9; 3 over 3, leaning right 8-3; knit 2-1",
		},
		{
			"a yarn over beside two together that lean right", patterntest.Drawn("||o/|||", "|||||||"), 2,
			"5 to 4 in front; knit 7-6; yarn over 5-5; knit 2 together 4-4; knit 3-1",
			"3 to 4 in front; knit 7-5; knit 2 together 4-4; yarn over 3-3; knit 2-1",
		},
		{
			"pegs not in use after an edge was taken in", patterntest.Drawn("./|||", "|||||"), 2,
			"5 to 4 in front; knit 2 together 4-4; knit 3-1",
			"1 to 2 in front; knit 5-3; knit 2 together 2-2",
		},
		{"two colours side by side", stripes, 1, "knit 1-3; knit 4-6", "knit 1-3; knit 4-6"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			p := patterntest.Build(t, c.plan)
			assert.Equal(t, c.right, tell(pattern.Order{Pattern: p, Way: pattern.DefaultWay(pattern.RightHand)}, c.row))
			assert.Equal(t, c.left, tell(pattern.Order{Pattern: p, Way: pattern.DefaultWay(pattern.LeftHand)}, c.row))
			for _, hand := range []pattern.Hand{pattern.RightHand, pattern.LeftHand} {
				o := pattern.Order{Pattern: p, Way: pattern.DefaultWay(hand)}
				assert.Equal(t, picture(p), workOnLoom(t, o), "worked with the %v hand", hand)
			}
		})
	}
}

func TestTheMovesOfASmallCross(t *testing.T) {
	// Common practice, no source: in a right lean over 3 pegs, counted from the right,
	// peg 1 goes behind to peg 3 and pegs 2 and 3 move to 1 and 2.
	plan := patterntest.Drawn("|||", "|||")
	for i, s := range (pattern.Cross{Front: 2, Back: 1, Lean: pattern.Right}).Parts() {
		plan.Zones[0].Strips[0].Lines[1].Cells[i].Stitch = s
	}
	o := pattern.Order{Pattern: patterntest.Build(t, plan), Way: pattern.DefaultWay(pattern.RightHand)}
	assert.Equal(t, "1 to 3 behind; 3 to 2 in front; 2 to 1 in front; 2 over 1, leaning right 3-1", tell(o, 2))
}

func TestACutCrossIsRefused(t *testing.T) {
	plan := withCable(pattern.Left)
	plan.Zones[0].Strips[0].Lines[1].Cells[4].Stitch = pattern.Knit
	_, errs := pattern.Build(plan)
	assert.Len(t, errs, 1)
	assert.Contains(t, errs[0].Msg, "a cross is cut")
}

func TestRowsMustUseTheLoopsThereAre(t *testing.T) {
	for name, c := range map[string]struct{ plan, want string }{
		"a peg that falls out of use without its loop": {".||||\n|||||", "row 2 is worked into 4 loops, but row 1 leaves 5"},
		"a yarn over without a decrease":               {"||o||\n|||||", "row 2 is worked into 4 loops, but row 1 leaves 5"},
		"shaping in the very first row":                {"||/", "row 1 is worked into 4 loops on 3 pegs: begin shaping in row 2"},
	} {
		t.Run(name, func(t *testing.T) {
			_, errs := pattern.Build(patterntest.Drawn(strings.Split(c.plan, "\n")...))
			if assert.NotEmpty(t, errs) {
				assert.Equal(t, c.want, errs[0].Msg)
			}
		})
	}
}
