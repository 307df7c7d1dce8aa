package work

import (
	"fmt"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"bypeg/tui/save"
	"bypeg/tui/track"
)

// lateAfter is how long a change may be on its way to the disk before words say so.
const lateAfter = 150 * time.Millisecond

// saving is what is known of the way to the disk: how many changes were put there and
// how many are safe.
type saving struct {
	put     int
	through int
	slow    bool  // words are due: a change has been on its way for long
	err     error // why changes are not saved
	gone    bool  // the piece's folder is no longer there
}

// savedMsg brings the disk's word, and from whom: a word that was on its way when
// another piece was opened must not count for that one.
type savedMsg struct {
	from track.Saver
	track.Saved
}

// lateMsg comes some time after the change of that number was put.
type lateMsg int

// pending tells whether anything shown is not on the disk yet.
func (s saving) pending() bool { return s.through < s.put }

func (s saving) hear(w track.Saved) saving {
	s.through = max(s.through, w.Through)
	s.err = w.Err
	s.gone = s.gone && w.Err != nil
	s.slow = s.slow && s.pending()
	return s
}

func (s saving) late(n int) saving {
	s.slow = s.slow || s.through < n
	return s
}

// listen waits for the next word from the disk. A panic on the way becomes a word
// too: the terminal must come back.
func (m Model) listen() tea.Cmd {
	if m.piece.Saver == nil {
		return nil
	}
	saver := m.piece.Saver
	return func() (msg tea.Msg) {
		defer func() {
			if r := recover(); r != nil {
				msg = savedMsg{saver, track.Saved{Err: fmt.Errorf("saving stopped: %v", r)}}
			}
		}()
		if w, ok := saver.Next(); ok {
			return savedMsg{saver, w}
		}
		return nil
	}
}

// Saving tells whether changes are on their way to the disk, and nothing stands in it.
func (m Model) Saving() bool { return m.saving.err == nil && m.saving.pending() }

// Unsaved tells whether changes could not be saved.
func (m Model) Unsaved() bool { return m.saving.err != nil && m.saving.pending() }

// Trouble says why changes are not saved, and how many would be lost.
func (m Model) Trouble() []string {
	if !m.Unsaved() {
		return []string{"all is saved by now"}
	}
	why, saved := m.notSaved()
	return []string{why, saved, fmt.Sprintf("%s would be lost.", track.Plural(m.saving.put-m.saving.through, "step"))}
}

// FolderGone says that the folder with all that was saved is no longer there.
func (m Model) FolderGone() Model {
	m.saving.gone = m.saving.err != nil
	return m
}

// trouble is told on the screen for as long as changes are not saved.
func (m Model) trouble() []string {
	why, saved := m.notSaved()
	return []string{why, saved, m.style.KeyName(m.keys.Retry) + " tries again"}
}

// notSaved says why changes are not saved, and which place is.
func (m Model) notSaved() (why, saved string) {
	return save.SayNotSaved(m.saving.err, m.piece.Tracker.Order(), m.saving.gone)
}

// pressRetry tries again, or says that there is nothing to try.
func (m Model) pressRetry() Model {
	if !m.Unsaved() {
		return m.say("all is saved")
	}
	m.Retry()
	return m
}

// Retry tries again to save what could not be saved.
func (m Model) Retry() {
	if m.Unsaved() {
		m.piece.Saver.Retry()
	}
}
