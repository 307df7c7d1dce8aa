package main

import (
	"bytes"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/chart"
	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/tui/look"
	"bypeg/tui/track"
	"bypeg/tui/work"
)

var updateReadme = flag.Bool("update-readme", false, "write the README's pictures anew from the program")

// shown finds the README's pictures: a comment that says what they show, then a block
// or a table.
var shown = regexp.MustCompile("(?m)^<!-- (.*) -->\n((?:```\n(?s:.*?)```\n)|(?:(?:\\|.*\n)+))")

// TestTheReadmeShowsTheProgramAsItIs makes every picture of the README from the
// program and compares.
func TestTheReadmeShowsTheProgramAsItIs(t *testing.T) {
	path := filepath.Join("..", "..", "README.md")
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	pictures := 0
	made := shown.ReplaceAllStringFunc(string(text), func(whole string) string {
		pictures++
		what := shown.FindStringSubmatch(whole)[1]
		now := fmt.Sprintf("<!-- %s -->\n%s", what, picture(t, what))
		assert.True(t, *updateReadme || now == whole,
			"the picture %q is old: run go test ./cmd/bypeg -run Readme -update-readme and look at it", what)
		return now
	})
	require.Equal(t, strings.Count(string(text), "<!-- "), pictures, "every comment is a picture")
	if *updateReadme {
		require.NoError(t, os.WriteFile(path, []byte(made), 0o644))
	}
}

// TestTheReadmesPatternIsRight loads what the README gives to copy.
func TestTheReadmesPatternIsRight(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	require.NoError(t, err)
	_, rest, found := strings.Cut(string(text), "```toml\n")
	require.True(t, found)
	sample, _, _ := strings.Cut(rest, "```")
	p, diags := file.Load("README.md", []byte(sample))
	require.Empty(t, diags)
	assert.Equal(t, 49, p.Grid.Rows())
}

func picture(t *testing.T, what string) string {
	block := func(text string) string { return "```\n" + trimEnds(text) + "\n```\n" }
	if command, ok := strings.CutPrefix(what, "run: bypeg "); ok {
		return block(output(t, strings.Fields(command)...))
	}
	if scene, ok := strings.CutPrefix(what, "screen: "); ok {
		return block(screenshot(t, scene))
	}
	if talk, ok := strings.CutPrefix(what, "talk: bypeg "); ok {
		return block(talked(t, talk))
	}
	keys, ok := map[string][]key.Binding{
		"keys": look.NewWorkKeys().All(), "keys of the shelf": look.NewShelfKeys().All(), "keys of the chart": look.NewChartKeys().All(),
		"keys of the ways": look.NewWayKeys().All(),
	}[what]
	require.True(t, ok, what)
	var b strings.Builder
	b.WriteString("| key | does |\n| --- | --- |\n")
	for _, k := range keys {
		fmt.Fprintf(&b, "| <kbd>%s</kbd> | %s |\n", k.Help().Key, k.Help().Desc)
	}
	return b.String()
}

// talked is a talk: a command, a bar, and what is typed: "work quay-mat --plain | row, peg 3".
func talked(t *testing.T, talk string) string {
	command, typed, _ := strings.Cut(talk, " | ")
	in, err := os.CreateTemp(t.TempDir(), "typed")
	require.NoError(t, err)
	defer in.Close()
	_, err = in.WriteString(strings.ReplaceAll(typed, ", ", "\n") + "\n")
	require.NoError(t, err)
	_, err = in.Seek(0, io.SeekStart)
	require.NoError(t, err)
	return outputOf(t, in, append(strings.Fields(command), "--data", t.TempDir())...)
}

// trimEnds takes blanks from the ends of lines.
func trimEnds(text string) string {
	lines := strings.Split(strings.TrimRight(text, "\n"), "\n")
	for i, l := range lines {
		lines[i] = strings.TrimRight(l, " ")
	}
	return strings.Join(lines, "\n")
}

// output is what a command prints, on stdout and stderr.
func output(t *testing.T, args ...string) string { return outputOf(t, nil, args...) }

func outputOf(t *testing.T, in *os.File, args ...string) string {
	t.Helper()
	t.Setenv("LC_ALL", "C.UTF-8")
	t.Chdir(filepath.Join("..", ".."))
	r, w, err := os.Pipe()
	require.NoError(t, err)
	var b bytes.Buffer
	read := make(chan struct{})
	go func() {
		defer close(read)
		_, _ = io.Copy(&b, r)
	}()
	run(args, in, w, w)
	require.NoError(t, w.Close())
	<-read
	t.Chdir(filepath.Join("cmd", "bypeg"))
	return b.String()
}

// screenshot is the work screen of an example: "sluice-cloth row 18 done 9 80x24".
func screenshot(t *testing.T, scene string) string {
	t.Helper()
	var name string
	var row, done, width, height int
	_, err := fmt.Sscanf(scene, "%s row %d done %d %dx%d", &name, &row, &done, &width, &height)
	require.NoError(t, err)
	text, ok := exampleNamed(name)
	require.True(t, ok)
	p, diags := file.Load(name, text)
	require.Empty(t, diags)
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(termenv.Ascii)
	at := pattern.Place{Phase: pattern.Working, Row: row, Done: done}
	tr := track.New(pattern.Order{Pattern: p, Way: p.Way}, at, track.DefaultLead)
	screen := work.New(track.Piece{Title: p.Title, Tracker: tr}, look.NewStyle(r, look.Dark, chart.Bars, false), look.NewWorkKeys(), work.Options{Now: time.Now})
	return screen.SetSize(width, height).View()
}
