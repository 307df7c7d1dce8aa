package main

import (
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/adrg/xdg"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// ran is what a run of the program left: its exit code and what it wrote.
type ran struct {
	code        int
	out, errors string
}

// runHere runs the program in this process, without a terminal.
func runHere(t testing.TB, args ...string) ran {
	t.Helper()
	noConfig()
	dir := t.TempDir()
	in, err := os.Open(os.DevNull)
	require.NoError(t, err)
	defer in.Close()
	create := func(name string) *os.File {
		f, err := os.Create(filepath.Join(dir, name))
		require.NoError(t, err)
		return f
	}
	out, errs := create("out"), create("errors")
	r := ran{code: run(args, in, out, errs)}
	for f, text := range map[*os.File]*string{out: &r.out, errs: &r.errors} {
		require.NoError(t, f.Close())
		b, err := os.ReadFile(f.Name())
		require.NoError(t, err)
		*text = string(b)
	}
	return r
}

// noConfig keeps whoever runs the tests from having a config file.
var noConfig = sync.OnceFunc(func() {
	_ = os.Setenv("XDG_CONFIG_HOME", filepath.Join(os.TempDir(), "no config file here"))
	xdg.Reload()
})

func writeFile(t testing.TB, name, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	return path
}

func TestExitCodes(t *testing.T) {
	wrong := writeFile(t, "wrong.toml", "pattern = 1\n")
	doubtful := writeFile(t, "doubtful.toml", "pattern = 1\npegs = 4\n[[zone]]\nname = \"all\"\nborder = true\nrows = [\"k\", \"p\"]\n")
	// The codes are those that --help tells.
	cases := []struct {
		name string
		args []string
		code int
	}{
		{"done", []string{"rows", "quay-mat"}, 0},
		{"a doubt is no error", []string{"check", doubtful}, 0},
		{"help", []string{"--help"}, 0},
		{"help of a command", []string{"rows", "--help"}, 0},
		{"the version", []string{"--version"}, 0},
		{"a wrong pattern", []string{"chart", wrong}, 1},
		{"check found errors", []string{"check", wrong}, 1},
		{"check found a doubt, and is strict", []string{"check", "--strict", doubtful}, 1},
		{"a written row that does not come out", []string{"rows", "--pegs", "3", "--text", "k2"}, 1},
		{"no such command", []string{"knit", "quay-mat"}, 2},
		{"no such flag", []string{"rows", "quay-mat", "--knit"}, 2},
		{"a wrong value", []string{"rows", "quay-mat", "--hand", "both"}, 2},
		{"no pattern named", []string{"rows"}, 2},
		{"no terminal", []string{"work", "quay-mat"}, 2},
		{"no terminal for the shelf", nil, 2},
		{"no such file", []string{"rows", "no/such/file.toml"}, 3},
		{"a folder", []string{"check", t.TempDir()}, 3},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			r := runHere(t, c.args...)
			assert.Equal(t, c.code, r.code, "%s%s", r.out, r.errors)
			switch c.code {
			case exitDone:
				assert.NotEmpty(t, r.out)
			case exitUsage, exitIO:
				assert.Empty(t, r.out)
				assert.True(t, strings.HasPrefix(r.errors, "bypeg: error: "), r.errors)
			default:
				assert.Empty(t, r.out)
				assert.Regexp(t, `:\d+:\d+: `, r.errors)
			}
		})
	}
}

func TestAnOutputThatFailsIsAnExitCodeToo(t *testing.T) {
	closed, err := os.Create(filepath.Join(t.TempDir(), "closed"))
	require.NoError(t, err)
	require.NoError(t, closed.Close())
	for _, command := range []string{"chart", "rows", "check"} {
		assert.Equal(t, 3, run([]string{command, "quay-mat"}, nil, closed, closed), command)
	}
	assert.Equal(t, 3, run([]string{"config"}, nil, closed, closed), "config")
}

func TestABombIsRefusedQuickly(t *testing.T) {
	bombs := []struct{ name, text string }{
		{"a name of many dots", strings.Repeat("a.", 500_000) + "a = 1\n"},
		{"brackets within brackets", "pattern = 1\nx = " + strings.Repeat("[", 500_000)},
		{"braces within braces", "x = " + strings.Repeat("{a=", 500_000)},
		{"a list without end", "x = [" + strings.Repeat("1,", 1_000_000) + "]\n"},
		{"a file too large", "pattern = 1\n" + strings.Repeat("# knit one, purl one\n", 300_000)},
		{"pegs beyond any loom", "pattern = 1\npegs = 4000000000\n[[zone]]\nname = \"a\"\nrows = [\"k\"]\n"},
		{"rows beyond any patience", "pattern = 1\npegs = 4000\n[[zone]]\nname = \"a\"\nrows = [\"k\"]\ntimes = 2000000000\n"},
		{"repeats within a row", "pattern = 1\npegs = 4\n[[zone]]\nname = \"a\"\nrows = [\"" + strings.Repeat("(", 10_000) + "k" + strings.Repeat(") 9 times", 10_000) + "\"]\n"},
	}
	for _, b := range bombs {
		t.Run(b.name, func(t *testing.T) {
			path := writeFile(t, "bomb.toml", b.text)
			began := time.Now()
			r := runHere(t, "check", path)
			assert.Less(t, time.Since(began), 2*time.Second)
			assert.NotZero(t, r.code)
			assert.Empty(t, r.out)
			assert.NotEmpty(t, r.errors)
			assert.Less(t, len(r.errors), 4_000, "and told briefly")
		})
	}
}
