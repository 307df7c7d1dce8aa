package rowtext

import (
	"math/rand"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/pattern"
)

// sheet is rows written plainly, a letter each: the rows that the letters stand for come
// after it.
func sheet(t testing.TB, form pattern.Form, order string, rows map[byte]string) Sheet {
	s := Sheet{Form: form, First: 1, Yarns: 1}
	for i := range order {
		s.Lines = append(s.Lines, Line{Runs: plainRuns(t, rows[order[i]])})
	}
	return s
}

var fewRows = map[byte]string{
	'k': "k12", 'p': "p12", 'a': "k2 p2 k2 p2 k2 p2", 'b': "p2 k2 p2 k2 p2 k2", 'g': "p3 k6 p3", 's': "k5",
}

// How lists, ranges and repeats of rows are written: common practice, no source.
func TestEqualRowsAreToldOnce(t *testing.T) {
	for _, c := range []struct{ name, order, want string }{
		{"one row", "k", "Row 1: knit"},
		{"a range", "aaaa", "Rows 1-4: *k2, p2; rep from * to end"},
		{"two in a row", "aap", "Rows 1 and 2: *k2, p2; rep from * to end / Row 3: purl"},
		{"garter", "kpkpkp", "Rows 1, 3, 5: knit / Rows 2, 4, 6: purl"},
		{"two and two", "kpkp", "Rows 1 and 3: knit / Rows 2 and 4: purl"},
		{"ranges in a list", "kkkpkkkk", "Rows 1-3, 5-8: knit / Row 4: purl"},
		{"long garter", strings.Repeat("kp", 10), "Row 1: knit / Row 2: purl / Rows 3-20: rep rows 1-2 9 times"},
		{"every even row", "kpapbpgp", "Row 1: knit / Row 2 and all even rows: purl / Row 3: *k2, p2; rep from * to end / " +
			"Row 5: *p2, k2; rep from * to end / Row 7: p3, k6, p3"},
		{"every odd row", "kpkakbkg", "Row 1 and all odd rows: knit / Row 2: purl / Row 4: *k2, p2; rep from * to end / " +
			"Row 6: *p2, k2; rep from * to end / Row 8: p3, k6, p3"},
		{"no closing even row", "kpapbpgpk", "Rows 1 and 9: knit / Rows 2, 4, 6, 8: purl / Row 3: *k2, p2; rep from * to end / " +
			"Row 5: *p2, k2; rep from * to end / Row 7: p3, k6, p3"},
		{"a block once more", "kpaabbgkpaabbg", "Row 1: knit / Row 2: purl / Rows 3 and 4: *k2, p2; rep from * to end / " +
			"Rows 5 and 6: *p2, k2; rep from * to end / Row 7: p3, k6, p3 / Rows 8-14: rep rows 1-7"},
		{"a frame", "kpkpkp" + strings.Repeat("kg", 6) + "kpkpk", "Rows 1, 3, 5: knit / Rows 2, 4, 6: purl / Row 7: knit / Row 8: p3, k6, p3 / " +
			"Rows 9-18: rep rows 7-8 5 times / Rows 19, 21, 23: knit / Rows 20 and 22: purl"},
		{"a repeat in a repeat", strings.Repeat(strings.Repeat("ab", 5)+"kkg", 3),
			"Row 1: *k2, p2; rep from * to end / Row 2: *p2, k2; rep from * to end / Rows 3-10: rep rows 1-2 4 times / " +
				"Rows 11 and 12: knit / Row 13: p3, k6, p3 / Rows 14-39: rep rows 1-13 2 times"},
		{"a row on fewer loops is another", "kkss", "Rows 1 and 2: knit / Rows 3 and 4: knit"},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.want, strings.Join(sheet(t, pattern.Panel, c.order, fewRows).Fold(Wording{}), " / "))
		})
	}
}

func TestRoundsAndFullWords(t *testing.T) {
	rounds := sheet(t, pattern.Tube, strings.Repeat("kg", 8), fewRows)
	require.Equal(t, []string{"Rnd 1: knit", "Rnd 2: p3, k6, p3", "Rnds 3-16: rep rnds 1-2 7 times"}, rounds.Fold(Wording{}))
	require.Equal(t, []string{"Round 1: knit", "Round 2: purl 3, knit 6, purl 3", "Rounds 3-16: repeat rounds 1-2 7 times"},
		rounds.Fold(Wording{Words: Full, Tell: TellSide}))
	rounds.Lines = rounds.Lines[:2]
	rounds.First = 9
	require.Equal(t, []string{"Rnd 9 (right to left): knit", "Rnd 10 (right to left): p3, k6, p3"}, rounds.Each(Wording{Tell: TellDirection}))
	rows := sheet(t, pattern.Panel, "kkkk", fewRows)
	require.Equal(t, []string{"Rows 1 and 3 (right to left): knit", "Rows 2 and 4 (left to right): knit"}, rows.Fold(Wording{Tell: TellDirection}))
}

// drawSheet is rows in which blocks come again.
func drawSheet(t *rapid.T) Sheet {
	s := Sheet{
		Form:      rapid.SampledFrom([]pattern.Form{pattern.Panel, pattern.Tube}).Draw(t, "form"),
		Row1:      rapid.SampledFrom([]pattern.Direction{pattern.ToLeft, pattern.ToRight}).Draw(t, "row 1"),
		First:     rapid.SampledFrom([]int{1, 1, 1, 14}).Draw(t, "first"),
		Yarns:     rapid.IntRange(1, 2).Draw(t, "yarns"),
		Needles:   rapid.Bool().Draw(t, "needles"),
		WrongSide: rapid.Bool().Draw(t, "wrong side"),
	}
	var known []Line
	for range rapid.IntRange(1, 4).Draw(t, "rows") {
		known = append(known, Line{drawRuns(t, []Stitch{Knit, Purl}), pattern.Yarn(rapid.IntRange(0, s.Yarns-1).Draw(t, "yarn"))})
	}
	for range rapid.IntRange(1, 4).Draw(t, "blocks") {
		block := rapid.SliceOfN(rapid.SampledFrom(known), 1, 5).Draw(t, "block")
		for range rapid.IntRange(1, 6).Draw(t, "times") {
			s.Lines = append(s.Lines, block...)
		}
	}
	return s
}

func TestATextOfRowsReadsBackAsItWas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, w := drawSheet(t), drawWording(t)
		folded := s.Fold(w)
		require.LessOrEqual(t, len(folded), len(s.Lines)+len(s.Lines)/2)
		for _, text := range [][]string{folded, s.Each(w)} {
			got := slowText(t, text, func(row int) int { return In(s.Lines[row-s.First].Runs) })
			require.Len(t, got, len(s.Lines), text)
			for i, line := range s.Lines {
				require.Equal(t, line, got[s.First+i], "row %d of %q", s.First+i, text)
			}
		}
	})
}

// longSheets are 100,000 rows that could take long to fold, or fewer in a short test.
func longSheets() map[string]Sheet {
	rows := 100_000
	if testing.Short() {
		rows = 10_000
	}
	r := rand.New(rand.NewSource(1))
	known := make([]Line, 40)
	for i := range known {
		for k := range 20 {
			known[i].Runs = append(known[i].Runs, Run{Knit + Stitch(k%2), 1 + r.Intn(5)})
		}
	}
	sheets := map[string]Sheet{}
	for name, next := range map[string]func(i int) int{
		"one":     func(int) int { return 0 },
		"garter":  func(i int) int { return i % 2 },
		"repeat":  func(i int) int { return i % 37 },
		"random":  func(int) int { return r.Intn(40) },
		"of two":  func(int) int { return r.Intn(2) },
		"nearly":  func(i int) int { return i%2 + 2*boolInt(i%97 == 0) },
		"squares": func(i int) int { return i * i % 1009 % 40 },
	} {
		s := Sheet{First: 1, Yarns: 1}
		for i := range rows {
			s.Lines = append(s.Lines, known[next(i)])
		}
		sheets[name] = s
	}
	return sheets
}

func TestLongTextsTakeBoundedWork(t *testing.T) {
	for name, s := range longSheets() {
		start := time.Now()
		text := s.Fold(Wording{})
		took := time.Since(start)
		t.Log(name, len(text), "lines", took)
		require.Less(t, took, 10*time.Second, name)
		got := slowText(t, text, func(row int) int { return In(s.Lines[row-1].Runs) })
		require.Len(t, got, len(s.Lines))
	}
}
