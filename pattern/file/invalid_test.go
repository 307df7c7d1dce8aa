package file

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern/safetext"
)

// wantComment is an expectation in a faulty file, on the faulty line:
//
//	pegs = 0   # want 8: message; hint
//
// The number is the column. Where no comment can stand, as within a chart, the line
// is told too, counted from the comment's: "# want +3:5: message". In place of want
// stands warn or note for what is no error.
var wantComment = regexp.MustCompile(`# (want|warn|note) (?:([+-]\d+):)?(\d+): ([^#]*)`)

// expectation is what a file says that should be found in it.
type expectation struct {
	line, col int
	severity  string
	text      string
}

func expectations(t *testing.T, text string) []expectation {
	t.Helper()
	var all []expectation
	for i, line := range strings.Split(text, "\n") {
		for _, m := range wantComment.FindAllStringSubmatch(line, -1) {
			offset, _ := strconv.Atoi(m[2])
			col, err := strconv.Atoi(m[3])
			require.NoError(t, err)
			kind := strings.Replace(strings.Replace(m[1], "want", "error", 1), "warn", "warning", 1)
			all = append(all, expectation{i + 1 + offset, col, kind, strings.TrimSpace(m[4])})
		}
	}
	return all
}

// checkExpectations holds what was found against what the file says, both ways.
func checkExpectations(t *testing.T, text string, found safetext.Diagnostics) {
	t.Helper()
	wanted := expectations(t, text)
	met := make([]bool, len(found))
	for _, w := range wanted {
		ok := false
		for i, d := range found {
			full := d.Message + "; " + d.Hint
			if !met[i] && d.Line == w.line && d.Col == w.col && d.Severity.String() == w.severity && strings.Contains(full, w.text) {
				met[i], ok = true, true
				break
			}
		}
		assert.True(t, ok, "missing: %d:%d: %s: %s", w.line, w.col, w.severity, w.text)
	}
	for i, d := range found {
		assert.True(t, met[i], "not expected: %s; %s\n%s", d.Error(), d.Hint, d.Picture())
	}
}

func TestInvalidFilesAreToldByPlaceAndText(t *testing.T) {
	paths, err := filepath.Glob("testdata/invalid/*.toml")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(paths), 38, "the faulty files are there")
	for _, path := range paths {
		t.Run(filepath.Base(path), func(t *testing.T) {
			text, err := os.ReadFile(path)
			require.NoError(t, err)
			p, found := Load("f.toml", text)
			assert.Nil(t, p)
			require.Error(t, found.Err())
			checkExpectations(t, string(text), found)
			for _, d := range found {
				assertClean(t, d)
			}
		})
	}
}

// assertClean holds a diagnostic against what a terminal may be shown.
func assertClean(t testing.TB, d safetext.Diagnostic) {
	t.Helper()
	for _, s := range []string{d.File, d.Message, d.Hint, d.Text} {
		assert.Equal(t, safetext.Clean(s), s)
	}
	assert.NotEmpty(t, d.Message)
}

func TestTheRunnerSeesMissingAndUnexpectedFindings(t *testing.T) {
	found := safetext.Diagnostics{{Line: 1, Col: 8, Message: "pegs is wrong"}}
	for _, c := range []struct {
		name, text string
		fails      bool
	}{
		{"what is expected passes", "pegs = 0 # want 8: pegs is", false},
		{"another column fails", "pegs = 0 # want 7: pegs is", true},
		{"another line fails", "\npegs = 0 # want 8: pegs is", true},
		{"another text fails", "pegs = 0 # want 8: rows is", true},
		{"another severity fails", "pegs = 0 # warn 8: pegs is", true},
		{"one that is not expected fails", "pegs = 0", true},
		{"one that is missing fails", "pegs = 0 # want 8: pegs is # want 9: more", true},
	} {
		t.Run(c.name, func(t *testing.T) {
			inner := &testing.T{}
			checkExpectations(inner, c.text, found)
			assert.Equal(t, c.fails, inner.Failed(), fmt.Sprint(c.text))
		})
	}
}
