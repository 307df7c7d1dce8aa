package fit

import (
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

func mustReplan(t require.TestingT, text string, at Progress) *Replanned {
	r, err := Replan([]byte(text), at)
	require.NoError(t, err)
	require.Equal(t, AsPlanned, r.Endings[0].Way)
	require.Equal(t, at.YarnRow == 0, r.Reached < 0)
	return r
}

// ending is the one of a way, if it is offered.
func ending(r *Replanned, way Onward) (Ending, bool) {
	i := slices.IndexFunc(r.Endings, func(e Ending) bool { return e.Way == way })
	if i < 0 {
		return Ending{}, false
	}
	return r.Endings[i], true
}

// 84 pegs were to be 60 cm; at row 20 they are 66 cm: 12.7 in 10 cm. Keep the 84 and
// accept 66 cm; the shape of 60 x 80 then takes 88 cm.
func TestThePieceTellsAnotherStory(t *testing.T) {
	text := "pattern = 1\npegs = 84\n[gauge]\nstitches = 14\nrows = 20\nover = '10 cm'\n" +
		"[[zone]]\nname = 'all'\nrows = ['*k2, p2; rep from * to end', '*p2, k2; rep from * to end']\ntimes = 80\n"
	r := mustReplan(t, text, Progress{Rows: 20, Width: 66 * cm})
	assert.InDelta(t, 12.7, r.Gauge.Stitches, 0.05)
	assert.InDelta(t, 66, r.Endings[0].Width.In(cm), 0.01)
	assert.InDelta(t, 80, r.Endings[0].Height.In(cm), 0.01)
	shape, ok := ending(r, KeepShape)
	require.True(t, ok)
	assert.InDelta(t, 88, shape.Height.In(cm), 0.5)
	assert.Equal(t, 176, shape.Rows)
	p, _ := file.Load("f", shape.Text)
	assert.Equal(t, 176, p.Grid.Rows())
	assert.InDelta(t, 12.7, p.Gauge.Stitches, 0.05)
}

// 26 pegs are 22 cm and not 24: the yarn shrinks with them.
func TestANarrowerPieceTakesLessYarn(t *testing.T) {
	text := framed("pegs = 26\n[gauge]\nstitches = 10.8333\nrows = 15\nover = '10 cm'\n", "sides = 3\nrows = ['k']\ntimes = 40")
	planned := mustReplan(t, text, Progress{Rows: 20}).Endings[0]
	assert.InDelta(t, 24, planned.Width.In(cm), 0.01)
	is := mustReplan(t, text, Progress{Rows: 20, Width: 22 * cm}).Endings[0]
	assert.InDelta(t, 22, is.Width.In(cm), 0.01)
	assert.InEpsilon(t, 22.0/24, (is.Yarn-0.3)/(planned.Yarn-0.3), 1e-3, "all but the tails")
}

// The rows that a height was measured over set all rows, garter too.
func TestAHeightSoFarSetsTheRows(t *testing.T) {
	text := framed("pegs = 26\n[gauge]\nstitches = 10\nrows = 15\nover = '10 cm'\n", "sides = 3\nrows = ['k']\ntimes = 40")
	p, _ := file.Load("f", []byte(text))
	// 6 rows of garter at 20 and 15 plain rows are 3 + 10 cm; they are a tenth higher.
	r := mustReplan(t, text, Progress{Rows: 21, Height: 143})
	assert.InDelta(t, 15/1.1, r.Gauge.Rows, 1e-3)
	assert.InDelta(t, 20/1.1, r.Gauge.GarterRows, 1e-3)
	assert.InEpsilon(t, float64(heightOf(p))*1.1, float64(r.Endings[0].Height), 1e-3)
	q, _ := file.Load("f", r.Endings[0].Text)
	require.NotNil(t, q)
	assert.InEpsilon(t, float64(r.Endings[0].Height), float64(heightOf(q)), 1e-6, "the file says the same")
	assert.Equal(t, p.Grid.Rows(), q.Grid.Rows())
}

// A piece that measures just what was planned keeps its gauge, its size and its yarn, be its
// zones of gauges of their own.
func TestMeasuredAsPlannedChangesNothing(t *testing.T) {
	rib := framed("pegs = 36\n[gauge]\nstitches = 14\nrows = 20\nover = '10 cm'\n[gauges.rib]\nstitches = 20\nrows = 22\nover = '10 cm'\n",
		"gauge = 'rib'\nrows = ['*k2, p2; rep from * to end']\ntimes = 40")
	plain := framed("pegs = 36\n"+gauge10, "sides = 3\nrows = ['k']\ntimes = 40")
	for name, text := range map[string]string{"a field of its own gauge": rib, "one gauge": plain} {
		p, found := file.Load("f", []byte(text))
		require.NoError(t, found.Err(), name)
		was := mustReplan(t, text, Progress{Rows: 30})
		is := mustReplan(t, text, Progress{Rows: 30, Width: widthOf(p), Height: heightDone(p, rowHeights(p), 30)})
		assert.InDelta(t, p.Gauge.Stitches, is.Gauge.Stitches, 0.01, name)
		assert.InDelta(t, p.Gauge.Rows, is.Gauge.Rows, 0.01, name)
		for i, e := range is.Endings {
			assert.InEpsilon(t, float64(was.Endings[i].Width), float64(e.Width), 1e-3, name)
			assert.InEpsilon(t, float64(was.Endings[i].Height), float64(e.Height), 1e-3, name)
			assert.InEpsilon(t, was.Endings[i].Yarn, e.Yarn, 2e-3, name)
		}
	}
}

// An ending is as wide as its own file is: the widest zone may be left out.
func TestAnEndingIsAsWideAsItsFile(t *testing.T) {
	text := strings.Replace(framed("pegs = 36\n[gauge]\nstitches = 14\nrows = 20\nover = '10 cm'\n[gauges.loose]\nstitches = 9\nrows = 20\nover = '10 cm'\n", "rows = ['k']\ntimes = 20"),
		"[[zone]]\nname = \"top border\"", "[[zone]]\nname = \"sky\"\ngauge = 'loose'\nrows = ['k']\ntimes = 10\n[[zone]]\nname = \"top border\"", 1)
	r := mustReplan(t, text, Progress{Rows: 16})
	e, ok := ending(r, BorderNow)
	require.True(t, ok)
	p, _ := file.Load("f", e.Text)
	assert.InEpsilon(t, float64(widthOf(p)), float64(e.Width), 1e-6)
	assert.Less(t, e.Width, r.Endings[0].Width)
}

func TestTheTopBorderNow(t *testing.T) {
	text := framed("pegs = 26\n"+gauge10, "sides = 3\nrows = ['k', 'p2, k to end', 'k', 'k']\ntimes = 9")
	at := func(rows int) Ending {
		e, ok := ending(mustReplan(t, text, Progress{Rows: rows}), BorderNow)
		require.True(t, ok, rows)
		return e
	}
	// The border below has 6 rows, so the field begins with row 7.
	for rows, want := range map[int]int{7: 4, 10: 4, 11: 8, 14: 8, 15: 12} {
		e := at(rows)
		assert.Equal(t, []int{6, want, 6, 1}, e.ZoneRows, rows)
		assert.Equal(t, 6+want+1, e.Border)
		assert.Equal(t, 13+want, e.Rows)
	}
	_, ok := ending(mustReplan(t, text, Progress{Rows: 6}), BorderNow)
	assert.False(t, ok, "there would be no field")
	_, ok = ending(mustReplan(t, text, Progress{Rows: 42}), BorderNow)
	assert.False(t, ok, "it begins now as planned")
	for rows, want := range map[int][]Onward{
		0:  {AsPlanned, OneMore, OneFewer},
		38: {AsPlanned, OneMore, OneFewer}, // 32 rows of the field are one repeat fewer, and the border now
		39: {AsPlanned, OneMore},
		42: {AsPlanned, OneMore}, // the last moment
		43: {AsPlanned},
	} {
		var ways []Onward
		for _, e := range mustReplan(t, text, Progress{Rows: rows}).Endings {
			ways = append(ways, e.Way)
		}
		assert.Equal(t, want, ways, rows)
	}
	assert.Len(t, mustReplan(t, text, Progress{Rows: 43}).Endings, 1, "in the top border nothing is left to choose")

	two := strings.Replace(text, "[[zone]]\nname = \"top border\"", "[[zone]]\nname = \"sky\"\nsides = 3\nrows = ['k']\nheight = '7 cm'\n[[zone]]\nname = \"top border\"", 1)
	e, ok := ending(mustReplan(t, two, Progress{Rows: 12}), BorderNow)
	require.True(t, ok)
	assert.Equal(t, []string{"sky"}, e.Skipped)
	assert.Equal(t, []int{6, 8, 0, 6, 1}, e.ZoneRows)
	p, found := file.Load("f", e.Text)
	require.NoError(t, found.Err())
	assert.Len(t, p.Zones, 4)
	assert.Equal(t, "top border", p.Zones[2].Name)
	assert.Equal(t, 15, p.Zones[2].First)
}

// The yarn that is left says where the field ends, and the pattern follows.
func TestAsFarAsTheYarnReaches(t *testing.T) {
	text := framed("pegs = 26\n"+gauge10, "sides = 3\nrows = ['k', 'p2, k to end', 'k', 'k']\ntimes = 9")
	p, _ := file.Load("f", []byte(text))
	at := pattern.Place{Phase: pattern.Working, Row: 17}
	need := 0.0
	for _, z := range YarnOf(p)[0].Zones[1:] {
		need += z.Metres.High
	}
	for _, c := range []struct {
		name string
		left float64 // of what the whole of the rest takes, at most
		more []int   // rows that the field may have
	}{
		{"enough for more than all", 1.3, []int{52, 56, 60}},
		{"enough for some", 0.7, []int{16, 20, 24, 28}},
		{"enough for no row more", 0.05, nil},
	} {
		l, err := LeftOf(pattern.Order{Pattern: p, Way: p.Way}, at, 0, Stock{Metres: need * c.left})
		require.NoError(t, err)
		row, ok := l.StopRow()
		if !ok || row < 16 {
			assert.Nil(t, c.more, c.name)
			continue
		}
		r := mustReplan(t, text, Progress{Rows: 16, YarnRow: row})
		require.GreaterOrEqual(t, r.Reached, 0, c.name)
		e := r.Endings[r.Reached]
		assert.Contains(t, c.more, e.ZoneRows[1], c.name)
		assert.Equal(t, row+1, e.Border, c.name)
		q, _ := file.Load("f", e.Text)
		assert.Equal(t, e.Rows, q.Grid.Rows(), c.name)
		assert.LessOrEqual(t, e.Left, need*c.left, "%s: the bind-off is covered", c.name)
	}
}

// Whatever is chosen: what is done stays, both ends stay alike, repeats stay whole, and
// the file says just that.
func TestWhatIsDoneStays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawDesign(t)
		rows := d.p.Grid.Rows()
		at := Progress{Rows: rapid.IntRange(0, rows).Draw(t, "done")}
		if rapid.Bool().Draw(t, "measured") {
			at.Width = widthOf(d.p) * measure.Length(rapid.Float64Range(0.7, 1.4).Draw(t, "wider"))
		}
		if at.Rows >= fewestMeasured && rapid.Bool().Draw(t, "height") {
			at.Height = heightDone(d.p, rowHeights(d.p), at.Rows) * measure.Length(rapid.Float64Range(0.7, 1.4).Draw(t, "higher"))
		}
		r := mustReplan(t, d.text, at)
		for _, e := range r.Endings {
			z := e.ZoneRows
			assert.Equal(t, d.p.Zones[0].Rows(), z[0])
			assert.Equal(t, z[0], z[2])
			assert.Equal(t, e.Rows, z[0]+z[1]+z[2]+z[3])
			assert.Equal(t, z[0]+z[1]+1, e.Border)
			assert.Zero(t, z[1]%d.rows)
			assert.GreaterOrEqual(t, e.Yarn, e.Left)
			p, found := file.Load("f", e.Text)
			require.NoError(t, found.Err())
			assert.Equal(t, e.Rows, p.Grid.Rows())
			assert.InEpsilon(t, float64(e.Height), float64(heightOf(p)), 1e-3)
			assert.InEpsilon(t, float64(e.Width), float64(widthOf(p)), 1e-3)
			for row := 1; row <= at.Rows; row++ {
				require.Equal(t, d.p.Grid.Row(row).Cells(), p.Grid.Row(row).Cells(), "row %d is on the loom", row)
			}
		}
		more, ok := ending(r, OneMore)
		fewer, ok2 := ending(r, OneFewer)
		if ok && ok2 {
			assert.Equal(t, more.Rows-r.Endings[0].Rows, r.Endings[0].Rows-fewer.Rows)
			assert.Greater(t, more.Yarn, fewer.Yarn)
		}
		if len(r.Endings) > 0 && at.Rows == rows {
			assert.InDelta(t, float64(r.Endings[0].Width)/1000*5+0.15, r.Endings[0].Left, 1e-9, "only the bind-off is left")
		}
	})
}

func TestReplanRefuses(t *testing.T) {
	text := framed("pegs = 26\n"+gauge10, "sides = 3\nrows = ['k']\ntimes = 10")
	for _, c := range []struct {
		name, text string
		at         Progress
		msg, hint  string
	}{
		{"no pattern", "pegs", Progress{}, "the file:1:5: there should be an equals sign here", "bypeg check tells all that is wrong with it"},
		{"more rows than there are", text, Progress{Rows: 90}, "90 rows can't be done: the pattern has 23", "say how many are done, 0 to 23"},
		{"too few to measure", text, Progress{Rows: 3, Height: 3 * cm}, "a height over 3 rows tells too little", "measure it when 8 rows are done, or more"},
		{"another unit", text, Progress{Rows: 10, Width: 26 * measure.Inch * 10}, "660.4 cm wide was to be 26 cm: that is no slip of the gauge", "measure again, and check the unit"},
		{"less than nothing", text, Progress{Rows: 10, Width: -1}, "a measure is more than 0", "write it like 22 cm, or leave it out"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := Replan([]byte(c.text), c.at)
			refusal := &Refusal{}
			require.ErrorAs(t, err, &refusal)
			assert.Equal(t, c.msg, refusal.Msg)
			assert.Equal(t, c.hint, refusal.Hint)
		})
	}
}

// Without a gauge the piece's own measure makes one.
func TestAPieceIsItsOwnSwatch(t *testing.T) {
	text := framed("pegs = 26\n", "rows = ['k']\ntimes = 30")
	r := mustReplan(t, text, Progress{Rows: 20, Width: 20 * cm, Height: 10 * cm})
	assert.Equal(t, pattern.Gauge{Stitches: 13, Rows: 20}, r.Gauge)
	assert.Zero(t, r.Width)
	assert.InDelta(t, 20, r.Endings[0].Width.In(cm), 1e-9)
}

// A row takes 3.9 widths, a bind-off 5 and a tail 15 cm; what is worked is off the ball.
func TestTheYarnThatIsLeftToWork(t *testing.T) {
	text := framed("pegs = 20\n"+gauge10, "sides = 3\nrows = ['k']\ntimes = 10")
	for done := 0; done <= 23; done++ {
		e := mustReplan(t, text, Progress{Rows: done}).Endings[0]
		assert.InDelta(t, 0.2*(3.9*float64(23-done)+5)+0.15, e.Left, 1e-9, done)
		assert.InDelta(t, 0.2*(3.9*23+3.5+5)+0.3, e.Yarn, 1e-9)
	}
}

func TestStripsStayOnTheirPegs(t *testing.T) {
	text := exampleTexts(t)["two-bank-scarf"]
	p, _ := file.Load("f", []byte(text))
	more, ok := ending(mustReplan(t, text, Progress{Rows: 50, Width: 28 * cm}), OneMore)
	require.True(t, ok)
	made, _ := file.Load("f", more.Text)
	require.NotNil(t, made)
	assert.Equal(t, p.Zones[1].Strips, made.Zones[1].Strips)
	assert.Equal(t, p.Zones[1].Rows()+6, made.Zones[1].Rows(), "the picture's repeat, which times counts")
}
