// Package ways is the screen of the ways in which a piece on the loom can be gone on with:
// what it measures by now, how far the yarn that is left reaches, and what becomes of the
// piece in each way. It saves nothing: whoever chooses a way is asked once more, and the
// router does it.
package ways

import (
	"strings"

	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"

	"bypeg/pattern/safetext"
	"bypeg/tui/look"
	"bypeg/tui/plan"
)

// asking is what a field of text asks for.
type asking uint8

const (
	nothing asking = iota
	forWidth
	forHeight
	forYarn
)

// Model is the screen.
type Model struct {
	title         string
	plan          plan.Plan
	looking       bool // the piece can't be worked
	style         *look.Style
	keys          look.WayKeys
	chosen        int
	sure          bool // the way is chosen: once more keeps it
	asking        asking
	input         textinput.Model
	typed         map[asking]string // what was told last
	untouched     bool              // nothing was typed yet into a field that was filled
	told          string            // why something can't be; until the next key
	width, height int
}

// New is the screen of a plan. A piece that can only be looked at keeps its plan.
func New(title string, p plan.Plan, looking bool, style *look.Style, keys look.WayKeys) Model {
	return Model{title: title, plan: p, looking: looking, style: style, keys: keys, input: look.NewField(), typed: map[asking]string{}}
}

// Recall tells the screen again what was told of the same piece at the same place, and was
// not chosen yet.
func (m Model) Recall(was Model) Model {
	if was.title != m.title || was.plan.RowsDone != m.plan.RowsDone || was.plan.Done != m.plan.Done || was.plan.PlannedHeight != m.plan.PlannedHeight {
		return m
	}
	for _, what := range []asking{forWidth, forHeight, forYarn} {
		if text := was.typed[what]; text != "" {
			m.asking = what
			m = m.tell(text)
			m.asking, m.told = nothing, ""
		}
	}
	return m
}

// SetSize gives the screen its size.
func (m Model) SetSize(width, height int) Model {
	m.width, m.height = width, height
	return m.fitted()
}

// fitted gives the field the room that the question leaves.
func (m Model) fitted() Model {
	m.input.Width = max(1, m.width-safetext.Width(m.question())-1)
	if m.input.Width < fieldRoom {
		m.input.Width = max(1, m.width-1)
	}
	m.input.SetCursor(m.input.Position())
	return m
}

// Keys are the keys that mean something here, while no text is typed.
func (m Model) Keys() []key.Binding { return m.keys.All() }

// Typing tells whether keys go into a field of text.
func (m Model) Typing() bool { return m.asking != nothing }

// AskBurst splits a key that asks for text from the text typed right behind it in one go.
func (m Model) AskBurst(k tea.KeyMsg) (ask, text tea.KeyMsg, ok bool) {
	ask, text, ok = look.FirstRune(k)
	return ask, text, ok && key.Matches(ask, m.keys.Width, m.keys.Height, m.keys.Yarn)
}

// Update takes one message, and tells the router what is wished.
func (m Model) Update(msg tea.Msg) (Model, look.Wish) {
	k, ok := msg.(tea.KeyMsg)
	switch {
	case !ok:
		return m, nil
	case m.tooSmall() && !key.Matches(k, m.keys.Leave, m.keys.Freeze):
		return m, nil // nobody chooses what is not seen
	case m.Typing():
		return m.typeInto(k), nil
	}
	m.told = ""
	sure := m.sure
	m.sure = false
	switch {
	case sure && !key.Matches(k, m.keys.Choose, m.keys.Freeze):
		return m, nil // any other key takes the choice back
	case key.Matches(k, m.keys.Leave):
		return m, look.Leave{}
	case key.Matches(k, m.keys.Freeze):
		return m, look.Sleep{}
	case key.Matches(k, m.keys.Up):
		m.chosen = max(0, m.chosen-1)
	case key.Matches(k, m.keys.Down):
		m.chosen = min(len(m.plan.Ways)-1, m.chosen+1)
	case key.Matches(k, m.keys.Width):
		return m.ask(forWidth), nil
	case key.Matches(k, m.keys.Height):
		return m.ask(forHeight), nil
	case key.Matches(k, m.keys.Yarn):
		return m.ask(forYarn), nil
	case key.Matches(k, m.keys.Choose):
		return m.choose(sure)
	}
	return m, nil
}

// choose goes on in the way under the hand, once that has been asked twice.
func (m Model) choose(sure bool) (Model, look.Wish) {
	e := m.plan.Ways[m.chosen]
	switch {
	case !m.plan.Changes(m.chosen):
		m.told = "the piece goes on as planned: " + m.style.KeyName(m.keys.Leave) + " goes back to the work"
	case m.looking:
		m.told = "this piece is open to look only: it keeps its plan"
	case e.Text == nil:
		m.told = plan.CannotChange
	case sure:
		return m, look.GoOn{Text: e.Text, Words: m.plan.Words(m.chosen)}
	default:
		m.sure = true
	}
	return m, nil
}

func (m Model) ask(what asking) Model {
	m.asking, m.untouched = what, true
	m.input.Reset()
	m.input.CharLimit = 60
	m.input.SetValue(m.typed[what])
	m.input.Focus()
	return m.fitted()
}

// question is what the field asks for.
func (m Model) question() string {
	switch m.asking {
	case forWidth:
		if m.plan.Wide() == "round" {
			return "how far round is it, relaxed? "
		}
		return "how wide is it, relaxed? "
	case forHeight:
		return "how high are the rows that are done? "
	case forYarn:
		if names := m.plan.YarnNames(); len(names) > 1 {
			return "how much is left (18 g of " + names[len(names)-1] + ")? "
		}
		return "how much yarn is left (18 g, 30 m)? "
	}
	return ""
}

// typeInto takes a key while the field is there. Where what was typed can't be taken the
// field stays, and says why.
func (m Model) typeInto(k tea.KeyMsg) Model {
	var became look.Typed
	m.told = ""
	if m.untouched && (k.Type == tea.KeyRunes || k.Type == tea.KeySpace) {
		m.input.Reset() // what is typed goes in the place of what was told last
	}
	m.untouched = false
	m.input, became = look.TypeInto(m.input, k, false)
	switch became {
	case look.Dropped:
		m.asking = nothing
	case look.Kept:
		return m.tell(strings.TrimSpace(m.input.Value()))
	}
	return m
}

// tell takes what was typed.
func (m Model) tell(text string) Model {
	tells := map[asking]func(string) (plan.Plan, error){
		forWidth: m.plan.WithWidth, forHeight: m.plan.WithHeight, forYarn: m.plan.WithYarn,
	}
	next, err := tells[m.asking](text)
	if err != nil {
		m.told = err.Error()
		return m
	}
	typed := map[asking]string{m.asking: text}
	for what, was := range m.typed {
		if what != m.asking {
			typed[what] = was
		}
	}
	way, asked := m.plan.Ways[m.chosen].Way, m.asking
	m.plan, m.typed, m.asking, m.chosen = next, typed, nothing, 0
	for i, e := range next.Ways {
		if e.Way == way {
			m.chosen = i
		}
	}
	if asked == forYarn && next.Reached >= 0 || next.Short(m.chosen) { // what can be covered is what was asked for
		m.chosen = max(0, next.Reached)
	}
	return m
}
