//go:build unix

package e2e_test

import (
	"fmt"
	"hash/crc32"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/term"
)

// piece is the folder of a piece on disk.
type piece struct {
	t   testing.TB
	dir string
}

// pieceOf is the only piece under a home directory.
func pieceOf(t testing.TB, home string) piece {
	t.Helper()
	found, err := filepath.Glob(filepath.Join(home, "data", "bypeg", "pieces", "*"))
	require.NoError(t, err)
	require.Len(t, found, 1)
	return piece{t, found[0]}
}

func (p piece) path(name string) string { return filepath.Join(p.dir, name) }

func (p piece) read(name string) string {
	p.t.Helper()
	text, err := os.ReadFile(p.path(name))
	require.NoError(p.t, err)
	return string(text)
}

// write puts a new file in the place of whatever was there, as programs do that keep
// folders alike.
func (p piece) write(name, text string) {
	p.t.Helper()
	require.NoError(p.t, os.WriteFile(p.path(name+".other"), []byte(text), 0o600))
	require.NoError(p.t, os.Rename(p.path(name+".other"), p.path(name)))
}

// scribble changes a file where it lies.
func (p piece) scribble(name, text string) {
	p.t.Helper()
	require.NoError(p.t, os.WriteFile(p.path(name), []byte(text), 0o600))
}

func (p piece) remove(name string) {
	p.t.Helper()
	require.NoError(p.t, os.Remove(p.path(name)))
}

const firstJournal = "journal-0001.txt"

// lines are the lines of the journal, the header first, each with its newline.
func (p piece) lines() []string { return slices.Collect(strings.Lines(p.read(firstJournal))) }

// change is the journal's n-th record with one text in place of another, and its sum
// left as it was.
func (p piece) change(n int, was, now string) {
	p.t.Helper()
	lines := p.lines()
	require.Contains(p.t, lines[n], was)
	lines[n] = strings.Replace(lines[n], was, now, 1)
	p.scribble(firstJournal, strings.Join(lines, ""))
}

// sealed is a line as the program would write it for this piece: with its sum, the
// CRC-32C of the piece's id and the line, in hexadecimal. The polynomial is that of RFC
// 3720, appendix B.4.
func (p piece) sealed(line string) string {
	sum := crc32.Checksum([]byte(filepath.Base(p.dir)+line), crc32.MakeTable(crc32.Castagnoli))
	return fmt.Sprintf("%s sum=%08x\n", line, sum)
}

// step is a sealed record that leads to a place in row 2, made at a time of its own.
func (p piece) step(number, follows, done int) string {
	return p.sealed(fmt.Sprintf("%d %d 2026-01-02T19:04:05Z step phase=rows row=2 done=%d of=30", number, follows, done))
}

// sevenPegs works a cloth up to the seventh peg of row 2, which is record 10, and
// leaves it by q, or by a kill that leaves the second copy of the place behind.
func sevenPegs(t testing.TB, home string, kill bool) piece {
	t.Helper()
	l := cloth(t, home)
	l.toRow(2)
	l.steps(7)
	l.waitAt(2, 7)
	if kill {
		l.Kill()
	} else {
		l.Keys(t, "q")
	}
	l.Wait(t)
	p := pieceOf(t, home)
	require.Len(t, p.lines(), 11)
	return p
}

// workOn works two pegs from a place on, leaves, and comes back: all of it is there,
// and nobody is asked anything.
func (l *loom) workOn(home string, at place) {
	l.t.Helper()
	l.waitAt(at.row, at.done)
	l.steps(1)
	l.waitAt(at.row, at.done+1)
	l.steps(1)
	l.waitAt(at.row, at.done+2)
	l.leaves(fmt.Sprintf("Sluice Cloth: row %d peg %d, saved", at.row, pegOf(place{at.row, at.done + 2})))
	again := cloth(l.t, home)
	again.waitAt(at.row, at.done+2)
	again.Keys(l.t, "u", "u")
	again.waitAt(at.row, at.done)
}

// pegOf is the peg in hand: in the cloth's even rows the work goes up from the peg with
// the highest number, 30, and in the odd ones from peg 1.
func pegOf(at place) int {
	if at.row%2 == 0 {
		return 30 - at.done
	}
	return 1 + at.done
}

// leaves presses q and looks at what is said then.
func (l *loom) leaves(says string) {
	l.t.Helper()
	l.Keys(l.t, "q")
	assert.Equal(l.t, term.Exit{}, l.Wait(l.t))
	l.CheckRestored(l.t)
	assert.Equal(l.t, says, l.said())
}

// back are the last lines, which say what to look for when coming back.
var back = regexp.MustCompile(`(?s)\n  (?:The cast-on|All rows|\d+ (?:row|loop)s? ).*$`)

// said is what stands on the terminal, however it is broken into lines, without the words
// for whoever comes back.
func (l *loom) said() string {
	return strings.Join(strings.Fields(back.ReplaceAllString(l.Text(), "")), " ")
}

// asleep stops the program as a laptop's lid does, and wakes it when something has been
// done meanwhile.
func (l *loom) asleep(meanwhile func()) {
	l.t.Helper()
	l.Signal(l.t, syscall.SIGSTOP)
	meanwhile()
	l.Signal(l.t, syscall.SIGCONT)
}

// rest takes the hand off the keys until a question that nobody has asked for listens
// to them, which it does after less than a second.
func (l *loom) rest() { time.Sleep(time.Second) }
