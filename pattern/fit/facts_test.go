package fit

import (
	_ "embed"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/measure"
)

// What the trade knows, each with its published source beside it, or "common practice" or
// "from memory": an id, the quantity, what it is reckoned from, the value, its tolerance, the
// source.
//
//go:embed testdata/facts.tsv
var factsText string

// fact is a line of that table.
type fact struct {
	id, quantity, text, source string
	want                       []float64
	tolerance                  float64
}

func facts(t *testing.T) []fact {
	t.Helper()
	var all []fact
	for line := range strings.Lines(factsText) {
		f := strings.Split(strings.TrimSuffix(line, "\n"), "\t")
		if f[0] == "id" {
			continue
		}
		require.Len(t, f, 6, line)
		one := fact{id: f[0], quantity: f[1] + " (" + f[2] + ")", text: f[3], source: f[5]}
		require.NotEmpty(t, one.source, line)
		for word := range strings.FieldsSeq(f[3]) {
			if x, err := strconv.ParseFloat(word, 64); err == nil {
				one.want = append(one.want, x)
			}
		}
		var err error
		one.tolerance, err = strconv.ParseFloat(f[4], 64)
		require.NoError(t, err, line)
		all = append(all, one)
	}
	return all
}

// check holds the program against a fact.
type check func(t *testing.T, f fact)

// near is a check of figures that the program gives, one for each value.
func near(got ...float64) check {
	return func(t *testing.T, f fact) {
		require.Len(t, f.want, len(got))
		for i := range got {
			assert.InDelta(t, f.want[i], got[i], f.tolerance+1e-9)
		}
	}
}

// covers is a check that all values lie within what the program reckons with.
func covers(low, high float64) check {
	return func(t *testing.T, f fact) {
		require.NotEmpty(t, f.want)
		for _, x := range f.want {
			assert.GreaterOrEqual(t, x, low-f.tolerance)
			assert.LessOrEqual(t, x, high+f.tolerance)
		}
	}
}

// within is a check that what the program gives lies between the two values.
func within(got ...float64) check {
	return func(t *testing.T, f fact) {
		require.Len(t, f.want, 2)
		for _, x := range got {
			assert.GreaterOrEqual(t, x, f.want[0]-1e-9)
			assert.LessOrEqual(t, x, f.want[1]+1e-9)
		}
	}
}

func says(got string) check {
	return func(t *testing.T, f fact) { assert.Equal(t, f.text, got) }
}

func TestFacts(t *testing.T) {
	checks := map[string]check{}
	for _, group := range []map[string]check{geometryChecks(t), countChecks(), classChecks(t), loomChecks(), sizeChecks(t), proportionChecks(t), yarnChecks(t), curlChecks(t), safetyChecks()} {
		for id, c := range group {
			require.Nil(t, checks[id], id)
			checks[id] = c
		}
	}
	all := facts(t)
	require.Len(t, checks, len(all), "a check for each fact")
	for _, f := range all {
		t.Run(f.id+" "+f.quantity, func(t *testing.T) {
			c, ok := checks[f.id]
			require.True(t, ok, "no check holds the program against this fact")
			c(t, f)
			if t.Failed() {
				t.Log("source: ", f.source)
			}
		})
	}
}

// plainOf is plain fabric in a gauge of so many stitches and rows in 10 cm.
func plainOf(t *testing.T, pegs, rows int, stitches, per10 float64, more string) *pattern.Pattern {
	t.Helper()
	p, found := file.Load("plain", fmt.Appendf(nil,
		"pattern = 1\npegs = %d\n[gauge]\nstitches = %v\nrows = %v\nover = \"10 cm\"\n%s\n[[zone]]\nname = \"field\"\nrows = [\"k\"]\ntimes = %d\n",
		pegs, stitches, per10, more, rows))
	require.NotNil(t, p, "%v", found)
	return p
}

func geometryChecks(t *testing.T) map[string]check {
	kw := rowYarn.High // of the fully relaxed fabric: a stitch takes so many times its width
	const kc = 5.5
	// A square metre in 20 stitches, and in as many rows as the geometry has them.
	p := plainOf(t, 200, 262, 20, 20*kc/kw, "[yarn]\ntex = 500")
	need := YarnOf(p)[0]
	area := need.Zones[0].Metres.High * (20 * kc / kw * 10) / 262 // of just a metre's rows
	tightness := []float64{}
	for _, c := range Classes[1:6] {
		w := (c.Stitches.Low + c.Stitches.High) / 2 / 10.16
		metres := Span{c.Metres.Low, min(c.Metres.High, 450)}
		tex := 100_000 / ((metres.Low + metres.High) / 2)
		tightness = append(tightness, math.Sqrt(tex)/(kw/w))
	}
	// 8.4 wales and 11 courses in 1 cm, as a piece of 84 by 110.
	dense := SizeOf(plainOf(t, 84, 110, 84, 110, ""))
	density := 84 * 110 / (dense.Width.Likely.In(measure.Centimetre) * dense.Height.Likely.In(measure.Centimetre))
	// A loop of the fully relaxed fabric, in 20 and in 84 stitches in 10 cm.
	loop := func(per10 float64) float64 { // cm
		return 100 * YarnOf(plainOf(t, 100, 1, per10, 26, ""))[0].Zones[0].Metres.High / 100
	}
	ounce, _ := parseGrams("1 oz")
	yard := measure.Yard.In(measure.Metre)
	peirce := 2*3.75 + 5.00 + 5.94*0.84
	return map[string]check{
		"G01": near(density),
		"G02": near(density),
		"G29": near(density),
		"G03": near(kc / 0.5),
		"G04": near(kw / 0.5),
		"G05": covers(rowsToStitches.Low, rowsToStitches.High),
		"G06": near(density * loop(84) * loop(84)),
		"G07": covers(rowYarn.Low, rowYarn.High),
		"G08": covers(rowYarn.Low, rowYarn.High),
		"G09": near(kw),
		"G11": covers(1-firstWash, 1),
		"G12": covers(1-firstWash, 1),
		"G19": near(math.Pow(measure.Metre.In(measure.Inch), 2) * Tex(1).Ne() / 1e6),
		"G20": near(ounce / (yard * yard)),
		"G21": near(math.Sqrt(p.Yarns[0].Tex) / loop(20)),
		"G13": near(float64(measure.Density(20).Length(1).In(measure.Centimetre)) * kw),
		"G15": covers(rowsToStitches.Low, rowsToStitches.High),
		"G16": near(area / 100),
		"G17": near(area * GramsInMetre(p.Yarns[0])),
		"G18": near(area * GramsInMetre(p.Yarns[0])),
		"G23": within(tightness...),
		"G24": func(t *testing.T, f fact) {
			near(peirce)(t, f)
			assert.GreaterOrEqual(t, peirce/5.00, rowYarn.Low, "the low figure is Peirce's")
			assert.InDelta(t, rowYarn.Low, peirce/5.00, 0.2)
		},
		"G26": near(rowYarn.Low, rowYarn.High),
		"G30": near(100 * YarnOf(plainOf(t, 40, 1, 20, 26, ""))[0].Zones[0].Metres.High),
	}
}

func countChecks() map[string]check {
	t := Tex(20)
	yarn := func(text string) Tex {
		y, err := ParseYarn(text)
		if err != nil {
			return 0
		}
		return Tex(y.Tex)
	}
	metres := func(text string) float64 {
		y, _ := ParseYarn(text)
		return MetresIn100g(y)
	}
	return map[string]check{
		"C01": near(t.Denier()),
		"C02": near(t.Nm()),
		"C04": near(float64(yarn("Ne 1"))),
		"C05": near(float64(Tex(1).Worsted())),
		"C06": near(float64(yarn("Nm 1"))),
		"C07": near(Tex(1).Nm() * Tex(1).Denier()),
		"C08": near(Tex(1).Ne() * Tex(1).Denier()),
		"C09": near(yarn("1 dtex").Nm()),
		"C10": near(yarn("Ne 1").Nm()),
		"C11": near(100_000 / metres("200 m/100 g")),
		"C12": near(metres("900 yd/lb")),
		"C13": near((4 * measure.Inch).In(measure.Centimetre)),
		"C14": near(float64(measure.DensityOf(20, 4*measure.Inch))),
	}
}

func classChecks(t *testing.T) map[string]check {
	all := map[string]check{}
	for n := range Classes {
		c := Classes[n]
		stitches, needles, wraps, metres := []float64{c.Stitches.Low, c.Stitches.High}, []float64{c.Needles.Low, c.Needles.High}, []float64{c.WPI.Low, c.WPI.High}, Span{}
		switch n {
		case 0:
			wraps = wraps[:1]
		case 7:
			stitches, needles = stitches[1:], needles[:1]
		}
		metres = c.Metres
		id := strconv.Itoa(n)
		all["W"+id+"1"], all["W"+id+"2"], all["P"+id] = near(stitches...), near(needles...), near(wraps...)
		all["L"+id] = func(t *testing.T, f fact) {
			covers(metres.Low, metres.High)(t, f)
			for _, x := range f.want {
				assert.Contains(t, ByMetres(x), n)
			}
		}
	}
	require.Len(t, all, 32)
	return all
}

func loomChecks() map[string]check {
	inches := func(sixteenths float64) measure.Length { return measure.Inch * measure.Length(sixteenths/16) }
	name := func(sixteenths float64) string { n, _ := SpacingName(inches(sixteenths)); return n }
	perInch := func(spacing measure.Length) (low, likely, high float64) {
		e := ExpectedOn(spacing)
		return float64(e.Low) * 0.254, float64(e.Likely) * 0.254, float64(e.High) * 0.254
	}
	low38, likely38, high38 := perInch(inches(6))
	_, likely14, _ := perInch(inches(4))
	low58, likely58, high58 := perInch(inches(10))
	return map[string]check{
		"K0": says(name(3)), "K1": says(name(4)), "K2": says(name(6)), "K3": says(name(8)),
		"K4": func(t *testing.T, f fact) { says(name(10))(t, f); says(name(12))(t, f) },
		"Q1": says(name(10)), "Q2": says(name(6)),
		"K10": near(spacingNames[0].spacing.In(measure.Millimetre)),
		"K11": near(spacingNames[1].spacing.In(measure.Millimetre)),
		"K12": near(spacingNames[2].spacing.In(measure.Millimetre)),
		"K13": near(spacingNames[3].spacing.In(measure.Millimetre)),
		"K14": near(spacingNames[4].spacing.In(measure.Millimetre)),
		"K15": near(spacingNames[5].spacing.In(measure.Millimetre)),
		"K20": func(t *testing.T, f fact) { near(likely38)(t, f); covers(low38, high38)(t, f) },
		"K21": near(relaxed.Low),
		"K22": within(likely14),
		"K24": covers(relaxed.Low, relaxed.High),
		"K25": func(t *testing.T, f fact) {
			assert.InDelta(t, f.want[0], low58, 0.05)
			assert.InDelta(t, f.want[1], high58, 0.05)
		},
		"K26": near(likely58),
		"K27": func(t *testing.T, f fact) {
			size := func(w pattern.Wrap) float64 { return wrapYarn[w].Likely }
			var order []string
			for _, same := range [][]pattern.Wrap{{pattern.WrapFlat}, {pattern.WrapU, pattern.WrapTrue}, {pattern.WrapE}} {
				var names []string
				for _, w := range same {
					assert.InDelta(t, size(same[0]), size(w), 1e-9)
					names = append(names, w.String())
				}
				order = append(order, strings.Join(names, ", "))
			}
			assert.Equal(t, f.text, strings.Join(order, " < "))
			assert.Less(t, size(pattern.WrapFlat), size(pattern.WrapU))
			assert.Less(t, size(pattern.WrapU), size(pattern.WrapE))
		},
	}
}

func sizeChecks(t *testing.T) map[string]check {
	pegs := func(size measure.Length, count float64, in measure.Length) float64 {
		c, err := CountsFor(CountWish{Size: size, Per10: measure.DensityOf(count, in)})
		if err != nil {
			return 0
		}
		return c.Exact
	}
	wide := func(pegs int, perInch float64) float64 {
		p := plainOf(t, pegs, 10, float64(measure.DensityOf(perInch, measure.Inch)), 30, "")
		return SizeOf(p).Width.Likely.In(measure.Inch)
	}
	const cm, in = measure.Centimetre, measure.Inch
	gauge, err := ParseGauge("18 stitches and 24 rows in 4 in")
	require.NoError(t, err)
	rows, err := ParseGauge("100 rows = 15 cm")
	require.NoError(t, err)
	ridges, err := ParseGauge("20 ridges = 10 cm")
	require.NoError(t, err)
	return map[string]check{
		"S01": near(pegs(22*in, 5, in)),
		"S03": near(pegs(measure.Length(44.0/2)*in, 5, in)),
		"S05": near(pegs(40*cm, 22, 10*cm)),
		"S06": near(pegs(42*cm, 20, 10*cm)),
		"S07": near(pegs(6*in, 2.5, in)),
		"S08": near(pegs(6*in, 18, 4*in)),
		"S10": near(wide(100, 4)),
		"S11": near(wide(46, 5)),
		"S12": near(wide(32, 4)),
		"S14": near(rows.Rows),
		"S15": near(pegs(7.25*in, 6, in)),
		"S16": near(gauge.Stitches*0.254, gauge.Rows*0.254),
		"S17": near(ridges.GarterRows),
		"Q3": func(t *testing.T, f fact) { // class 6 on 5/8 in, nobody measured
			p, _ := file.Load("", []byte("pattern = 1\npegs = 20\n[loom]\nspacing = \"5/8 in\"\n[[zone]]\nname = \"field\"\nsides = 3\nrows = [\"k\"]\ntimes = 12\n"))
			h := SizeOf(p).Height
			assert.LessOrEqual(t, h.Low.In(in), f.want[0]+f.tolerance)
			assert.GreaterOrEqual(t, h.High.In(in), f.want[0]-f.tolerance)
		},
	}
}

// garterOf is a piece of garter.
func garterOf(t *testing.T, pegs, rows int) *pattern.Pattern {
	t.Helper()
	p, found := file.Load("garter", fmt.Appendf(nil, "pattern = 1\npegs = %d\n[gauge]\nstitches = 16\nrows = 22\nover = \"10 cm\"\n[[zone]]\nname = \"field\"\nborder = true\nrows = [\"k\", \"p\"]\ntimes = %d\n", pegs, rows/2))
	require.NotNil(t, p, "%v", found)
	return p
}

func proportionChecks(t *testing.T) map[string]check {
	_, garter := SquareRows(25, GaugeOf(&pattern.Design{Gauge: pattern.Gauge{Stitches: 18, Rows: 25}}))
	pulls := func(pegs int) PullIn {
		p, _ := file.Load("", fmt.Appendf(nil, "pattern = 1\npegs = 40\n[gauge]\nstitches = 18\nrows = 24\ngarter_rows = 32\nover = \"10 cm\"\n[[zone]]\nname = \"field\"\nsides = %d\nrows = [\"k\"]\ntimes = 96\n", pegs))
		s := SizeOf(p)
		in := PullsOf(p, &s)
		require.Len(t, in, 1)
		return in[0]
	}
	pick := func(stitches, rows float64) float64 {
		exact, _ := PickUp(100, pattern.Gauge{Stitches: stitches, Rows: rows}, Multiple{Of: 1})
		return exact / 100
	}
	return map[string]check{
		"R01": near(garter),
		"R02": near(1 / (float64(measure.GarterRows(10)) / 10)),
		"R03": near(1 / rowsToStitches.Likely),
		"R04": covers(rowsToStitches.Low, rowsToStitches.High),
		"R06": func(t *testing.T, f fact) { // what is derived lies a sixth below what was measured there
			g := GaugeOf(&pattern.Design{Gauge: pattern.Gauge{Stitches: float64(measure.DensityOf(15, 8.5*measure.Centimetre))}})
			assert.InDelta(t, f.want[0], g.Stitches.Likely.Length(15).In(measure.Centimetre), f.tolerance)
			assert.InEpsilon(t, f.want[1], g.Garter.Likely.Length(18).In(measure.Centimetre), 0.17)
		},
		"R07": near(garterToPlain.Low),
		"R08": near(garterToPlain.High),
		"R10": near(float64(pulls(8).Every)),
		"R11": func(t *testing.T, f fact) { // garter stretches: what is usual is told beside what is reckoned
			assert.Less(t, float64(pulls(8).Every), f.want[0])
		},
		"R12": covers(1-ribsDrawIn.High/100, 1-ribsDrawIn.Low/100),
		"R13": covers(ribsDrawIn.Low, ribsDrawIn.High),
		"R17": func(t *testing.T, f fact) {
			p, _ := file.Load("", []byte("pattern = 1\npegs = 10\n[[zone]]\nname = \"field\"\nedge = \"slip\"\nrows = [\"k\"]\ntimes = 20\n"))
			slipped := 0
			for row := range 20 {
				if p.Grid.Row(row + 1).Cells()[0].Stitch == pattern.Slip {
					slipped++
				}
			}
			assert.Equal(t, int(f.want[0])*20/2, slipped)
		},
		"R18": near(pick(18, 27), pick(18, 24), pick(18, 36)),
		"Q5":  near(float64(garterOf(t, 10, 20).Grid.Rows()) / float64(garterOf(t, 10, 20).Ridges(20))),
		"Q10": func(t *testing.T, _ fact) { assert.Zero(t, garterOf(t, 10, 20).Ridges(0)) },
	}
}

func yarnChecks(t *testing.T) map[string]check {
	// A piece 40 in wide: what a row takes, and the bind-off with its tail of 15 cm.
	wide := YarnOf(plainOf(t, 160, 1, float64(measure.DensityOf(4, measure.Inch)), 24, ""))[0]
	inches := func(metres float64) float64 { return (measure.Metre * measure.Length(metres)).In(measure.Inch) }
	bindOff := inches(wide.BindOff.Metres.High) - Tail.In(measure.Inch) + 6
	row := inches(wide.Zones[0].Metres.High) + 6
	// A scarf of 8 by 48 in, by the geometry of the fully relaxed fabric.
	scarf := YarnOf(plainOf(t, 40, 3143, float64(measure.DensityOf(5, measure.Inch)), 100, ""))[0].Zones[0].Metres.High / 10
	scarfYards := (measure.Metre * measure.Length(scarf)).In(measure.Yard)
	sample, err := ParseSample("6 x 6 in = 6.96 yd")
	require.NoError(t, err)
	blanket := sample.For(60*measure.Inch, 60*measure.Inch).Metres / measure.Yard.In(measure.Metre)
	perStitch := func(w pattern.Wrap) float64 { return wrapYarn[w].Likely / wrapYarn[pattern.WrapFlat].Likely }
	all := map[string]check{
		"Y01": func(t *testing.T, f fact) { // a rule of thumb: the geometry asks for more, so it never runs short
			assert.Greater(t, inches(wide.Zones[0].Metres.Low)+6, f.want[0])
			assert.InEpsilon(t, f.want[0], inches(wide.Zones[0].Metres.Low)+6, 0.15)
		},
		"Y02": near(bindOff),
		"Y03": func(t *testing.T, f fact) { assert.Greater(t, row+bindOff-6, f.want[0]) },
		"Y04": covers(bindOffYarn.Low, bindOffYarn.High),
		"Y05": near(bindOffYarn.Low, bindOffYarn.High),
		"Y06": near(8*castOnYarn.Low + 10),
		"Y09": near(scarfYards),
		"Y10": near(48 * 8 * 5 / 6.0 / scarfYards),
		"Y12": func(t *testing.T, f fact) { // as printed there it was rounded up before it was multiplied
			assert.Less(t, blanket, f.want[0])
		},
		"Y13": near(blanket),
		"Y14": near(1 + DefaultMargin),
		"Y15": near(100 * DefaultMargin),
		"Y40": func(t *testing.T, f fact) { // with the cast-on left in it is less than without
			assert.LessOrEqual(t, f.want[0], wrapYarn[pattern.WrapE].Low)
		},
		"Y41": covers(wrapYarn[pattern.WrapE].Low, wrapYarn[pattern.WrapE].High),
		"Y42": near(perStitch(pattern.WrapU)),
		"Y43": func(t *testing.T, f fact) { // a purl is reckoned as a knit: a twentieth lies within the bounds
			assert.Less(t, f.want[0], rowYarn.High/rowYarn.Likely)
		},
		"Y44": func(t *testing.T, _ fact) {
			perArea := func(p *pattern.Pattern) float64 {
				s := SizeOf(p)
				return YarnOf(p)[0].Metres.Likely / float64(s.Width.Likely*s.Height.Likely)
			}
			assert.Greater(t, perArea(garterOf(t, 40, 60)), perArea(plainOf(t, 40, 60, 16, 22, "")))
		},
	}
	for class := 1; class <= 6; class++ {
		all["Y2"+strconv.Itoa(class-1)] = scarfCheck(t, class)
		all["Y3"+strconv.Itoa(class-1)] = hatCheck(t, class)
	}
	return all
}

// classPiece is how many yards a plain piece takes in a class's usual gauge.
func classPiece(t *testing.T, class int, width, height measure.Length) float64 {
	t.Helper()
	d := float64(ExpectedOf([]int{class}).Likely)
	pegs := int(measure.Density(d).Count(width))
	rows := int(measure.Density(d * rowsToStitches.Likely).Count(height))
	m := YarnOf(plainOf(t, pegs, rows, d, d*rowsToStitches.Likely, ""))[0].Metres.Likely
	return (measure.Metre * measure.Length(m)).In(measure.Yard)
}

// The table gives no size, so a scarf of 18 by 150 cm lies between 0.6 and 1.8 times it.
func scarfCheck(t *testing.T, class int) check {
	return func(_ *testing.T, f fact) {
		got := classPiece(t, class, 18*measure.Centimetre, 150*measure.Centimetre)
		assert.GreaterOrEqual(t, got, 0.6*f.want[0])
		assert.LessOrEqual(t, got, 1.8*f.want[0])
	}
}

// It gives no size of hats either, and says what to buy: twice what a hat of 50 by 22 cm
// takes, at most.
func hatCheck(t *testing.T, class int) check {
	return func(_ *testing.T, f fact) {
		got := classPiece(t, class, 50*measure.Centimetre, 22*measure.Centimetre)
		assert.LessOrEqual(t, got, f.want[1])
		assert.GreaterOrEqual(t, got, f.want[0]/2)
	}
}

// drawn is a panel of so many columns and rows, each cell a knit or a purl.
func drawn(t *testing.T, form string, pegs, rows int, knit func(row, col int) bool) *pattern.Pattern {
	t.Helper()
	var b strings.Builder
	fmt.Fprintf(&b, "pattern = 1\npegs = %d\nform = %q\n[[zone]]\nname = \"field\"\nchart = \"\"\"\n", pegs, form)
	for row := rows - 1; row >= 0; row-- {
		for col := range pegs {
			b.WriteByte(map[bool]byte{true: '|', false: '-'}[knit(row, col)])
		}
		b.WriteByte('\n')
	}
	b.WriteString("\"\"\"\n")
	p, found := file.Load("drawn", []byte(b.String()))
	require.NotNil(t, p, "%v", found)
	return p
}

func curlChecks(t *testing.T) map[string]check {
	edges := func(knit func(row, col int) bool) []Edge { return EdgesOf(drawn(t, "panel", 60, 80, knit)) }
	left := func(knit func(row, col int) bool) float64 { return edges(knit)[LeftEdge].Index }
	side := func(n int) float64 { return left(func(row, col int) bool { return col >= n || row%2 == 0 }) }
	rib := func(n int) float64 { return left(func(_, col int) bool { return col/n%2 == 0 }) }
	end := func(n int, outer bool) float64 {
		return edges(func(row, _ int) bool { return row >= n || (row%2 == 0) == outer })[BottomEdge].Index
	}
	plain := edges(func(int, int) bool { return true })
	purl := edges(func(int, int) bool { return false })
	garter := edges(func(row, _ int) bool { return row%2 == 0 })
	way := func(e Edge) string { return map[bool]string{true: "front", false: "back"}[e.ToFront] }
	flat := func(edges []Edge) check {
		return func(t *testing.T, f fact) {
			for _, e := range edges {
				assert.Equal(t, f.text, e.Roll.String(), "%v", e.Of)
			}
		}
	}
	return map[string]check{
		"U01": func(t *testing.T, f fact) { says(way(plain[LeftEdge]))(t, f); says(way(plain[RightEdge]))(t, f) },
		"U02": func(t *testing.T, f fact) { says(way(plain[BottomEdge]))(t, f); says(way(plain[TopEdge]))(t, f) },
		"U03": says(way(purl[LeftEdge]) + "; " + way(purl[TopEdge])),
		"U04": flat(garter),
		"U05": flat(edges(func(_, col int) bool { return col%2 == 0 })),
		"U06": flat(edges(func(row, col int) bool { return (row+col)%2 == 0 })),
		"U09": func(t *testing.T, f fact) {
			var names []string
			for _, e := range EdgesOf(drawn(t, "tube", 12, 12, func(int, int) bool { return true })) {
				names = append(names, e.Of.String())
			}
			says(strings.Join(names, ", "))(t, f)
		},
		"U10": near(side(0)), "U11": near(side(2)), "U12": near(side(3)), "U14": near(side(5)), "U15": near(side(6)),
		"U20": near(rib(1)), "U22": near(rib(3)), "U23": near(rib(4)),
		"U40": near(end(2, true), end(2, false)), "U41": near(end(4, true), end(4, false)),
		"U42": near(end(6, true), end(6, false)), "U43": near(end(8, true), end(8, false)),
		"U30": func(t *testing.T, f fact) {
			for _, sign := range []float64{1, -1} {
				assert.Equal(t, LiesFlat, rollOf(sign*(f.want[0]-1e-6)))
				assert.Equal(t, MayRoll, rollOf(sign*f.want[0]))
				assert.Equal(t, MayRoll, rollOf(sign*f.want[1]))
				assert.Equal(t, Rolls, rollOf(sign*(f.want[1]+1e-6)))
			}
		},
		"U31": covers(3, float64(plain[LeftEdge].Border+1)),
		"U32": func(t *testing.T, f fact) { // what is taught does not quite bring it below the line
			assert.GreaterOrEqual(t, float64(plain[BottomEdge].Border), f.want[0])
		},
		"U33": says(EdgesOf(drawn(t, "panel", 21, 240, func(row, col int) bool { // a scarf
			seed := row < 3 || row >= 237 || col < 3 || col >= 18
			return !seed || (row+col)%2 == 0
		}))[LeftEdge].Roll.String()),
	}
}

func safetyChecks() map[string]check {
	ironed := func(fibre string) (heat float64, dots string) {
		said := strings.Join(Cautions(&pattern.Design{Use: pattern.OtherUse, Yarns: []pattern.YarnInfo{{Fibre: fibre}}}), "\n")
		if said == "" { // as hot as irons get
			return ironDots[len(ironDots)-1], "three"
		}
		_, _ = fmt.Sscanf(said, "iron it at no more than %f C, %s", &heat, &dots)
		return heat, dots
	}
	soft := func(f Fibre) check { return covers(softens[f].Low, softens[f].High) }
	baby := strings.Join(Cautions(&pattern.Design{Use: pattern.Baby}), "\n")
	worn := strings.Join(Cautions(&pattern.Design{Use: pattern.Wearable}), "\n")
	return map[string]check{
		"H01": func(t *testing.T, f fact) {
			for i, fibre := range []string{"cotton", "wool", "acrylic"} {
				heat, _ := ironed(fibre)
				assert.InDelta(t, f.want[i], heat, 1e-9, fibre)
			}
		},
		"H02": func(t *testing.T, f fact) {
			for i, fibres := range [][]string{{"cotton", "linen"}, {"wool"}, {"acrylic", "nylon", "50 % cotton, 50 % acrylic"}} {
				for _, fibre := range fibres {
					_, dots := ironed(fibre)
					assert.Equal(t, []string{"", "one", "two", "three"}[int(f.want[i])], dots, fibre)
				}
			}
		},
		"H03": soft(Nylon), "H04": soft(Nylon), "H05": soft(Polyester), "H06": soft(Acrylic), "H07": soft(Acrylic),
		"H11": func(t *testing.T, f fact) {
			allowed, refused, _ := strings.Cut(f.text, "; ")
			caution := func(fibre string) string {
				return strings.Join(Cautions(&pattern.Design{Use: pattern.HotPad, Yarns: []pattern.YarnInfo{{Fibre: fibre}}}), "\n")
			}
			for _, fibre := range strings.Split(allowed, ", ") {
				assert.NotContains(t, caution(fibre), "not for", fibre)
			}
			for _, fibre := range strings.Split(refused, ", ") {
				assert.Contains(t, caution(fibre), "not for hot pots", fibre)
			}
		},
		"H12": func(t *testing.T, f fact) {
			for _, text := range []string{baby, worn} {
				assert.Contains(t, text, "no cords at hood or neck")
				assert.Contains(t, text, fmt.Sprintf("up to %.0f", f.want[0]))
			}
		},
		"H15": func(t *testing.T, f fact) { assert.Contains(t, baby, fmt.Sprintf("up to %.0f years", f.want[0])) },
		"H17": func(t *testing.T, f fact) { assert.Contains(t, baby, fmt.Sprintf("before %.0f months", f.want[0])) },
	}
}

// All that is known of the sources' ids is used once.
func TestFactsAreNamedOnce(t *testing.T) {
	var ids []string
	for _, f := range facts(t) {
		ids = append(ids, f.id)
	}
	n := len(ids)
	slices.Sort(ids)
	assert.Len(t, slices.Compact(ids), n)
}
