package rowtext

import (
	"errors"
	"fmt"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// corpusRow is one text of the corpus with what it must be read as.
type corpusRow struct {
	id, form, text string
	pegs           int
	expected       string // rows with " / " between, "error: …" or "directive: …"
	notes          string
}

// corpus are forms of written rows as commonly met; common practice, no source.
func corpus(t testing.TB) []corpusRow {
	t.Helper()
	return corpusOf(t, "corpus.tsv")
}

// corpusOf is one file of such rows. The second has further ones, worked out apart from the reader.
func corpusOf(t testing.TB, file string) []corpusRow {
	t.Helper()
	data, err := os.ReadFile("testdata/" + file)
	require.NoError(t, err)
	var rows []corpusRow
	for _, line := range strings.Split(strings.TrimSpace(string(data)), "\n") {
		if strings.HasPrefix(line, "#") {
			continue
		}
		cell := strings.Split(line, "\t")
		require.GreaterOrEqual(t, len(cell), 5, line)
		pegs, err := strconv.Atoi(cell[3])
		require.NoError(t, err, line)
		row := corpusRow{id: cell[0], form: cell[1], text: strings.NewReplacer(`\n`, "\n", `\t`, "\t").Replace(cell[2]), pegs: pegs, expected: cell[4]}
		if len(cell) > 5 {
			row.notes = cell[5]
		}
		rows = append(rows, row)
	}
	return rows
}

// wordsOf are the runs of a row as the corpus writes them: "k3 p5 sl:1".
func wordsOf(runs []Run) string {
	words := make([]string, len(runs))
	for i, r := range runs {
		if words[i] = fmt.Sprintf("%s:%d", r.Stitch.Name(), r.Count); r.Stitch == Knit || r.Stitch == Purl {
			words[i] = fmt.Sprintf("%s%d", r.Stitch.Name(), r.Count)
		}
	}
	return strings.Join(words, " ")
}

// deviation says how the reading of a corpus row differs from what it must be; it is empty where it does not.
func (c corpusRow) deviation() string {
	reading, err := Read(c.text, Options{Pegs: c.pegs})
	if strings.HasPrefix(c.expected, "error:") {
		if err == nil {
			return "read, and must be refused"
		}
		return misplaced(c.text, err)
	}
	if err != nil {
		return "refused: " + err.Error()
	}
	if want, ok := strings.CutPrefix(c.expected, "directive: "); ok {
		for _, d := range reading.Directives {
			if d.Msg == want && len(reading.Rows) == 0 {
				return ""
			}
		}
		return fmt.Sprintf("directives %v", reading.Directives)
	}
	var rows []string
	for _, row := range reading.Rows {
		rows = append(rows, wordsOf(row.Runs))
	}
	if got := strings.Join(rows, " / "); got != c.expected {
		return "read as " + got
	}
	if warn := strings.Contains(c.notes, "WARN"); warn != (len(reading.Warnings) > 0) {
		return fmt.Sprintf("warnings %v", reading.Warnings)
	}
	return ""
}

// misplaced says which faults have no place inside the text.
func misplaced(text string, err error) string {
	var all Errors
	if !errors.As(err, &all) || len(all) == 0 || len(all) > maxErrors {
		return fmt.Sprintf("not a list of faults: %v", err)
	}
	for _, e := range all {
		if e.Start < 0 || e.Start >= e.End || e.End > len(text) {
			return fmt.Sprintf("a fault at %d to %d of %d: %v", e.Start, e.End, len(text), e)
		}
	}
	return ""
}

func TestEveryRowOfTheCorpusIsReadRefusedOrWarnedOf(t *testing.T) {
	for file, rows := range map[string]int{"corpus.tsv": 245, "second.tsv": 1700} {
		all := corpusOf(t, file)
		require.GreaterOrEqual(t, len(all), rows, file)
		for _, c := range all {
			assert.Empty(t, c.deviation(), "%s %s: %q, want %s", c.id, c.form, c.text, c.expected)
		}
	}
}
