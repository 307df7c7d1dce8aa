package track_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/pattern"
	"bypeg/pattern/patterntest"
	"bypeg/tui/track"
)

// frame is a panel of 12 pegs with sides of 3: 2 ridges, 4 field rows, 2 ridges, and
// a set-up row.
func frame(t testing.TB, hand pattern.Hand) pattern.Order {
	p := patterntest.Build(t, patterntest.Frame(12, 3, 2, 4))
	return pattern.Order{Pattern: p, Way: p.WayFor(hand)}
}

func at(row, done int) pattern.Place {
	return pattern.Place{Phase: pattern.Working, Row: row, Done: done}
}

func TestActionsMoveOnTheFabric(t *testing.T) {
	castOn := func(done int) pattern.Place { return pattern.Place{Phase: pattern.CastingOn, Done: done} }
	bindOff := func(done int) pattern.Place { return pattern.Place{Phase: pattern.BindingOff, Done: done} }
	cases := []struct {
		name string
		from pattern.Place
		do   track.Action
		to   pattern.Place
	}{
		{"one peg", at(6, 4), track.OnePeg, at(6, 5)},
		{"the last peg of a row ends it", at(6, 11), track.OnePeg, at(7, 0)},
		{"the rest of a run", at(6, 4), track.OneRun, at(6, 9)},
		{"the last run of a row ends it", at(6, 10), track.OneRun, at(7, 0)},
		{"the rest of the row", at(6, 4), track.OneRow, at(7, 0)},
		{"a peg back", at(6, 4), track.PegBack, at(6, 3)},
		{"a peg back across rows", at(6, 0), track.PegBack, at(5, 11)},
		{"back to the run's start", at(6, 4), track.RunBack, at(6, 3)},
		{"back to the start of the run before", at(6, 3), track.RunBack, at(6, 0)},
		{"back to the last run of the row before", at(7, 0), track.RunBack, at(6, 9)},
		{"back to the row's start", at(6, 4), track.RowBack, at(6, 0)},
		{"back to the start of the row before", at(6, 0), track.RowBack, at(5, 0)},
		{"row 6 runs left to right: right is on", at(6, 4), track.GoRight, at(6, 5)},
		{"and left is back", at(6, 4), track.GoLeft, at(6, 3)},
		{"row 5 runs right to left: left is on", at(5, 4), track.GoLeft, at(5, 5)},
		{"and right is back", at(5, 4), track.GoRight, at(5, 3)},
		{"along the row never goes back past its start", at(5, 0), track.GoRight, at(5, 0)},
		{"the cast-on counts pegs", castOn(0), track.OnePeg, castOn(1)},
		{"a run of the cast-on ends with a marked peg", castOn(0), track.OneRun, castOn(3)},
		{"the last loop of the cast-on leads to row 1", castOn(11), track.OnePeg, at(1, 0)},
		{"from row 1 back into the cast-on", at(1, 0), track.PegBack, castOn(11)},
		{"the last row leads to the bind-off", at(13, 5), track.OneRow, bindOff(0)},
		{"the last loop ends the work", bindOff(11), track.OnePeg, pattern.Place{Phase: pattern.Finishing}},
		{"nothing comes after the end", pattern.Place{Phase: pattern.Finishing}, track.OneRow, pattern.Place{Phase: pattern.Finishing}},
		{"nothing comes before the start", castOn(0), track.PegBack, castOn(0)},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			tr := track.New(frame(t, pattern.RightHand), c.from, track.DefaultLead)
			event, moved := tr.Do(c.do)
			assert.Equal(t, c.from != c.to, moved)
			assert.Equal(t, c.to, tr.Place())
			if moved {
				assert.Equal(t, c.to, event.Place)
				tr.Do(track.Undo)
				assert.Equal(t, c.from, tr.Place(), "undo takes it back")
			}
		})
	}
}

func TestWarningsComeWhenTheyCanStillHelp(t *testing.T) {
	cases := []struct {
		name string
		at   pattern.Place
		want string
	}{
		{"a row of one stitch needs no border warning", at(5, 7), ""},
		{"at the start of a row the border comes first", at(6, 0), "border: purl 3, then the field"},
		{"and goes on until it ends", at(6, 2), "border: purl 1, then the field"},
		{"in the field all is quiet", at(6, 3), ""},
		{"three pegs before the border it is still quiet", at(6, 6), ""},
		{"two pegs before", at(6, 7), "border in 2 pegs: purl 3"},
		{"one peg before", at(6, 8), "border in 1 peg: purl 3"},
		{"at it", at(6, 9), "border: purl 3, then turn"},
		{"within it", at(6, 11), "border: purl 1, then turn"},
		{"a row ahead of a new zone", at(4, 5), "after this row: field, 4 rows"},
		{"a row ahead of the top border", at(8, 4), "after this row: top border, 2 ridges, as the bottom border"},
		{"the side border is nearer than the new zone", at(8, 9), "border: purl 3, then turn"},
		{"a border zone begins, though its first row looks like any other", at(9, 4), "from here: top border, 2 ridges, as the bottom border; it shows from row 10"},
		{"the first row that the field would not have had", at(10, 4), "top border: this is the first row unlike the field"},
		{"and from then on all is quiet", at(11, 4), ""},
		{"a row ahead of the bind-off", at(13, 4), "after this row: bind off"},
	}
	for _, hand := range []pattern.Hand{pattern.RightHand, pattern.LeftHand} {
		for _, c := range cases {
			t.Run(hand.String()+" hand: "+c.name, func(t *testing.T) {
				tr := track.New(frame(t, hand), c.at, track.DefaultLead)
				w, ok := tr.Warning()
				assert.Equal(t, c.want != "", ok)
				assert.Equal(t, c.want, tr.SayWarning(w))
			})
		}
	}
}

func TestTheLeadOfWarningsIsSettable(t *testing.T) {
	for lead, want := range map[int]string{0: "", 2: "", 5: "border in 5 pegs: purl 3"} {
		tr := track.New(frame(t, pattern.RightHand), at(6, 4), lead)
		w, _ := tr.Warning()
		assert.Equal(t, want, tr.SayWarning(w), "lead %d", lead)
	}
}

func TestNowAndThenSayWhatThePegsTake(t *testing.T) {
	joined := patterntest.Drawn("--|||---|||---", "||||||||||||||")
	joined.Zones[0].Sides = 0
	cases := []struct {
		name            string
		order           pattern.Order
		at              pattern.Place
		now, pegs, then string
	}{
		{"a whole row", frame(t, pattern.RightHand), at(5, 0), "knit all 12", "pegs 1 to 12", ""},
		{"the rest of a whole row", frame(t, pattern.RightHand), at(5, 4), "knit 8", "pegs 5 to 12", ""},
		{"the border's purls, then the field", frame(t, pattern.RightHand), at(6, 0), "purl 3", "pegs 12 to 10", "knit 6"},
		{"two pegs", frame(t, pattern.RightHand), at(6, 7), "knit 2", "pegs 5, 4", "purl 3"},
		{"one peg", frame(t, pattern.RightHand), at(6, 11), "purl 1", "peg 1", ""},
		{"the left hand numbers pegs from the left", frame(t, pattern.LeftHand), at(6, 7), "knit 2", "pegs 5, 4", "purl 3"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			tr := track.New(c.order, c.at, track.DefaultLead)
			now, ok := tr.Now()
			require.True(t, ok)
			assert.Equal(t, c.now, now.String())
			assert.Equal(t, c.pegs, now.Pegs())
			then, ok := tr.Then()
			assert.Equal(t, c.then != "", ok)
			if ok {
				assert.Equal(t, c.then, then.String())
			}
		})
	}
}

func TestARunThatGoesOnIntoTheBorderSaysSo(t *testing.T) {
	plan := patterntest.Frame(12, 3, 2, 4)
	plan.Zones[1].Strips[0].Lines = []pattern.Line{
		{Cells: patterntest.Rows("||||||")[0]},
		{Cells: patterntest.Rows("||||--")[0]},
	}
	p := patterntest.Build(t, plan)
	tr := track.New(pattern.Order{Pattern: p, Way: p.Way}, at(6, 7), track.DefaultLead)
	now, _ := tr.Now()
	assert.Equal(t, "purl 5: 2, then border 3", now.String())
	w, ok := tr.Warning()
	assert.False(t, ok, "the stitch does not change at the border: %v", w)
}

func TestATurnTellsYarnAndTail(t *testing.T) {
	// After an even row the yarn is away from the tail of a cast-on that runs across
	// once: common practice, no source.
	tr := track.New(frame(t, pattern.RightHand), at(9, 0), track.DefaultLead)
	turn, ok := tr.Turn()
	require.True(t, ok)
	assert.Equal(t, "turn: row 8 done, yarn at the right, away from the tail", tr.SayTurn(turn))
	assert.Equal(t, pattern.ToLeft, turn.Runs)
	// A chain cast-on leaves its yarn where row 1 starts: common practice, no source.
	begun := track.New(frame(t, pattern.RightHand), at(1, 0), track.DefaultLead)
	turn, ok = begun.Turn()
	require.True(t, ok)
	assert.Equal(t, "cast-on done: yarn at the right, away from the tail", begun.SayTurn(turn))
	for _, none := range []pattern.Place{at(9, 1), pattern.Start(), {Phase: pattern.Finishing}} {
		_, ok := track.New(frame(t, pattern.RightHand), none, track.DefaultLead).Turn()
		assert.False(t, ok, "%+v", none)
	}
}

func TestCountsOfRidgesRowsAndStitches(t *testing.T) {
	tr := track.New(frame(t, pattern.RightHand), at(6, 3), track.DefaultLead)
	assert.Equal(t, track.Count{Done: 2, Of: 6}, tr.Ridges())
	zone, in, ok := tr.InZone()
	require.True(t, ok)
	assert.Equal(t, "field", zone.Name)
	assert.Equal(t, track.Count{Done: 2, Of: 4}, in)
	assert.Equal(t, track.Count{Done: 12 + 5*12 + 3, Of: 12 + 13*12 + 12}, tr.Progress())
	assert.Equal(t, []int{3, 10}, tr.MarkedPegs())
	assert.Equal(t, 100, track.Count{Done: 180, Of: 180}.Percent())
	assert.Equal(t, 99, track.Count{Done: 179, Of: 180}.Percent())
}

// TestRandomWorkAgainstAPlainList holds the tracker against a list of all places in
// the order of work and a plain list of what was done.
func TestRandomWorkAgainstAPlainList(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := patterntest.Build(t, patterntest.Plans().Draw(rt, "plan"))
		o := pattern.Order{Pattern: p, Way: patterntest.Ways().Draw(rt, "way")}
		places := []pattern.Place{pattern.Start()}
		for last := pattern.Start(); last.Phase != pattern.Finishing; {
			last = o.Next(last)
			places = append(places, last)
		}
		tr := track.New(o, pattern.Start(), track.DefaultLead)
		list, i := []pattern.Place{pattern.Start()}, 0 // what was done, and where in it we stand
		var events []track.Event
		for range rapid.IntRange(0, 60).Draw(rt, "steps") {
			event, moved := act(rt, tr, places)
			if !moved {
				require.Equal(t, list[i], tr.Place())
				continue
			}
			events = append(events, event)
			switch event.Act {
			case track.Undone:
				i--
			case track.Redone:
				i++
			default:
				list = append(list[:i+1], event.Place)
				i++
			}
			require.Equal(t, list[i], tr.Place())
			require.Equal(t, i > 0, tr.Can(track.Undo))
			require.Equal(t, i < len(list)-1, tr.Can(track.Redo))
			require.True(t, p.Holds(tr.Place()))
		}
		again := track.New(o, pattern.Start(), track.DefaultLead)
		again.Replay(events)
		require.Equal(t, tr, again, "the history survives a restart")
	})
}

func act(rt *rapid.T, tr *track.Tracker, places []pattern.Place) (track.Event, bool) {
	if rapid.IntRange(0, 9).Draw(rt, "jump") == 0 {
		return tr.Jump(rapid.SampledFrom(places).Draw(rt, "to"))
	}
	return tr.Do(track.Action(rapid.IntRange(int(track.OnePeg), int(track.Redo)).Draw(rt, "action")))
}

func TestAJumpOutsideThePieceIsRefused(t *testing.T) {
	tr := track.New(frame(t, pattern.RightHand), at(6, 3), track.DefaultLead)
	for _, to := range []pattern.Place{at(0, 0), at(14, 0), at(6, 12), at(6, -1), {Phase: 9}} {
		_, moved := tr.Jump(to)
		assert.False(t, moved, "%+v", to)
		assert.Equal(t, at(6, 3), tr.Place())
	}
}

func TestReplayPassesOverPlacesThePatternDoesNotHold(t *testing.T) {
	tr := track.New(frame(t, pattern.RightHand), pattern.Start(), track.DefaultLead)
	tr.Replay([]track.Event{{Act: track.Stepped, Place: at(2, 0)}, {Act: track.Stepped, Place: at(99, 0)}, {Act: track.Undone, Place: at(5, 1)}})
	assert.Equal(t, at(5, 1), tr.Place(), "an undo that does not match is a jump")
	tr.Do(track.Undo)
	assert.Equal(t, at(2, 0), tr.Place())
}
