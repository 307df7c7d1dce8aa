package work

import (
	"strings"

	"bypeg/chart"
	"bypeg/pattern/safetext"
	"bypeg/tui/look"
)

// # The last lines
//
// Below the two lines that speak there is one for what is out of the ordinary, then
// the progress and the keys. What needs more words than one line holds covers the
// lines below it for as long as it is said: nothing that the eye rests on moves.

// footLines is how many lines the foot has.
func footLines(l layout) int { return 1 + l.underWords + 2 }

// foot is the last lines of the screen.
func (m Model) foot(l layout) []string {
	lines := make([]string, 0, footLines(l))
	lines = append(lines, "")
	lines = append(lines, blank(l.underWords)...)
	lines = append(lines, m.progress(), m.keysLine())
	copy(lines, m.warning(len(lines)))
	return lines
}

// warning is what is out of the ordinary, in as many lines as there is room for; none
// when all is well.
func (m Model) warning(room int) []string {
	if m.Typing() {
		return []string{m.prompt()}
	}
	if m.saving.err != nil {
		return m.alert(m.trouble(), m.style.Danger)
	}
	if len(m.notices) > 0 {
		lines, _ := m.told(room)
		free := max(len(lines), room-2) // the progress and the keys stay where they can
		return append(lines, m.ahead()...)[:min(free, len(lines)+len(m.ahead()))]
	}
	lines := m.ahead()
	if m.piece.Held != "" {
		room-- // the keys stay
		lines = append(m.looking(room), lines...)
	}
	return lines[:min(len(lines), room)]
}

// ahead is what to know of the row in hand, which lasts until its end: the note on it,
// the zone that comes, what to count.
func (m Model) ahead() []string {
	t := m.piece.Tracker
	var says []string
	tone := chart.Text
	if n, ok := m.note(); ok {
		says = append(says, t.SayNote(n))
	}
	if w, ok := t.ZoneWarning(); ok {
		says = append(says, t.SayWarning(w))
		tone = chart.Zone
	} else if c, ok := t.Check(); ok {
		says = append(says, t.SayCheck(c))
	}
	var lines []string
	indent := strings.Repeat(" ", labels)
	for _, remark := range says {
		for _, line := range look.Wrap(m.words()-labels, remark) {
			lines = append(lines, m.style.Paint(tone, indent+line))
		}
	}
	return lines
}

// alert is urgent: its shape differs too.
func (m Model) alert(remarks []string, paint func(string) string) []string {
	sign := m.style.Alert + " "
	indent := strings.Repeat(" ", safetext.Width(sign))
	lines := look.Wrap(m.words()-len(indent), remarks...)
	for i, line := range lines {
		lines[i] = paint(sign + line)
		sign = indent
	}
	return lines
}

// lookingOnly says why a key does not move the place.
func (m Model) lookingOnly() string { return "looking only: " + m.piece.Held }

// looking says why the piece can't be worked, for as long as that is so.
func (m Model) looking(room int) []string {
	lines := look.Wrap(m.words(), m.lookingOnly())
	if len(lines) > room {
		lines = look.Wrap(m.words(), m.piece.Held)
	}
	lines = lines[:min(room, len(lines))]
	for i, line := range lines {
		lines[i] = m.style.Faint(line)
	}
	return lines
}

// Say tells something until the next key.
func (m Model) Say(notice string) Model { return m.say(notice) }

// say tells something until the next key.
func (m Model) say(notice string) Model {
	m.notices = append([]string{notice}, m.notices...)
	return m
}

// told is as many of the notices as there is room for, and their number.
func (m Model) told(room int) (lines []string, n int) {
	for _, notice := range m.notices {
		more := look.Wrap(m.words(), notice)
		if n > 0 && len(lines)+len(more) > room {
			break
		}
		lines = append(lines, more...)
		n++
	}
	return lines, n
}

// heard drops the notices that were on the screen when a key was pressed.
func (m Model) heard() Model {
	_, n := m.told(footLines(layoutFor(m.height)))
	m.notices = m.notices[n:]
	return m
}
