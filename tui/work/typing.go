package work

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"bypeg/pattern"
	"bypeg/pattern/safetext"
	"bypeg/tui/look"
	"bypeg/tui/track"
)

// noteLimit is how many letters a note may have.
const noteLimit = 500

// ask lays a field of text over the line of what is out of the ordinary.
func (m Model) ask(what overlay) Model {
	switch {
	case m.tooSmall():
		return m
	case m.piece.Saver == nil:
		return m.say(m.lookingOnly())
	}
	m.overlay = what
	m.input.Reset()
	m.input.CharLimit = noteLimit
	switch what {
	case goToOverlay:
		m.input.CharLimit = digits(m.piece.Tracker.Order().Pattern.Grid.Rows())
	case noteOverlay:
		if n, ok := m.note(); ok && n.Row == m.piece.Tracker.RowInHand() {
			m.input.SetValue(n.Text)
		}
	}
	m.input.Focus()
	return m.fitted()
}

// fitted gives the field the room that the prompt leaves.
func (m Model) fitted() Model {
	m.input.Width = max(1, m.words()-safetext.Width(m.question())-1)
	m.input.SetCursor(m.input.Position()) // so that it is seen
	return m
}

// question is what the field asks for.
func (m Model) question() string {
	switch m.overlay {
	case goToOverlay:
		return "go to " + m.rowWord() + ": "
	case noteOverlay:
		return "note on " + m.hereSays() + ": "
	}
	return "on purpose: "
}

// hereSays names the row in hand, or the part of the work that has none.
func (m Model) hereSays() string {
	at := m.piece.Tracker.Place()
	switch at.Phase {
	case pattern.Working:
		return fmt.Sprintf("%s %d", m.rowWord(), at.Row)
	case pattern.CastingOn:
		return "the cast-on"
	}
	return "the bind-off"
}

// typeInto takes a key while the field is there.
func (m Model) typeInto(k tea.KeyMsg) (Model, tea.Cmd) {
	var became look.Typed
	m.refused = ""
	if m.tooSmall() {
		return m, nil // nobody types what is not seen
	}
	m.input, became = look.TypeInto(m.input, k, m.overlay == goToOverlay)
	switch became {
	case look.Dropped:
		m.overlay = noOverlay
	case look.Kept:
		return m.typed(strings.TrimSpace(m.input.Value()))
	}
	return m, nil
}

// TypeOn goes on with the field of text as it is on another screen of the same piece,
// which was opened anew meanwhile. Where that can't be worked there is nothing to type.
func (m Model) TypeOn(was Model) Model {
	if m.piece.Saver != nil && was.Typing() {
		m.overlay, m.input = was.overlay, was.input
	}
	return m
}

// typed takes what was typed.
func (m Model) typed(text string) (Model, tea.Cmd) {
	t := m.piece.Tracker
	switch m.overlay {
	case goToOverlay:
		return m.goTo(text)
	case noteOverlay:
		n := track.Note{Row: t.RowInHand(), Text: text}
		m.overlay = noOverlay
		if old, ok := m.note(); text == "" && !(ok && old.Row == n.Row) {
			return m, nil // nothing was there, nothing is
		}
		m.piece.Notes = track.Annotate(m.piece.Notes, n)
		m.piece.Saver.Note(t.Place(), text)
		return m.put()
	}
	m.overlay = noOverlay
	if text == "" {
		return m, nil
	}
	m.piece.Purpose = append(slices.Clone(m.piece.Purpose), text)
	m.piece.Saver.Purpose(t.Place(), text)
	m, cmd := m.put()
	return m.say("noted, and told whenever the piece is opened: " + text), cmd
}

// goTo jumps to the start of the row that was typed. Where there is no such row it
// says which there are and goes on asking.
func (m Model) goTo(typed string) (Model, tea.Cmd) {
	rows := m.piece.Tracker.Order().Pattern.Grid.Rows()
	row, err := strconv.Atoi(typed)
	if err != nil || row < 1 || row > rows {
		m.input.Reset()
		m.refused = fmt.Sprintf("there are %ss 1 to %d", m.rowWord(), rows)
		return m, nil
	}
	m.overlay = noOverlay
	repair := m.piece.Tracker.Mending()
	if repair != nil && m.asked != row {
		m.asked = row
		return m.say(fmt.Sprintf("%s; %s %d again goes there without it",
			sayMending(m.piece.Tracker, m.style.KeyName(m.keys.Mend)), m.style.KeyName(m.keys.GoTo), row)), nil
	}
	m, cmd := m.Jump(pattern.Place{Phase: pattern.Working, Row: row})
	return m.sayLeft(repair), cmd
}

// Jump goes to a place that the pattern holds; undo leads back.
func (m Model) Jump(to pattern.Place) (Model, tea.Cmd) {
	return m.jumped(m.piece.Tracker.Jump(to))
}

// Complete goes to where the work stands once the repair under way is done.
func (m Model) Complete(to pattern.Place) (Model, tea.Cmd) {
	return m.jumped(m.piece.Tracker.Complete(to))
}

func (m Model) jumped(event track.Event, moved bool) (Model, tea.Cmd) {
	if !moved || m.piece.Saver == nil {
		return m, nil
	}
	m.asked = 0
	m, cmd := m.save(event)
	return m.afterMove(event), cmd
}

// note is the note for the row in hand.
func (m Model) note() (track.Note, bool) {
	t := m.piece.Tracker
	return track.NoteAt(t.Order().Pattern, m.piece.Notes, t.RowInHand())
}

func sayPurpose(text string) string { return "on purpose: " + text }

// written are the changes on purpose that were written down before, while another is
// asked for.
func (m Model) written(room int) []string {
	if m.overlay != purposeOverlay {
		return nil
	}
	var lines []string
	for _, text := range m.piece.Purpose {
		for _, line := range look.Wrap(m.words()-labels, text) {
			lines = append(lines, m.style.Faint(strings.Repeat(" ", labels)+line))
		}
	}
	return lines[:max(0, min(len(lines), room))]
}

// prompt is the field with what it asks for, and a remark where there is one.
func (m Model) prompt() string {
	line := m.question() + m.input.View()
	if m.refused == "" {
		return line
	}
	room := m.words() - safetext.Width(m.question()) - m.input.CharLimit - 3
	line = m.question() + safetext.Pad(m.input.Value(), m.input.CharLimit)
	return line + "  " + m.style.Faint(safetext.Cut(m.refused, max(0, room)))
}
