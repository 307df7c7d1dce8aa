//go:build unix

package e2e_test

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/term"
)

// told is a time as a question tells it.
const told = `\d\d? [A-Z][a-z]{2} \d\d:\d\d`

// What is done to the files of a piece between two runs, and what the person sees of
// it: row by row of what can happen. The piece stands at the seventh peg of row 2.
func TestADamagedPieceSaysSoAndLosesNothing(t *testing.T) {
	cases := []struct {
		name    string
		kill    bool // the program was killed before, so that the second copy is behind
		damage  func(p piece)
		says    []string // in this order, as regular expressions
		answers []place  // the place behind each answer; none where nothing is asked
		at      place    // the place where nothing is asked
	}{
		{"half a line at the end", false,
			func(p piece) { p.scribble(firstJournal, p.read(firstJournal)+"11 10 2026-01-0") },
			[]string{`an interrupted line was skipped; nothing saved was lost`}, nil, place{2, 7}},
		{"a bad line in the middle", false,
			func(p piece) { p.change(6, "done=3", "done=4") },
			[]string{`1 of 10 lines can't be read\. Your place is not affected\.`}, nil, place{2, 7}},
		{"both", false,
			func(p piece) {
				p.change(6, "done=3", "done=4")
				p.scribble(firstJournal, p.read(firstJournal)+"11 10 2026-01-0")
			},
			[]string{`an interrupted line was skipped; nothing saved was lost 1 of 10 lines can't be read\. Your place is not affected\.`}, nil, place{2, 7}},
		{"the last line is bad and nothing else knows it", true,
			func(p piece) { p.change(10, "done=7", "done=9") },
			[]string{`which place is the right one\?`, `The last saved line is damaged: 10 9 \S+ step phase=rows row=2 done=9 of=30 sum=\w+`,
				`The fabric knows best: count its rows\.`,
				`▸ row 2 peg 24, the last sure place, ` + told, `row 2 peg 21, from the damaged line`},
			[]place{{2, 6}, {2, 9}}, place{}},
		{"the last line is bad and the second copy knows it", false,
			func(p piece) { p.change(10, "done=7", "done=9") },
			[]string{`which place is the right one\?`, `The last saved line is damaged: 10 9 `,
				`▸ row 2 peg 24, from the journal, ` + told, `row 2 peg 23, from the second copy, ` + told, `row 2 peg 21, from the damaged line`},
			[]place{{2, 6}, {2, 7}, {2, 9}}, place{}},
		{"an old journal has come back", false,
			func(p piece) { p.write(firstJournal, strings.Join(p.lines()[:7], "")) },
			[]string{`which place is the right one\?`, `Two accounts of the work do not agree\. An old copy may have come back, or the piece was worked on two machines\.`,
				`▸ row 2 peg 23, from the second copy, ` + told, `row 2 peg 27, from the journal, ` + told},
			[]place{{2, 7}, {2, 3}}, place{}},
		{"two records follow one number", false,
			func(p piece) { p.scribble(firstJournal, p.read(firstJournal)+p.step(8, 7, 20)) },
			[]string{`which place is the right one\?`, `Two accounts of the work do not agree`,
				`▸ row 2 peg 23, from the journal, ` + told, `row 2 peg 10, from another history, 2 Jan 19:04`},
			[]place{{2, 7}, {2, 20}}, place{}},
		{"copies that a tool made, of the same records", false,
			func(p piece) {
				p.scribble("journal-0001 (conflict copy).txt", p.read(firstJournal))
				p.scribble("journal-0001.sync-conflict-20260102-190405-ABCDEFG.txt", strings.Join(p.lines()[:8], ""))
				p.scribble("place.sync-conflict-20260102-190405-ABCDEFG.toml", p.read("place.toml"))
			},
			nil, nil, place{2, 7}},
		{"a copy that a tool made, of another history", false,
			func(p piece) {
				other := strings.Join(p.lines()[:8], "") + p.step(8, 7, 11) + p.step(9, 8, 12)
				p.scribble("journal-0001.sync-conflict-20260102-190405-ABCDEFG.txt", other)
			},
			[]string{`which place is the right one\?`, `Two accounts of the work do not agree`,
				`▸ row 2 peg 23, from the journal, ` + told, `row 2 peg 18, from another history, 2 Jan 19:04`},
			[]place{{2, 7}, {2, 12}}, place{}},
		{"a line added by hand", false,
			func(p piece) { p.scribble(firstJournal, p.read(firstJournal)+"here row=12 done=9\n") },
			[]string{`which place is the right one\?`, `A line was added by hand: here row=12 done=9`,
				`▸ row 2 peg 23, from the journal, ` + told, `row 12 peg 21, from the line added by hand`},
			[]place{{2, 7}, {12, 9}}, place{}},
		{"the journal is gone", false,
			func(p piece) { p.remove(firstJournal) },
			[]string{`Sluice Cloth: go on from here\?`, `The journal is gone: only the place is left, and the steps before it can't be undone\.`,
				`▸ row 2 peg 23, from the second copy, ` + told},
			[]place{{2, 7}}, place{}},
		{"the second copy is damaged", false,
			func(p piece) {
				p.scribble("place.toml", strings.Replace(p.read("place.toml"), "done = 7", "done = 9", 1))
			},
			[]string{`the second copy of the place can't be read\. Your place is not affected\.`}, nil, place{2, 7}},
	}
	for _, c := range cases {
		for n := range max(1, len(c.answers)) {
			name, at := c.name, c.at
			if c.answers != nil {
				at = c.answers[n]
				name += ", answer " + string(rune('1'+n))
			}
			t.Run(name, func(t *testing.T) {
				t.Parallel()
				home := t.TempDir()
				c.damage(sevenPegs(t, home, c.kill))
				l := start(t, home, "work", "sluice-cloth")
				l.sees(c.says...)
				if c.answers == nil {
					l.waitAt(at.row, at.done)
					assert.NotContains(t, l.Text(), "place is the right one")
				} else {
					l.leftUnanswered(home, c.says)
					l = start(t, home, "work", "sluice-cloth")
					l.sees(c.says...) // once more, and nothing is lost by waiting
					for range n {
						l.Keys(t, term.Down)
					}
					l.Keys(t, term.Enter)
				}
				l.workOn(home, at)
			})
		}
	}
}

// sees waits until the screen tells all of that, in that order.
func (l *loom) sees(says ...string) {
	l.t.Helper()
	want := regexp.MustCompile(strings.Join(says, ".*"))
	l.WaitFor(l.t, "the words "+want.String(), func(*term.Screen) bool {
		return l.Text() != "" && want.MatchString(l.said())
	})
}

// leftUnanswered leaves a question. What is said then has every place of it.
func (l *loom) leftUnanswered(home string, says []string) {
	l.t.Helper()
	p := pieceOf(l.t, home)
	before := p.read("place.toml")
	l.Keys(l.t, "q")
	assert.Equal(l.t, term.Exit{}, l.Wait(l.t))
	l.CheckRestored(l.t)
	want := []string{`^Sluice Cloth: which place is the right one is not answered yet:`}
	for _, s := range says {
		if s = strings.TrimPrefix(s, "▸ "); strings.HasPrefix(s, "row ") {
			want = append(want, s)
		}
	}
	require.Greater(l.t, len(want), 1)
	assert.Regexp(l.t, strings.Join(want, " "), l.said())
	assert.Equal(l.t, before, p.read("place.toml"), "nothing is touched")
}

func TestAPieceOfANewerVersionIsOnlyLookedAt(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	p := sevenPegs(t, home, false)
	lines := p.lines()
	head, _, ok := strings.Cut(strings.Replace(lines[0], "version 1", "version 2", 1), " sum=")
	require.True(t, ok)
	require.Contains(t, head, "version 2")
	lines[0] = p.sealed(head)
	newer := strings.Join(lines, "")
	p.scribble(firstJournal, newer)
	l := cloth(t, home)
	l.waitAt(2, 7)
	l.waitSays("looking only: last worked with a newer version of the program")
	l.steps(2)
	l.Keys(t, term.Up, "u", "?")
	l.WaitText(t, "keys")
	l.closesHelp()
	l.waitAt(2, 7)
	l.leaves("Sluice Cloth: row 2 peg 23, only looked at")
	assert.Equal(t, newer, p.read(firstJournal))
}

func TestAPieceWithoutAPlaceIsNotBegunAnew(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	p := sevenPegs(t, home, false)
	p.scribble(firstJournal, strings.Repeat("\x00", 100_000))
	second := p.read("place.toml")
	p.remove("place.toml")

	l := start(t, home, "work", "sluice-cloth")
	l.waitAt(0, 0) // what it was begun from can't be read either
	l.waitSays("begun anew; a piece that can't be read lies on the shelf: bypeg alone shows it")
	l.Kill()
	l.Wait(t)
	shelf := start(t, home)
	shelf.WaitText(t, "On the loom")
	shelf.Keys(t, term.Down)
	shelf.waitSays("▲ no place can be read from the piece: the bytes are kept as they are, and the work is not taken to be at row 1")
	shelf.Keys(t, term.Enter)
	shelf.waitSays("open the piece")
	shelf.Keys(t, "q")
	shelf.Wait(t)

	require.NoError(t, os.WriteFile(p.path("place.toml"), []byte(second), 0o600))
	shelf = start(t, home)
	shelf.WaitText(t, "On the loom")
	shelf.toAnswer("Sluice Cloth +bottom border, row 2 of 49") // begun in the same second, it may lie above
	shelf.Keys(t, term.Enter)
	shelf.sees(`go on from here\?`, `row 2 peg 23, from the second copy`)
	shelf.Keys(t, term.Enter)
	shelf.waitAt(2, 7)
}
