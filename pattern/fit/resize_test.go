package fit

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/measure"
)

// The questions and figures in this file are people's own, put in other numbers; their answers are arithmetic on a gauge:
// common practice, no source.

const cm = measure.Centimetre

// asked is a wish for what it sets.
func asked(set func(*Wish)) Wish {
	w := Wish{Weight: pattern.UnknownWeight}
	set(&w)
	return w
}

// pegsOf are the counts that a wish brings, best first, each once.
func pegsOf(r *Resized) []int {
	var pegs []int
	for _, c := range r.Candidates {
		if !slices.Contains(pegs, c.Pegs) {
			pegs = append(pegs, c.Pegs)
		}
	}
	return pegs
}

func mustResize(t require.TestingT, text string, w Wish) *Resized {
	r, err := Resize([]byte(text), w)
	require.NoError(t, err)
	require.NotEmpty(t, r.Candidates)
	require.LessOrEqual(t, len(r.Candidates), most)
	return r
}

// framed is a pattern file with a garter frame around a field.
func framed(head, field string) string {
	return "pattern = 1\n" + head + `
[[zone]]
name = "bottom border"
border = true
rows = ["k", "p"]
times = 3

[[zone]]
name = "field"
` + field + `

[[zone]]
name = "top border"
like = "bottom border"

[[zone]]
name = "set-up"
border = true
rows = ["k"]
`
}

const (
	gauge16 = "[gauge]\nstitches = 16\nrows = 22\nover = '10 cm'\n"
	gauge10 = "[gauge]\nstitches = 10\nrows = 14\nover = '10 cm'\n"
)

// examples are the texts of the patterns that ship, by name.
func exampleTexts(t testing.TB) map[string]string {
	t.Helper()
	paths, err := filepath.Glob("../../examples/*.toml")
	require.NoError(t, err)
	texts := map[string]string{}
	for _, path := range paths {
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		texts[strings.TrimSuffix(filepath.Base(path), ".toml")] = string(text)
	}
	require.GreaterOrEqual(t, len(texts), 5)
	return texts
}

func TestResizingToTheSameIsTheIdentity(t *testing.T) {
	for name, text := range exampleTexts(t) {
		t.Run(name, func(t *testing.T) {
			p, _ := file.Load("f", []byte(text))
			for what, w := range map[string]Wish{
				"nothing":       asked(func(*Wish) {}),
				"the same loom": asked(func(w *Wish) { w.Loom = p.Loom }),
				"the same gauge, loom and yarn": asked(func(w *Wish) {
					w.Gauge, w.Loom, w.Weight = p.Gauge, p.Loom, p.Yarns[0].Weight
				}),
				"the same pegs": asked(func(w *Wish) { w.Pegs = p.Pegs }),
				"the same size": asked(func(w *Wish) { w.Width, w.Height = widthOf(p), heightOf(p) }),
			} {
				r := mustResize(t, text, w)
				assert.Equal(t, text, string(r.Candidates[0].Text), what)
				assert.Empty(t, r.Estimated, what)
				assert.InDelta(t, 0, r.Candidates[0].Error, 1e-9, what)
			}
		})
	}
}

// Wanted 52 cm; 24 pegs are 18.5 cm; a multiple of 8 plus 3 between borders of 4 and
// 4: 67 pegs, 51.6 cm; beside it 59, 45.5 cm, and 75, 57.8 cm.
func TestHowManyPegs(t *testing.T) {
	text := framed("pegs = 35\n[gauge]\nstitches = 24\nrows = 32\nover = '18.5 cm'\n",
		`sides = 4
rows = ["*k3, p5; rep from * to last 3, k3", "k"]
times = 10`)
	r := mustResize(t, text, asked(func(w *Wish) { w.Width = 52 * cm }))
	assert.Equal(t, 67, r.Candidates[0].Pegs)
	assert.Equal(t, []int{59, 67, 75}, slices.Sorted(slices.Values(firstOf(pegsOf(r), 3))))
	for _, c := range r.Candidates {
		if want := map[int]float64{59: 45.5, 67: 51.6, 75: 57.8}[c.Pegs]; want > 0 {
			assert.InDelta(t, want, c.Width.In(cm), 0.05)
		}
		assert.Equal(t, 4, c.Sides)
	}
}

func firstOf(pegs []int, n int) []int { return pegs[:min(n, len(pegs))] }

// The pattern wants 20 in 10 cm, on this loom the yarn gives 16: 60 pegs become 48,
// and the rows go by the row gauge.
func TestTheGaugeOfTheLoom(t *testing.T) {
	text := framed("pegs = 60\n[gauge]\nstitches = 20\nrows = 28\nover = '10 cm'\n", "rows = ['*k2, p2; rep from * to end', 'k']\ntimes = 28")
	r := mustResize(t, text, asked(func(w *Wish) { w.Gauge = pattern.Gauge{Stitches: 16, Rows: 22.4} }))
	best := r.Candidates[0]
	assert.Equal(t, 48, best.Pegs)
	assert.InDelta(t, 30, best.Width.In(cm), 0.01)
	assert.InDelta(t, 0, best.Error, 1)
	assert.InDelta(t, r.Wanted.Height.In(cm), best.Height.In(cm), 0.45, "within half a repeat of 2 rows at 22.4 in 10 cm")
	assert.Less(t, best.Rows, 56)
}

// 84 pegs were to be 60 cm and are 66 cm: the gauge is 12.7. For 60 cm it takes 76
// (a multiple of 4); 84 are 66 cm, and the shape of 60 x 80 becomes 66 x 88.
func TestTheSwatchWasWrong(t *testing.T) {
	text := "pattern = 1\npegs = 84\n[gauge]\nstitches = 14\nrows = 20\nover = '10 cm'\n" +
		"[[zone]]\nname = 'all'\nrows = ['*k2, p2; rep from * to end', '*p2, k2; rep from * to end']\ntimes = 80\n"
	measured := pattern.Gauge{Stitches: 84 / 6.6, Rows: 20}
	r := mustResize(t, text, asked(func(w *Wish) { w.Gauge = measured }))
	assert.Equal(t, 76, r.Candidates[0].Pegs)
	r = mustResize(t, text, asked(func(w *Wish) { w.Gauge, w.Pegs = measured, 84 }))
	assert.Equal(t, 84, r.Candidates[0].Pegs)
	assert.InDelta(t, 66, r.Candidates[0].Width.In(cm), 0.05)
	assert.InDelta(t, 88, r.Candidates[0].Height.In(cm), 0.05)
}

// 36 pegs and wanted square, plain at 16 and 22, garter at 16 and 32 in 10 cm: 49.5
// rows, so 49 or 50; in garter 72, one ridge a peg.
func TestASquare(t *testing.T) {
	side := 36.0 / 16 * 100
	square := asked(func(w *Wish) { w.Width, w.Height = measure.Length(side), measure.Length(side) })
	plain := "pattern = 1\npegs = 36\n" + gauge16 + "[[zone]]\nname = 'all'\nrows = ['k']\ntimes = 30\n"
	r := mustResize(t, plain, square)
	assert.Equal(t, 36, r.Candidates[0].Pegs)
	assert.ElementsMatch(t, []int{49, 50}, []int{r.Candidates[0].Rows, r.Candidates[1].Rows})
	garter := "pattern = 1\npegs = 36\n[gauge]\nstitches = 16\nrows = 22\nover = '10 cm'\n" + // garter rows: twice the stitches
		"[[zone]]\nname = 'all'\nrows = ['k', 'p']\ntimes = 33\n"
	r = mustResize(t, garter, square)
	assert.Equal(t, 72, r.Candidates[0].Rows)
}

// 70 cm at 18 rows in 10 cm, borders of 8 and 9 rows, a middle of 10-row repeats: 11
// repeats, 127 rows, 70.6 cm; or 10, 117 rows, 65 cm.
func TestHowManyRows(t *testing.T) {
	text := "pattern = 1\npegs = 40\n[gauge]\nstitches = 9\nrows = 18\nover = '10 cm'\n" +
		"[[zone]]\nname = 'bottom'\nborder = true\nrows = ['k', 'p']\ntimes = 4\n" +
		"[[zone]]\nname = 'middle'\nrows = ['k2, p to end', 'k', 'k', 'k', 'k', 'k', 'k', 'k', 'k', 'k']\ntimes = 5\n" +
		"[[zone]]\nname = 'top'\nlike = 'bottom'\n[[zone]]\nname = 'set-up'\nborder = true\nrows = ['k']\n"
	r := mustResize(t, text, asked(func(w *Wish) { w.Height = 70 * cm }))
	assert.Equal(t, 127, r.Candidates[0].Rows)
	assert.InDelta(t, 70.6, r.Candidates[0].Height.In(cm), 0.05)
	assert.Equal(t, 117, r.Candidates[1].Rows)
	assert.InDelta(t, 65, r.Candidates[1].Height.In(cm), 0.05)
	assert.Equal(t, 40, r.Candidates[1].Pegs)
}

// Repeats of 6 + 1, 8 + 1 and 4 + 1 on one count: 24k + 1, with borders of 4 and 4 57
// or 81.
func TestSeveralRepeatsOnOneCount(t *testing.T) {
	text := framed("pegs = 57\n"+gauge10, "sides = 4\nrows = ['*k3, p3; rep from * to last 1, k1', 'k']\ntimes = 4") + `
[[zone]]
name = "eight"
sides = 4
rows = ["*k4, p4; rep from * to last 1, k1", "k"]

[[zone]]
name = "four"
sides = 4
rows = ["*k2, p2; rep from * to last 1, k1", "k"]
`
	r := mustResize(t, text, asked(func(w *Wish) { w.Width = 70 * cm }))
	assert.Equal(t, []int{57, 81}, slices.Sorted(slices.Values(firstOf(pegsOf(r), 2))))
	for _, c := range r.Candidates {
		assert.Equal(t, 1, (c.Pegs-8)%24)
	}
}

// Beside repeats of 10 never 3 pegs on one side: the rows' own edge stitches decide.
func TestNoPegsLeftOver(t *testing.T) {
	for edge, want := range map[string]int{"k1": 42, "k2": 44} {
		n := edge[1:]
		text := "pattern = 1\npegs = 2" + map[string]string{"k1": "2", "k2": "4"}[edge] + "\n" + gauge10 +
			"[[zone]]\nname = 'all'\nrows = ['" + edge + ", *p5, k5; rep from * to last " + n + ", " + edge + "', 'k']\ntimes = 9\n"
		r := mustResize(t, text, asked(func(w *Wish) { w.Width = 43 * cm }))
		assert.Equal(t, want, r.Candidates[0].Pegs)
		for _, c := range r.Candidates {
			assert.Equal(t, want%10, c.Pegs%10)
		}
	}
}

// A circle of 24 x 24 drawn on squared paper, at 16 and 22 in 10 cm: 10.9 cm high and
// 15 cm wide; it takes 33 rows.
func TestPicturesKeepTheirShape(t *testing.T) {
	picture := strings.Repeat(strings.Repeat("-", 24)+"\n", 24)
	text := framed("pegs = 40\n[gauge]\nstitches = 16\nrows = 16\nover = '10 cm'\n[motif.circle]\nchart = '''\n"+picture+"'''\n", "motif = 'circle'")
	_, err := Resize([]byte(text), asked(func(w *Wish) { w.Gauge = pattern.Gauge{Stitches: 16, Rows: 22} }))
	refusal := &Refusal{}
	require.ErrorAs(t, err, &refusal)
	assert.Equal(t, `the motif "circle" of 24 pegs and 24 rows would come out squashed in this gauge`, refusal.Msg)
	assert.Equal(t, "draw it 33 rows high instead of 24, and then resize", refusal.Hint)
	assert.InDelta(t, 1.375, Stretch(Square, pattern.Gauge{Stitches: 16, Rows: 22}), 1e-9)
	// In a gauge of the same shape it may stand on another loom.
	r := mustResize(t, text, asked(func(w *Wish) { w.Gauge = pattern.Gauge{Stitches: 12, Rows: 12} }))
	assert.Equal(t, 30, r.Candidates[0].Pegs)
}

// Cast on 51, borders 4 and 4, a field 43 wide: the sum is known of every candidate.
func TestTheSumOfTheCastOn(t *testing.T) {
	text := framed("pegs = 35\n"+gauge10, "sides = 4\nrows = ['*k3, p5; rep from * to last 3, k3', 'k']\ntimes = 4")
	c := mustResize(t, text, asked(func(w *Wish) { w.Width = 51 * cm })).Candidates[0]
	assert.Equal(t, []int{51, 4, 43}, []int{c.Pegs, c.Sides, c.Pegs - 2*c.Sides})
}

// Looms of 24, 31, 36 and 41 pegs, borders of 3, a middle of 4n + 1: 23, 31, 35, 39,
// and the same rows.
func TestAClassWithDifferentLooms(t *testing.T) {
	text := framed("pegs = 27\n"+gauge10, "sides = 3\nrows = ['*k2, p2; rep from * to last 1, k1', 'k']\ntimes = 9")
	p, _ := file.Load("f", []byte(text))
	for loom, want := range map[int]int{24: 23, 31: 31, 36: 35, 41: 39} {
		c := mustResize(t, text, asked(func(w *Wish) { w.Loom.Pegs, w.Fill = loom, true })).Candidates[0]
		assert.Equal(t, want, c.Pegs)
		assert.Equal(t, 3, c.Sides)
		assert.Equal(t, p.Grid.Rows(), c.Rows)
		assert.Equal(t, Yes, c.Fits)
	}
}

// 20 x 20 cm at 11/14 plain, 16/22 plain and 13/26 garter: 22 pegs and 28 rows, 32
// and 44, 26 and 52.
func TestSquaresFromManyHands(t *testing.T) {
	plain := "pattern = 1\npegs = 30\n" + gauge10 + "[[zone]]\nname = 'all'\nrows = ['k']\ntimes = 30\n"
	garter := strings.Replace(plain, "rows = ['k']", "rows = ['k', 'p']", 1)
	for _, c := range []struct {
		text       string
		gauge      pattern.Gauge
		pegs, rows int
	}{
		{plain, pattern.Gauge{Stitches: 11, Rows: 14}, 22, 28},
		{plain, pattern.Gauge{Stitches: 16, Rows: 22}, 32, 44},
		{garter, pattern.Gauge{Stitches: 13, Rows: 18, GarterRows: 26}, 26, 52},
	} {
		best := mustResize(t, c.text, asked(func(w *Wish) { w.Gauge, w.Width, w.Height = c.gauge, 20*cm, 20*cm })).Candidates[0]
		assert.Equal(t, []int{c.pegs, c.rows}, []int{best.Pegs, best.Rows})
	}
}

// Of two counts equally near the smaller comes first: rather a little under than over.
func TestRatherUnderThanOver(t *testing.T) {
	text := "pattern = 1\npegs = 10\n" + gauge10 + "[[zone]]\nname = 'all'\nrows = ['*k1, p1; rep from * to end', 'k']\ntimes = 3\n"
	r := mustResize(t, text, asked(func(w *Wish) { w.Width = 11 * cm }))
	assert.Equal(t, []int{10, 12}, firstOf(pegsOf(r), 2))
}

// A border as high as it is wide stays so, within a ridge.
func TestBordersStayAsHighAsTheyAreWide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := framed("pegs = 60\n[gauge]\nstitches = 16\nrows = 24\ngarter_rows = 32\nover = '10 cm'\n", "sides = 6\nrows = ['k']\ntimes = 60")
		text = strings.Replace(text, "times = 3", "times = 6", 1)
		k := rapid.Float64Range(0.4, 2.5).Draw(t, "finer")
		w := asked(func(w *Wish) { w.Gauge = pattern.Gauge{Stitches: 16 * k, Rows: 24 * k, GarterRows: 32 * k} })
		for _, c := range mustResize(t, text, w).Candidates {
			wide := float64(c.Sides) / (1.6 * k)
			high := float64(c.Pattern.Zones[0].Rows()) / (3.2 * k)
			assert.InDelta(t, wide, high, 1/(3.2*k)+0.5/(1.6*k)+1e-6)
			assert.GreaterOrEqual(t, c.Sides, 2)
			assert.Equal(t, c.Pattern.Zones[0].Rows(), c.Pattern.Zones[2].Rows())
			assert.Equal(t, 1, c.Rows%2, "alike at both ends")
		}
	})
}

// 118 cm at 12.5 pegs in 10 cm is 148 pegs on a loom of 62: 148 and 4 for two seams
// are 152, so 3 panels of 51.
func TestTheLoomIsTooShort(t *testing.T) {
	panels, each := Panels(148, 62)
	assert.Equal(t, []int{3, 51}, []int{panels, each})
	text := "pattern = 1\npegs = 50\n[gauge]\nstitches = 12.5\nrows = 18\nover = '10 cm'\n[loom]\npegs = 62\n" +
		"[[zone]]\nname = 'all'\nrows = ['k']\ntimes = 30\n"
	r := mustResize(t, text, asked(func(w *Wish) { w.Width = 118 * cm }))
	assert.Equal(t, 62, r.Candidates[0].Pegs, "the widest that it has room for")
	assert.Equal(t, Yes, r.Candidates[0].Fits)
	assert.True(t, slices.ContainsFunc(r.Candidates, func(c Candidate) bool { return c.Pegs == 148 && c.Fits == No }), "148 are told, and that they do not fit")
	require.Len(t, r.Notes, 1)
	assert.Equal(t, "the wish takes 148 pegs and the loom has 62: 3 panels of 51 pegs, with as many rows each, are 149 pegs wide once they are sewn, 119 cm (each seam takes an edge peg of both)", r.Notes[0])
	// In whole repeats of 10: 50 pegs.
	text = strings.Replace(text, "['k']", "['*k5, p5; rep from * to end', 'k']", 1)
	r = mustResize(t, text, asked(func(w *Wish) { w.Width = 118 * cm }))
	require.NotEmpty(t, r.Notes)
	assert.Contains(t, r.Notes[0], ": 3 panels of 50 pegs, with as many rows each, are 146 pegs wide")
}

func TestNoPanelIsWiderThanTheLoom(t *testing.T) {
	nines := func(n int) bool { return n%9 == 0 }
	panels, each := PanelsOf(32, 17, nines) // 2 panels of 18 would be 34 wide, and just too wide for the loom
	assert.Equal(t, []int{4, 9}, []int{panels, each})
}

func TestPanelsAreOfCountsThatCanBeHad(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		of, plus := rapid.IntRange(1, 30).Draw(t, "of"), rapid.IntRange(0, 6).Draw(t, "plus")
		loom, pegs := rapid.IntRange(3, 80).Draw(t, "loom"), rapid.IntRange(3, 400).Draw(t, "pegs")
		allowed := func(n int) bool { return n > plus && (n-plus)%of == 0 }
		panels, each := PanelsOf(pegs, loom, allowed)
		if pegs <= loom {
			assert.Equal(t, []int{1, pegs}, []int{panels, each})
			return
		}
		// By trying all of them: none of so few panels comes nearer.
		best := 0
		fewest, _ := Panels(pegs, loom)
		for n := 3; n <= loom; n++ {
			if most := max(panels, fewest); allowed(n) && (best == 0 || abs(Sewn(most, n)-pegs) < abs(Sewn(most, best)-pegs)) {
				best = n
			}
		}
		if best == 0 {
			assert.Zero(t, panels)
			return
		}
		require.Positive(t, panels)
		assert.True(t, each <= loom && allowed(each))
		assert.Equal(t, abs(Sewn(panels, best)-pegs), abs(Sewn(panels, each)-pegs))
	})
}

func TestPanelsAreAsFewAndAsNarrowAsCanBe(t *testing.T) {
	for loom := 3; loom < 60; loom++ {
		for pegs := 1; pegs < 400; pegs++ {
			panels, each := Panels(pegs, loom)
			require.LessOrEqual(t, each, loom)
			require.GreaterOrEqual(t, panels*each-2*(panels-1), pegs, "%d on %d", pegs, loom)
			require.Less(t, panels*(each-1)-2*(panels-1), pegs, "none narrower")
			if panels > 1 {
				require.Less(t, (panels-1)*loom-2*(panels-2), pegs, "none fewer")
			}
		}
	}
}

func TestRefusalsSayWhatToDo(t *testing.T) {
	plain := "pattern = 1\npegs = 50\n" + gauge10 + "[[zone]]\nname = 'all'\nrows = ['k']\ntimes = 30\n"
	noGauge := strings.Replace(plain, gauge10, "", 1)
	fixed := strings.Replace(plain, "rows = ['k']", "rows = ['k20, p30']", 1)
	drawn := "pattern = 1\npegs = 4\n" + gauge10 + "[[zone]]\nname = 'boat'\nchart = '||--'\n"
	motif := framed("pegs = 40\n"+gauge10+"[motif.leaf]\nchart = '----------'\n", "motif = 'leaf'")
	for _, c := range []struct {
		name, text string
		wish       func(*Wish)
		msg, hint  string
	}{
		{"no pattern", "pegs = 3", func(w *Wish) {}, "the file:1:1: this is no pattern file: it does not begin with pattern = 1 (and 1 more)", "bypeg check tells all that is wrong with it"},
		{"no gauge", noGauge, func(w *Wish) { w.Width = 30 * cm }, "a size in centimetres needs a gauge, and the pattern has none",
			`add --gauge "11 stitches and 15 rows in 10 cm", counted on a relaxed swatch`},
		{"a gauge, and no size to keep", noGauge, func(w *Wish) { w.Gauge.Stitches = 12 }, "the pattern has no gauge, so nobody knows what size it is to keep", "add --width 40cm, or --same-pegs"},
		{"too wide", plain, func(w *Wish) { w.Width = 100 * measure.Metre }, "that would take 10000 pegs; a pattern has at most 4000", "ask for a smaller width, or work it as several panels"},
		{"rows without a repeat", fixed, func(w *Wish) { w.Pegs = 3000 }, `no count near 3000 pegs lets the rows of zone "all" come out whole`,
			"write its rows with a repeat, as in *k2, p2; rep from * to end, or ask for another width"},
		{"a chart", drawn, func(w *Wish) { w.Pegs = 2000 }, `the chart of zone "boat" is drawn 4 pegs wide and can't become wider or narrower by itself`, "ask for --same-pegs, or draw the chart anew"},
		{"a motif on a loom too short", motif, func(w *Wish) { w.Fill, w.Loom.Pegs = true, 8 }, `on 8 pegs there is no room for the motif "leaf" of 10 pegs in zone "field"`,
			"ask for a wider piece, or draw the motif narrower"},
		{"no loom to fill", plain, func(w *Wish) { w.Fill = true }, "the pattern does not say how many pegs the loom has", "add --loom 41"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := Resize([]byte(c.text), asked(c.wish))
			refusal := &Refusal{}
			require.ErrorAs(t, err, &refusal)
			assert.Equal(t, c.msg, refusal.Msg)
			assert.Equal(t, c.hint, refusal.Hint)
		})
	}
}

// What is carried over and not measured is said to be.
func TestEstimatesAreSaid(t *testing.T) {
	text := framed("pegs = 40\n[gauge]\nstitches = 16\nrows = 22\ngarter_rows = 30\nover = '4 in'\n[loom]\npegs = 60\nspacing = '3/8 in'\n[yarn]\nweight = 4\n", "rows = ['k']\ntimes = 30")
	r := mustResize(t, text, asked(func(w *Wish) { w.Loom.SpacingMM, w.Spacing = 12.7, "1/2 in" }))
	assert.Equal(t, []string{"the gauge is carried over by the spacing of the pegs, 11.8 stitches and 16.2 rows in 10 cm: work a swatch before you cast on"}, r.Estimated)
	best := r.Candidates[0]
	assert.InDelta(t, 16/1.016*0.75, best.Pattern.Gauge.Stitches, 1e-3, "3/8 of 1/2 in is 0.75")
	assert.Equal(t, 30, best.Pegs)
	assert.Contains(t, string(best.Text), "spacing = '1/2 in'")
	assert.Contains(t, string(best.Text), "over = '10 cm'")

	r = mustResize(t, text, asked(func(w *Wish) { w.Weight = 6 }))
	assert.Equal(t, []string{"the gauge is carried over by the yarn's class, 7.9 stitches and 10.8 rows in 10 cm: work a swatch before you cast on"}, r.Estimated)
	assert.Equal(t, 20, r.Candidates[0].Pegs, "class 4 is 16-20 stitches in 4 in, class 6 7-11: Standard Yarn Weight System")
	assert.Contains(t, string(r.Candidates[0].Text), "weight = 6\n")

	r = mustResize(t, text, asked(func(w *Wish) { w.Gauge.Stitches = 12 }))
	assert.Equal(t, []string{"rows: carried over by the ratio of the gauges", "garter rows: carried over by the ratio of the gauges"}, r.Estimated)
}

// Strips that lie side by side share what there is; those that are alike stay so, and
// charts stay as they are drawn.
func TestStripsShareTheRoom(t *testing.T) {
	text := "pattern = 1\npegs = 32\n" + gauge10 + `
[[zone]]
name = "three"
sides = 2
times = 4
[[zone.strip]]
pegs = 9
rows = ["*k1, p1; rep from * to last 1, k1"]
[[zone.strip]]
pegs = 10 # a picture
chart = "||||--||||"
[[zone.strip]]
pegs = 9
rows = ["*k1, p1; rep from * to last 1, k1"]
`
	r := mustResize(t, text, asked(func(w *Wish) { w.Width = 40 * cm }))
	best := r.Candidates[0]
	assert.Equal(t, 40, best.Pegs)
	var widths []int
	for _, s := range best.Pattern.Zones[0].Strips {
		widths = append(widths, s.To-s.From)
	}
	assert.Equal(t, []int{2, 13, 10, 13, 2}, widths)
	assert.Contains(t, string(best.Text), "pegs = 10 # a picture")
}

// Motifs and markers keep their place.
func TestMotifsAndMarkersKeepTheirPlace(t *testing.T) {
	text := framed("pegs = 26\nmarkers = [3, 13, 24]\n"+gauge10+"[loom]\npegs = 30\nfirst_peg = 5\n[motif.leaf]\nchart = '--'\nat = [2, 1] # low\n", "sides = 3\nmotif = 'leaf'")
	best := mustResize(t, text, asked(func(w *Wish) { w.Pegs, w.Loom.Pegs = 40, 44 })).Candidates[0]
	assert.Equal(t, 40, best.Pegs)
	assert.Contains(t, string(best.Text), "at = [3, 1] # low", "its middle is a tenth of the way along, as near as can be")
	assert.Contains(t, string(best.Text), "markers = [3, 13, 38]")
	assert.Equal(t, 5, best.Pattern.Loom.FirstPeg)
	best = mustResize(t, text, asked(func(w *Wish) { w.Pegs, w.Loom.Pegs = 40, 42 })).Candidates[0]
	assert.Equal(t, 2, best.Pattern.Loom.FirstPeg, "in the middle of a loom where it fits no more behind peg 5")
}

// A repeat that is worked no time is none: such a count is not offered.
func TestARepeatIsWorkedAtLeastOnce(t *testing.T) {
	text := framed("pegs = 35\n"+gauge10, "sides = 4\nrows = ['*k3, p5; rep from * to last 3, k3', 'k']\ntimes = 4")
	for _, c := range mustResize(t, text, asked(func(w *Wish) { w.Width = 12 * cm })).Candidates {
		assert.GreaterOrEqual(t, c.Pegs, 19, "8 + 3 between sides of 4")
	}
}
