package fit

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/pattern"
	"bypeg/pattern/file"
)

func TestParseStock(t *testing.T) {
	for _, c := range []struct {
		text string
		want Stock
	}{
		{"18g", Stock{Grams: 18}},
		{"18 g", Stock{Grams: 18}},
		{"1,5 oz", Stock{Grams: 42.5242846875}},
		{"9.5 m", Stock{Metres: 9.5}},
		{"20 yd", Stock{Metres: 18.288}},
	} {
		got, err := ParseStock(c.text)
		require.NoError(t, err, c.text)
		assert.InDelta(t, c.want.Grams, got.Grams, 1e-9, c.text)
		assert.InDelta(t, c.want.Metres, got.Metres, 1e-9, c.text)
	}
	for _, text := range []string{"", "ten", "18", "g", "0 g", "-3 g", "18 stones", "1e9 g", "1,250 g", "\x1b[2J"} {
		_, err := ParseStock(text)
		assert.ErrorContains(t, err, "is no amount of yarn: write it like 18 g, 9.5 m or 20 yd", text)
	}
}

// ridden is the best end for a stock by trying every stopping row: simple and slow.
func ridden(a Ahead, stock float64) (rows int, spare float64, ok bool) {
	for _, n := range a.Ends {
		need := a.Close
		for _, cost := range a.Field[:n] {
			need += cost
		}
		if need <= stock {
			rows, spare, ok = n, stock-need, true
		}
	}
	if ok {
		return rows, spare, ok
	}
	for _, n := range a.Back {
		have := stock + a.Begun
		for _, cost := range a.Worked[:n] {
			have += cost
		}
		if a.Close <= have {
			return -n, have - a.Close, true
		}
	}
	return 0, 0, false
}

// places are where a piece can be: every row, and within it.
func placeOf(t *rapid.T, p *pattern.Pattern) pattern.Place {
	n := p.CastOnLoops() + p.StitchesBefore(p.Grid.Rows()+1) + p.BindOffLoops()
	at := pattern.Start()
	o := pattern.Order{Pattern: p, Way: p.Way}
	for left := rapid.IntRange(0, n-1).Draw(t, "done"); left > 0; {
		take := min(left, p.Of(at)-at.Done)
		at, left = o.Ahead(at, take), left-take
	}
	return at
}

// yarnPattern is a pattern with a field, or two, between borders.
func yarnPattern(t *rapid.T) *pattern.Pattern {
	second := ""
	if rapid.Bool().Draw(t, "two fields") {
		second = "[[zone]]\nname = \"second\"\nsides = 2\nrows = [\"k\"]\ntimes = 6\n"
	}
	text := fmt.Sprintf(`pattern = 1
pegs = %d
[gauge]
stitches = 14
rows = 20
over = "10 cm"
[yarn]
metres = 85
grams = 50
[[zone]]
name = "bottom"
border = true
rows = ["k", "p"]
times = %d
[[zone]]
name = "field"
sides = %d
rows = ["k", "*k1, p1; rep from * to end", "k"]
times = %d
%s[[zone]]
name = "top"
like = "bottom"
[[zone]]
name = "set-up"
border = true
rows = ["k"]
`, 2*rapid.IntRange(5, 20).Draw(t, "pegs"), rapid.IntRange(1, 4).Draw(t, "ridges"), 2*rapid.IntRange(0, 1).Draw(t, "sides"),
		rapid.IntRange(1, 8).Draw(t, "times"), second)
	p, found := file.Load("yarn", []byte(text))
	require.NotNil(t, p, "%v", found)
	return p
}

// Of a row that is begun the yarn comes back first: it may be enough, and it is told.
func TestARowThatIsBegunIsTakenBackFirst(t *testing.T) {
	text := framed("pegs = 36\n"+gauge10, "rows = ['k']\ntimes = 30")
	p, found := file.Load("f", []byte(text))
	require.NoError(t, found.Err())
	o := pattern.Order{Pattern: p, Way: p.Way}
	at := pattern.Place{Phase: pattern.Working, Row: 15, Done: 30}
	look := &looking{spinner: newSpinner(p), order: o, at: at, unit: "m"}
	require.NoError(t, look.settle())
	ahead := look.ahead(highOf)
	row := look.cost(14).High
	assert.InDelta(t, row*30/36, ahead.Begun, 1e-9)
	for _, c := range []struct {
		name  string
		stock float64
		want  Stop
	}{
		{"the rest of the row is covered", ahead.Close + row/6 + 0.001, Stop{Enough: true, Rows: 1}},
		{"what the row has taken is enough", ahead.Close - row/2, Stop{Enough: true, Begun: true}},
		{"and one row below it", ahead.Close - row*1.5, Stop{Enough: true, Begun: true, Rows: -1}},
	} {
		got := ahead.StopWith(c.stock)
		assert.Equal(t, [3]any{c.want.Enough, c.want.Begun, c.want.Rows}, [3]any{got.Enough, got.Begun, got.Rows}, c.name)
		assert.GreaterOrEqual(t, got.Spare, 0.0, c.name)
	}
}

// A yarn whose stitches all lie ahead in a row that is half done is needed whole.
func TestARowOfTwoYarnsCountsTheYarnsOwnStitches(t *testing.T) {
	text := "pattern = 1\npegs = 36\n" + gauge10 + "[yarn]\nmetres = 60\ngrams = 50\n[yarns.sky]\nmetres = 60\ngrams = 50\n" +
		"[[zone]]\nname = 'field'\ntimes = 20\n[[zone.strip]]\npegs = 18\nrows = ['k']\n[[zone.strip]]\npegs = 18\nyarn = 'sky'\nrows = ['k']\n"
	p, found := file.Load("f", []byte(text))
	require.NoError(t, found.Err())
	o := pattern.Order{Pattern: p, Way: p.Way}
	for _, c := range []struct {
		yarn pattern.Yarn
		want float64 // of its stitches, ahead
	}{{0, 1}, {1, 0}} {
		look := &looking{spinner: newSpinner(p), order: o, at: pattern.Place{Phase: pattern.Working, Row: 15, Done: 18}, yarn: c.yarn, unit: "m"}
		require.NoError(t, look.settle())
		require.Equal(t, pattern.ToLeft, o.Direction(15), "from the right, where the second strip is")
		assert.InDelta(t, c.want, look.unworked(15), 1e-9)
	}
}

func TestTheBindOffIsNeverStranded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := yarnPattern(t)
		at := placeOf(t, p)
		look := &looking{spinner: newSpinner(p), order: pattern.Order{Pattern: p, Way: p.Way}, at: at, unit: rapid.SampledFrom([]string{"m", "g"}).Draw(t, "unit")}
		require.NoError(t, look.settle())
		all := 0.0
		for _, n := range YarnOf(p) {
			all += look.in(n.Amount).High
		}
		stock := rapid.Float64Range(0.01, 1.5*all).Draw(t, "left")
		ahead := look.ahead(highOf)
		got := ahead.StopWith(stock)
		rows, spare, ok := ridden(ahead, stock)
		require.Equal(t, ok, got.Enough, "stock %v: %+v", stock, got)
		if !ok {
			assert.Less(t, got.Spare, 0.0, "and what is lacking is said")
			return
		}
		assert.Equal(t, rows, got.Rows)
		assert.InDelta(t, spare, got.Spare, 1e-6)
		assert.GreaterOrEqual(t, got.Spare, -1e-9, "the bind-off is covered")
		if rows > 0 && !look.past {
			assert.LessOrEqual(t, got.Rows, got.Could)
		}
		more := ahead.StopWith(stock + rapid.Float64Range(0, all).Draw(t, "more"))
		require.True(t, more.Enough)
		assert.GreaterOrEqual(t, more.Rows, got.Rows, "more yarn never reaches less far")
	})
}

// What lies ahead, and behind, is the whole piece: no row is counted twice or left out.
func TestWhatLiesAheadIsTheRestOfThePiece(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := yarnPattern(t)
		o := pattern.Order{Pattern: p, Way: p.Way}
		at := placeOf(t, p)
		look := &looking{spinner: newSpinner(p), order: o, at: at, unit: "m"}
		require.NoError(t, look.settle())
		ahead := look.ahead(likelyOf)
		got := ahead.Close
		for n := range max(0, look.fieldEnd-look.done) {
			got += ahead.Field[n]
		}
		want := 0.0
		for row := 1; row <= p.Grid.Rows(); row++ {
			cost := look.cost(row).Likely
			if row > look.fieldEnd {
				cost = look.row(p.ZoneIndex(row), row, 0).Metres.Likely
			}
			switch {
			case row <= o.RowsDone(at):
			case row == o.RowsDone(at)+1 && at.Phase == pattern.Working:
				want += cost * (1 - float64(at.Done)/float64(p.Of(at)))
			default:
				want += cost
			}
		}
		bind, cast := look.bindOff(0).Metres.Likely, look.castOn(0).Metres.Likely
		switch at.Phase {
		case pattern.CastingOn:
			want += cast*(1-float64(at.Done)/float64(p.Of(at))) + bind
		case pattern.BindingOff:
			want += bind * (1 - float64(at.Done)/float64(p.Of(at)))
		default:
			want += bind
		}
		assert.InDelta(t, want, got, 1e-9)
	})
}

func TestStopsAreWholeRepeats(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := yarnPattern(t)
		at := placeOf(t, p)
		l, err := LeftOf(pattern.Order{Pattern: p, Way: p.Way}, at, 0, Stock{Metres: rapid.Float64Range(0.1, 200).Draw(t, "m")})
		require.NoError(t, err)
		row, ok := l.StopRow()
		if !ok || l.Past {
			return
		}
		if row > l.Planned {
			assert.Zero(t, (row-l.Planned)%l.Repeat)
			return
		}
		z := p.ZoneAt(row)
		assert.True(t, row == z.Last || (row-z.First+1)%stepOf(z) == 0, "row %d of %+v", row, z)
		assert.GreaterOrEqual(t, row, p.Zones[1].First, "some field is left")
	})
}

func TestLeftSaysWhatIsMissing(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"no gauge and no weight", "pegs = 6\n[[zone]]\nname = \"f\"\nrows = [\"k\"]\n", "nobody knows how heavy the yarn is: write metres and grams of a ball under [yarn], or weigh a swatch and write it under [swatch]"},
		{"all border", "pegs = 6\n[[zone]]\nname = \"f\"\nborder = true\nrows = [\"k\"]\n", "the pattern is border all over: it has no field that could be longer or shorter"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, _ := file.Load("", []byte("pattern = 1\n"+c.text))
			require.NotNil(t, p)
			_, err := LeftOf(pattern.Order{Pattern: p, Way: p.Way}, pattern.Start(), 0, Stock{Grams: 10})
			assert.EqualError(t, err, c.want)
		})
	}
}

// 0.1 and 0.2 make more than 0.3 as a machine adds them.
func TestARowThatTheYarnMakesToTheLastBitIsCounted(t *testing.T) {
	a := Ahead{Field: []float64{0.1, 0.2, 0.1}, Ends: []int{0, 2, 3}}
	assert.Equal(t, 2, a.StopWith(0.3).Rows)
	assert.Equal(t, 0, a.StopWith(0.299).Rows)
}
