//go:build unix

package e2e_test

import (
	"bytes"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/term"
)

func TestASecondRowAtOnceIsAskedAbout(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	choose(t, home, "")
	l := cloth(t, home)
	l.Keys(t, term.Up)
	l.waitAt(1, 0)
	l.Keys(t, term.Up)
	l.waitSays("a second row so soon? ↑ again works it")
	l.waitAt(1, 0)
	time.Sleep(200 * time.Millisecond) // faster is no hand, but a key that is held down
	l.Keys(t, term.Up)
	l.waitAt(2, 0)
	l.Keys(t, "q")
	assert.Equal(t, 0, l.Wait(t).Code)
}

func TestABrokenConfigIsToldAndWhatIsRightInItCounts(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	choose(t, home, "thema = \"light\"\nlead = \"two\"\n[keys]\npeg = [\"x\", \"ctrl+n\"]")
	l := cloth(t, home)
	const notice = "the config file has 2 faults: bypeg config tells"
	l.waitSays(notice)
	l.Keys(t, term.Up)
	l.waitAt(1, 0)
	assert.NotContains(t, l.Text(), notice)
	l.Keys(t, term.Space, "x", "\x0e") // the space means nothing any more
	l.waitAt(1, 2)
	l.waitSays("x peg")
	l.Keys(t, "?")
	l.waitSays("x one peg (ctrl+n too)")
	l.closesHelp()
	l.Keys(t, "q")
	assert.Equal(t, 0, l.Wait(t).Code)

	shelf := start(t, home)
	shelf.waitSays(notice)
	shelf.Keys(t, "q")
	assert.Equal(t, 0, shelf.Wait(t).Code)
	told := start(t, home, "config")
	told.waitSays("there is no setting \"thema\"")
	assert.Equal(t, 1, told.Wait(t).Code)
}

func TestTheBellAndTheMouseAreOnlyThereWhereTheyAreWished(t *testing.T) {
	t.Parallel()
	const wheel = "\x1b[<64;10;10M\x1b[<65;10;10M" // xterm's manual, SGR mode: buttons 64 and 65
	for _, c := range []struct {
		name, config string
		there        bool
	}{
		{"as it comes", `double_press = "0 s"`, false},
		{"wished", "bell = true\nmouse = true\ndouble_press = \"0 s\"", true},
	} {
		t.Run(c.name, func(t *testing.T) {
			home := t.TempDir()
			choose(t, home, c.config)
			l := cloth(t, home)
			l.toRow(7) // between side borders: the end of the left one is near
			l.Send(t, wheel)
			l.Keys(t, term.Space, term.Space)
			l.waitAt(7, 2)
			assert.Equal(t, c.there, l.Mouse(), "the mouse")
			l.Keys(t, "q")
			require.Equal(t, 0, l.Wait(t).Code)
			l.CheckRestored(t)
			assert.Equal(t, c.there, bytes.Contains(l.Raw(), []byte("\a")), "the bell")
		})
	}
}
