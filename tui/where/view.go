package where

import (
	"fmt"
	"strings"

	"bypeg/chart"
	"bypeg/pattern"
	"bypeg/pattern/find"
	"bypeg/pattern/safetext"
	"bypeg/tui/look"
	"bypeg/tui/track"
)

// # The lines of the screen
//
// The talk runs down the screen: what was left off, each question with its answer, what is
// known by now, and at its end the question that is asked or the places found. Where there is
// no room for all of it, its beginning scrolls away. The last line names the keys.

// The smallest screen that there is a talk on.
const (
	MinWidth  = 32
	MinHeight = 8
)

func (m Model) tooSmall() bool { return m.width < MinWidth || m.height < MinHeight }

const prompt = "> "

// View draws the screen in at most its height of lines, none wider than its width.
func (m Model) View() string {
	if m.tooSmall() {
		return look.TooSmall(MinWidth, MinHeight, m.width)
	}
	before := m.before()
	now, hand := m.now()
	lines := append(before, now...)
	for _, line := range look.Wrap(m.width, m.told) {
		lines = append(lines, m.style.Strong(line))
	}
	room := m.height - 2
	if over := len(lines) - room; over > 0 {
		from := min(over, len(before)+hand) // what is under the hand stays
		lines = lines[from : from+room]
	}
	for len(lines) < room {
		lines = append(lines, "")
	}
	title := m.style.Strong(safetext.Cut(m.title+" "+m.style.Dot+" where am I", m.width))
	most, always := m.hints()
	lines = append([]string{title}, lines...)
	return strings.Join(append(lines, m.style.Faint(m.style.HintLine(most, always, m.width))), "\n")
}

func (m Model) hints() (most, always []look.Hint) {
	k := m.keys
	always = []look.Hint{{Key: k.Leave, Word: "stay"}}
	if m.Typing() {
		return []look.Hint{{Key: k.Answer, Word: "answer, or pass"}, {Key: k.Back, Word: "take back"}}, always
	}
	if len(m.guesses()) > 1 {
		most = []look.Hint{{Key: k.Up}, {Key: k.Down, Word: "places"}}
	}
	if len(m.guesses()) > 0 {
		most = append(most, look.Hint{Key: k.Answer, Word: "go there"})
	}
	if len(m.talk.Said) > 0 {
		most = append(most, look.Hint{Key: k.Back, Word: "take back"})
	}
	return most, always
}

// before is where the work was left off, and what was asked and answered since.
func (m Model) before() []string {
	lines := []string{""}
	say := func(text string) {
		for _, line := range look.Wrap(m.width, text) {
			lines = append(lines, m.style.Faint(line))
		}
	}
	switch {
	case m.talk.Off():
		return append(lines, look.Wrap(m.width, capital(find.OffLoom)+".")...)
	case m.noted != pattern.Start():
		say("You left off at " + track.SayPlace(m.talk.Order, m.noted) + ". Let's see what the fabric says.")
	default:
		say("Let's see what the fabric says.")
	}
	passed := 0
	for i, s := range m.talk.Said {
		if s.Answer != "" {
			say(capital(s.Question.Words(m.talk.Order)))
			lines = append(lines, prompt+safetext.Cut(s.Answer, m.width-len(prompt)))
			continue
		}
		if passed++; i+1 == len(m.talk.Said) || m.talk.Said[i+1].Answer != "" {
			lines = append(lines, m.style.Faint(safetext.Cut(m.sayPassed(s.Question, passed), m.width)))
			passed = 0
		}
	}
	return append(lines, "")
}

// sayPassed is the one line for questions that were passed over, one after the other: the one
// there is, or how many.
func (m Model) sayPassed(last find.Question, n int) string {
	if n == 1 {
		return "Passed: " + last.Words(m.talk.Order)
	}
	return "Passed: " + track.Plural(n, "question")
}

// now is the question, or what was found, and from which line on must be seen.
func (m Model) now() (lines []string, hand int) {
	if m.Typing() {
		if len(m.talk.Evidence.Clues) > 0 {
			for _, line := range look.Wrap(m.width, m.sayLeft()) {
				lines = append(lines, m.style.Paint(chart.Zone, line))
			}
		}
		for _, line := range look.Wrap(m.width, capital(m.talk.Answer.Ask.Words(m.talk.Order))) {
			lines = append(lines, m.style.Strong(line))
		}
		if m.input.Value() == "" {
			hint := m.style.Faint(safetext.Cut(m.talk.Answer.Ask.Hint(m.talk.Order), max(0, m.width-len(prompt)-2)))
			return append(lines, prompt+m.input.Cursor.View()+" "+hint), len(lines)
		}
		return append(lines, prompt+m.input.View()), len(lines)
	}
	lines, hand = m.found()
	return append(lines, m.uncounted()...), hand
}

// sayLeft is how many places agree by now.
func (m Model) sayLeft() string {
	word := m.talk.Order.Pattern.Form.RowWord()
	rows := m.talk.Rows()
	if rows == 1 {
		return fmt.Sprintf("It is %s %d.", word, m.talk.Answer.Fits[0].Row)
	}
	return fmt.Sprintf("%s agree with that.", track.Plural(rows, word))
}

// found are the places that are left, and which line the one under the hand begins with.
func (m Model) found() (lines []string, from int) {
	guesses := m.guesses()
	switch over := m.talk.Over(); {
	case m.talk.Off():
		return nil, 0
	case len(guesses) == 0:
		lines = look.Wrap(m.width, "Nothing in the pattern agrees with that: take an answer back and look again.")
		for _, says := range find.Beyond(m.talk.Order, m.talk.Evidence) {
			lines = append(lines, look.Wrap(m.width, capital(says)+".")...)
		}
	case over != "":
		lines = look.Wrap(m.width, capital(over))
	}
	said := make([]string, len(guesses))
	for i, p := range guesses {
		said[i] = capital(p.Says) + "."
	}
	choices, from, _ := m.style.Choices(m.width, said, m.chosen, nil)
	from += len(lines)
	lines = append(lines, choices...)
	if more := m.talk.More(); more != "" {
		lines = append(lines, look.Wrap(m.width, capital(more)+".")...)
	}
	return lines, from
}

// uncounted says how the place under the hand differs from where the work was left off.
func (m Model) uncounted() []string {
	guesses := m.guesses()
	if len(guesses) == 0 || m.noted == pattern.Start() {
		return nil
	}
	return look.Wrap(m.width, capital(track.SayBeside(m.talk.Order, guesses[m.chosen].Place, m.noted))+".")
}

func capital(text string) string {
	if text == "" {
		return text
	}
	return strings.ToUpper(text[:1]) + text[1:]
}
