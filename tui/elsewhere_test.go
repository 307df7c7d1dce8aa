package tui_test

import (
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui"
	"bypeg/tui/save"
)

// elsewhere opens all pieces in other terminals, a desk each, the one worked last first.
func (r *room) elsewhere() (ids []string, others []*tui.Desk) {
	r.t.Helper()
	d := r.desk()
	all, err := save.List(d.Env, d.Root)
	require.NoError(r.t, err)
	for _, s := range all {
		other := r.desk()
		o, err := other.Open(s.ID)
		require.NoError(r.t, err)
		other.Start(o)
		ids, others = append(ids, s.ID), append(others, other)
	}
	return ids, others
}

// said runs a command of which one message comes.
func said(t testing.TB, cmd tea.Cmd) tea.Msg {
	t.Helper()
	require.NotNil(t, cmd)
	msg := cmd()
	if batch, ok := msg.(tea.BatchMsg); ok {
		require.Len(t, batch, 1)
		return said(t, batch[0])
	}
	require.NotNil(t, msg)
	return msg
}

// looking is a program that looks at the first of two pieces that are open elsewhere, and
// the command that will look again.
func looking(t *testing.T) (r *room, others []*tui.Desk, m tea.Model, again tea.Cmd) {
	r = newRoom(t)
	d, _ := r.twoPieces()
	d.Close()
	ids, others := r.elsewhere()
	looker := r.desk()
	o, err := looker.Open(ids[0])
	require.NoError(t, err)
	require.True(t, o.Opening.Held)
	m = tui.NewWork(looker, o, style(), r.clock, chosen())
	m, again = m.Update(said(t, m.Init()))
	return r, others, m, again
}

func TestAWordOfAPieceThatIsNotInHandIsDropped(t *testing.T) {
	t.Run("when the other piece is on its way", func(t *testing.T) {
		t.Parallel()
		_, others, m, again := looking(t)
		others[0].Close()
		free := said(t, again) // this one can be worked
		m, cmd := m.Update(key("tab"))
		other := said(t, cmd) // and then the other one is on the desk
		m, cmd = m.Update(free)
		assert.Nil(t, cmd)
		assert.Contains(t, m.View(), "open in another terminal", "nothing can be worked at the wrong piece")
		m, _ = m.Update(other)
		assert.Contains(t, m.View(), "row 4 of 7")
	})
	t.Run("when the other piece is there", func(t *testing.T) {
		t.Parallel()
		_, _, m, again := looking(t)
		for range 3 {
			var cmd, next tea.Cmd
			m, cmd = m.Update(key("tab"))
			m, next = m.Update(said(t, cmd))
			m, cmd = m.Update(said(t, again))
			assert.Nil(t, cmd, "the watch at the piece before has ended")
			again = next
		}
	})
	t.Run("when the shelf is on its way", func(t *testing.T) {
		t.Parallel()
		r := newRoom(t)
		first, _ := r.work()
		looker := r.desk()
		var m tea.Model = tui.New(looker, style(), r.clock, chosen())
		m, _ = m.Update(said(t, m.Init()))
		m, cmd := m.Update(key("enter"))
		m, again := m.Update(said(t, cmd))
		first.Close()
		free := said(t, again)
		m, cmd = m.Update(key("q"))
		shelf := said(t, cmd) // the piece is laid away
		require.NotPanics(t, func() { m, cmd = m.Update(free) })
		assert.Nil(t, cmd)
		m, _ = m.Update(shelf)
		assert.Contains(t, m.View(), "On the loom")
	})
}

// The other terminal leaves while somebody reads the chart or the keys here: what they
// press next was meant for those, and must not work the piece.
func TestAPieceThatBecomesFreeUnderAnotherScreenTakesNoKeysUntilTheHandRests(t *testing.T) {
	for name, over := range map[string]string{"the chart": "c", "the keys": "?"} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			r := newRoom(t)
			first, _ := r.work()
			second := r.desk()
			o, err := second.Work(r.source())
			require.NoError(t, err)
			p := r.onWork(second, o)
			p.press(over)
			first.Close()
			p.sees("the other terminal left it: you work it now")
			p.press("space", "up")
			p.sees("0 of 8 loops")
			p.rest()
			p.press("space")
			p.sees("1 of 8 loops")
		})
	}
}

func TestAPieceWithoutAnotherIsStillLookedAfter(t *testing.T) {
	t.Parallel()
	r := newRoom(t)
	first, _ := r.work()
	second := r.desk()
	o, err := second.Work(r.source())
	require.NoError(t, err)
	p := r.onWork(second, o)
	p.press("tab")
	p.sees("no other piece is on the loom")
	first.Close()
	p.sees("you work it now")
}

func TestLargePrintStays(t *testing.T) {
	t.Parallel()
	large := func(p *program) bool {
		lines := 0
		for _, line := range strings.Split(p.view(), "\n") {
			if strings.Contains(line, "██") {
				lines++
			}
		}
		return lines >= 5 // a letter has so many
	}
	t.Run("with the other piece, and the first again", func(t *testing.T) {
		_, p := newRoom(t).twoPieces()
		require.False(t, large(p))
		p.press("l")
		require.True(t, large(p))
		for range 2 {
			before := p.view()
			p.press("tab")
			p.until("the other piece", func() bool { return p.view() != before })
			assert.True(t, large(p))
		}
		p.press("l")
		require.False(t, large(p))
	})
	t.Run("when the piece is read anew", func(t *testing.T) {
		r := newRoom(t)
		_, p := r.work()
		p.press("up", "l")
		p.until("all is saved", func() bool { text, _ := r.journal(); return strings.Contains(text, "row=1") })
		r.replaceJournal()
		p.press("space")
		p.sees("not saved and to be worked again: 1 step")
		assert.True(t, large(p))
	})
	t.Run("when the other terminal leaves the piece", func(t *testing.T) {
		r := newRoom(t)
		first, _ := r.work()
		second := r.desk()
		o, err := second.Work(r.source())
		require.NoError(t, err)
		p := r.onWork(second, o)
		p.press("l")
		first.Close()
		p.sees("you work it now")
		assert.True(t, large(p))
	})
}

func TestOnlyThePieceOnTheDeskIsTakenOver(t *testing.T) {
	r := newRoom(t)
	d, _ := r.twoPieces()
	d.Close()
	ids, others := r.elsewhere()
	looker := r.desk()
	first, err := looker.Open(ids[0])
	require.NoError(t, err)
	second, err := looker.Open(ids[1])
	require.NoError(t, err)
	others[1].Close()
	now, mine, err := looker.TakeOver(first)
	require.NoError(t, err)
	assert.Nil(t, now)
	assert.False(t, mine)
	_, mine, err = looker.TakeOver(second)
	require.NoError(t, err)
	assert.True(t, mine)
}
