// Package mending is the screen of repairs. It asks which peg went wrong and from which row
// on, names the ways to put that right with what each costs, and leads through the one that
// is chosen step by step: a column that is let down and formed again, or rows that are taken
// back. It moves nothing itself: how far a repair is, is wished to be kept.
package mending

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"

	"bypeg/pattern"
	"bypeg/pattern/mend"
	"bypeg/tui/look"
	"bypeg/tui/track"
)

// stage is how far the talk is.
type stage uint8

const (
	askPeg stage = iota
	askRow
	chooseWay
	stepping
)

// Model is the screen.
type Model struct {
	title         string
	order         pattern.Order
	at            pattern.Place
	looking       bool // the piece can't be worked
	safe          []mend.Safe
	style         *look.Style
	keys          look.TalkKeys
	stage         stage
	input         textinput.Model
	told          string // why something can't be; until the next key
	fault         mend.Fault
	ways          []mend.Repair
	chosen        int // of the ways
	mending       track.Mending
	steps         mend.Steps
	to            *pattern.Place // where the work stands once rows are taken back
	width, height int
}

// New asks what went wrong in a piece, or goes on with the repair that was left off.
func New(p track.Piece, style *look.Style, keys look.TalkKeys) Model {
	m := Model{
		title: p.Title, order: p.Tracker.Order(), at: p.Tracker.Place(), looking: p.Saver == nil, safe: append(safeRows(p.Notes), p.Tracker.Safe()...),
		style: style, keys: keys, input: look.NewField(),
	}
	m.input.CharLimit = 20
	m.input.Focus()
	if m.at.Phase == pattern.Finishing { // there is nothing to mend on the loom any more
		m, _ = m.begin(track.Mending{What: track.Finish})
	}
	if was := p.Tracker.Mending(); was != nil {
		if on, err := m.begin(*was); err == nil {
			return on
		}
	}
	return m
}

// safeRows are the rows that notes tell to be safe: "line at row 40", or a note on a row that
// speaks of a line or a new ball, which then lies below that row.
func safeRows(notes []track.Note) []mend.Safe {
	var all []mend.Safe
	for _, n := range notes {
		if s, ok := mend.ParseSafe(n.Text); ok {
			all = append(all, s)
		} else if kind, ok := mend.NotedSafe(n.Text); ok && n.Row > 0 {
			all = append(all, mend.Safe{Row: n.Row - 1, Kind: kind})
		}
	}
	return all
}

// begin begins a repair, or goes on with it at the step that was left off.
func (m Model) begin(r track.Mending) (Model, error) {
	switch r.What {
	case track.Finish:
		m.steps, m.to = mend.FinishOf(m.order.Pattern), nil
	case track.TakeBack:
		to := pattern.Place{Phase: pattern.Working, Row: r.Row}
		back, err := mend.BackTo(m.order, m.at, to)
		if err != nil {
			return m, err
		}
		m.steps, m.to = back, &to
	default:
		ladder, err := mend.LadderOf(m.order, m.at, r.Col, r.Row)
		if err != nil {
			return m, err
		}
		m.steps, m.to = ladder, nil
	}
	r.Step = min(r.Step, m.steps.Len()-1)
	m.mending, m.stage = r, stepping
	return m, nil
}

// SetSize gives the screen its size.
func (m Model) SetSize(width, height int) Model {
	m.width, m.height = width, height
	m.input.Width = max(1, width-len(prompt)-1)
	return m
}

// Keys are the keys that mean something here.
func (m Model) Keys() []key.Binding { return m.keys.All() }

// Typing tells whether keys go into a field of text.
func (m Model) Typing() bool { return m.stage <= askRow }

// Update takes one message, and tells the router what is wished.
func (m Model) Update(msg tea.Msg) (Model, look.Wish) {
	k, ok := msg.(tea.KeyMsg)
	switch {
	case !ok:
		return m, nil
	case key.Matches(k, m.keys.Leave):
		return m, look.Leave{}
	case key.Matches(k, m.keys.Freeze):
		return m, look.Sleep{}
	case m.tooSmall():
		return m, nil
	}
	m.told = ""
	switch m.stage {
	case chooseWay:
		return m.choose(k)
	case stepping:
		return m.step(k)
	}
	return m.typeInto(k)
}

// typeInto takes a key of an answer.
func (m Model) typeInto(k tea.KeyMsg) (Model, look.Wish) {
	if key.Matches(k, m.keys.Back) && m.input.Value() == "" && m.stage == askRow {
		m.stage, m.fault.Cols, m.ways = askPeg, nil, nil
		return m, nil
	}
	var became look.Typed
	if m.input, became = look.TypeInto(m.input, k, false); became != look.Kept {
		return m, nil
	}
	text := strings.TrimSpace(m.input.Value())
	if m.stage == askPeg {
		return m.peg(text), nil
	}
	if m = m.row(text); m.stage == stepping {
		now := m.mending
		return m, look.Mended{Now: &now}
	}
	return m, nil
}

// peg takes the peg that went wrong; none is whole rows.
func (m Model) peg(text string) Model {
	pegs := m.order.Pattern.Pegs
	n, err := strconv.Atoi(text)
	switch {
	case text == "":
		m.fault.Cols = nil
	case err != nil || n < 1 || n > pegs:
		m.told = fmt.Sprintf("a peg is a number from 1 to %d", pegs)
		return m
	default:
		m.fault.Cols = []int{m.order.ColumnOfPeg(n)}
	}
	m.stage = askRow
	m.input.Reset()
	return m
}

// row takes the row from which on it is wrong, or that is to be worked anew.
func (m Model) row(text string) Model {
	word, most := m.order.Pattern.Form.RowWord(), m.newest()
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 || n > most {
		m.told = fmt.Sprintf("%ss 1 to %d are worked", word, most)
		if most == 0 {
			m.told = "no " + word + " is worked yet"
		}
		return m
	}
	m.fault.Row = n
	m.input.Reset()
	if len(m.fault.Cols) == 0 {
		m.ways = nil
		on, err := m.begin(track.Mending{What: track.TakeBack, Row: n})
		if err != nil {
			m.told = err.Error()
			return m
		}
		return on
	}
	m.ways, m.chosen, m.stage = mend.Repairs(m.order, m.at, m.fault, m.safe), 0, chooseWay
	return m
}

// newest is the newest row that is worked on the peg, or at all.
func (m Model) newest() int {
	if len(m.fault.Cols) > 0 {
		return mend.Top(m.order, m.at, m.fault.Cols[0])
	}
	done := m.order.RowsDone(m.at)
	if m.at.Phase == pattern.Working && m.at.Done > 0 {
		done = m.at.Row
	}
	return done
}

// choose takes a key while the ways are named.
func (m Model) choose(k tea.KeyMsg) (Model, look.Wish) {
	switch {
	case key.Matches(k, m.keys.Back):
		m.stage = askRow
	case key.Matches(k, m.keys.Up):
		m.chosen = max(0, m.chosen-1)
	case key.Matches(k, m.keys.Down):
		m.chosen = min(len(m.ways)-1, m.chosen+1)
	case key.Matches(k, m.keys.Answer):
		return m.take()
	}
	return m, nil
}

// take begins the repair under the hand.
func (m Model) take() (Model, look.Wish) {
	var r track.Mending
	switch way := m.ways[m.chosen]; {
	case way.Refused != "":
		m.told = way.Refused
		return m, nil
	case way.Way == mend.LetDown:
		r = track.Mending{Col: m.fault.Cols[0], Row: m.fault.Row}
	case way.Way == mend.RowsBack || way.Way == mend.LineBack:
		r = track.Mending{What: track.TakeBack, Row: way.Rows + 1}
	default:
		m.told = "nothing on the loom changes by that: " + m.style.KeyName(m.keys.Leave) + " goes back to the work"
		return m, nil
	}
	on, err := m.begin(r)
	if err != nil {
		m.told = err.Error()
		return m, nil
	}
	return on, look.Mended{Now: &on.mending}
}

// step takes a key while a repair is led through. After its last step the tracker follows.
func (m Model) step(k tea.KeyMsg) (Model, look.Wish) {
	switch {
	case key.Matches(k, m.keys.Answer, m.keys.Down) || k.Type == tea.KeySpace:
		if m.mending.Step == m.steps.Len()-1 {
			return m.over(m.to)
		}
		m.mending.Step++
	case key.Matches(k, m.keys.Back, m.keys.Up):
		if m.mending.Step == 0 && m.mending.What == track.Finish {
			return m, nil
		}
		if m.mending.Step == 0 {
			m.stage, m.mending = chooseWay, track.Mending{}
			if len(m.fault.Cols) == 0 || len(m.ways) == 0 {
				m.stage = askPeg
			}
			return m, look.Mended{}
		}
		m.mending.Step--
	default:
		return m, nil
	}
	now := m.mending
	return m, look.Mended{Now: &now}
}

// over ends a repair.
func (m Model) over(to *pattern.Place) (Model, look.Wish) {
	if m.looking && to != nil {
		m.told = "this piece is open to look only: its place stays"
		return m, nil
	}
	return m, look.Mended{Done: true, To: to}
}
