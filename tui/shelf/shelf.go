// Package shelf is the screen of what is on the loom: the pieces in progress, and
// examples to begin something new.
package shelf

import (
	"fmt"
	"strings"
	"time"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"bypeg/chart"
	"bypeg/pattern/safetext"
	"bypeg/tui/look"
	"bypeg/tui/track"
)

// Stock is what lies on the shelf.
type Stock struct {
	Pieces   []Piece
	Examples []Example
	Notice   string // what is to be told, or empty
}

// Piece is a piece in progress.
type Piece struct {
	ID       string
	Title    string
	Where    string // "field, row 18 of 49"
	Progress track.Count
	Worked   time.Time
	Trouble  string // why it cannot be opened, or empty
}

// Example is a pattern that ships with the program.
type Example struct {
	Name  string
	Title string
	Size  string // "12 pegs, 15 rows"
}

// Model is the shelf.
type Model struct {
	stock         Stock
	style         *look.Style
	keys          look.ListKeys
	now           time.Time
	chosen        int
	width, height int
}

// New is the shelf with its stock, as it is at that time.
func New(stock Stock, style *look.Style, keys look.ListKeys, now time.Time) Model {
	return Model{stock: stock, style: style, keys: keys, now: now}
}

// SetSize gives the screen its size.
func (m Model) SetSize(width, height int) Model {
	m.width, m.height = width, height
	return m
}

// Keys are the keys that mean something here.
func (m Model) Keys() []key.Binding { return m.keys.All() }

func (m Model) count() int { return len(m.stock.Pieces) + len(m.stock.Examples) }

// Update takes one message, and tells the router what is wished.
func (m Model) Update(msg tea.Msg) (Model, look.Wish) {
	k, ok := msg.(tea.KeyMsg)
	if !ok {
		return m, nil
	}
	last := max(0, m.count()-1)
	switch {
	case key.Matches(k, m.keys.Leave):
		return m, look.Leave{}
	case key.Matches(k, m.keys.Freeze):
		return m, look.Sleep{}
	case key.Matches(k, m.keys.Up):
		m.chosen = max(0, m.chosen-1)
	case key.Matches(k, m.keys.Down):
		m.chosen = min(last, m.chosen+1)
	case key.Matches(k, m.keys.PageUp, m.keys.First):
		m.chosen = 0
	case key.Matches(k, m.keys.PageDown, m.keys.Last):
		m.chosen = last
	case key.Matches(k, m.keys.Choose):
		return m, m.choose()
	}
	return m, nil
}

func (m Model) choose() look.Wish {
	switch i := m.chosen - len(m.stock.Pieces); {
	case m.count() == 0:
		return nil
	case i < 0:
		return look.OpenPiece{ID: m.stock.Pieces[m.chosen].ID}
	default:
		return look.BeginPattern{Example: m.stock.Examples[i].Name}
	}
}

// View draws the shelf, scrolled so that what is chosen is seen.
func (m Model) View() string {
	if m.width < 1 || m.height < 1 {
		return ""
	}
	body, chosen := m.body()
	foot := m.foot()
	room := max(1, m.height-len(foot))
	from := 0
	if chosen >= room { // with a line below it where there is one
		from = min(chosen-room+min(room, 2), len(body)-room)
	}
	lines := body[from:min(len(body), from+room)]
	for len(lines) < room {
		lines = append(lines, "")
	}
	lines = append(lines[:len(lines):len(lines)], foot...)
	return strings.Join(lines[:min(len(lines), m.height)], "\n")
}

// body is all lines of the shelf, and which of them is the chosen one.
func (m Model) body() (lines []string, chosen int) {
	titles := m.titleWidth()
	heading := func(text string) {
		lines = append(lines, m.style.Paint(chart.Zone, safetext.Cut(text, m.width)))
	}
	add := func(i int, line string) {
		if i == m.chosen {
			chosen = len(lines)
			line = m.style.Strong(safetext.Cut(m.style.Here+" "+line, m.width))
		} else {
			line = safetext.Cut("  "+line, m.width)
		}
		lines = append(lines, line)
	}
	if len(m.stock.Pieces) > 0 {
		heading("On the loom")
		for i, p := range m.stock.Pieces {
			add(i, m.pieceLine(p, titles))
		}
		lines = append(lines, "")
	}
	heading("Begin something new")
	for i, e := range m.stock.Examples {
		add(len(m.stock.Pieces)+i, safetext.Pad(safetext.Cut(e.Title, titles), titles)+"  "+e.Size)
	}
	return lines, chosen
}

// titleWidth is the width of the column of titles.
func (m Model) titleWidth() int {
	w := 0
	for _, p := range m.stock.Pieces {
		w = max(w, safetext.Width(p.Title))
	}
	for _, e := range m.stock.Examples {
		w = max(w, safetext.Width(e.Title))
	}
	if m.width < 60 { // nothing stands between the title and the percent
		return min(w, max(1, m.width-2-len("  100%  12 months ago")))
	}
	return min(w, m.width*28/100)
}

// barWidth is how many cells a piece's progress takes.
const barWidth = 8

func (m Model) pieceLine(p Piece, titles int) string {
	title := safetext.Pad(safetext.Cut(p.Title, titles), titles) + "  "
	if p.Trouble != "" {
		return title + m.style.Alert + " can't be read" // the foot tells why
	}
	tail := fmt.Sprintf("%4d%%  %s", p.Progress.Percent(), Ago(p.Worked, m.now))
	where := m.width - 2 - safetext.Width(title) - 2 - barWidth - len("  35%  3 weeks ago") - 1
	if where < 12 {
		return title + tail
	}
	filled, rest := m.style.Bar(p.Progress.Done, p.Progress.Of, barWidth)
	return title + safetext.Pad(safetext.Cut(p.Where, where), where) + "  " + filled + rest + tail
}

// foot tells what is to be told, and names the keys. Half of the screen stays for what
// lies on the shelf.
func (m Model) foot() []string {
	says := m.stock.Notice
	if m.chosen < len(m.stock.Pieces) && says == "" {
		if why := m.stock.Pieces[m.chosen].Trouble; why != "" {
			says = m.style.Alert + " " + why
		}
	}
	lines := look.Wrap(m.width, says)
	lines = lines[:min(len(lines), max(0, m.height/2-1))]
	k := m.keys
	enter := "begin"
	if m.chosen < len(m.stock.Pieces) {
		enter = "go on"
	}
	keys := k.Choose.Help().Key + " " + enter + "  " + m.style.KeyName(k.Up) + " " + m.style.KeyName(k.Down) + "  " + k.Leave.Help().Key + " leave"
	return append(lines, m.style.Faint(safetext.Cut(keys, m.width)))
}

// Ago says how long ago a time is, as people do: "today", "yesterday", "Sunday",
// "3 weeks ago".
func Ago(t, now time.Time) string {
	day := func(t time.Time) time.Time {
		y, mo, d := t.In(now.Location()).Date()
		return time.Date(y, mo, d, 12, 0, 0, 0, time.UTC)
	}
	days := int(day(now).Sub(day(t)).Hours() / 24)
	switch {
	case t.IsZero():
		return ""
	case days <= 0:
		return "today"
	case days == 1:
		return "yesterday"
	case days < 7:
		return t.In(now.Location()).Weekday().String()
	case days < 60:
		return track.Plural(days/7, "week") + " ago"
	}
	return track.Plural(days/30, "month") + " ago"
}
