//go:build unix

package e2e_test

import (
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/term"
)

// The built programs, set once by TestMain.
var (
	bypeg    string // as people have it
	crashing string // one that panics on the key "!"
)

func TestMain(m *testing.M) { os.Exit(runAll(m)) }

// atOnce is how many tests run side by side unless the command line says otherwise.
// They wait for screens and disks most of the time, and hardly for a processor.
const atOnce = "6"

func runAll(m *testing.M) int {
	flag.Parse()
	if f := flag.Lookup("test.parallel"); f.Value.String() == f.DefValue {
		if err := f.Value.Set(atOnce); err != nil {
			fmt.Fprintln(os.Stderr, err)
			return 1
		}
	}
	for binary, flags := range map[*string][]string{
		&bypeg:    {"-buildvcs=false"},
		&crashing: {"-buildvcs=false", "-tags", "crashtest"},
	} {
		path, remove, err := term.Build("bypeg/cmd/bypeg", flags...)
		if err != nil {
			fmt.Fprintln(os.Stderr, err)
			return 1
		}
		defer remove()
		*binary = path
	}
	return m.Run()
}

// touched looks, once, at every file that the program is made of. The go command then
// knows that a change of any of them makes a remembered result worthless: it takes
// note of what a running test looks at, not of what the build in TestMain read.
var touched = sync.OnceValue(func() error {
	root := filepath.Join("..", "..")
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err == nil && d.IsDir() && d.Name() == ".git" {
			return fs.SkipDir
		}
		if err == nil {
			_, err = os.Stat(path)
		}
		if errors.Is(err, fs.ErrNotExist) {
			return nil // some other test's file, gone meanwhile
		}
		return err
	})
	if err != nil {
		return fmt.Errorf("look at the sources: %w", err)
	}
	return nil
})

// loom is one run of the program.
type loom struct {
	*term.Session
	t testing.TB
}

// launch runs a binary with arguments.
func launch(t testing.TB, binary string, setup term.Setup, args ...string) *loom {
	t.Helper()
	require.NoError(t, touched())
	if setup.Home == "" {
		setup.Home = t.TempDir()
	}
	if _, err := os.Stat(configFile(setup.Home)); errors.Is(err, fs.ErrNotExist) {
		choose(t, setup.Home, `double_press = "0 s"`) // tests press row after row
	}
	return &loom{term.Start(t, binary, args, setup), t}
}

func configFile(home string) string { return filepath.Join(home, "config", "bypeg", "config.toml") }

// choose writes the config file of a home directory.
func choose(t testing.TB, home, text string) {
	t.Helper()
	path := configFile(home)
	require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o700))
	require.NoError(t, os.WriteFile(path, []byte(text+"\n"), 0o600))
}

// start runs the program in a home directory.
func start(t testing.TB, home string, args ...string) *loom {
	t.Helper()
	return launch(t, bypeg, term.Setup{Home: home}, args...)
}

// cloth goes on with a piece of the example sluice-cloth, or begins it: 30 pegs and 49
// rows, of which rows 7 to 42 are a field between side borders of three pegs.
func cloth(t testing.TB, home string) *loom {
	t.Helper()
	l := start(t, home, "work", "sluice-cloth")
	l.waitSeen("the pegs", func(sight) bool { return true })
	return l
}

// look is what the screen says of the place; false while it is being drawn.
func (l *loom) look() (sight, bool) {
	text, whole := l.Frame()
	if !whole {
		return sight{}, false
	}
	return read(text)
}

// waitSeen waits until the screen tells of such a place, and that it is saved.
func (l *loom) waitSeen(what string, is func(sight) bool) sight {
	l.t.Helper()
	var s sight
	l.WaitFor(l.t, what, func(*term.Screen) bool {
		var ok bool
		s, ok = l.look()
		return ok && s.saved && is(s)
	})
	return s
}

// waitAt waits until so many pegs of a row are done, and saved.
func (l *loom) waitAt(row, done int) sight {
	l.t.Helper()
	return l.waitSeen(fmt.Sprintf("row %d with %d done", row, done), func(s sight) bool {
		return s.place == place{row, done}
	})
}

// waitSays waits for words, however they are broken into lines.
func (l *loom) waitSays(words string) {
	l.t.Helper()
	l.WaitFor(l.t, "the words "+words, func(s *term.Screen) bool {
		return strings.Contains(strings.Join(strings.Fields(s.Text()), " "), words)
	})
}

// toRow works whole rows up to the start of one, from the start of the cast-on.
func (l *loom) toRow(row int) {
	l.t.Helper()
	for r := 1; r <= row; r++ {
		l.Keys(l.t, term.Up)
		l.waitAt(r, 0)
	}
}

// steps works so many pegs.
func (l *loom) steps(n int) {
	l.t.Helper()
	for range n {
		l.Keys(l.t, term.Space)
	}
}

// closesHelp turns the pages of the help until it is gone. A page has come when its last
// line has.
func (l *loom) closesHelp() {
	l.t.Helper()
	for more := true; more; {
		l.WaitText(l.t, "any key")
		page := l.Text()
		more = strings.Contains(page, "any key shows more")
		l.Keys(l.t, "?")
		l.WaitFor(l.t, "another page, or none", func(s *term.Screen) bool {
			return s.Text() != page && strings.Contains(s.Text(), "any key") == more
		})
	}
}
