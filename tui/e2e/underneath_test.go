//go:build unix

package e2e_test

import (
	"fmt"
	"os"
	"regexp"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/term"
)

// What happens to the files of a piece while it is being worked, as when the laptop
// sleeps: the program is stopped meanwhile. It notices at the next step.
func TestAFileChangedUnderneathIsSaidAndLosesNothing(t *testing.T) {
	const changed = `The saved file was changed by something else: compare with the fabric\.`
	const lost = `1 step after that, in round brackets, could not be saved\.`
	cases := []struct {
		name    string
		change  func(p piece)
		says    []string
		answers []place
		goesOn  bool // what is there now follows what was saved: the next start asks nothing
	}{
		{"replaced by an old one", func(p piece) { p.write(firstJournal, strings.Join(p.lines()[:7], "")) },
			[]string{`which place is the right one\?`, changed, lost,
				`▸ row 2 peg 23, as it was saved here, ` + told, `row 2 peg 27, from the journal, ` + told},
			[]place{{2, 7}, {2, 3}}, false},
		{"shrunk", func(p piece) { p.scribble(firstJournal, strings.Join(p.lines()[:7], "")) },
			[]string{`which place is the right one\?`, changed, lost,
				`▸ row 2 peg 23, as it was saved here, ` + told, `row 2 peg 27, from the journal, ` + told},
			[]place{{2, 7}, {2, 3}}, false},
		{"grown by another machine's steps", func(p piece) { p.scribble(firstJournal, p.read(firstJournal)+p.step(11, 10, 12)) },
			[]string{`which place is the right one\?`, changed, lost,
				`▸ row 2 peg 23, as it was saved here, ` + told, `row 2 peg 18, from the journal, 2 Jan 19:04`},
			[]place{{2, 7}, {2, 12}}, true},
		{"gone", func(p piece) { p.remove(firstJournal) },
			[]string{`go on from here\?`, changed, `The journal is gone: only the place is left`, lost,
				`▸ row 2 peg 23, as it was saved here, ` + told},
			[]place{{2, 7}}, false},
	}
	for _, c := range cases {
		for n, at := range c.answers {
			t.Run(fmt.Sprintf("%s, answer %d", c.name, n+1), func(t *testing.T) {
				t.Parallel()
				home := t.TempDir()
				p := sevenPegs(t, home, true)
				l := cloth(t, home)
				l.waitAt(2, 7)
				l.asleep(func() { c.change(p) })
				l.steps(1)
				l.sees(c.says...)
				l.Keys(t, term.Enter) // on its way to the pegs: it answers nothing
				l.rest()
				l.sees(c.says...)
				if n > 0 {
					l.Keys(t, term.Down)
				} else if !c.goesOn { // whoever leaves, or is killed, is asked again
					l.Signal(t, syscall.SIGTERM)
					assert.Equal(t, term.Exit{Code: 143}, l.Wait(t))
					assert.Regexp(t, `^Sluice Cloth: which place is the right one is not answered yet: row 2 peg 23, as it was saved here, `+told, l.said())
					l = start(t, home, "work", "sluice-cloth")
					l.sees(`right one\?|go on from here\?`, `▸ row 2 peg`)
					l.toAnswer(fmt.Sprintf("row %d peg %d,", at.row, pegOf(at)))
				}
				l.Keys(t, term.Enter)
				l.workOn(home, at)
			})
		}
	}
}

// toAnswer goes to the answer that begins with such words.
func (l *loom) toAnswer(words string) {
	l.t.Helper()
	for range 5 {
		if regexp.MustCompile("▸ " + words).MatchString(l.Text()) {
			return
		}
		before := l.Text()
		l.Keys(l.t, term.Down)
		l.WaitFor(l.t, "the next answer", func(s *term.Screen) bool { // drawn whole: the hand is on one
			text := s.Text()
			return text != before && strings.Count(text, "▸ ") == 1
		})
	}
	l.t.Fatalf("no answer %s:\n%s", words, l.Text())
}

func TestTheSameFileUnderAnotherNodeIsNoQuestion(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	p := sevenPegs(t, home, false)
	l := cloth(t, home)
	l.waitAt(2, 7)
	l.asleep(func() { p.write(firstJournal, p.read(firstJournal)) })
	l.steps(1)
	l.waitSays("not saved and to be worked again: 1 step. The saved file was changed by something else")
	l.rest()
	l.workOn(home, place{2, 7})
}

func TestALaptopsSleepLosesNoStep(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	l := cloth(t, home)
	l.toRow(2)
	l.Send(t, strings.Repeat(" ", 5))
	l.asleep(func() {
		l.Send(t, "  ") // typed as the lid closes
		l.rest()
	})
	l.waitAt(2, 7)
	l.workOn(home, place{2, 7})
}

func TestAFolderThatIsGone(t *testing.T) {
	leave := func(l *loom) { // all the same
		l.Keys(l.t, "q")
		l.waitSays("2 steps would be lost")
		l.Keys(l.t, term.Down, term.Enter)
	}
	cases := []struct {
		name  string
		steps int
		end   func(*loom)
		says  string
	}{
		{"with steps on the way", 2, leave,
			`^bypeg: error: 2 steps lost, and all that was saved: the folder \S+ is gone Sluice Cloth: it was at row 2 peg 21$`},
		{"with steps on the way, by a signal", 2, func(l *loom) { l.Signal(l.t, syscall.SIGTERM) },
			`^bypeg: error: 2 steps lost, and all that was saved: the folder \S+ is gone Sluice Cloth: it was at row 2 peg 21$`},
		{"with all saved", 0, func(l *loom) { l.Keys(l.t, "q") },
			`^bypeg: error: all that was saved is lost: the folder \S+ is gone Sluice Cloth: it was at row 2 peg 23$`},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			home := t.TempDir()
			p := sevenPegs(t, home, false)
			l := launch(t, bypeg, term.Setup{Home: home, W: 250, H: 24}, "work", "sluice-cloth")
			l.WaitText(t, "7 of 30 worked")
			l.asleep(func() { require.NoError(t, os.RemoveAll(p.dir)) })
			l.steps(c.steps)
			if c.steps > 0 {
				l.waitSays("▲ NOT SAVED: the piece's folder is gone. It was at row 2 peg 23. s tries again")
				l.WaitText(t, "9 of 30 worked")
			}
			c.end(l)
			assert.Equal(t, term.Exit{Code: 3}, l.Wait(t))
			l.CheckRestored(t)
			assert.Regexp(t, c.says, l.said())
		})
	}
	t.Run("and comes back", func(t *testing.T) {
		t.Parallel()
		home := t.TempDir()
		p := sevenPegs(t, home, false)
		l := cloth(t, home)
		l.waitAt(2, 7)
		l.asleep(func() { require.NoError(t, os.Rename(p.dir, p.dir+"-away")) })
		l.steps(2)
		l.waitSays("▲ NOT SAVED: the piece's folder is gone. It was at row 2 peg 23. s tries again")
		require.NoError(t, os.Rename(p.dir+"-away", p.dir))
		l.Keys(t, "s")
		l.waitAt(2, 9)
		assert.NotContains(t, l.Text(), "NOT SAVED")
		l.workOn(home, place{2, 9})
	})
}
