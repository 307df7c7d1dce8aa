package fit_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
)

func TestYarnOfAPanel(t *testing.T) {
	// 30 cm wide, 100 rows: a row takes 3.4 to 4.2 widths, the bind-off 3 to 6, the cast-on 3 to 4, each
	// with a tail of 15 cm. Sources stand in the table of facts.
	p := made(t, head(30)+"[yarn]\nmetres = 50\ngrams = 25\n"+zone("field", `"k"`, 100))
	n := fit.YarnOf(p)[0]
	assert.InDelta(t, 0.3*(3.4*100+3+3)+0.3, n.Metres.Low, 1e-9)
	assert.InDelta(t, 0.3*(3.9*100+3.5+5)+0.3, n.Metres.Likely, 1e-9)
	assert.InDelta(t, 0.3*(4.2*100+4+6)+0.3, n.Metres.High, 1e-9)
	assert.InDelta(t, n.Metres.Likely/2, n.Grams.Likely, 1e-9)
	assert.Equal(t, 3, n.Balls(0), "119.9 m")
	assert.Equal(t, 3, n.Balls(0.10))
	assert.Equal(t, 4, n.Balls(0.30))
}

func TestYarnOfEachColour(t *testing.T) {
	text := head(30) + "[yarns.moss]\ncolour = \"moss\"\n" + zone("a", `"k"`, 10) + zone("b", `"k"`, 30, `yarn = "moss"`) + zone("c", `"k"`, 10)
	needs := fit.YarnOf(made(t, text))
	require.Len(t, needs, 2)
	assert.InDelta(t, 20*0.3*3.9, needs[0].Zones[0].Metres.Likely+needs[0].Zones[2].Metres.Likely, 1e-9)
	assert.Zero(t, needs[0].Zones[1].Metres.Likely)
	assert.InDelta(t, 30*0.3*3.9, needs[1].Metres.Likely, 1e-9, "no edge is worked in it")
	assert.Positive(t, needs[0].BindOff.Metres.Likely)
	assert.Zero(t, needs[1].Balls(0), "nobody says what is in a ball")
}

func TestWhatTakesLessOrMoreYarn(t *testing.T) {
	metres := func(rows string, more ...string) float64 {
		return fit.YarnOf(made(t, head(30)+zone("field", rows, 10, more...)))[0].Zones[0].Metres.Likely
	}
	plain := metres(`"k"`)
	assert.InDelta(t, plain, metres(`"p"`), 1e-9)
	assert.InDelta(t, plain*(1+1/3.9)/2, metres(`"*k1, sl1; rep from * to end"`), 1e-9, "past a peg that is skipped the yarn runs straight")
	// Against flat, u-wrap 1.08 and e-wrap 1.4 to 1.7: stringtheoryfiberworks.blogspot.com/2014/02, one sample.
	assert.InDelta(t, plain*1.55/1.08, metres(`"k"`, `knit_as = "e-wrap"`), 1e-9)
	assert.InDelta(t, plain*1.55/1.08, metres(`"ew all"`), 1e-9)
	assert.InDelta(t, plain/1.08, metres(`"fk all"`), 1e-9)
	own := fit.YarnOf(made(t, head(30)+"[gauges.wide]\nstitches = 10.001\nrows = 16\nover = \"10 cm\"\n"+zone("field", `"k"`, 10, `knit_as = "e-wrap"`, `gauge = "wide"`)))[0]
	assert.InEpsilon(t, plain, own.Zones[0].Metres.Likely, 1e-3, "a gauge that was measured in a wrap holds it already")
}

func TestParseYarn(t *testing.T) {
	for text, want := range map[string][]int{
		"200 m/100 g": {3, 4}, "85 m/50 g": {4}, "85m in 50g": {4}, "900 yd/lb": {4}, "11 wpi": {3, 4}, "11 wraps per inch": {3, 4},
		"500 tex": {3, 4}, "5000 dtex": {3, 4}, "Nm 2": {3, 4}, "nm 2/28": {0}, "2/4 Nm": {3, 4}, "Nm 4/2": {3, 4}, "85,5 m/50 g": {4}, "12,5 wpi": {2, 3}, "Ne 1,2": {3}, "4500 denier": {3, 4},
		"class 4": {4}, "weight 0": {0}, "9 m/1 kg": {6, 7}, "13.5 wpi": {2, 3}, "475 m/100 g": {1}, "1400 m/100 g": {0},
		// The weight first.
		"100 g/200 m": {3, 4}, "100g = 200m": {3, 4}, "50 g : 85 m": {4}, "3.5 oz / 220 yd": {3},
		// The classes by their names, and the kinds of yarn that the Standard Yarn Weight System names beside them.
		"4": {4}, "class 4 (medium)": {4}, "medium": {4}, "Super Bulky": {6}, "lace": {0}, "bulky yarn": {5},
		"fingering": {1}, "sport weight": {2}, "DK": {3}, "worsted": {4}, "aran": {4}, "chunky": {5},
	} {
		y, err := fit.ParseYarn(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, fit.ClassesOf(y), text)
	}
	for _, text := range []string{"", "thick", "200", "4.5", "roving", "4 (thick)x", "200 m = 100 m", "0 tex", "-3 tex", "class 9", "class 4.5", "200 m/0 g", "Nm 0/0", "1e300 tex", "200 m/100 ells", "\x1b[2J"} {
		_, err := fit.ParseYarn(text)
		require.Error(t, err, text)
		assert.Contains(t, err.Error(), "write", text)
		assert.NotContains(t, err.Error(), "\x1b")
	}
}

func TestAnyTextIsAYarnOrAnError(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.OneOf(rapid.String(), rapid.StringMatching(`[0-9.,/]{0,6} ?(m|yd|tex|nm|wpi|class|g)?(/| in )?[0-9.]{0,4} ?(g|oz|lb)?`)).Draw(t, "text")
		if y, err := fit.ParseYarn(text); err == nil {
			assert.NotEmpty(t, fit.ClassesOf(y), text)
		}
		if s, err := fit.ParseStock(text); err == nil {
			assert.Positive(t, s.Metres+s.Grams)
		}
		if s, err := fit.ParseSample(text + " x 3 cm = " + text); err == nil {
			assert.Positive(t, float64(s.Width*s.Height))
		}
	})
}

func TestEveryFigureOfAYarnNamesTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tex := fit.Tex(rapid.Float64Range(50, 3000).Draw(t, "tex"))
		for _, text := range []string{
			fmt.Sprintf("%.9f tex", float64(tex)), fmt.Sprintf("Nm %.9f", tex.Nm()), fmt.Sprintf("Ne %.9f", tex.Ne()),
			fmt.Sprintf("%.9f denier", tex.Denier()), fmt.Sprintf("%.9f dtex", 10*float64(tex)), fmt.Sprintf("%.9f m/100 g", tex.MetresIn100g()),
		} {
			y, err := fit.ParseYarn(text)
			require.NoError(t, err, text)
			assert.InEpsilon(t, tex.MetresIn100g(), fit.MetresIn100g(y), 1e-6, text)
		}
	})
}

func TestDoubts(t *testing.T) {
	// Columns that stay: on a panel with an even count each row begins with what the last one ended with.
	rib := func(n int) string {
		return fmt.Sprintf(`"*k%d, p%[1]d; rep from * to end", "*p%[1]d, k%[1]d; rep from * to end"`, n)
	}
	base := func(more string) string { return "pattern = 1\npegs = 30\n" + more + zone("field", `"k"`, 40) }
	for _, c := range []struct {
		name, text string
		want       []string
	}{
		{"what goes together", base("[gauge]\nstitches = 14\nrows = 20\nover = \"10 cm\"\n[loom]\nspacing = \"3/8 in\"\n[yarn]\nweight = 4\n"), nil},
		{"up to 25 % off", base("[gauge]\nstitches = 19.5\nrows = 26\nover = \"10 cm\"\n[loom]\nspacing = \"3/8 in\"\n"), nil},
		{"a gauge that the loom can't give", base("[gauge]\nstitches = 20\nrows = 26\nover = \"10 cm\"\n[loom]\nspacing = \"3/8 in\"\n"),
			[]string{"the gauge says 20 stitches in 10 cm; by the spacing of the pegs one expects 13 to 16"}},
		{"a gauge that the yarn can't give", base("[gauge]\nstitches = 9\nrows = 12\nover = \"10 cm\"\n[yarn]\nweight = 4\n"),
			[]string{"the gauge says 9 stitches in 10 cm; by yarn of class 4 one expects 16 to 20"}},
		{"ribs in a gauge of plain fabric", "pattern = 1\npegs = 30\n" + zone("cuff", rib(1), 6) + zone("body", `"k"`, 9) + zone("welt", rib(3), 6),
			[]string{`"cuff", "welt" are ribbed, and ribs draw in, those of 1 by 1 by 30 to 50 %: unless [gauge] was measured on them, measure them and write it under [gauges.NAME]`}},
		{"one zone of ribs", "pattern = 1\npegs = 30\n" + zone("cuff", rib(1), 2) + zone("body", `"k"`, 9),
			[]string{`"cuff" is ribbed, and ribs draw in, those of 1 by 1 by 30 to 50 %: unless [gauge] was measured on them, measure them and write it under [gauges.NAME]`}},
		{"ribs in their own gauge", "pattern = 1\npegs = 30\n[gauges.rib]\nstitches = 14\nover = \"10 cm\"\n" + zone("cuff", rib(1), 6, `gauge = "rib"`), nil},
		{"too narrow for ribs", "pattern = 1\npegs = 4\n" + zone("cord", `"k"`, 9), nil},
		{"no ribs", "pattern = 1\npegs = 30\n" + zone("seed", `"*k1, p1; rep from * to end"`, 12) + zone("wide", rib(5), 9) + zone("rim", `"p2, k26, p2"`, 9) +
			zone("low", rib(1), 1) + zone("garter", `"k", "p"`, 9), nil},
		// On looms up to 2 rows a stitch are seen: common practice, no source.
		{"2 rows a stitch", base("[gauge]\nstitches = 10\nrows = 20\nover = \"10 cm\"\n"), nil},
		{"more rows than fabric has", base("[gauge]\nstitches = 10\nrows = 25\nover = \"10 cm\"\n"),
			[]string{"2.5 rows to a stitch are unusual: plain fabric has 1 to 2.4; was the swatch plain and relaxed?"}},
		{"yarn too thin for the pegs", base("[loom]\nspacing = \"5/8 in\"\n[yarn]\nweight = 3\n"),
			[]string{"yarn of class 3 is 2 classes thinner than what usually suits pegs 15.9 mm apart, class 5 or 6"}},
		{"one class off", base("[loom]\nspacing = \"1/2 in\"\n[yarn]\nmetres = 80\ngrams = 100\n"),
			[]string{"yarn of class 6 or 7 is 1 class thicker than what usually suits pegs 12.7 mm apart, class 4 or 5"}},
		{"a class and figures of another", base("[yarn]\nweight = 1\nwpi = 8\n"),
			[]string{"the main yarn is said to be of class 1; by its figures it is of class 5"}},
		{"a border that flares", "pattern = 1\npegs = 30\n[gauge]\nstitches = 10\nrows = 14\nover = \"10 cm\"\n[gauges.cable]\nstitches = 13\nrows = 14\nover = \"10 cm\"\n" +
			zone("rim", `"k", "p"`, 3, "border = true") + zone("field", `"k"`, 40, `gauge = "cable"`),
			[]string{`"rim" would come out 30 % wider than the widest field by itself: it will pull or flare`}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := made(t, c.text)
			s := fit.SizeOf(p)
			assert.Equal(t, c.want, fit.Doubts(p, &s))
		})
	}
}

func TestCautions(t *testing.T) {
	of := func(use pattern.Use, fibre string) string {
		return strings.Join(fit.Cautions(&pattern.Design{Use: use, Yarns: []pattern.YarnInfo{{Fibre: fibre}}}), "; ")
	}
	assert.Contains(t, of(pattern.HotPad, "60 % cotton, 40 % acrylic"), "not for hot pots: acrylic softens or melts from about 180 C on; take cotton, linen or wool")
	assert.Contains(t, of(pattern.HotPad, "cotton"), "a damp pad lets the heat through")
	assert.Contains(t, of(pattern.HotPad, ""), "never acrylic, nylon or polyester")
	assert.Contains(t, of(pattern.HotPad, "silk"), "hot pads are made of cotton, linen or wool")
	assert.Contains(t, of(pattern.HotPad, "cotton"), "check your local product-safety rules")
	assert.Contains(t, of(pattern.Mat, "polyamide"), "not for hot pots")
	assert.Empty(t, of(pattern.Mat, "cotton"))
	assert.Contains(t, of(pattern.Cloth, "acrylic"), "soak up more")
	assert.Empty(t, of(pattern.Cloth, "cotton"))
	assert.Equal(t, `the fibre "moonmist" is not known here: write cotton, linen, wool, acrylic, nylon or polyester`, of(pattern.OtherUse, "moonmist"))
	assert.NotContains(t, of(pattern.HotPad, "cotton"), "safe to")
	assert.Contains(t, of(pattern.Cloth, "acrylic"), "iron it at no more than 110 C, one dot on the label")
	assert.Equal(t, "iron it at no more than 150 C, two dots on the label", of(pattern.OtherUse, "60 % wool, 40 % cotton"))
	for _, fibre := range []string{"", "silk", "50 % silk, 50 % acrylic", "moonmist"} {
		assert.NotContains(t, of(pattern.OtherUse, fibre), "iron", "what is not known is not told: %s", fibre)
	}
	assert.NotContains(t, of(pattern.HotPad, "acrylic"), "iron", "it must not be one at all")
	for _, word := range fit.FibreWords() {
		assert.Len(t, fit.FibresOf(word), 1, word)
	}
}

func TestHowAPieceLiesOnItsLoom(t *testing.T) {
	for _, c := range []struct {
		pegs, loom, first int
		fits              fit.Verdict
		begins, unused    int
	}{
		{26, 40, 0, fit.Yes, 8, 14},
		{26, 41, 0, fit.Yes, 8, 15},
		{26, 26, 0, fit.Yes, 1, 0},
		{26, 40, 15, fit.Yes, 15, 14},
		{26, 40, 16, fit.No, 16, 14},
		{26, 24, 0, fit.No, 0, -2},
		{26, 0, 5, fit.Unknown, 5, 0},
	} {
		text := fmt.Sprintf("pattern = 1\npegs = %d\n[loom]\n", c.pegs)
		if c.loom > 0 {
			text += fmt.Sprintf("pegs = %d\n", c.loom)
		}
		if c.first > 0 {
			text += fmt.Sprintf("first_peg = %d\n", c.first)
		}
		l := fit.LoomOf(made(t, text+zone("field", `"k"`, 2)))
		assert.Equal(t, c.fits, l.Fits, "%+v", c)
		assert.Equal(t, c.begins, l.First, "%+v", c)
		assert.Equal(t, c.unused, l.Unused, "%+v", c)
		if l.Fits == fit.Yes && c.first == 0 {
			right := c.loom - (l.First + c.pegs - 1)
			assert.InDelta(t, l.First-1, right, 1, "in the middle")
		}
	}
}

// What borders are asked for is enough, and less is not.
func TestTheLeastBorderIsTheLeast(t *testing.T) {
	for sides := 0; sides <= 6; sides++ {
		text := head(40) + zone("field", `"k"`, 400, fmt.Sprintf("sides = %d", sides))
		e := fit.EdgesOf(made(t, text))[fit.LeftEdge]
		assert.Equal(t, sides >= 4, e.Roll == fit.LiesFlat, "%d pegs: %v", sides, e.Index)
		if sides < 4 {
			assert.Equal(t, 4, e.Border)
			assert.False(t, e.ToFront)
		}
	}
}

func TestParseSample(t *testing.T) {
	s, err := fit.ParseSample(`6" x 4" = 3 oz`)
	require.NoError(t, err)
	assert.Equal(t, []measure.Length{6 * measure.Inch, 4 * measure.Inch}, []measure.Length{s.Width, s.Height})
	for _, text := range []string{"", "15 cm = 11 g", "15 x 15 = 11 g", "15 x 15 cm", "ten x ten cm = 11 g", "0 x 15 cm = 11 g", "15 x 15 cm = heavy"} {
		_, err := fit.ParseSample(text)
		assert.ErrorContains(t, err, "write", text)
	}
}

// A plain piece without a pattern takes what a pattern of as many plain pegs and rows does.
func TestAPlainPieceTakesWhatItsPatternDoes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pegs, rows := rapid.IntRange(2, 60).Draw(t, "pegs"), rapid.IntRange(1, 60).Draw(t, "rows")
		g := pattern.Gauge{Stitches: float64(rapid.IntRange(5, 30).Draw(t, "stitches")), Rows: float64(rapid.IntRange(8, 40).Draw(t, "of rows"))}
		p, found := loadText(fmt.Sprintf("pattern = 1\npegs = %d\n[gauge]\nstitches = %v\nrows = %v\nover = \"10 cm\"\n[yarn]\nmetres = 85\ngrams = 50\n",
			pegs, g.Stitches, g.Rows) + zone("field", `"k"`, rows))
		require.NoError(t, found.Err())
		want, got := fit.YarnOf(p)[0], fit.PlainNeed(g, p.Yarns[0], pegs, rows)
		for _, pair := range [][2]float64{
			{want.Metres.Low, got.Metres.Low}, {want.Metres.Likely, got.Metres.Likely}, {want.Metres.High, got.Metres.High}, {want.Grams.Likely, got.Grams.Likely},
		} {
			assert.InEpsilon(t, pair[0], pair[1], 1e-9)
		}
		assert.Equal(t, want.Balls(0.1), got.Balls(0.1))
	})
}

// The classes reach from 3 to 40 stitches in 4 in (10.16 cm): 3 to 39 in 10 cm. A quarter
// beyond is doubted, our own choice.
func TestAGaugeThatNoYarnGivesIsDoubted(t *testing.T) {
	for stitches, doubted := range map[float64]bool{2: true, 2.3: false, 16: false, 49: false, 50: true, 160: true} {
		assert.Equal(t, doubted, len(fit.GaugeDoubt(stitches)) == 1, "%v", stitches)
	}
}
