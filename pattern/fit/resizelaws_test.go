package fit

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/measure"
)

// designs are framed patterns with a field that repeats, of many counts.
type design struct {
	text           string
	multiple, rows int // of the field's repeat
	p              *pattern.Pattern
}

func drawDesign(t *rapid.T) design {
	k := rapid.IntRange(1, 5).Draw(t, "knits")
	n := rapid.IntRange(1, 5).Draw(t, "purls")
	edge := rapid.IntRange(0, 3).Draw(t, "edge")
	sides := rapid.IntRange(0, 5).Draw(t, "sides")
	repeat := rapid.SampledFrom([]int{1, 2, 4, 6}).Draw(t, "rows of a repeat")
	row := fmt.Sprintf("*k%d, p%d; rep from * to end", k, n)
	if edge > 0 {
		row = fmt.Sprintf("*k%d, p%d; rep from * to last %d, k%[3]d", k, n, edge)
	}
	rows := fmt.Sprintf("%q", row)
	for range repeat - 1 {
		rows += `, "k"`
	}
	pegs := (k+n)*rapid.IntRange(8, 20).Draw(t, "repeats across") + edge + 2*sides
	count := fmt.Sprintf("times = %d", 2*rapid.IntRange(10, 20).Draw(t, "times"))
	st := float64(rapid.IntRange(8, 24).Draw(t, "stitches"))
	ratio := rapid.Float64Range(1.1, 2).Draw(t, "rows a stitch")
	gauge := fmt.Sprintf("[gauge]\nstitches = %g\nrows = %.2f\nover = '10 cm'\n", st, st*ratio)
	if rapid.Bool().Draw(t, "by height") {
		count = fmt.Sprintf("height = '%d cm'", rapid.IntRange(30, 60).Draw(t, "height"))
	}
	side := ""
	if sides > 0 {
		side = fmt.Sprintf("sides = %d\n", sides)
	}
	text := framed(fmt.Sprintf("pegs = %d # of them\n%s[loom]\npegs = %d\n", pegs, gauge, pegs+rapid.IntRange(0, 30).Draw(t, "spare")),
		side+"rows = ["+rows+"]\n"+count)
	p, found := file.Load("f", []byte(text))
	if p == nil {
		t.Fatalf("%v\n%s", found.Err(), text)
	}
	return design{text, k + n, repeat, p}
}

// finer is the gauge with so many times the stitches and rows.
func finer(g pattern.Gauge, k float64) pattern.Gauge {
	return pattern.Gauge{Stitches: g.Stitches * k, Rows: g.Rows * k, GarterRows: g.GarterRows * k}
}

func TestWhatIsOfferedIsWhatIsWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawDesign(t)
		w := asked(func(w *Wish) {
			if rapid.Bool().Draw(t, "a gauge") {
				w.Gauge = finer(d.p.Gauge, rapid.Float64Range(0.5, 2).Draw(t, "finer"))
			}
			if rapid.Bool().Draw(t, "a loom") {
				w.Loom.Pegs = rapid.IntRange(20, 200).Draw(t, "loom")
			}
			if rapid.Bool().Draw(t, "a width") {
				w.Width = measure.Length(rapid.IntRange(200, 1500).Draw(t, "width"))
			}
			if rapid.Bool().Draw(t, "a height") {
				w.Height = measure.Length(rapid.IntRange(200, 1500).Draw(t, "height"))
			}
		})
		r, err := Resize([]byte(d.text), w)
		if err != nil {
			refusal := &Refusal{}
			require.ErrorAs(t, err, &refusal)
			require.NotEmpty(t, refusal.Hint)
			return
		}
		loom := d.p.Loom.Pegs
		if w.Loom.Pegs > 0 {
			loom = w.Loom.Pegs
		}
		assert.True(t, slices.IsSortedFunc(r.Candidates, better))
		for _, c := range r.Candidates {
			p, _ := file.Load("f", c.Text)
			require.NotNil(t, p)
			assert.Equal(t, c.Pegs, p.Pegs)
			assert.Equal(t, c.Rows, p.Grid.Rows())
			for row := 1; row <= c.Rows; row++ {
				require.Equal(t, c.Pattern.Grid.Row(row).Cells(), p.Grid.Row(row).Cells())
			}
			assert.Equal(t, c.Fits == Yes, c.Pegs <= loom, "a candidate marked as fitting always fits")
			assert.InDelta(t, float64(widthOf(p)), float64(c.Width), 1e-9)
			// The frame: both ends alike, ridges whole, sides never under 2 pegs.
			z := p.Zones
			assert.Equal(t, z[0].Rows(), z[2].Rows())
			assert.Zero(t, z[0].Rows()%2)
			assert.Equal(t, 1, c.Rows%2+z[1].Rows()%2, "an odd number, if the field has an even one")
			assert.GreaterOrEqual(t, z[1].Sides, min(2, d.p.Zones[1].Sides))
			// Repeats whole: the field's rows were read on its pegs, and times counts them.
			assert.Zero(t, (c.Pegs-2*z[1].Sides-(d.p.Pegs-2*d.p.Zones[1].Sides))%d.multiple)
			assert.Zero(t, z[1].Rows()%d.rows)
			if d.p.Zones[1].Sides > 0 && d.p.Zones[1].Rows()%2 == 0 {
				assert.Zero(t, z[1].Rows()%2, "garter sides end with a whole ridge")
			}
		}
	})
}

// The same loom, gauge, pegs or size is the same file, byte by byte.
func TestTheSameIsTheSameFile(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawDesign(t)
		for what, w := range map[string]Wish{
			"the loom":  asked(func(w *Wish) { w.Loom = d.p.Loom }),
			"the gauge": asked(func(w *Wish) { w.Gauge = d.p.Gauge }),
			"the pegs":  asked(func(w *Wish) { w.Pegs = d.p.Pegs }),
			"the size":  asked(func(w *Wish) { w.Width, w.Height = widthOf(d.p), heightOf(d.p) }),
		} {
			c := mustResize(t, d.text, w).Candidates[0]
			assert.Equal(t, d.text, string(c.Text), what)
		}
	})
}

func TestThereAndBackIsOneRepeatAtMost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawDesign(t)
		k := rapid.Float64Range(0.5, 2).Draw(t, "finer")
		there := mustResize(t, d.text, asked(func(w *Wish) { w.Gauge, w.Loom.Pegs = finer(d.p.Gauge, k), pattern.MaxPegs }))
		back := mustResize(t, string(there.Candidates[0].Text), asked(func(w *Wish) { w.Gauge = d.p.Gauge })).Candidates[0]
		// One repeat of the coarser gauge of the two.
		wide := float64(d.multiple) / (d.p.Gauge.Stitches * min(1, k)) * 100
		assert.InDelta(t, float64(widthOf(d.p)), float64(back.Width), wide+0.1)
		step := float64(d.rows)
		if d.rows == 1 {
			step = 2
		}
		high := step / (d.p.Gauge.Rows * min(1, k)) * 100
		assert.InDelta(t, float64(heightOf(d.p)), float64(back.Height), high+0.1)
	})
}

// Scaling a gauge by a factor scales the size of the same stitches inversely.
func TestAFinerGaugeMakesTheSameStitchesSmaller(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawDesign(t)
		k := rapid.Float64Range(0.5, 2).Draw(t, "finer")
		c := mustResize(t, d.text, asked(func(w *Wish) { w.Gauge, w.Pegs = finer(d.p.Gauge, k), d.p.Pegs })).Candidates[0]
		assert.InEpsilon(t, float64(widthOf(d.p))/k, float64(c.Width)*float64(d.p.Pegs)/float64(c.Pegs), 1e-3)
	})
}
