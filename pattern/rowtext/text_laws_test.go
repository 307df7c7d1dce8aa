package rowtext

import (
	"fmt"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/pattern"
)

// textWork bounds the loops of a reading of a text: they follow its length and its rows.
func textWork(text string, rows int) int { return 200 + 40*len(text) + 8*rows }

// readCounting is Read with the loops it ran.
func readCounting(text string, o Options) (*Reading, Errors, int) {
	r := &reader{text: text, options: o}
	reading := r.read()
	return reading, r.list, r.work
}

// checkReading holds what is true of every reading.
func checkReading(t require.TestingT, text string, o Options) {
	reading, faults, work := readCounting(text, o)
	rows := 0
	if reading != nil {
		rows = len(reading.Rows)
	}
	if len(faults) > 0 {
		rows = pattern.MaxRows
		require.LessOrEqual(t, len(faults), maxErrors)
		for _, e := range faults {
			require.True(t, 0 <= e.Start && e.Start <= e.End && e.End <= len(text), "%d to %d of %d: %v", e.Start, e.End, len(text), e)
			require.True(t, e.Start < e.End || text == "", "a fault has a width: %v", e)
			require.NotEmpty(t, e.Msg)
			require.Less(t, len(e.Error()), 300)
		}
	}
	require.LessOrEqual(t, work, textWork(text, rows), "work follows the text and its rows")
	again, err := Read(text, o)
	require.Equal(t, len(faults) > 0, err != nil)
	if err != nil {
		return
	}
	loops := again.Pegs
	last := -1
	for _, row := range again.Rows { // there may be 100,000 of them
		right := row.Number > last && row.In == loops && row.Out == Out(row.Runs) && !(row.Back && again.Form == pattern.Tube) &&
			0 <= row.Start && row.Start < row.End && row.End <= len(text)
		for _, run := range row.Runs {
			right = right && run.Count > 0
		}
		if !right {
			require.Failf(t, "a row that cannot be", "%+v", row)
		}
		last, loops = row.Number, row.Out
	}
	for _, n := range slices.Concat(again.Warnings, again.Directives) {
		require.True(t, 0 <= n.Start && n.Start < n.End && n.End <= len(text), "%v", n)
		require.NotEmpty(t, n.Msg)
		require.Less(t, len(n.Msg), 200)
	}
}

func FuzzRead(f *testing.F) {
	for _, c := range corpus(f) {
		f.Add(c.text, c.pegs, false)
	}
	for _, text := range hostile(400) {
		f.Add(text, 60, true)
	}
	f.Fuzz(func(t *testing.T, text string, pegs int, needles bool) {
		checkReading(t, text, Options{Pegs: pegs, Needles: needles, WrongSide: pegs%2 == 0, Size: pegs % 4})
	})
}

// hostile are texts that would be long work for a reader that looked at them twice.
func hostile(size int) []string {
	fill := func(unit string) string { return strings.Repeat(unit, size/len(unit)+1)[:size] }
	return []string{
		fill("Row 1, "), "k, " + strings.Repeat("row 1, ", size/7), fill("row 1 and "), fill("Row 1: "), fill("Rows 1-100000: K\n"), fill("Row 1: K\nRep rows 1-100000\n"), fill("(RS) "), fill("Row ("),
		fill("1, 2, 3, "), "Rows " + fill("1, ") + ": K", fill("* "), fill("• "), fill("\n"), fill(". "), fill("cast on a "), fill("Rep rows 1-2. a "), fill("as row 1 "),
		fill("Row 1 (a b c d e f g h "), fill("next row "), fill("1st and 2nd and "), fill("K 2 rows, "), fill("k\n"), fill("k 9999 rows\n"), "Row 1: K\n" + fill("Rep row 1 9 more times\n"),
		fill("K, "), fill("(k "), fill("-"), fill("\u2028"), fill("Row 2 and all even rows: P\n"), "Row 1: K\nRow 3: P\n" + fill("Row 4 and every 4th row: P\n"),
		fill("multiple of 2. "), fill("multiple of multiple of "), fill("work in garter st for 3 rows. "), fill("a b c row "), fill("these 2 rows form "), fill("\\*"),
		chain(size), fill("Row 1: K\nRow 2: knit the knits and purl the purls\n"), fill("Gauge: a\n"), fill("until piece "), "Rep rows 1-2 until " + fill("a "), fill("k = knit\n"),
	}
}

// chain is rows that refer each to the one behind.
func chain(size int) string {
	var b strings.Builder
	for n := 1; b.Len() < size; n++ {
		fmt.Fprintf(&b, "Row %d: as row %d\n", n, n+1)
	}
	return b.String()
}

func TestWorkFollowsTheTextAndItsRows(t *testing.T) {
	for _, size := range []int{1 << 10, 1 << 14} {
		for _, text := range hostile(size) {
			checkReading(t, text, Options{Pegs: 60})
			checkReading(t, text, Options{})
		}
	}
}

// 64 KiB of anything take at most 100 ms and 64 MiB.
func TestAnyTextOf64KiBIsQuick(t *testing.T) {
	if testing.Short() {
		t.Skip("times are taken in the long run")
	}
	for _, text := range hostile(64 << 10) {
		best := time.Hour
		var before, after runtime.MemStats
		for tries := 0; tries < 10 && best >= 100*time.Millisecond; tries++ { // others use the machine too
			runtime.ReadMemStats(&before)
			start := time.Now()
			_, _ = Read(text, Options{Pegs: 200})
			best = min(best, time.Since(start))
			runtime.ReadMemStats(&after)
		}
		assert.Less(t, best, 100*time.Millisecond, text[:40])
		assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(64<<20), text[:40])
	}
}

func TestLimitsHoldBeforeAnythingIsExpanded(t *testing.T) {
	for text, pegs := range map[string]int{
		strings.Repeat("k", MaxText+1): 1, "Rows 1-100001: K": 1, "Rows 1-100000: K": 201, "K 99999999 rows": 1, "Row 1: K\nRep row 1 99999999 more times": 1,
		"K 60000 rows\nK 60000 rows": 1, "Row 1: K": 4001, strings.Repeat(" ", maxText) + "k": 1,
	} {
		allocated := testing.AllocsPerRun(1, func() {
			_, err := Read(text, Options{Pegs: pegs})
			require.Error(t, err, text[:min(len(text), 40)])
		})
		assert.Less(t, allocated, 1e6, text[:min(len(text), 40)])
	}
	reading, err := Read("Rows 1-100000: K", Options{Pegs: 200})
	require.NoError(t, err)
	assert.Len(t, reading.Rows, 100_000)
}

func TestEqualRowsShareTheirRuns(t *testing.T) {
	reading, err := Read("Rows 1-99: *k1, p1; rep from * to end\nRow 100: as row 1\nRow 101: *k1, p1; rep from * to end", Options{Pegs: 60})
	require.NoError(t, err)
	for _, row := range reading.Rows[2:] {
		assert.Same(t, &reading.Rows[row.Number%2^1].Runs[0], &row.Runs[0])
	}
	reading, err = Read("Row 1: k1, p2\nRows 2-1000: knit the knits and purl the purls", Options{Pegs: 3})
	require.NoError(t, err)
	for _, row := range reading.Rows[4:] {
		assert.Same(t, &reading.Rows[3-row.Number%2].Runs[0], &row.Runs[0])
	}
}

// bookMaker writes a random text together with its rows, worked out plainly.
type bookMaker struct{ t *rapid.T }

func (m bookMaker) pick(forms ...string) string { return rapid.SampledFrom(forms).Draw(m.t, "form") }

// text is rows in a random order of numbers and forms, then some repeats.
func (m bookMaker) text() (text string, rows []string) {
	var b strings.Builder
	n := rapid.IntRange(1, 6).Draw(m.t, "rows")
	for i := 1; i <= n; {
		stitch := m.pick("k4", "p4", "k1, p3", "k3, p1", "(k1, p1) 2 times")
		cells := map[string]string{"k4": "kkkk", "p4": "pppp", "k1, p3": "kppp", "k3, p1": "kkkp", "(k1, p1) 2 times": "kpkp"}[stitch]
		to := min(n, i+rapid.IntRange(0, 2).Draw(m.t, "more"))
		name := fmt.Sprintf(m.pick("Row %d", "R%d", "(RS) Row %d", "ROW %d", "Row #%d"), i)
		if strings.Contains(name, "RS") && i%2 == 0 {
			name = strings.Replace(name, "RS", "WS", 1)
		}
		if to > i {
			name = fmt.Sprintf(m.pick("Rows %d-%d", "Rows %d to %d", "Row %d–%d", "Rows %d through %d"), i, to)
		}
		if i > 1 && rapid.Bool().Draw(m.t, "reference") {
			of := rapid.IntRange(1, i-1).Draw(m.t, "of")
			stitch, cells = fmt.Sprintf(m.pick("As row %d", "Rep row %d", "same as row %d."), of), rows[of-1]
		}
		b.WriteString(name + m.pick(": ", " - ", ". ", ") ") + stitch + m.pick("\n", ".\n", "\n\n", ". "))
		for ; i <= to; i++ {
			rows = append(rows, cells)
		}
	}
	if m.pick("repeat", "none") == "repeat" {
		from := rapid.IntRange(1, n).Draw(m.t, "from")
		to := rapid.IntRange(from, n).Draw(m.t, "to")
		times := rapid.IntRange(1, 3).Draw(m.t, "times")
		fmt.Fprintf(&b, "\nRep rows %d-%d ", from, to)
		if m.pick("more", "total") == "more" {
			fmt.Fprintf(&b, "%d more times", times)
		} else {
			fmt.Fprintf(&b, "%d times in total", times+1)
		}
		block := slices.Clone(rows[from-1 : to])
		for range times {
			rows = append(rows, block...)
		}
	}
	return b.String(), rows
}

func TestTextsAgreeWithRowsWorkedOutPlainly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text, rows := bookMaker{t}.text()
		reading, err := Read(text, Options{Pegs: 4})
		require.NoError(t, err, text)
		require.Empty(t, reading.Warnings, text)
		require.Len(t, reading.Rows, len(rows), text)
		for i, row := range reading.Rows {
			require.Equal(t, rows[i], cellsOf(row.Runs), "row %d of %s", i+1, text)
			require.Equal(t, i+1, row.Number)
			require.Equal(t, i%2 == 1, row.Back)
		}
	})
}

func TestACutTextIsNeverReadWithoutItsEnd(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text, _ := bookMaker{t}.text()
		checkReading(t, text[:rapid.IntRange(0, len(text)).Draw(t, "cut")], Options{Pegs: 4})
	})
}

// typicalText is so many rows as patterns have them.
func typicalText(rows int) string {
	var b strings.Builder
	for n := 1; n <= rows; n++ {
		fmt.Fprintf(&b, "Row %d: K%d, *p2, k2; rep from * to last %d, k%d\n", n, 1+n%4*2, 1+n%4*2, 1+n%4*2)
	}
	return b.String()
}

// 100,000 typical rows on 60 pegs in less than two seconds.
func TestAHundredThousandRowsAreQuick(t *testing.T) {
	if testing.Short() {
		t.Skip("times are taken in the long run")
	}
	text := typicalText(pattern.MaxRows)
	if len(text) > MaxText { // a shorter text, then, and in proportion
		text = text[:strings.LastIndex(text[:MaxText], "\n")]
	}
	best, rows := time.Hour, 0
	for tries := 0; tries < 5 && best >= 2*time.Second; tries++ { // others use the machine too
		start := time.Now()
		reading, err := Read(text, Options{Pegs: 62})
		best = min(best, time.Since(start))
		require.NoError(t, err)
		rows = len(reading.Rows)
	}
	t.Logf("%d rows in %v", rows, best)
	require.GreaterOrEqual(t, rows, 65_000)
	assert.Less(t, best*pattern.MaxRows/time.Duration(rows), 2*time.Second, "as many rows as there may be")
}

func BenchmarkRead(b *testing.B) {
	text := "Row 1: K3, *p2, k2; rep from * to last 3, k3\nRow 2: P3, *k2, p2; rep from * to last 3, p3\nRep rows 1-2 49999 more times"
	b.Run("repeated", func(b *testing.B) { benchmarkRead(b, text, 62, 100_000) })
	long := typicalText(50_000)
	b.Run("written", func(b *testing.B) { benchmarkRead(b, long, 62, 50_000) })
}

func benchmarkRead(b *testing.B, text string, pegs, rows int) {
	b.ReportAllocs()
	for range b.N {
		reading, err := Read(text, Options{Pegs: pegs})
		if err != nil {
			b.Fatal(err)
		}
		if len(reading.Rows) != rows {
			b.Fatalf("%d rows", len(reading.Rows))
		}
	}
}
