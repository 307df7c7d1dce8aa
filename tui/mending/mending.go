// Package mending is the screen of repairs. It names what can be done where the work stands.
// Of a mistake it asks which peg went wrong and from which row on, names the ways to put that
// right with what each costs, and leads through the one that is chosen step by step; it leads
// through the cast-on, the bind-off and the finishing too, and lays a column that was counted
// beside the pattern's. It moves nothing itself: how far a repair is, is wished to be kept.
package mending

import (
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
	menu stage = iota
	askPeg
	askRow
	askColumn
	chooseWay
	stepping
	telling
)

// answerLimit is how many letters an answer may have: those of the longest column that
// somebody counts.
const answerLimit = 400

// Model is the screen.
type Model struct {
	title         string
	order         pattern.Order
	at            pattern.Place
	looking       bool // the piece can't be worked
	safe          []mend.Safe
	style         *look.Style
	keys          look.TalkKeys
	tasks         []task
	picked        int // of the tasks
	task          task
	stage         stage
	input         textinput.Model
	told          string // why something can't be; until the next key
	fault         mend.Fault
	ways          []mend.Repair
	chosen        int          // of the ways
	looks         []mend.Looks // columns as counted
	findings      []string     // what is told
	first         int          // the line of it that is shown first
	mending       track.Mending
	steps         mend.Steps
	to            *pattern.Place // where the work stands once rows are taken back
	width, height int
}

// New asks what went wrong in a piece, or goes on with the repair that was left off.
func New(p track.Piece, style *look.Style, keys look.TalkKeys) Model {
	m := Model{
		title: p.Title, order: p.Tracker.Order(), at: p.Tracker.Place(), looking: p.Saver == nil, safe: p.SafeRows(),
		style: style, keys: keys, input: look.NewField(),
	}
	m.input.CharLimit = answerLimit
	m.input.Focus()
	m.tasks = tasks(m.order, m.at)
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

// begin begins a repair, or goes on with it at the step that was left off.
func (m Model) begin(r track.Mending) (Model, error) {
	steps, to, err := r.Steps(m.order, m.at, m.safe...)
	if err != nil {
		return m, err
	}
	r.Step = min(r.Step, steps.Len()-1)
	m.steps, m.to, m.mending, m.stage = steps, to, r, stepping
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
func (m Model) Typing() bool { return m.stage <= askColumn }

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
	case menu:
		return m.pick(k)
	case telling:
		return m.hear(k), nil
	case chooseWay:
		return m.choose(k)
	case stepping:
		return m.step(k)
	}
	return m.typeInto(k)
}

// typeInto takes a key of an answer.
func (m Model) typeInto(k tea.KeyMsg) (Model, look.Wish) {
	if key.Matches(k, m.keys.Back) && m.input.Value() == "" {
		return m.answerBack(), nil
	}
	var became look.Typed
	if m.input, became = look.TypeInto(m.input, k, false); became != look.Kept {
		return m, nil
	}
	text := strings.TrimSpace(m.input.Value())
	switch m.stage {
	case askPeg:
		return m.peg(text), nil
	case askColumn:
		return m.column(text), nil
	}
	if m = m.row(text); m.stage == stepping {
		now := m.mending
		return m, look.Mended{Now: &now}
	}
	return m, nil
}

// answerBack takes the last answer back.
func (m Model) answerBack() Model {
	if m.stage == askPeg || m.stage == askRow && m.task == takeBack {
		return m.toMenu()
	}
	m.stage, m.fault.Cols, m.ways = askPeg, nil, nil
	return m
}

// peg takes the peg that is asked for.
func (m Model) peg(text string) Model {
	n, err := strconv.Atoi(text)
	m.input.Reset()
	if err != nil || n < 1 || n > m.order.Pattern.Pegs {
		m.told = track.WhichPegs(m.order) + ", one at a time"
		return m
	}
	m.fault.Cols = []int{m.order.ColumnOfPeg(n)}
	if m.stage = askRow; m.task == compare {
		m.stage = askColumn
	}
	return m
}

// row takes the row from which on it is wrong, or that is to be worked anew.
func (m Model) row(text string) Model {
	most := m.newest()
	n, err := strconv.Atoi(text)
	m.input.Reset()
	if err != nil || n < 1 || n > most {
		m.told = track.WhichWorked(m.order, most)
		return m
	}
	m.fault.Row = n
	if len(m.fault.Cols) == 0 {
		m.ways = nil
		on, err := m.begin(track.BackTo(n))
		if err != nil {
			m.told = err.Error()
			return m
		}
		return on
	}
	return m.nameWays()
}

// nameWays names the ways to put a column right.
func (m Model) nameWays() Model {
	m.ways, m.chosen, m.stage = mend.Repairs(m.order, m.at, m.fault, m.safe), 0, chooseWay
	return m
}

// newest is the newest row that is worked on the peg, or at all.
func (m Model) newest() int {
	if len(m.fault.Cols) > 0 {
		return mend.Top(m.order, m.at, m.fault.Cols[0])
	}
	return track.Newest(m.order, m.at)
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
	way := m.ways[m.chosen]
	r, onLoom := track.MendingBy(way, m.fault)
	switch {
	case way.Refused != "":
		m.told = way.Refused
		return m, nil
	case !onLoom:
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
	case key.Matches(k, m.keys.Answer) || k.Type == tea.KeySpace:
		if m.mending.Step == m.steps.Len()-1 {
			return m.over(m.to)
		}
		m.mending.Step++
	case key.Matches(k, m.keys.Back):
		if m.mending.Step == 0 && m.mending.What == track.Finish {
			return m, nil
		}
		if m.mending.Step == 0 {
			m.mending = track.Mending{}
			if m.stage = chooseWay; len(m.ways) == 0 {
				m = m.toMenu()
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
