// Package look is what all screens share: the keys as data, colours, signs, and the
// messages that lead from one screen to another. It draws no screen itself.
package look

import (
	"strings"

	"github.com/charmbracelet/lipgloss"

	"bypeg/chart"
	"bypeg/pattern"
	"bypeg/pattern/safetext"
)

// Style is how everything looks: tones turned into colours, and the signs that are
// no letters. Every state has a shape too: the colours may all be missing.
type Style struct {
	Signs
	Set   chart.Set
	ASCII bool
	// Cells reads the fabric for the charts; nil reads the grid itself.
	Cells  func(row, from, to int) []pattern.Cell
	tones  map[chart.Tone]lipgloss.Style
	strong lipgloss.Style
	danger lipgloss.Style
	plain  lipgloss.Style
	cloth  *cloth // nil where the chart draws an overview with shapes
}

// NewStyle makes the style of one terminal.
func NewStyle(r *lipgloss.Renderer, theme Theme, set chart.Set, ascii bool) *Style {
	plain := r.NewStyle().Inline(true)
	p := palettes[theme]
	s := &Style{
		Signs: signsFor(ascii), Set: set, ASCII: ascii,
		strong: plain.Bold(true), danger: p.danger.style(plain), tones: map[chart.Tone]lipgloss.Style{},
		plain: plain,
	}
	if !ascii {
		s.cloth = clothFor(r, theme)
	}
	for tone, i := range p.inks() {
		if i != (ink{}) {
			s.tones[tone] = i.style(plain)
		}
	}
	return s
}

// Paint gives text the colour of a tone.
func (s *Style) Paint(t chart.Tone, text string) string {
	style, ok := s.tones[t]
	if !ok || text == "" {
		return text
	}
	return style.Render(text)
}

// Strong sets words off that are to be seen first.
func (s *Style) Strong(text string) string { return render(s.strong, text) }

// Danger sets words off that tell of something about to be lost.
func (s *Style) Danger(text string) string { return render(s.danger, text) }

// Faint lets words step back.
func (s *Style) Faint(text string) string { return s.Paint(chart.Faint, text) }

func render(style lipgloss.Style, text string) string {
	if text == "" {
		return ""
	}
	return style.Render(text)
}

// Chart is how the chart draws in this style.
func (s *Style) Chart() chart.Style {
	return chart.Style{Set: s.Set, ASCII: s.ASCII, Painter: s, Cells: s.Cells}
}

// Signs are the shapes that words and screens use.
type Signs struct {
	Left, Right string // the way a row runs
	Dot         string // between two remarks
	Here        string // the row being worked, the line chosen
	Alert       string // before what is urgent
	Edge        string // the cast-on edge
	Loop, Bare  string // a peg with a loop, and one without
	Dash        string
	More        string   // behind what was cut
	Line, Ball  string   // before a row in which a lifeline lies, and one after which a ball was joined
	Rule        string   // one cell of a line across the screen
	bar         []string // an empty cell of a bar, its parts, and a full one
}

func signsFor(ascii bool) Signs {
	if ascii {
		return Signs{
			Left: "<", Right: ">", Dot: "-", Here: "*", Alert: "!", Edge: "~", Loop: "o", Bare: ".", Dash: "--", More: "...", Line: "=", Ball: "@", Rule: "-",
			bar: []string{".", "#"},
		}
	}
	return Signs{
		Left: "←", Right: "→", Dot: "·", Here: "▸", Alert: "▲", Edge: "∼", Loop: "o", Bare: "·", Dash: "—", More: "…", Line: "┄", Ball: "•", Rule: "─",
		bar: []string{"░", "▏", "▎", "▍", "▌", "▋", "▊", "▉", "█"},
	}
}

// Arrow is the way a row runs.
func (s Signs) Arrow(d pattern.Direction) string {
	if d == pattern.ToRight {
		return s.Right
	}
	return s.Left
}

// Bar is a bar of so many cells, filled to a share of done by of. The filled part and
// the rest come apart, so that they can be painted.
func (s Signs) Bar(done, of, width int) (filled, rest string) {
	steps := len(s.bar) - 1
	parts := min(done, of) * width * steps / max(1, of)
	filled = strings.Repeat(s.bar[steps], parts/steps)
	cells := parts / steps
	if part := parts % steps; part > 0 {
		filled += s.bar[part]
		cells++
	}
	return filled, strings.Repeat(s.bar[0], width-cells)
}

// Apart puts one text at the left and one at the right of a line, two blanks between
// them at least; where both do not fit the right one gives way. Both are plain text:
// the line is painted after.
func Apart(left, right string, width int) (string, string) {
	free := width - safetext.Width(right) - 2
	if right == "" || free < safetext.Width(left) {
		return safetext.Cut(left, width), ""
	}
	return safetext.Pad(left, free+2), right
}
