package measure

import (
	"fmt"
	"math"
)

// Density is how many stitches, or how many rows, there are in 10 cm of relaxed
// fabric. It need not be whole.
type Density float64

// over is the length a density is counted over.
const over = 10 * Centimetre

// DensityOf is the density of a swatch that has count stitches or rows in a length.
func DensityOf(count float64, in Length) Density { return Density(count * float64(over/in)) }

// Count is how many stitches or rows a length takes.
func (d Density) Count(l Length) float64 { return float64(d) * float64(l/over) }

// Length is how long so many stitches or rows come out.
func (d Density) Length(count float64) Length { return Length(count/float64(d)) * over }

// GarterRows is the density of garter rows of a fabric with so many stitches, where
// nobody measured it: two rows of garter are as tall as one stitch is wide
// (published, see the tests; a swatch is better).
func GarterRows(stitches Density) Density { return 2 * stitches }

// Height is how a wanted height comes out in rows.
type Height struct {
	Wanted  Length
	Exact   float64 // the rows that would be the wanted height to the hair
	Rows    int     // the rows to work: whole repeats
	Repeat  int     // rows of one repeat
	Even    bool    // the rows were kept even, for the garter beside them
	Density Density
}

// RowsFor is how many rows a height takes: the nearest number of whole repeats, and
// never none. With even, also the nearest even number, so that garter sides end with
// a whole ridge. The result is at most limit rounded up to a whole repeat; all
// arguments must be above 0.
func RowsFor(wanted Length, d Density, repeat int, even bool, limit int) Height {
	unit := repeat
	if even && repeat%2 == 1 {
		unit *= 2
	}
	exact := d.Count(wanted)
	times := max(1, math.Floor(min(exact, float64(limit))/float64(unit)+0.5))
	return Height{
		Wanted: wanted, Exact: exact, Rows: int(times) * unit,
		Repeat: repeat, Even: even && repeat%2 == 1, Density: d,
	}
}

// Rounded tells whether the height comes out otherwise than wanted by a twentieth of
// a row or more.
func (h Height) Rounded() bool { return math.Abs(h.Exact-float64(h.Rows)) >= 0.05 }

// String says what was rounded: "24 cm would be 35.2 rows: rounded to 36 rows, 9
// repeats of 4, which is 24.5 cm".
func (h Height) String() string {
	s := fmt.Sprintf("%s would be %s rows", h.Wanted, Number(h.Exact, 1))
	if !h.Rounded() {
		return fmt.Sprintf("%s is %d rows", h.Wanted, h.Rows)
	}
	s += fmt.Sprintf(": rounded to %d rows", h.Rows)
	if h.Repeat > 1 {
		s += fmt.Sprintf(", %s of %d", plural(h.Rows/h.Repeat, "repeat"), h.Repeat)
	}
	if h.Even {
		s += ", an even number for the garter sides"
	}
	return s + ", which is " + h.Density.Length(float64(h.Rows)).String()
}

func plural(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}
