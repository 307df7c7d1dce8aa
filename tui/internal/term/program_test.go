package term

import (
	"io"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/term/testdata/tally"
)

func newTally() tally.Model {
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(termenv.TrueColor)
	return tally.Model{Renderer: r}
}

func TestProgramIsToldItsSizeFirst(t *testing.T) {
	p := InProcess(t, newTally(), 40, 10)
	p.WaitText(t, "count <0>\nlast \"\"\nsize 40x10")
	x, y, ok := p.Find("<0>")
	require.True(t, ok)
	assert.True(t, p.Style(x, y).Reverse)
	assert.False(t, p.Style(0, 0).Reverse)
}

func TestTypedTextArrivesAsOneBurstAndKeysOneByOne(t *testing.T) {
	p := InProcess(t, newTally(), 40, 10)
	p.Type(t, "jjj")
	p.WaitText(t, "count <1>\nlast \"jjj\"")
	p.Keys(t, "j", "j", Up, Space, Backspace)
	p.WaitText(t, "count <6>\nlast \"backspace\"")
	p.Type(t, Pasted("ab"))
	p.WaitText(t, "count <7>\nlast \"[ab]\"")
}

func TestResizeReachesTheProgramAndTheScreen(t *testing.T) {
	p := InProcess(t, newTally(), 40, 10)
	p.Resize(t, 20, 5)
	p.WaitText(t, "size 20x5")
	w, h := p.Size()
	assert.Equal(t, [2]int{20, 5}, [2]int{w, h})
	p.Resize(t, 0, 0)
	p.WaitText(t, "size 0x0")
}

func TestAllNamedKeysAreKnownToTheProgram(t *testing.T) {
	p := InProcess(t, newTally(), 40, 10)
	for _, c := range []struct {
		key  Key
		name string
	}{
		{Space, " "}, {Enter, "enter"}, {Tab, "tab"}, {Esc, "esc"}, {Backspace, "backspace"},
		{Up, "up"}, {Down, "down"}, {Right, "right"}, {Left, "left"}, {Home, "home"}, {End, "end"},
		{PageUp, "pgup"}, {PageDown, "pgdown"}, {CtrlC, "ctrl+c"}, {CtrlZ, "ctrl+z"},
	} {
		p.Keys(t, c.key)
		p.WaitText(t, `last "`+c.name+`"`)
	}
}

func TestTheEndGivesTheLastModel(t *testing.T) {
	t.Run("when the program quits by itself", func(t *testing.T) {
		p := InProcess(t, newTally(), 40, 10, tea.WithAltScreen())
		p.WaitFor(t, "the alternate screen", (*Screen).AltScreen)
		p.Keys(t, "j", "q")
		m, err := p.Wait(t)
		require.NoError(t, err)
		assert.Equal(t, 1, m.(tally.Model).Count)
		assert.False(t, p.AltScreen())
		assert.True(t, p.CursorVisible())
	})
	t.Run("when it is told to quit", func(t *testing.T) {
		p := InProcess(t, newTally(), 40, 10)
		p.Keys(t, "j", "j")
		m, err := p.Quit(t)
		require.NoError(t, err)
		assert.Equal(t, 2, m.(tally.Model).Count)
	})
}

func TestKeysTypedAfterTheEndFailTheTest(t *testing.T) {
	p := InProcess(t, newTally(), 40, 10)
	_, err := p.Quit(t)
	require.NoError(t, err)
	got := failure(t, func(t testing.TB) { p.Type(t, "j") })
	assert.Contains(t, got, `waiting for the program to read "j": io: read/write on closed pipe`)
	assert.Contains(t, got, "the program has ended, error: <nil>")
}

func TestAnEndThatDoesNotComeFailsTheTest(t *testing.T) {
	p := InProcess(t, newTally(), 40, 10)
	p.patience = 10 * time.Millisecond
	got := failure(t, func(t testing.TB) { p.Wait(t) })
	assert.Contains(t, got, "waited 10ms for the program to end\n+---")
	assert.Contains(t, got, "the program is still running")
}

func TestKeysAreNotOvertaken(t *testing.T) {
	for range 50 {
		p := InProcess(t, newTally(), 40, 10)
		p.Keys(t, "j", "j", "j")
		m, err := p.Quit(t)
		require.NoError(t, err)
		require.Equal(t, 3, m.(tally.Model).Count)
	}
}

func TestAStuckProgramFailsTheTest(t *testing.T) {
	model := newTally()
	model.Release = make(chan struct{})
	p := InProcess(t, model, 40, 10)
	p.patience = 10 * time.Millisecond
	p.Keys(t, "#")
	got := failure(t, func(t testing.TB) { p.Keys(t, "j", "j") })
	assert.Contains(t, got, `waited 10ms for the program to read "j"`)
	p.patience = deadline
	close(model.Release)
}
