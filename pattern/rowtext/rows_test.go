package rowtext

import (
	"bufio"
	"errors"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Source: testdata/rows.tsv, forms of written rows as commonly met; common practice,
// no source.
func TestExpandReadsRowsAsTheyAreWritten(t *testing.T) {
	f, err := os.Open("testdata/rows.tsv")
	require.NoError(t, err)
	defer f.Close()
	lines, read := bufio.NewScanner(f), 0
	for lines.Scan() {
		if strings.HasPrefix(lines.Text(), "#") {
			continue
		}
		cells := strings.Split(lines.Text(), "\t")
		require.Len(t, cells, 4, lines.Text())
		form, text, want := cells[0], cells[1], cells[3]
		pegs, err := strconv.Atoi(cells[2])
		require.NoError(t, err)
		read++
		t.Run(form+"/"+text, func(t *testing.T) {
			runs, err := Expand(text, pegs)
			require.NoError(t, err)
			assert.Equal(t, want, tally(runs))
			assert.Equal(t, pegs, sum(runs))
		})
	}
	require.NoError(t, lines.Err())
	require.Greater(t, read, 70, "the table is there and is read")
}

// tally writes runs as the table does.
func tally(runs []Run) string {
	words := make([]string, len(runs))
	for i, r := range runs {
		words[i] = r.Stitch.Name() + ":" + strconv.Itoa(r.Count)
		if r.Stitch == Knit || r.Stitch == Purl {
			words[i] = strings.Replace(words[i], ":", "", 1)
		}
	}
	return strings.Join(words, " ")
}

func sum(runs []Run) int {
	n := 0
	for _, r := range runs {
		n += r.Count
	}
	return n
}

// Source: common practice, no source, except where a case says otherwise.
func TestExpandReadsWhatTheTableDoesNotShow(t *testing.T) {
	tests := []struct {
		name, text string
		pegs       int
		want       string
	}{
		{"a letter alone is the whole row", "k", 9, "k9"},
		{"a slip alone is the whole row", " SL. ", 4, "sl:4"},
		{"a letter in a list is one stitch", "k, p", 2, "k1 p1"},
		{"a letter in a bracket is one stitch", "(k) 3 times", 3, "k3"},
		{"pegs not in use", "none 2, k4, no stitch 3", 9, "none:2 k4 none:3"},
		{"the dotted name of a slip is not needed", "sl wyif 2, sl2 wyib", 4, "sl.wyif:2 sl.wyib:2"},
		{"nothing between the steps", "k2p2sl1ew3", 8, "k2 p2 sl:1 ew:3"},
		{"equal neighbours are one run", "k3, k 2, knit, (k2) twice", 10, "k10"},
		{"several stretches, each with its anchor", "k1, p to last 6, k to last 2, p2", 12, "k1 p5 k4 p2"},
		{"a star between two fills", "k to last 9, *p1, k1; rep from * to last 3, p to end", 12, "k3 p1 k1 p1 k1 p1 k1 p3"},
		{"a star without an end leaves room for what follows", "p2, *k2, p1; rep from *, k2, p2", 12, "p2 k2 p1 k2 p1 k2 p2"},
		{"a star pair with an end", "*k1, p1* to last 3, k3", 9, "k1 p1 k1 p1 k1 p1 k3"},
		{"in all counts the first turn", "*k2, p1; rep from * 3 times in all, k1", 10, "k2 p1 k2 p1 k2 p1 k1"},
		{"brackets in brackets in a star", "*[(k1, p1) x2, k1] twice; rep from * to end", 20,
			"k1 p1 k1 p1 k2 p1 k1 p1 k2 p1 k1 p1 k2 p1 k1 p1 k1"},
		{"the ways to say how often", "(k1) once, (p1) 2 times, [k1] x 1, {p1} 2x, (k1) 1×, (p1) 1 time", 8, "k1 p2 k1 p2 k1 p1"},
		{"the star is worked once", "k1, *p2, k1; rep from * to end", 4, "k1 p2 k1"},
		{"the longest row", "k", 4000, "k4000"},
		{"sixteen brackets deep", strings.Repeat("(", 16) + "k1" + strings.Repeat(")", 16), 1, "k1"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			runs, err := Expand(tt.text, tt.pegs)
			require.NoError(t, err)
			assert.Equal(t, tt.want, tally(runs))
		})
	}
}

// fault is an error as a test draws it: the row, a caret line, message and hint.
func fault(text string, e *Error) string {
	carets := strings.Repeat(" ", e.Start) + strings.Repeat("^", e.End-e.Start)
	return strings.TrimSuffix(strings.Join([]string{text, carets, e.Msg, e.Hint}, "\n"), "\n")
}

func faultsOf(t *testing.T, text string, pegs int) Errors {
	t.Helper()
	runs, err := Expand(text, pegs)
	require.Error(t, err)
	require.Nil(t, runs)
	var all Errors
	require.ErrorAs(t, err, &all)
	require.NotEmpty(t, all)
	return all
}

// The case: a row that does not add up, 4 + 5 x 8 + 6 + 4 = 54 pegs where 52 are
// wanted; 46 or 54 fit. Arithmetic; common practice, no source.
func TestExpandNamesThePegsThatFitTheRepeat(t *testing.T) {
	all := faultsOf(t, "P4, (K6, P2) x 5, K6, P4", 52)
	require.Len(t, all, 1)
	assert.Equal(t, strings.Join([]string{
		"P4, (K6, P2) x 5, K6, P4",
		"                      ^^",
		"the row needs 54 pegs and has 52: 2 too many",
		"4 repeats give 46 pegs, 5 give 54",
	}, "\n"), fault("P4, (K6, P2) x 5, K6, P4", all[0]))
	for pegs, text := range map[int]string{46: "P4, (K6, P2) x 4, K6, P4", 54: "P4, (K6, P2) x 5, K6, P4"} {
		runs, err := Expand(text, pegs)
		require.NoError(t, err)
		assert.Equal(t, pegs, sum(runs))
	}
}

func TestErrorsIsOneErrorOrTheFirstOfMany(t *testing.T) {
	one := faultsOf(t, "k3", 4)
	assert.Equal(t, "the row needs 3 pegs and has 4: 1 left over (as written it fits 3 pegs)", one.Error())
	two := faultsOf(t, "q3, k0, k1.5", 4)
	require.Len(t, two, 3)
	assert.Equal(t, two[0].Error()+" (and 2 more)", two.Error())
	assert.Equal(t, "the count is not a whole number", two[2].Error())
	var first *Error
	require.True(t, errors.As(error(two), &first))
	assert.Same(t, two[0], first)
}

func TestErrorsStayFewAndInTheOrderOfTheText(t *testing.T) {
	all := faultsOf(t, strings.Repeat("(q ", 15), 4)
	require.Len(t, all, maxErrors)
	for i := 1; i < len(all); i++ {
		assert.LessOrEqual(t, all[i-1].Start, all[i].Start)
	}
}

func TestMessagesNeverCarryControlCharacters(t *testing.T) {
	for _, text := range []string{"k\x1b[2J", "\x00", "k2\u202e", "\xff\xfe", "\u009b31m", "k2, " + strings.Repeat("ż", 5000)} {
		for _, e := range faultsOf(t, text, 4) {
			for _, r := range e.Error() {
				assert.Truef(t, strconv.IsPrint(r), "%q in the message for %q", r, text[:min(len(text), 8)])
			}
			assert.Less(t, len(e.Error()), 250)
		}
	}
}

func TestPrintWritesCountsAlways(t *testing.T) {
	runs := []Run{{Knit, 1}, {SlipFront, 2}, {EWrap, 3}, {NoStitch, 1}}
	assert.Equal(t, "k1, sl2 wyif, ew3, none1", Print(runs))
	assert.Equal(t, "k26", Print([]Run{{Knit, 26}}))
	assert.Empty(t, Print(nil))
}
