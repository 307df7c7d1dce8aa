package tui_test

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui"
)

const brokenConfig = "the config file has 2 faults: bypeg config tells"

func TestANoticeIsToldOnTheFirstScreen(t *testing.T) {
	o := chosen()
	o.Notice = brokenConfig
	t.Run("on the shelf", func(t *testing.T) {
		r := newRoom(t)
		p := r.start(tui.New(r.desk(), style(), r.clock, o))
		p.sees(brokenConfig)
		p.press("enter")
		p.seesNot(brokenConfig)
	})
	t.Run("on the work screen, until the next key", func(t *testing.T) {
		r := newRoom(t)
		d := r.desk()
		opened, err := d.Work(r.source())
		require.NoError(t, err)
		p := r.start(tui.NewWork(d, opened, style(), r.clock, o))
		p.sees(brokenConfig)
		p.press("space")
		p.seesNot(brokenConfig)
		assert.NotContains(t, opened.Opening.Notices, brokenConfig, "what was opened is not touched")
	})
}

func TestScreensHaveTheKeysOfTheirMaker(t *testing.T) {
	r := newRoom(t)
	o := chosen()
	o.Keys.Peg.SetKeys("x")
	o.Shelf.Choose.SetKeys("y")
	p := r.start(tui.New(r.desk(), style(), r.clock, o))
	p.press("enter")
	p.sees("Begin something new")
	p.press("y")
	p.sees("casting on")
	before := p.view()
	p.press("space")
	assert.Equal(t, before, p.view(), "space is no key any more")
	p.press("x")
	assert.NotEqual(t, before, p.view())
}

func TestASecondRowAtOnceIsAskedAboutWhereThatIsWished(t *testing.T) {
	r := newRoom(t)
	o := chosen()
	o.DoublePress = time.Second
	d := r.desk()
	opened, err := d.Work(r.source())
	require.NoError(t, err)
	p := r.start(tui.NewWork(d, opened, style(), r.clock, o))
	p.press("up", "up", "up") // the first ends the cast-on; the room's clock stands still
	p.sees("a second row so soon?")
}

func TestTheBellRingsWhereABorderComes(t *testing.T) {
	r := newRoom(t)
	o := chosen()
	rung := make(chan struct{}, 100)
	o.Bell = func() { rung <- struct{}{} }
	d := r.desk()
	opened, err := d.Work(r.source())
	require.NoError(t, err)
	p := r.start(tui.NewWork(d, opened, style(), r.clock, o))
	p.press("up", "up", "up", "up")
	p.until("the bell", func() bool { return len(rung) > 0 })
}

func TestTheMouseNeverMovesThePlace(t *testing.T) {
	_, p := newRoom(t).work()
	before := p.view()
	for _, button := range []tea.MouseButton{tea.MouseButtonWheelUp, tea.MouseButtonWheelDown, tea.MouseButtonLeft} {
		p.give(tea.MouseMsg{Button: button, Action: tea.MouseActionPress})
		p.settle()
	}
	assert.Equal(t, before, p.view())
}

func TestTheWheelMovesInListsAndInTheChart(t *testing.T) {
	roll := func(p *program, button tea.MouseButton) {
		p.give(tea.MouseMsg{Button: button, Action: tea.MouseActionPress})
		p.settle()
	}
	t.Run("on the shelf", func(t *testing.T) {
		r := newRoom(t)
		d := r.desk()
		for range 2 {
			_, err := d.Begin(r.source())
			require.NoError(t, err)
		}
		p := r.onShelf(d)
		before := p.view()
		roll(p, tea.MouseButtonWheelDown)
		assert.NotEqual(t, before, p.view())
		roll(p, tea.MouseButtonWheelUp)
		assert.Equal(t, before, p.view())
	})
	t.Run("in the chart", func(t *testing.T) {
		_, p := newRoom(t).work()
		p.give(tea.WindowSizeMsg{Width: 40, Height: 9})
		p.press("c")
		before := p.view()
		roll(p, tea.MouseButtonWheelUp)
		assert.NotEqual(t, before, p.view())
		p.press("q")
		p.give(tea.WindowSizeMsg{Width: 80, Height: 24})
		p.sees("cast on")
	})
}

func TestTheWheelTurnsNothingThatIsNotLookedAt(t *testing.T) {
	roll := tea.MouseMsg{Button: tea.MouseButtonWheelDown, Action: tea.MouseActionPress}
	shelf := func(t *testing.T) (*room, *tui.Desk, *program) {
		r := newRoom(t)
		d := r.desk()
		for range 2 {
			_, err := d.Begin(r.source())
			require.NoError(t, err)
			r.now = r.now.Add(time.Hour)
		}
		d.Close()
		return r, d, r.onShelf(d)
	}
	t.Run("while another screen is on its way", func(t *testing.T) {
		_, _, p := shelf(t)
		p.model, _ = p.model.Update(key("enter"))
		before := p.view()
		p.model, _ = p.model.Update(roll)
		assert.Equal(t, before, p.view())
	})
	t.Run("when the shelf has come unasked, until the hand rests", func(t *testing.T) {
		_, d, p := shelf(t)
		p.press("enter")
		p.sees("casting on")
		p.press("space")
		p.sees("[")
		found, err := filepath.Glob(filepath.Join(d.Root, "*", "journal-0001.txt"))
		require.NoError(t, err)
		for _, path := range found { // nothing can be read of them any more
			require.NoError(t, os.Remove(path))
			require.NoError(t, os.Mkdir(path, 0o700))
		}
		p.press("space")
		p.sees("Begin something new")
		before := p.view()
		p.give(roll)
		assert.Equal(t, before, p.view())
		p.rest()
		p.give(roll)
		assert.NotEqual(t, before, p.view())
	})
	t.Run("in the chart, while sleep waits for the disk", func(t *testing.T) {
		_, p := newRoom(t).work()
		p.give(tea.WindowSizeMsg{Width: 40, Height: 9})
		p.press("c")
		before := p.view()
		p.press("q")
		p.give(tea.WindowSizeMsg{Width: 80, Height: 24})
		p.burst("space")
		p.give(tea.WindowSizeMsg{Width: 40, Height: 9})
		p.burst("c", "ctrl+z")
		p.give(tea.MouseMsg{Button: tea.MouseButtonWheelUp, Action: tea.MouseActionPress})
		assert.Equal(t, before, p.view())
	})
}
