package shelf

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"bypeg/chart"
	"bypeg/pattern/fit"
	"bypeg/pattern/safetext"
	"bypeg/tui/look"
	"bypeg/tui/track"
)

// # The screen
//
// The list is at the top and scrolls. Below it, where the screen is tall enough, lies what
// is known of the one under the hand, with a small picture of its cloth. The last line
// names the keys; above it is said what is to be told.

// roomForDetails is the height from which the details have room.
const roomForDetails = 20

// View draws the shelf, scrolled so that what is chosen is seen.
func (m Model) View() string {
	if m.width < 1 || m.height < 1 {
		return ""
	}
	if m.overlay == helpOverlay {
		view, _ := m.helpView()
		return view
	}
	body, chosen := m.body()
	below := append(m.details(), m.foot()...)
	room := max(1, m.height-len(below))
	from := 0
	if chosen >= room { // with a line below it where there is one
		from = min(chosen-room+min(room, 2), len(body)-room)
	}
	lines := body[from:min(len(body), from+room)]
	for len(lines) < room {
		lines = append(lines, "")
	}
	lines = append(lines[:len(lines):len(lines)], below...)
	return strings.Join(lines[:min(len(lines), m.height)], "\n")
}

// room is how many lines the list has.
func (m Model) room() int { return max(1, m.height-len(m.details())-len(m.foot())-1) }

var headings = map[Lies]string{OnLoom: "On the loom", OffLoom: "Off the loom", Unopened: "Can't be read", Away: "Put away", Deleted: "Deleted"}

// body is all lines of the list, and which of them is the chosen one.
func (m Model) body() (lines []string, chosen int) {
	titles := m.titleWidth()
	last := ""
	for i, it := range m.items() {
		heading, text := "Begin something new", ""
		if it.piece != nil {
			heading, text = headings[it.piece.Lies], m.pieceLine(*it.piece, titles)
		} else {
			text = safetext.Pad(safetext.Cut(it.example.Title, titles), titles) + "  " + it.example.Size
		}
		if heading != last {
			if last != "" {
				lines = append(lines, "")
			}
			lines = append(lines, m.style.Paint(chart.Zone, safetext.Cut(heading, m.width)))
			last = heading
		}
		if i == m.chosen {
			chosen = len(lines)
			text = m.style.Strong(safetext.Cut(m.style.Here+" "+text, m.width))
		} else {
			text = safetext.Cut("  "+text, m.width)
		}
		lines = append(lines, text)
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
const barWidth = 6

func (m Model) pieceLine(p Piece, titles int) string {
	title := safetext.Pad(safetext.Cut(p.Title, titles), titles) + "  "
	if p.Trouble != "" {
		return title + m.style.Alert + " can't be read" // the foot tells why
	}
	tail := fmt.Sprintf("%4d%%  %s", p.Progress.Percent(), m.when(p, titles))
	where := m.width - 2 - safetext.Width(title) - 2 - barWidth - len("  35%  11 months ago") - 1
	if where < 12 {
		return title + tail
	}
	filled, rest := m.style.Bar(p.Progress.Done, p.Progress.Of, barWidth)
	return title + safetext.Pad(safetext.Cut(p.Where, where), where) + "  " + filled + rest + tail
}

// clocks are how exactly the time of a piece is told, where its like was worked as long ago.
var clocks = []string{"", "15:04", "15:04:05"}

// when says when a piece was worked last, as exactly as it takes to tell it from others that
// lie beside it under the same name.
func (m Model) when(p Piece, titles int) (says string) {
	for _, clock := range clocks {
		says = at(p.Worked, m.now, clock)
		alike := func(o Piece) bool {
			return o.ID != p.ID && o.Lies == p.Lies && safetext.Cut(o.Title, titles) == safetext.Cut(p.Title, titles) && at(o.Worked, m.now, clock) == says
		}
		if !slices.ContainsFunc(m.stock.Pieces, alike) {
			break
		}
	}
	return says
}

// at says a time: how long ago, or by the clock.
func at(t, now time.Time, clock string) string {
	ago := Ago(t, now)
	switch t = t.In(now.Location()); {
	case clock == "" || ago == "":
		return ago
	case ago == "today":
		return ago + " " + t.Format(clock)
	}
	return t.Format("2 Jan " + clock)
}

// details are what is known of the one under the hand, with its picture at the right; none
// on a low screen.
func (m Model) details() []string {
	if m.height < roomForDetails {
		return nil
	}
	tall := m.tall()
	says := m.known(tall)
	picture, wide := m.picture(tall)
	lines := make([]string, 0, tall+1)
	lines = append(lines, m.style.Faint(strings.Repeat(m.style.Rule, min(m.width, 88))))
	for i := range tall {
		left, right := "", ""
		if i < len(says) {
			left = safetext.Cut(says[i], max(0, min(m.width, 88)-wide-2))
		}
		if i < len(picture) {
			right = picture[i]
		}
		if right != "" {
			left = safetext.Pad(left, min(m.width, 88)-wide)
		}
		lines = append(lines, left+right)
	}
	return lines
}

// tall is how many lines the details have.
func (m Model) tall() int { return min(16, m.height/3) }

// known is what is known of the one under the hand, in so many lines at most.
func (m Model) known(most int) []string {
	var says []string
	switch it := m.hand(); {
	case it.piece != nil:
		says = it.piece.Details
	case it.example != nil:
		says = it.example.Details
	}
	wide := min(m.width, 88)
	if m.hasPicture() {
		wide -= m.pictureWidth() + 2
	}
	var lines []string
	for _, remark := range says {
		lines = append(lines, look.Wrap(wide, remark)...)
	}
	return lines[:min(len(lines), most)]
}

// foot tells what is to be told, and names the keys. Half of the screen stays for what
// lies on the shelf.
func (m Model) foot() []string {
	if m.Typing() {
		return m.prompt()
	}
	says := m.stock.Notice
	if p := m.hand().piece; p != nil && says == "" && p.Trouble != "" {
		says = m.style.Alert + " " + p.Trouble
	}
	lines := look.Wrap(m.width, says)
	lines = lines[:min(len(lines), max(0, m.height/2-1))]
	return append(lines, m.style.Faint(m.keysLine()))
}

// prompt is the field with what it asks for, and what is wrong with what was typed.
func (m Model) prompt() []string {
	ask := m.question()
	in := m.input
	in.Width = max(1, m.width-safetext.Width(ask)-1)
	in.SetCursor(in.Position()) // so that it is seen
	lines := []string{safetext.Cut(ask, m.width), m.style.Faint(safetext.Cut(m.howToType(), m.width))}
	if safetext.Width(ask)+2 <= m.width {
		lines[0] = ask + in.View()
	}
	if m.stock.Notice != "" {
		lines = append(look.Wrap(m.width, m.stock.Notice), lines...)
	}
	return lines
}

// howToType tells of the field what goes into it, and the keys that leave it.
func (m Model) howToType() string {
	const keys = "enter keeps it  esc leaves it"
	if m.overlay != sizeOverlay {
		return keys
	}
	return "like " + fit.ExampleOf(m.hand().piece.Order.Pattern.Form) + "  " + keys
}

// keysLine names the keys that do something with the one under the hand, as many as fit.
func (m Model) keysLine() string {
	k := m.keys
	fit := look.Hint{Key: k.Fit, Word: "will it fit?"}
	if m.width < 60 {
		fit.Word = "fit"
	}
	most := []look.Hint{{Key: k.Choose, Word: "begin"}, fit, {Key: k.Middle, Word: "in the middle"}}
	if p := m.hand().piece; p != nil {
		put := "put away"
		if p.Lies == Away || p.Lies == Deleted {
			put = "bring back"
		}
		most = []look.Hint{{Key: k.Choose, Word: "go on"}, {Key: k.Rename, Word: "rename"}, {Key: k.PutAway, Word: put}, {Key: k.Delete, Word: "delete"}}
		if p.Lies == OffLoom {
			size := look.Hint{Key: k.Size, Word: "put down its size"}
			if m.width < 60 {
				size.Word = "size"
			}
			most[0].Word = "open"
			most = slices.Insert(most, 1, size)
		}
	}
	if n := m.count(Away) + m.count(Deleted); n > 0 && !m.away {
		most = append(most, look.Hint{Key: k.Away, Word: fmt.Sprintf("%d put away", n)})
	}
	most = append(most, look.Hint{Key: k.Swap, Word: "the piece before"})
	if m.hand().piece != nil {
		most = append(most, fit)
	}
	return m.style.HintLine(most, []look.Hint{{Key: k.Help, Word: "help"}, {Key: k.Leave, Word: "leave"}}, m.width)
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
	case days < 365:
		return track.Plural(min(11, days/30), "month") + " ago"
	}
	return track.Plural(days/365, "year") + " ago"
}
