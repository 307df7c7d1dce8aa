package tui_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/mend"
	"bypeg/tui"
	"bypeg/tui/save"
	"bypeg/tui/track"
)

// kept is a piece on the desk with a hand that puts every event down.
type kept struct {
	t *testing.T
	d *tui.Desk
	p track.Piece
}

func (k *kept) take(o *tui.Opened, err error) {
	k.t.Helper()
	require.NoError(k.t, err)
	k.p = k.d.Start(o)
	go func(s track.Saver) {
		for ok := true; ok; _, ok = s.Next() {
		}
	}(k.p.Saver)
}

func (k *kept) put(e track.Event, ok bool) {
	k.t.Helper()
	require.True(k.t, ok)
	k.p.Saver.Put(e)
}

func (k *kept) row(n int) { k.put(k.p.Tracker.Jump(pattern.Place{Phase: pattern.Working, Row: n})) }

func (k *kept) line() {
	k.t.Helper()
	s, ok := k.p.Tracker.SafeHere(mend.Lifeline)
	k.put(k.p.Tracker.Secure(s), ok)
}

func (k *kept) takeBack(row int) {
	m := track.BackTo(row)
	k.put(k.p.Tracker.Mend(&m), true)
	k.put(k.p.Tracker.Complete(pattern.Place{Phase: pattern.Working, Row: row}))
}

func keptAt(t *testing.T) (*room, *kept) {
	r := longRoom(t)
	k := &kept{t: t, d: r.desk()}
	k.take(k.d.Work(r.source()))
	return r, k
}

var nineRows = strings.Replace(longMat, "times = 3", "times = 2", 1)

// A line that went with its row is told of again once the changed file is taken over.
func TestALineThatWasPulledStaysOutWhenAFileIsTakenOver(t *testing.T) {
	r, k := keptAt(t)
	k.row(4)
	k.line()
	k.row(6)
	k.takeBack(2)
	require.Empty(t, k.p.Tracker.Safe())
	k.d.Close()
	r.files["mat.toml"] = nineRows
	k.d = r.desk()
	o, err := k.d.Work(r.source())
	require.NoError(t, err)
	k.take(k.d.Adopt(o))
	assert.Empty(t, k.p.Tracker.Safe(), "live, right behind the change")
	k.d.Close()
	k.d = r.desk()
	k.take(k.d.Work(r.source()))
	assert.Empty(t, k.p.Tracker.Safe(), "after a restart")
	f, _ := k.d.Close()
	assert.NotContains(t, strings.Join(f.Back, " "), "lifeline")
}

// The same after a plan of the piece's own.
func TestALineThatWasPulledStaysOutOfAPlan(t *testing.T) {
	_, k := keptAt(t)
	k.row(4)
	k.line() // in row 3
	k.row(6)
	k.takeBack(2)
	require.Empty(t, k.p.Tracker.Safe())
	k.row(5) // worked on, short of where rows were taken back from
	k.take(k.d.GoOn([]byte(nineRows), "planned anew"))
	assert.Empty(t, k.p.Tracker.Safe())
}

// A line that was taken off is there again after a plan.
func TestALineThatWasTakenOffStaysOutOfAPlan(t *testing.T) {
	_, k := keptAt(t)
	k.row(4)
	k.line() // in row 3
	k.put(k.p.Tracker.Do(track.OnePeg))
	k.line() // and off again
	require.Empty(t, k.p.Tracker.Safe())
	k.put(k.p.Tracker.Do(track.PegBack))
	k.take(k.d.GoOn([]byte(nineRows), "planned anew"))
	assert.Empty(t, k.p.Tracker.Safe())
}

// A line that lies in a worked row is lost by a plan: put down within row 4, one peg back.
func TestALineThatLiesInTheFabricOutlivesAPlan(t *testing.T) {
	_, k := keptAt(t)
	k.row(4)
	k.put(k.p.Tracker.Do(track.OnePeg))
	k.line() // in row 3
	k.put(k.p.Tracker.Do(track.PegBack))
	require.Len(t, k.p.Tracker.Safe(), 1)
	k.take(k.d.GoOn([]byte(nineRows), "planned anew"))
	assert.Len(t, k.p.Tracker.Safe(), 1)
}

// Which place is the right one is asked of a damaged piece: the very place where a repair is
// under way keeps it.
func TestAnAnswerAtThePlaceOfARepairKeepsIt(t *testing.T) {
	for _, how := range []string{"line damaged", "copy gone and line damaged", "last line cut"} {
		r, k := keptAt(t)
		k.row(6)
		m := track.BackTo(3)
		k.put(k.p.Tracker.Mend(&m), true)
		m.Step = 4
		k.put(k.p.Tracker.Mend(&m), true)
		k.p.Saver.Note(k.p.Tracker.Place(), "the cat")
		k.d.Close()
		text, path := r.journal()
		lines := strings.SplitAfter(strings.TrimSpace(text), "\n")
		last := lines[len(lines)-1]
		switch how {
		case "last line cut":
			text = strings.Join(lines[:len(lines)-1], "")
		default:
			text = strings.Join(lines[:len(lines)-1], "") + strings.Replace(last, "cat", "cot", 1) + "\n"
		}
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		if strings.HasPrefix(how, "copy gone") {
			require.NoError(t, os.Remove(filepath.Join(filepath.Dir(path), "place.toml")))
		}
		k.d = r.desk()
		o, err := k.d.Work(r.source())
		require.NoError(t, err)
		if o.Opening.Question == nil {
			require.Equal(t, "last line cut", how, "it asks")
			k.take(o, nil)
			assert.NotNil(t, k.p.Tracker.Mending(), how)
			k.d.Close()
			continue
		}
		o, err = k.d.Settle(o.Opening.Question.Choices[0])
		k.take(o, err)
		assert.NotNil(t, k.p.Tracker.Mending(), how+": the repair is still under way at the very place")
		k.d.Close()
	}
}

// What a journal says of a repair that the pattern can't have is no repair.
func TestARepairOutsideThePatternIsNone(t *testing.T) {
	for _, text := range []string{"column 8 from row 2, step 1", "column -1 from row 2, step 1", "column 3 from row 99, step 1", "back to row 12, step 0", "unravel it"} {
		r, k := keptAt(t)
		k.row(4)
		k.d.Close()
		env := save.System("pid 4711")
		all, err := save.List(env, r.root)
		require.NoError(t, err)
		piece, _, err := save.Open(env, r.root, all[0].ID)
		require.NoError(t, err)
		at, of := piece.Saved()
		require.NoError(t, piece.Append([]save.Step{{Kind: save.Mending, Place: at, Of: of, Text: text}}))
		require.NoError(t, piece.Close())
		k.d = r.desk()
		k.take(k.d.Work(r.source()))
		assert.Nil(t, k.p.Tracker.Mending(), text)
		k.d.Close()
	}
}
