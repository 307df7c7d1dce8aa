package work

import (
	"fmt"
	"strings"

	"bypeg/chart"
	"bypeg/pattern"
	"bypeg/pattern/safetext"
	"bypeg/tui/look"
)

// # Large print
//
// What the hands do fills the screen, to be read from the other side of the table: the
// stitch and how many, and where a row begins the row and the way it runs. Around it
// stands in common letters what the small screen says too. The peg in hand is in
// brackets here as there, square when it is saved and round until then.

// largeView draws the screen in large print.
func (m Model) largeView() string {
	body := append([]string{m.pegLine(), m.then()}, m.foot()...)
	room := m.height - 1 - len(body)
	big := m.big(room)
	over := min(2, max(0, (room-len(big))/2))
	lines := append([]string{m.header()}, blank(over)...)
	for _, line := range big {
		lines = append(lines, m.style.Strong(line))
	}
	lines = append(lines, blank(min(1, room-over-len(big)))...)
	lines = append(lines, body...)
	return strings.Join(lines, "\n")
}

// big is what is set in large letters: as large as it can be, on one line or on two, and
// in common letters where even that has no room.
func (m Model) big(room int) []string {
	words := m.bigWords()
	whole := strings.Join(words, " ")
	dot, sizes := "█", scales
	if m.style.ASCII {
		dot, sizes = "#", scales[:len(scales)-1]
	}
	for _, s := range sizes {
		for _, texts := range [][]string{{whole}, words} {
			lines := s.set(texts, dot, m.width)
			if lines != nil && len(lines) <= room {
				return lines
			}
		}
	}
	return []string{safetext.Cut(strings.ToUpper(whole), m.width)}
}

// set sets texts one below the other, or returns nil where one is too wide.
func (s scale) set(texts []string, dot string, width int) []string {
	var lines []string
	for i, text := range texts {
		if s.width(text) > width {
			return nil
		}
		if i > 0 {
			lines = append(lines, "")
		}
		lines = append(lines, s.draw(text, dot)...)
	}
	return lines
}

// bigWords is what to do in as few words as can be, in two parts.
func (m Model) bigWords() []string {
	t := m.piece.Tracker
	switch at := t.Place(); {
	case at.Phase == pattern.Finishing:
		return []string{"off", "the loom"}
	case at.Phase == pattern.Working && at.Done == 0:
		arrow := "<"
		if t.Direction() == pattern.ToRight {
			arrow = ">"
		}
		return []string{m.rowWord(), fmt.Sprintf("%d %s", at.Row, arrow)}
	}
	if loops, ok := t.Loops(); ok {
		if t.Place().Phase == pattern.BindingOff {
			return []string{"bind off", fmt.Sprint(loops.Count)}
		}
		return []string{"cast on", fmt.Sprint(loops.Count)}
	}
	now, _ := t.Now()
	if cross, _, ok := now.Stitch.Cross(); ok {
		return []string{"cross", fmt.Sprintf("%d / %d", cross.Front, cross.Back)}
	}
	return []string{inShort(now.Stitch), fmt.Sprint(now.Count)}
}

// inShort is a stitch's name where that is short, else as rows are written.
func inShort(s pattern.Stitch) string {
	if name := s.String(); len(name) <= len("knit")+2 {
		return name
	}
	return strings.ReplaceAll(s.Short(), ".", " ")
}

// pegLine says where: the peg in hand in its brackets, and how far the run goes.
func (m Model) pegLine() string {
	t := m.piece.Tracker
	part, ok := t.Now()
	if !ok {
		if part, ok = t.Loops(); !ok {
			return m.now()
		}
	}
	open, closed := "[", "]"
	if m.saving.pending() {
		open, closed = "(", ")"
	}
	says := fmt.Sprintf("peg %s%d%s", open, part.First, closed)
	if part.Count > 1 {
		says += fmt.Sprintf(" to %d", part.Last)
	}
	if yarn := t.SayYarn(part); yarn != "" {
		says += " in " + yarn
	}
	c := t.InRow()
	remark := fmt.Sprintf("%d of %d", c.Done, c.Of)
	if turn, turned := t.Turn(); turned {
		says, remark = fmt.Sprintf("%s%d%s", open, part.First, closed), ""
		turns := t.SayTurn(turn)
		if safetext.Width(turns)+safetext.Width(says)+2 > m.words() {
			turns = t.SayTurnShort(turn)
		}
		says = safetext.Pad(says, labels-1) + " " + turns
	} else {
		says = strings.Repeat(" ", labels) + says
	}
	left, right := look.Apart(says, remark, m.words())
	return m.style.Paint(chart.InHand, left) + m.style.Faint(right)
}
