package work

import (
	"fmt"
	"strings"

	"bypeg/chart"
	"bypeg/pattern"
	"bypeg/pattern/safetext"
	"bypeg/tui/look"
)

// The least size at which the work screen can be used.
const (
	MinWidth  = 40
	MinHeight = 12
)

// wideHeader is the width from which the header spells everything out.
const wideHeader = 60

// View draws the screen in at most its height of lines, none wider than its width.
func (m Model) View() string {
	if m.tooSmall() {
		return look.TooSmall(MinWidth, MinHeight, m.width)
	}
	if m.overlay == helpOverlay {
		view, _ := m.helpView()
		return view
	}
	if m.large {
		return m.largeView()
	}
	l := layoutFor(m.height)
	lines := []string{m.header()}
	lines = append(lines, blank(l.underHeader)...)
	lines = append(lines, m.fabric(l)...)
	lines = append(lines, blank(l.overWords)...)
	lines = append(lines, m.now(), m.then())
	lines = append(lines, m.foot()...)
	return strings.Join(lines, "\n")
}

func (m Model) tooSmall() bool { return m.width < MinWidth || m.height < MinHeight }

// words is how wide the lines of words may be: no wider than the eye travels, however
// wide the screen is.
func (m Model) words() int { return min(m.width, 88) }

func blank(n int) []string { return make([]string, n) }

// layout is how many lines each part of the screen has.
type layout struct {
	underHeader, overWords, underWords int // blank lines
	underRow, ruler                    int // markers under the row being worked, numbers of the pegs
	coming, done                       int // rows above and below the one being worked
}

// layoutFor shares the height out: first what the hands need, then a larger piece of
// the fabric, more of it done than to come.
func layoutFor(height int) layout {
	l := layout{coming: 1, done: 2}
	left := height - 11 // header, markers, the row, a coming and two done, three words, progress, keys
	for _, part := range []*int{&l.overWords, &l.ruler, &l.underRow, &l.underHeader, &l.underWords} {
		if left > 0 {
			*part = 1
			left--
		}
	}
	l.coming += left / 3
	l.done += left - left/3
	return l
}

// progress shows how far the whole work is, and whether it is safe.
func (m Model) progress() string {
	c := m.piece.Tracker.RowProgress()
	width := min(30, m.width/3)
	says := fmt.Sprintf("%4d%%", c.Percent())
	switch {
	case m.saving.err != nil:
		says += "  not saved"
	case m.saving.slow && m.saving.pending():
		says += "  saving"
	case m.rhythm.left != "" && m.width < wideHeader:
		says += "  " + m.rhythm.left + " left"
	case m.rhythm.left != "":
		says += "  about " + m.rhythm.left + " left at your pace"
	}
	filled, rest := m.style.Bar(c.Done, c.Of, width)
	return m.style.Paint(chart.Border, filled) + m.style.Faint(rest) + safetext.Cut(says, m.width-width)
}

// keysLine names the keys that are used most, as many as fit.
func (m Model) keysLine() string {
	if m.Typing() {
		return m.style.Faint(map[bool]string{true: "enter goes there  esc stays", false: "enter keeps it  esc leaves it"}[m.overlay == goToOverlay])
	}
	most, always := m.keys.Line()
	if m.piece.Tracker.Place().Phase == pattern.Finishing { // no peg is left to work
		k := m.keys
		most = []look.Hint{{Key: k.Mend, Word: "finish it"}, {Key: k.Undo, Word: "undo"}, {Key: k.Note, Word: "note"}, {Key: k.Chart, Word: "chart"}}
	}
	return m.style.Faint(m.style.HintLine(most, always, m.width))
}
