package mending

import (
	"slices"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"bypeg/pattern"
	"bypeg/pattern/mend"
	"bypeg/tui/look"
	"bypeg/tui/track"
)

// task is what the screen is asked for.
type task uint8

const (
	mendColumn task = iota
	takeBack
	compare
	readRow
	borders
	wrapAhead
	castOn
	bindOff
	gather
)

// tasks are those that mean something where the work stands, in the order in which they are
// named.
func tasks(o pattern.Order, at pattern.Place) []task {
	if at.Phase == pattern.CastingOn {
		return []task{castOn}
	}
	var all []task
	if at.Phase == pattern.BindingOff {
		all = append(all, bindOff)
		if o.Pattern.Form == pattern.Tube && at.Done == 0 {
			all = append(all, gather)
		}
	}
	if at.Row > 1 || at.Done > 0 || at.Phase == pattern.BindingOff {
		all = append(all, mendColumn, takeBack, compare)
	}
	if at.Phase == pattern.Working {
		all = append(all, readRow)
	}
	if _, ok := mend.BordersAt(o, at); ok {
		all = append(all, borders)
	}
	if at.Phase == pattern.Working && o.Pattern.Form == pattern.Panel && o.Pattern.ZoneAt(at.Row).KnitAs == pattern.WrapE {
		all = append(all, wrapAhead)
	}
	return all
}

// words say a task.
func (t task) words(o pattern.Order) string {
	word := o.Pattern.Form.RowWord()
	switch t {
	case mendColumn:
		return "a stitch is wrong: mend its column"
	case takeBack:
		return "take " + word + "s back"
	case compare:
		return "look for a mistake: compare a column with the pattern"
	case readRow:
		return "the count does not come out: which pegs of this " + word + " take what?"
	case borders:
		return "the borders: are bottom and top alike?"
	case wrapAhead:
		return "which pegs may be wrapped ahead in this " + word + "?"
	case castOn:
		return "cast on, step by step"
	case bindOff:
		return "bind off, step by step" + needs(o, mend.BasicBindOff)
	}
	return "draw the tube shut, step by step" + needs(o, mend.GatheredBindOff)
}

// needs says the yarn that a bind-off takes, before it starts.
func needs(o pattern.Order, k mend.BindOffKind) string {
	b, err := mend.BindOffOf(o, k)
	if err != nil || b.NeedWords() == "" {
		return ""
	}
	return "; " + b.NeedWords()
}

// pick takes a key while the tasks are named. A number is a peg that went wrong at once.
func (m Model) pick(k tea.KeyMsg) (Model, look.Wish) {
	switch {
	case key.Matches(k, m.keys.Up):
		m.picked = max(0, m.picked-1)
	case key.Matches(k, m.keys.Down):
		m.picked = min(len(m.tasks)-1, m.picked+1)
	case (key.Matches(k, m.keys.Answer) || k.Type == tea.KeySpace) && len(m.tasks) > 0:
		return m.start(m.tasks[m.picked])
	case k.Type == tea.KeyRunes && len(k.Runes) > 0 && !look.NotDigit(k.Runes[0]) && slices.Contains(m.tasks, mendColumn):
		m, _ = m.start(mendColumn)
		return m.typeInto(k)
	}
	return m, nil
}

// start begins a task.
func (m Model) start(t task) (Model, look.Wish) {
	m.task, m.told = t, ""
	m.fault, m.ways, m.looks, m.findings = mend.Fault{}, nil, nil, nil
	m.input.Reset()
	switch t {
	case mendColumn, compare:
		m.stage = askPeg
	case takeBack:
		m.stage = askRow
	case readRow:
		m = m.tell(track.SayPegs(m.order, m.at.Row))
	case borders:
		b, _ := mend.BordersAt(m.order, m.at)
		m = m.tell(b.Lines())
	case wrapAhead:
		m = m.tell([]string{mend.WrapAhead(m.order, m.at).Words()})
	default:
		return m.lead(t)
	}
	return m, nil
}

// lead begins what is led through from its first step, or from where the pegs are by now.
func (m Model) lead(t task) (Model, look.Wish) {
	what := map[task]track.Repair{castOn: track.CastOn, bindOff: track.BindOff, gather: track.Gather}[t]
	on, err := m.begin(track.LedThrough(what, m.order, m.at))
	if err != nil {
		m.told = err.Error()
		return m, nil
	}
	return on, look.Mended{Now: &on.mending}
}

// toMenu goes back to the tasks.
func (m Model) toMenu() Model {
	m.stage, m.fault, m.ways, m.findings, m.looks = menu, mend.Fault{}, nil, nil, nil
	m.input.Reset()
	return m
}
