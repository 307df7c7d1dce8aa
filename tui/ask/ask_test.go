package ask_test

import (
	"fmt"
	"io"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
	"github.com/charmbracelet/x/ansi"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"

	"bypeg/chart"
	"bypeg/tui/ask"
	"bypeg/tui/internal/golden"
	"bypeg/tui/look"
)

func question(w, h int) ask.Model {
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(termenv.Ascii)
	return ask.New(ask.Question{
		Title: "Towpath Cloth: which place is the right one?",
		Lines: []string{
			"Two accounts of the work do not agree. An old copy may have come back, or the piece was worked on two machines.",
			"The fabric knows best: count its rows. Nothing is thrown away.",
		},
		Answers: []string{"row 18 peg 17, from the journal, 3 Feb 19:04", "row 16 peg 1, from the second copy, 3 Feb 18:40"},
	}, look.NewStyle(r, look.Dark, chart.Bars, false), look.NewListKeys()).SetSize(w, h)
}

func TestAQuestionAsItWasLookedAt(t *testing.T) {
	golden.Check(t, "80x24", question(80, 24).View())
	golden.Check(t, "40x12", question(40, 12).View())
}

func TestTheAnswerUnderTheHandIsGiven(t *testing.T) {
	press := func(m ask.Model, keys ...tea.KeyType) (ask.Model, look.Wish) {
		var wish look.Wish
		for _, k := range keys {
			m, wish = m.Update(tea.KeyMsg{Type: k})
		}
		return m, wish
	}
	for answer, keys := range [][]tea.KeyType{
		{tea.KeyEnter},
		{tea.KeyDown, tea.KeyDown, tea.KeyEnter},
	} {
		_, wish := press(question(80, 24), keys...)
		assert.Equal(t, look.Answer{N: answer}, wish)
	}
	m, wish := press(question(80, 24), tea.KeyEsc)
	assert.Nil(t, wish, "esc is no answer")
	_, wish = m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("q")})
	assert.Equal(t, look.Leave{}, wish)
}

func TestAQuestionFitsEverySizeAndKeepsItsAnswers(t *testing.T) {
	for w := range 100 {
		for h := range 30 {
			view := question(w, h).View()
			lines := strings.Split(view, "\n")
			assert.LessOrEqual(t, len(lines), max(1, h))
			for _, line := range lines {
				assert.LessOrEqual(t, ansi.StringWidth(line), w)
			}
			if w >= 40 && h >= 6 {
				assert.Contains(t, view, "row 18 peg 17")
				assert.Contains(t, view, "row 16 peg 1")
				assert.Contains(t, view, "18:40", "%d x %d: the answers are whole", w, h)
			}
		}
	}
}

func TestOfManyAnswersTheOneUnderTheHandIsSeen(t *testing.T) {
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(termenv.Ascii)
	q := ask.Question{Title: "Towpath Cloth: which place is the right one?", Lines: []string{"Much is damaged."}}
	for row := 1; row <= 18; row++ {
		q.Answers = append(q.Answers, fmt.Sprintf("row %d peg 17, from the damaged line", row))
	}
	for _, height := range []int{1, 2, 3, 6, 12, 24} {
		m := ask.New(q, look.NewStyle(r, look.Dark, chart.Bars, false), look.NewListKeys()).SetSize(40, height)
		for row := 1; row <= 18; row++ {
			assert.Contains(t, m.View(), fmt.Sprintf("▸ row %d peg 17", row), "height %d", height)
			m, _ = m.Update(tea.KeyMsg{Type: tea.KeyDown})
		}
		assert.Equal(t, height > 20, strings.Contains(m.View(), "Much is damaged."))
	}
}

func TestARefusedAnswerIsToldAndStaysUnderTheHand(t *testing.T) {
	m, _ := question(40, 12).Update(tea.KeyMsg{Type: tea.KeyDown})
	m = m.Tell("Your answer is not saved: disk full.")
	assert.Contains(t, m.View(), "Your answer is not saved: disk full.")
	assert.Contains(t, m.View(), "▸ row 16 peg 1")
}
