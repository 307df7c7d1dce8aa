//go:build unix

package e2e_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/term"
)

// Not side by side with others: it measures time.
func TestTheVersionIsToldWithoutAWordToTheTerminal(t *testing.T) {
	began := time.Now()
	s := launch(t, bypeg, term.Setup{Silent: true}, "--version")
	assert.Equal(t, term.Exit{}, s.Wait(t))
	assert.Less(t, time.Since(began), 2*time.Second)
	assert.Regexp(t, `^bypeg .*\r\n$`, string(s.Raw()))
	assert.NotContains(t, string(s.Raw()), "\x1b")
}

func TestWithoutATerminalTheScreensRefuseAndNameThePlainCommand(t *testing.T) {
	commands := []struct {
		args []string
		hint string
	}{
		{nil, "bypeg: hint: bypeg work FILE --plain works a piece line by line"},
		{[]string{"work"}, "bypeg: hint: bypeg work --plain"},
		{[]string{"work", "sluice-cloth"}, "bypeg: hint: bypeg work sluice-cloth --plain"},
		{[]string{"sluice-cloth"}, "bypeg: hint: bypeg work sluice-cloth --plain"},
	}
	for _, c := range commands {
		name := "bypeg " + strings.Join(c.args, " ")
		t.Run(name+" into a file", func(t *testing.T) {
			t.Parallel()
			out, err := os.Create(filepath.Join(t.TempDir(), "out"))
			require.NoError(t, err)
			defer out.Close()
			refuses(t, c.args, c.hint, term.Setup{Stdout: out})
			written, err := os.ReadFile(out.Name())
			require.NoError(t, err)
			assert.Empty(t, string(written))
		})
		t.Run(name+" without a keyboard", func(t *testing.T) {
			t.Parallel()
			in, err := os.Open(os.DevNull)
			require.NoError(t, err)
			defer in.Close()
			refuses(t, c.args, c.hint, term.Setup{Stdin: in})
		})
	}
}

func refuses(t testing.TB, args []string, hint string, setup term.Setup) {
	t.Helper()
	require.NoError(t, touched())
	setup.Home = t.TempDir() // with nothing in it, no config file either
	s := term.Start(t, bypeg, args, setup)
	assert.Equal(t, term.Exit{Code: 2}, s.Wait(t))
	said := string(s.Raw())
	assert.Contains(t, said, "bypeg: error: this needs a terminal")
	assert.Contains(t, said, hint)
	assert.NotContains(t, said, "\x1b")
	left, err := os.ReadDir(setup.Home)
	require.NoError(t, err)
	assert.Empty(t, left, "and no piece is begun")
}

// colour is a change of colours: ECMA-48, "select graphic rendition", 30 to 49 and,
// as terminals added, 90 to 107.
var colour = regexp.MustCompile(`\x1b\[(?:\d+;)*(?:[34]\d|9[0-7]|10[0-7])[;m]`)

func TestColourIsHelpAndNeverNeeded(t *testing.T) {
	cases := []struct {
		name     string
		env      []string
		args     []string
		coloured bool
	}{
		{"with colours", nil, nil, true},
		{"NO_COLOR", []string{"NO_COLOR=1"}, nil, false},
		{"--color never", nil, []string{"--color", "never"}, false},
		{"--color always goes before NO_COLOR", []string{"NO_COLOR=1"}, []string{"--color", "always"}, true},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			args := append([]string{"work", "sluice-cloth"}, c.args...)
			l := launch(t, bypeg, term.Setup{Env: c.env}, args...)
			l.waitAt(0, 0)
			l.toRow(8)
			l.steps(5)
			s := l.waitAt(8, 5)
			assert.Equal(t, 25, s.peg, "the place is told by shape")
			x, y, ok := l.Find("[")
			require.True(t, ok)
			assert.Equal(t, c.coloured, l.Style(x+1, y).Fg != nil, "the peg in hand has a colour")
			assert.Equal(t, c.coloured, l.Style(x+1, y).Fg != l.Style(x+5, y).Fg, "one of its own")
			assert.Equal(t, c.coloured, colour.Match(l.Raw()))
			for y := range 24 {
				for x := range 80 {
					if st := l.Style(x, y); !c.coloured && (st.Fg != nil || st.Bg != nil) {
						t.Fatalf("line %d column %d has a colour", y, x)
					}
				}
			}
		})
	}
}

// payload is what a stranger's text may carry: a title for the window, a blink, a C1
// control, a bell, and a turn of the writing direction. No screen of ours uses them.
const payload = "\x1b]2;owned\x07\x1b[5mblink\u009b5m\u202eturned"

func TestAStrangersTextNeverReachesTheTerminalRaw(t *testing.T) {
	dir := t.TempDir()
	hostile := strings.NewReplacer(
		`"Quay Mat"`, `"Quay \u001b]2;owned\u0007\u001b[5mblink\u009b5m\u202eturned Mat"`,
		`"bottom border"`, `"bottom \u001b]2;owned\u0007\u001b[5m border"`,
	).Replace(exampleText(t, "quay-mat"))
	inside := write(t, filepath.Join(dir, "inside.toml"), hostile)
	named := write(t, filepath.Join(dir, "name"+payload+".toml"), exampleText(t, "quay-mat"))
	raw := write(t, filepath.Join(dir, "raw.toml"), "title = \""+payload+"\"\n")
	wrong := write(t, filepath.Join(dir, "wrong"+payload+".toml"), strings.Replace(exampleText(t, "quay-mat"), "pegs", "pags", 1))
	missing := filepath.Join(dir, "missing"+payload+".toml")
	commands := []string{"chart", "rows", "check", "work"}
	for _, file := range []string{inside, named, raw, wrong, missing, filepath.Join(dir, payload)} {
		for _, command := range commands {
			t.Run(command+" "+filepath.Base(file), func(t *testing.T) {
				t.Parallel()
				home := t.TempDir()
				l := start(t, home, command, file)
				if command == "work" && (file == inside || file == named) {
					workHostile(t, home, l)
				} else {
					l.Wait(t)
					assert.NotEmpty(t, l.Raw())
				}
				harmless(t, l)
			})
		}
	}
	t.Run("as a command", func(t *testing.T) {
		l := start(t, t.TempDir(), payload, payload)
		assert.Equal(t, term.Exit{Code: 2}, l.Wait(t))
		harmless(t, l)
	})
	for _, flag := range []string{"--hand", "--color", "--symbols", "--row-1", "--rows", "--lead", "--" + payload} {
		t.Run("as a value of "+flag, func(t *testing.T) {
			l := start(t, t.TempDir(), "chart", "quay-mat", flag, payload)
			assert.Equal(t, term.Exit{Code: 2}, l.Wait(t))
			harmless(t, l)
		})
	}
}

// workHostile looks at a piece on the loom, its keys and its chart, lays it away, and
// looks at it on the shelf.
func workHostile(t testing.TB, home string, l *loom) {
	t.Helper()
	l.waitAt(0, 0)
	l.toRow(2)
	l.Keys(t, "c")
	l.WaitText(t, "rows 1 to")
	l.Keys(t, "q")
	l.waitAt(2, 0)
	l.Keys(t, "?")
	l.WaitText(t, "keys")
	l.Signal(t, 15)
	l.Wait(t)
	shelf := start(t, home)
	shelf.WaitText(t, "On the loom")
	assert.Contains(t, shelf.Text(), "Mat")
	harmless(t, shelf)
}

func harmless(t testing.TB, l *loom) {
	t.Helper()
	raw := string(l.Raw())
	for _, part := range []string{"\x1b]2;", "\a", "\x1b[5m", "\u009b", "\u202e"} {
		assert.NotContains(t, raw, part, "from the text of a stranger")
	}
}

// exampleText is the pattern file of an example.
func exampleText(t testing.TB, name string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "examples", name+".toml"))
	require.NoError(t, err)
	return string(text)
}

func write(t testing.TB, path, text string) string {
	t.Helper()
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	return path
}
