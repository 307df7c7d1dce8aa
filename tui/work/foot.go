package work

import (
	"fmt"
	"strings"

	"bypeg/chart"
	"bypeg/pattern"
	"bypeg/pattern/safetext"
	"bypeg/tui/look"
)

// # The last lines
//
// Below the two lines that speak there is one for what is out of the ordinary, then
// the progress and the keys. What needs more words than one line holds covers the
// lines below it for as long as it is said: nothing that the eye rests on moves.

// footRoom is how many lines the foot has.
func (m Model) footRoom() int {
	if m.large {
		return footLines(layoutFor(MinHeight))
	}
	return footLines(layoutFor(m.height))
}

func footLines(l layout) int { return 1 + l.underWords + 2 }

// foot is the last lines of the screen.
func (m Model) foot() []string {
	lines := append(blank(m.footRoom()-2), m.progress(), m.keysLine())
	said, _ := m.said(len(lines))
	copy(lines, said)
	return lines
}

// said is what is out of the ordinary, in at most so many lines, and how many of the
// notices are among it. There is none when all is well.
func (m Model) said(room int) (lines []string, notices int) {
	switch {
	case m.Typing():
		return append([]string{m.prompt()}, m.written(room-2)...), 0
	case m.saving.err != nil:
		lines = m.alert(m.trouble(), m.style.Danger)
	case len(m.notices) > 0:
		return m.withNotices(room)
	case m.piece.Held != "":
		lines = m.looking(room - 1)
		lines = append(lines, m.ahead(room-1-len(lines))...)
	default:
		lines = m.ahead(room - 1) // the keys stay
	}
	return lines[:min(len(lines), room)], 0
}

// moreNotices stands behind the last notice that there is room for.
const moreNotices = "  (any key: more)"

// withNotices are the notices below what is to be known of the row, which gives way where
// there is no room for both.
func (m Model) withNotices(room int) (lines []string, n int) {
	first := len(look.Wrap(m.words(), m.notices[0]))
	lines = m.ahead(max(0, room-first))
	told, n := m.told(room - len(lines))
	if n < len(m.notices) && safetext.Width(told[len(told)-1]) <= m.words()-len(moreNotices) {
		told[len(told)-1] += moreNotices
	}
	lines = append(lines, told...)
	return lines[:min(len(lines), room)], n
}

// ahead is what to know of the row in hand, which lasts until its end, in at most so many
// lines: the zone that comes or what to count, and the note on it, which is cut rather
// than that the zone is not told.
func (m Model) ahead(room int) []string {
	t := m.piece.Tracker
	var lines []string
	add := func(tone chart.Tone, most int, remark string) {
		said := look.Wrap(m.words()-labels, remark)
		if most = max(0, min(most, room-len(lines))); len(said) > most {
			said = said[:most]
			if most > 0 {
				last := m.words() - labels - safetext.Width(m.style.More)
				said[most-1] = safetext.Cut(said[most-1], last) + m.style.More
			}
		}
		for _, line := range said {
			lines = append(lines, m.style.Paint(tone, strings.Repeat(" ", labels)+line))
		}
	}
	note, noted := m.note()
	forNote := 0
	if noted {
		forNote = 1
	}
	switch w, ok := t.ZoneWarning(); {
	case t.Place().Phase == pattern.CastingOn && !m.marksInThen():
		add(chart.Text, room-forNote, t.SayMarks())
	case t.Place() == pattern.Start():
		add(chart.Text, room-forNote, m.style.KeyName(m.keys.Mend)+" leads through it step by step")
	case ok:
		add(chart.Zone, room-forNote, t.SayWarning(w))
	default:
		if c, ok := t.Check(); ok {
			add(chart.Text, room-forNote, t.SayCheck(c))
		}
	}
	if noted {
		add(chart.Text, 2, t.SayNote(note))
	}
	add(chart.Text, 2, t.SayLoosely())
	if m.rhythm.options.WrapAhead {
		add(chart.Text, 2, t.SayWrapAhead())
	}
	return lines
}

// marksInThen tells whether THEN has room for the pegs to mark, if there are any.
func (m Model) marksInThen() bool {
	marked := m.piece.Tracker.MarkedPegs()
	return len(marked) == 0 || strings.HasSuffix(m.piece.Tracker.SayThen(m.voice()).What, fmt.Sprintf(" %d", marked[len(marked)-1]))
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

// heard drops the notices that were on the screen when a key was pressed: none, where
// something lay over them.
func (m Model) heard() Model {
	if m.overlay == helpOverlay || m.tooSmall() {
		return m
	}
	_, n := m.said(m.footRoom())
	m.notices = m.notices[n:]
	return m
}
