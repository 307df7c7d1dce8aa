package tui_test

import (
	"io"
	"sync/atomic"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui"
)

// counted is a model whose calls are counted.
type counted struct {
	tea.Model
	updates, views *atomic.Int64
}

func (c counted) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	c.updates.Add(1)
	next, cmd := c.Model.Update(msg)
	c.Model = next
	return c, cmd
}

func (c counted) View() string {
	c.views.Add(1)
	return c.Model.View()
}

// TestNothingIsDoneWhileNobodyPressesAKey runs the real event loop: after a step is saved
// the model is not called for a while. For a whole minute the built program is held to that
// in tui/e2e.
func TestNothingIsDoneWhileNobodyPressesAKey(t *testing.T) {
	if testing.Short() {
		t.Skip("it waits")
	}
	t.Parallel()
	r := newRoom(t)
	d := r.desk()
	o, err := d.Work(r.source())
	require.NoError(t, err)
	c := counted{tui.NewWork(d, o, style(), r.clock, chosen()), &atomic.Int64{}, &atomic.Int64{}}
	in, keys := io.Pipe()
	p := tea.NewProgram(c, tea.WithInput(in), tea.WithOutput(io.Discard), tea.WithoutSignalHandler())
	ended := make(chan error, 1)
	go func() { _, err := p.Run(); ended <- err }()
	_, err = keys.Write([]byte("  ")) // two pegs
	require.NoError(t, err)
	time.Sleep(2 * time.Second)
	updates, views := c.updates.Load(), c.views.Load()
	require.Positive(t, updates)
	require.Positive(t, views)
	time.Sleep(15 * time.Second)
	assert.Equal(t, updates, c.updates.Load(), "updates")
	assert.Equal(t, views, c.views.Load(), "views")
	p.Quit()
	require.NoError(t, <-ended)
	_ = keys.Close()
	d.Close()
}
