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
func corpus(t testing.TB) []corpusRow { return corpusOf(t, "corpus.tsv") }

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
	for file, rows := range map[string]int{"corpus.tsv": 245, "second.tsv": 1700, "third.tsv": 35} {
		all := corpusOf(t, file)
		require.GreaterOrEqual(t, len(all), rows, file)
		for _, c := range all {
			assert.Empty(t, c.deviation(), "%s %s: %q, want %s", c.id, c.form, c.text, c.expected)
		}
	}
}

// Good texts that were damaged, and texts that say in brackets or in passing what changes their rows: each could be
// read past what it says, which would be silent. They are refused or read by what they say.
func TestWhatATextSaysOfItsRowsIsNeverPassedOver(t *testing.T) {
	const refused, warned = "refused", "warned: "
	for text, want := range map[string]string{
		"Row 1 (repeat 4 times): K6":            refused,
		"Row 1 (x4): K6":                        refused,
		"Row 1 (4 rows): K6":                    refused,
		"Row 1 (and 3): K6":                     refused,
		"Next  rows: Purl":                      refused,
		"Nexttwo rows: Knit":                    refused,
		"Rows 1-: K6":                           refused,
		"Rows 13: K6":                           warned + "k6",
		"Row 1: K6\nRow 2 and all odd rows: P6": refused,
		"Row 1: K3, P3\nRow 2: P the knits and K the purls":                                     "k3 p3 / k3 p3",
		"Any number of sts\nRow 1: Knit":                                                        "k6",
		"Row 1: K6\nRow 2: P6\nContinue in pattern for 3 rows":                                  warned + "k6 / p6 / k6 / p6 / k6",
		"Row 1: K6\nRow 2: P6\nContinue as established for 2 rows":                              "k6 / p6 / k6 / p6",
		"Row 1: K6\nContinue in pattern until row 3":                                            "k6 / k6 / k6",
		"Continue in pattern until row 3":                                                       "",
		"Row 1: K6\nRow 2: P6\nRows 3-6: Continue as established":                               "k6 / p6 / k6 / p6 / k6 / p6",
		"Row 1: K6\nContinue in pattern with P6 for 2 rows":                                     refused,
		"Row 1: K6\nRow 2: P6\nRow 3: P6\nRow 4: K6\nContinue in pattern for 4 rows":            "k6 / p6 / p6 / k6 / k6 / p6 / p6 / k6",
		"Row 1: K6\nRow 2: P6\nRow 3: P6\nRows 4-5: as rows 1-2\nContinue in pattern for 1 row": warned + "k6 / p6 / p6 / k6 / p6 / p6",
		"Row 1: K6\nRow 2 and all even rows: P6\nRow 3: K6\nRow 4: P6":                          "k6 / p6 / k6 / p6",
		"Row 1 and all odd rows to 5: K6\nRow 2: P6\nRow 4: K3, P3":                             "k6 / p6 / k6 / k3 p3 / k6",
		"Row 1: K6\nRow 2 (and every even row to 4): P6\nRow 3: K6":                             "k6 / p6 / k6 / p6",
		"Row 1: K6\nLast row: P6":                                                               "k6 / p6",
		"Row 1: K pegs 1, 3, 5; p the rest":                                                     "k1 p1 k1 p1 k1 p1",
		"Row 1: K pegs 2 and 5, purl remaining pegs":                                            "p1 k1 p2 k1 p1",
		"Cable Panel (14 sts)\nRow 1: K6":                                                       "k6",
		"Seed Stitch Scarf\nRow 1: K6":                                                          "k6",
		"k6\nRow 2: P6":                                                                         refused,
		"E-wrap cast on pegs 1 to 6.\nK3, Q2\nRow 1: K6":                                        refused,
	} {
		reading, err := Read(text, Options{Pegs: 6})
		if want == refused {
			assert.Error(t, err, text)
			continue
		}
		require.NoError(t, err, text)
		rest, doubt := strings.CutPrefix(want, warned)
		var rows []string
		for _, row := range reading.Rows {
			rows = append(rows, wordsOf(row.Runs))
		}
		assert.Equal(t, rest, strings.Join(rows, " / "), text)
		assert.Equal(t, doubt, len(reading.Warnings) > 0, "%s: %v", text, reading.Warnings)
	}
}

// The edge of 4 pegs and the 8-row repeat go on over row 13: row 14 is the 6th of the repeat, row 33 the 1st of the
// 5th. Arithmetic; common practice, no source.
func TestAsEstablishedGoesOnWithinTheRepeat(t *testing.T) {
	var text strings.Builder
	for n := 1; n <= 8; n++ {
		fmt.Fprintf(&text, "Row %d: K4, P%d, K to last 4 sts, P4\n", n, n)
	}
	text.WriteString("Rows 9-13: As rows 1-5\nContinue as established for 20 rows")
	reading, err := Read(text.String(), Options{Pegs: 24})
	require.NoError(t, err)
	require.Len(t, reading.Rows, 33)
	for i, row := range reading.Rows {
		assert.Equal(t, reading.Rows[i%8].Runs, row.Runs, "row %d", row.Number)
	}
	assert.Equal(t, reading.Rows[5].Runs, reading.Rows[13].Runs)
	assert.Equal(t, reading.Rows[0].Runs, reading.Rows[32].Runs)
}
