package fit

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/file"
)

// slipped has a field whose second row slips every other peg, between borders of 2 rows.
const slipped = `pattern = 1
pegs = 10
[gauge]
stitches = 10
rows = 16
over = "10 cm"
[[zone]]
name = "bottom"
border = true
rows = ["k", "p"]
[[zone]]
name = "field"
rows = ["k", "*k1, sl1; rep from * to end"]
times = 3
[[zone]]
name = "top"
like = "bottom"
[[zone]]
name = "set-up"
border = true
rows = ["k"]
`

// at looks from a place in a pattern.
func at(t *testing.T, text string, place pattern.Place) (*looking, Ahead) {
	t.Helper()
	p, found := file.Load("", []byte(text))
	require.NotNil(t, p, "%v", found)
	look := &looking{spinner: newSpinner(p), order: pattern.Order{Pattern: p, Way: p.Way}, at: place, unit: "m"}
	require.NoError(t, look.settle())
	return look, look.ahead(likelyOf)
}

func row(n, done int) pattern.Place { return pattern.Place{Phase: pattern.Working, Row: n, Done: done} }

func TestWhereAFieldMayEnd(t *testing.T) {
	_, start := at(t, slipped, row(1, 0))
	assert.Equal(t, []int{4, 6, 8, 10}, start.Ends[:4], "not before one repeat of the field; behind the planned rows its repeats go on")
	assert.Empty(t, start.Back)
	_, between := at(t, slipped, row(5, 0)) // 2 rows of the field are done
	assert.Equal(t, []int{0, 2, 4, 6}, between.Ends[:4])
	assert.Equal(t, []int{0}, between.Back[:1])
	_, begun := at(t, slipped, row(5, 3)) // 3 stitches of the next row, too
	assert.Equal(t, []int{2, 4, 6}, begun.Ends[:3], "a row that is begun is finished, or taken back")
	assert.Equal(t, []int{0}, begun.Back[:1])
	_, odd := at(t, slipped, row(6, 0))
	assert.Equal(t, []int{1, 3, 5}, odd.Ends[:3])
	assert.Equal(t, []int{1}, odd.Back[:1])
	look, past := at(t, slipped, row(9, 2))
	assert.True(t, look.past)
	assert.Equal(t, []int{0}, past.Ends)
}

// The fields of two zones: the first may end between its repeats, and the second too.
func TestGarterSidesKeepTheirRidgesWhole(t *testing.T) {
	p, _ := file.Load("", []byte("pattern = 1\npegs = 10\n[gauge]\nstitches = 10\nrows = 16\nover = \"10 cm\"\n[[zone]]\nname = \"field\"\nsides = 2\nrows = [\"k\"]\ntimes = 8\n"))
	assert.Equal(t, 2, stepOf(&p.Zones[0]))
	q, _ := file.Load("", []byte("pattern = 1\npegs = 10\n[[zone]]\nname = \"field\"\nrows = [\"k\"]\ntimes = 8\n"))
	assert.Equal(t, 1, stepOf(&q.Zones[0]), "without sides any row will do")
}

func TestRowsBeyondThePlannedOnesRepeat(t *testing.T) {
	look, ahead := at(t, slipped, row(3, 0))
	plain, short := 0.39, 0.39*(1+1/3.9)/2 // a peg that is skipped takes one width
	for n := range 20 {
		want := plain
		if n%2 == 1 {
			want = short
		}
		assert.InDelta(t, want, ahead.Field[n], 1e-9, "row %d", n+3)
	}
	assert.Equal(t, 8, look.fieldEnd)
}
