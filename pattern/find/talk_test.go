package find_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/examples"
	"bypeg/pattern"
	"bypeg/pattern/find"
)

// Who passes over all that is asked is asked little: nothing twice, no kind of count more than
// twice, and before the talk ends what some pegs show.
func TestWhoPassesOverAllIsAskedLittle(t *testing.T) {
	most := 0
	for _, name := range examples.Names() {
		o := example(t, name, pattern.RightHand)
		asked, kinds, pegs := map[find.Question]bool{}, map[find.Kind]int{}, map[int]bool{}
		talk := find.Begin(o, noted(9))
		for talk.Answer.Asks {
			q := talk.Answer.Ask
			require.False(t, asked[q], "%s: %+v is asked again", name, q)
			asked[q] = true
			if kinds[q.Kind]++; q.Kind == find.Look {
				pegs[q.Peg] = true
			}
			var err error
			talk, err = talk.Reply("")
			require.NoError(t, err)
			require.LessOrEqual(t, len(asked), 16, "%s: the questions don't end", name)
		}
		for k, n := range kinds {
			if k != find.Look {
				assert.LessOrEqual(t, n, 2, "%s: %s", name, k)
			}
		}
		assert.GreaterOrEqual(t, len(pegs), 2, "%s: looks are offered at several pegs", name)
		said := talk.Said
		assert.Equal(t, find.Question{Kind: find.FromPeg}, said[len(said)-1].Question, "%s: who can't tell where the yarn hangs is asked last which peg it comes from", name)
		guesses, agree := talk.Guesses()
		assert.True(t, agree)
		assert.Equal(t, noted(9), guesses[0].Place, "what the notes have is left")
		assert.Equal(t, "these agree with what was answered, the likeliest first:", talk.Over(), "more could be told")
		most = max(most, len(asked))
	}
	t.Logf("at most %d questions are passed over", most)
}

// Of places side by side in a row the one that the notes have is named.
func TestTheNotedPlaceWithinARowIsNamed(t *testing.T) {
	counted := pattern.Place{Phase: pattern.Working, Row: 7, Done: 3}
	talk := find.Begin(garter(t, 10, 20), counted)
	talk, err := talk.Reply("between")
	require.NoError(t, err)
	for talk.Answer.Asks {
		talk, err = talk.Reply("")
		require.NoError(t, err)
	}
	guesses, _ := talk.Guesses()
	assert.Contains(t, guesses, find.Guess{Place: counted, Says: find.Fit{Row: 7, From: 3, To: 3}.Where(talk.Order)})
}

// Who said that the yarn hangs at an end is asked at which, and not once more where.
func TestTheYarnIsNotAskedForTwiceAlike(t *testing.T) {
	talk := find.Begin(garter(t, 10, 20), pattern.Place{})
	first := talk.Answer.Ask
	for _, says := range []string{"end", "8"} {
		var err error
		talk, err = talk.Reply(says)
		require.NoError(t, err)
	}
	require.Equal(t, find.Question{Kind: find.Yarn, Ended: true}, talk.Answer.Ask)
	assert.NotEqual(t, first.Words(talk.Order), talk.Answer.Ask.Words(talk.Order))
	assert.Equal(t, "left or right", talk.Answer.Ask.Hint(talk.Order))
	talk, err := talk.Reply("left")
	require.NoError(t, err)
	assert.Len(t, talk.Answer.Fits, 1)
}

// Who can't count and only looks, at the end of a row and with notes some rows behind, is left
// with few rows; every question tells rows apart, and the true one is never lost.
func TestWhoOnlyLooksIsLeftWithFewRows(t *testing.T) {
	for _, name := range examples.Names() {
		m := exampleModel(t, name, pattern.RightHand)
		var before, after, questions tally
		first := 0
		for i, s := range m.sights {
			if s.done > 0 || s.row < 5 || testing.Short() && i%3 > 0 {
				continue
			}
			talk := find.Begin(m.o, noted(s.row-1-i%3))
			n := 0
			for talk.Answer.Asks {
				q, was := talk.Answer.Ask, talk.Rows()
				says := ""
				if q.Kind == find.Yarn || q.Kind == find.Look {
					says = m.typed(t, q, s)
				}
				var err error
				talk, err = talk.Reply(says)
				require.NoError(t, err)
				if q.Kind == find.Yarn {
					before.add(float64(talk.Rows()))
				}
				require.LessOrEqual(t, talk.Rows(), was)
				n++
			}
			require.Contains(t, places(talk.Answer.Fits), at{s.row, 0}, name)
			after.add(float64(talk.Rows()))
			questions.add(float64(n))
			guesses, _ := talk.Guesses()
			for j := range guesses[:min(3, len(guesses))] {
				if guesses[j].Place == placeOf(m.o, s.row) {
					first++
					break
				}
			}
		}
		t.Logf("%s: %.1f rows agree with the yarn's side, %.1f after looks; %.1f questions in the mean, %.0f at worst; the row is among the first 3 in %.0f%%",
			name, before.mean(), after.mean(), questions.mean(), questions.worst, 100*float64(first)/after.n)
		assert.Less(t, after.mean(), 0.6*before.mean(), name)
		assert.GreaterOrEqual(t, float64(first)/after.n, 0.9, name)
	}
}

// typed is what a person at a place types.
func (m *model) typed(t *testing.T, q find.Question, s *sight) string {
	c, _ := m.answered(t, q, s)
	if q.Kind == find.Yarn {
		return map[find.Hangs]string{find.AtLeft: "left", find.AtRight: "right", find.AtEnd: "end", find.Between: "between"}[c.Hangs]
	}
	return find.Letters(c.Seen)
}

func placeOf(o pattern.Order, row int) pattern.Place { return find.Fit{Row: row}.Place(o.Pattern) }

func TestAPieceOffTheLoomHasNoPlaceToLookFor(t *testing.T) {
	o := garter(t, 10, 20)
	talk := find.Begin(o, pattern.Place{Phase: pattern.Finishing})
	assert.True(t, talk.Off())
	assert.False(t, talk.Answer.Asks, "there is no yarn to ask for")
	guesses, _ := talk.Guesses()
	assert.Empty(t, guesses)
	assert.False(t, find.Begin(o, pattern.Place{Phase: pattern.BindingOff, Done: 9}).Off())
}

// Of n pegs n - 1 are lifted over, each leaving one peg empty and the loop on the next: so one
// peg more is worked than is empty. Source: ehow.com/how_6234393, How to Bind Off a Knitting
// Loom: 8 pegs, 7 lift-overs, 1 loop.
//
// While a piece is bound off the yarn is asked for at no side; the empty pegs are counted.
func TestABindOffThatHasBegunIsAskedAbout(t *testing.T) {
	o := garter(t, 10, 20)
	began := pattern.Place{Phase: pattern.BindingOff, Done: 4}
	talk := find.Begin(o, began)
	require.Equal(t, find.Question{Kind: find.Bound}, talk.Answer.Ask)
	assert.Equal(t, fmt.Sprintf("how many pegs are empty by now, counted from peg %d, where the bind-off began? The one that holds the last loop is not empty.", o.Peg(o.ColumnAt(pattern.Place{Phase: pattern.BindingOff}))), talk.Answer.Ask.Words(o))

	told, err := talk.Reply("6")
	require.NoError(t, err)
	assert.False(t, told.Answer.Asks)
	guesses, agree := told.Guesses()
	require.Len(t, guesses, 1)
	assert.True(t, agree)
	assert.Equal(t, pattern.Place{Phase: pattern.BindingOff, Done: 7}, guesses[0].Place, "peg 7 was worked, and holds the last loop")
	assert.Equal(t, "all 40 rows are done; bound off by now: 7 of 10 pegs; next is peg 8", guesses[0].Says)
	last, err := talk.Reply("9")
	require.NoError(t, err)
	assert.Equal(t, 9, last.Answer.Fits[0].From, "one step is left, the last peg's")

	passed, err := talk.Reply("")
	require.NoError(t, err)
	assert.False(t, passed.Answer.Asks, "nothing else tells")
	guesses, _ = passed.Guesses()
	assert.Equal(t, began, guesses[0].Place)
	assert.Len(t, guesses, 1, "no row can be under way")

	_, err = talk.Reply("10")
	assert.EqualError(t, err, "of 10 pegs one at least holds a loop as long as the piece is on the loom")

	none, err := talk.Reply("0")
	require.NoError(t, err)
	assert.Equal(t, find.Yarn, none.Answer.Ask.Kind, "all loops are there: the row is looked for")
	assert.Equal(t, began, find.Begin(o, began).Evidence.Noted)
	assert.Equal(t, find.Bound, none.Back().Answer.Ask.Kind)

	all := find.Begin(o, pattern.Place{Phase: pattern.BindingOff})
	assert.Equal(t, find.Yarn, all.Answer.Ask.Kind, "nothing is bound off yet")
}

// What was said beside the empty pegs must agree with a piece whose rows are all done; of the
// yarn nothing is asked.
func TestWhatElseIsSaidOfAPieceBeingBoundOff(t *testing.T) {
	o := garter(t, 10, 20)
	bound := find.Clue{Kind: find.Bound, Count: 3}
	search := func(clues ...find.Clue) find.Answer {
		return find.Search(o, find.Evidence{Clues: append(clues, bound)})
	}
	fits := []find.Fit{{Row: 41, From: 4, To: 4}}
	assert.Equal(t, fits, search().Fits)
	assert.Equal(t, fits, search(find.Clue{Kind: find.Ridges, Count: 20}, find.Clue{Kind: find.FromPeg, Peg: 4}, find.Clue{Kind: find.LastRow, Row: find.Purled}).Fits)
	a := search(find.Clue{Kind: find.Ridges, Count: 19}, find.Clue{Kind: find.LastRow, Row: find.Purled})
	assert.Empty(t, a.Fits)
	assert.Equal(t, []find.But{{Fit: fits[0], Clue: 0, Off: 1}}, a.But)
	began := find.Evidence{Noted: pattern.Place{Phase: pattern.BindingOff, Done: 3}}
	assert.Equal(t, find.Bound, find.Search(o, began).Ask.Kind)
	assert.Equal(t, 8, find.Search(o, began.With(find.Clue{Kind: find.Ridges, Count: 3})).Fits[0].Row, "notes never exclude what the fabric shows")
	none := find.Search(o, find.Evidence{Clues: []find.Clue{{Kind: find.Bound}, {Kind: find.Ridges, Count: 3}}})
	assert.Equal(t, find.Search(o, find.Evidence{Clues: []find.Clue{{Kind: find.Ridges, Count: 3}}}).Fits, none.Fits, "no empty peg tells nothing of the rows")
}

// A piece that is being cast on has no rows: its loops are counted, and not its yarn's end looked
// for. Where all are on, the place is looked for in the rows.
func TestACastOnThatHasBegunIsAskedAbout(t *testing.T) {
	o := garter(t, 10, 20)
	began := pattern.Place{Phase: pattern.CastingOn, Done: 4}
	talk := find.Begin(o, began)
	require.Equal(t, find.Question{Kind: find.Loops}, talk.Answer.Ask)
	assert.Equal(t, fmt.Sprintf("how many loops are on the pegs by now, counted from peg %d, where the cast-on began? With all of them there are 10.", o.Peg(o.ColumnAt(pattern.Start()))), talk.Answer.Ask.Words(o))
	for says, want := range map[string]pattern.Place{"6": {Done: 6}, "0": pattern.Start(), "9": {Done: 9}} {
		told, err := talk.Reply(says)
		require.NoError(t, err)
		assert.False(t, told.Answer.Asks)
		guesses, agree := told.Guesses()
		require.Len(t, guesses, 1)
		assert.True(t, agree)
		assert.Equal(t, want, guesses[0].Place)
		assert.Equal(t, fmt.Sprintf("it is being cast on: %s of 10 loops are on; next is peg %d", says, o.Peg(o.ColumnAt(want))), guesses[0].Says)
	}
	all, err := talk.Reply("10")
	require.NoError(t, err)
	assert.Equal(t, find.Yarn, all.Answer.Ask.Kind, "all loops are on: the row is looked for")
	assert.Equal(t, pattern.Place{Phase: pattern.Working, Row: 1}, find.Talk{Order: o, Evidence: all.Evidence, Answer: all.Answer}.Answer.Fits[0].Place(o.Pattern))
	passed, err := talk.Reply("")
	require.NoError(t, err)
	assert.False(t, passed.Answer.Asks)
	guesses, _ := passed.Guesses()
	assert.Equal(t, began, guesses[0].Place)
	_, err = talk.Reply("11")
	assert.EqualError(t, err, "the cast-on has 10 loops: count them again, one to a peg")
	assert.Equal(t, find.Yarn, find.Begin(o, pattern.Start()).Answer.Ask.Kind, "who has counted nothing may have worked on")
}

// What else is said of a piece being cast on must agree with one that has no row yet.
func TestWhatElseIsSaidOfAPieceBeingCastOn(t *testing.T) {
	o := garter(t, 10, 20)
	search := func(clues ...find.Clue) find.Answer {
		return find.Search(o, find.Evidence{Clues: append(clues, find.Clue{Kind: find.Loops, Count: 3})})
	}
	fits := []find.Fit{{Row: 0, From: 3, To: 3}}
	assert.Equal(t, fits, search().Fits)
	assert.Equal(t, fits, search(find.Clue{Kind: find.Ridges}, find.Clue{Kind: find.Yarn, Hangs: find.Between}, find.Clue{Kind: find.Look, Peg: 1, Seen: []find.Seen{find.Edge}}).Fits)
	e := find.Evidence{Clues: []find.Clue{{Kind: find.Bumps, Peg: 2, Count: 2}, {Kind: find.Loops, Count: 3}, {Kind: find.Ridges}}}
	a := find.Search(o, e)
	assert.Empty(t, a.Fits)
	require.Equal(t, []find.But{{Fit: fits[0], Clue: 0, Off: 2}}, a.But)
	assert.Equal(t, "peg 2: count the pegs from the right, and look at its column again", a.But[0].Doubt(o, e))
	began := find.Evidence{Noted: pattern.Place{Phase: pattern.CastingOn, Done: 3}}
	assert.Equal(t, 8, find.Search(o, began.With(find.Clue{Kind: find.Ridges, Count: 3})).Fits[1].Row, "notes never exclude what the fabric shows")
}
