package fit_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/examples"
	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/fit"
)

// Whatever loads is answered: no text brings fit down, no figure comes out that is none.
func FuzzFit(f *testing.F) {
	for _, name := range examples.Names() {
		text, _ := examples.Text(name)
		f.Add(text, uint16(20), 12.5)
	}
	f.Add([]byte("pattern = 1\npegs = 1\n[[zone]]\nname = \"f\"\nrows = [\"none\"]\n"), uint16(0), 1.0)
	f.Add([]byte("pattern = 1\npegs = 3\n[yarn]\nwpi = 1e-9\ntex = 1e9\n[swatch]\nstitches = 1\nrows = 1\ngrams = 1e9\n[[zone]]\nname = \"f\"\nrows = [\"sl all\"]\n"), uint16(1), 1e9)
	f.Fuzz(func(t *testing.T, text []byte, done uint16, left float64) {
		p, _ := file.Load("fuzz", text)
		if p == nil || p.Grid.Rows()*p.Pegs > 200_000 {
			return
		}
		o := pattern.Order{Pattern: p, Way: p.Way}
		s := fit.SizeOf(p)
		for _, x := range []float64{float64(s.Width.Low), float64(s.Width.High), float64(s.Height.Low), float64(s.Height.High)} {
			assert.False(t, math.IsNaN(x) || math.IsInf(x, 0) || x < 0, "%v", x)
		}
		for _, n := range fit.YarnOf(p) {
			for _, x := range []float64{n.Metres.Low, n.Metres.High, n.Grams.Likely} {
				assert.False(t, math.IsNaN(x) || math.IsInf(x, 0) || x < 0, "%v", x)
			}
			assert.GreaterOrEqual(t, n.Balls(fit.DefaultMargin), 0)
		}
		for _, e := range fit.EdgesOf(p) {
			assert.LessOrEqual(t, math.Abs(e.Index), 1+1e-9)
		}
		fit.PullsOf(p, &s)
		fit.Doubts(p, &s)
		fit.Cautions(&p.Design)
		fit.HeightsOf(file.LayoutOf(text), p, &s)
		fit.StraysOf(o)
		fit.MarkersOf(o)
		at := pattern.Place{Phase: pattern.Working, Row: int(done)%p.Grid.Rows() + 1}
		if left > 0 && !math.IsInf(left, 0) {
			for _, stock := range []fit.Stock{{Grams: left}, {Metres: left}} {
				if l, err := fit.LeftOf(pattern.Order{Pattern: p, Way: p.Way}, at, 0, stock); err == nil && l.Cautious.Enough {
					assert.GreaterOrEqual(t, l.Cautious.Spare, -1e-6*left)
				}
			}
		}
		swatch, found := file.Load("swatch", []byte(fit.SwatchFor(&p.Design, p.Title)))
		require.NotNil(t, swatch, "%v", found)
	})
}
