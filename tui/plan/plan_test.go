package plan_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/fit"
	"bypeg/tui/plan"
)

// matText is a mat of 26 pegs, 24 cm wide by its gauge: a garter frame around a field of
// repeats of four rows.
const matText = `pattern = 1
pegs = 26
[gauge]
stitches = 10.8333
rows = 15
over = "10 cm"
[yarn]
metres = 60
grams = 50
[[zone]]
name = "bottom border"
border = true
rows = ["k", "p"]
times = 3
[[zone]]
name = "field"
sides = 3
rows = ["k", "p2, k to end", "k", "k"]
times = 9
[[zone]]
name = "top border"
like = "bottom border"
[[zone]]
name = "set-up"
border = true
rows = ["k"]
`

func planOf(t testing.TB, text string, row, done int) plan.Plan {
	t.Helper()
	p, found := file.Load("f", []byte(text))
	require.NoError(t, found.Err())
	made, err := plan.New([]byte(text), pattern.Order{Pattern: p, Way: p.Way}, pattern.Place{Phase: pattern.Working, Row: row, Done: done})
	require.NoError(t, err)
	return made
}

func ways(p plan.Plan) []string {
	var names []string
	for _, e := range p.Ways {
		names = append(names, e.Way.String())
	}
	return names
}

// "26 pegs are 22 cm, not 24": the plan says both, and the ways are as wide as the piece is.
func TestAMeasureTakenOnThePiece(t *testing.T) {
	p := planOf(t, matText, 21, 0)
	assert.Equal(t, "24 cm wide, 29.5 cm high", p.SayPlanned())
	assert.Equal(t, "", p.SayMeasured())
	assert.Equal(t, []string{"as planned", "one repeat more", "one repeat fewer", "the top border now"}, ways(p))
	assert.False(t, p.Changes(0), "as planned is no change")
	p, err := p.WithWidth("22 cm")
	require.NoError(t, err)
	assert.Equal(t, "24 cm wide, 29.5 cm high", p.SayPlanned())
	assert.Equal(t, "22 cm wide", p.SayMeasured())
	assert.Contains(t, p.SayBriefly(0), "22 by 29 cm")
	assert.True(t, p.Changes(0), "the pattern then has another gauge")
	assert.Equal(t, "planned anew: measured 22 cm wide", p.Words(0))
	assert.Equal(t, "planned anew: 53 rows, the top border from row 47; measured 22 cm wide", p.Words(1))
	assert.Contains(t, p.SayWay(1), "4 rows more; the top border begins with row 47, like the bottom one")
	narrow, err := p.WithWidth("18 cm")
	require.NoError(t, err)
	shape := slices.Index(ways(narrow), "in the planned shape")
	require.Positive(t, shape)
	assert.InDelta(t, 29.5*18/24, narrow.Ways[shape].Height.In(10), 1.4, "to a whole repeat")
	back, err := p.WithWidth("")
	require.NoError(t, err)
	assert.Equal(t, planOf(t, matText, 21, 0), back, "no measure is none")
}

func TestAHeightIsOfTheRowsThatAreDone(t *testing.T) {
	p, err := planOf(t, matText, 20, 5).WithHeight("13 cm")
	require.NoError(t, err)
	assert.Equal(t, "13 cm high over 20 rows", p.SayMeasured(), "the row that is begun hangs there too")
}

func TestYarnThatIsLeft(t *testing.T) {
	p, err := planOf(t, matText, 21, 0).WithYarn("14 g")
	require.NoError(t, err)
	require.NotNil(t, p.Left)
	require.Positive(t, p.Reached)
	row, ok := p.Left.StopRow()
	require.True(t, ok)
	assert.Equal(t, row+1, p.Ways[p.Reached].Border, "the border begins where the yarn says")
	assert.Contains(t, p.SayYarn(), "a whole repeat")

	narrow, err := p.WithWidth("20 cm")
	require.NoError(t, err)
	assert.Less(t, narrow.Left.Row.Likely, p.Left.Row.Likely, "a narrower row takes less")

	plenty, err := planOf(t, matText, 21, 0).WithYarn("80 m")
	require.NoError(t, err)
	assert.Greater(t, plenty.Ways[plenty.Reached].Rows, 49, "it reaches for more")

	bare := planOf(t, "pattern = 1\npegs = 4\n[[zone]]\nname = 'all'\nrows = ['k']\ntimes = 9\n", 2, 0)
	bare, err = bare.WithYarn("18 g")
	require.NoError(t, err)
	assert.Contains(t, bare.SayYarn(), "write metres and grams of a ball under [yarn]", "why it can't be said")
	assert.Equal(t, -1, bare.Reached)
	assert.Equal(t, "", bare.SayPlanned())
	assert.Equal(t, "1 row more", bare.SayWay(1), "without a gauge only rows are known")
}

func TestOneOfSeveralYarns(t *testing.T) {
	text := matText[:len("pattern = 1\npegs = 26\n")] + "[yarns.edge]\ncolour = \"slate\"\nmetres = 60\ngrams = 50\n" + matText[len("pattern = 1\npegs = 26\n"):]
	p := planOf(t, text, 21, 0)
	assert.Equal(t, []string{"the main one", "slate"}, p.YarnNames())
	for _, said := range []string{"20 g of slate", "20 g of edge"} {
		q, err := p.WithYarn(said)
		require.NoError(t, err)
		assert.Equal(t, pattern.Yarn(1), q.Yarn, said)
	}
	q, err := p.WithYarn("20 g of the main one")
	require.NoError(t, err)
	assert.Equal(t, pattern.Yarn(0), q.Yarn)
	_, err = p.WithYarn("20 g of red")
	assert.EqualError(t, err, "the pattern has no yarn red: it has the main one, slate")
}

func TestWhatCannotBeTaken(t *testing.T) {
	p := planOf(t, matText, 21, 0)
	for _, c := range []struct {
		name string
		told func(string) (plan.Plan, error)
		text string
		says string
	}{
		{"no number", p.WithWidth, "ten", "is no length"},
		{"no unit and no number", p.WithWidth, "22 x", "no unit of length"},
		{"too wide to be true", p.WithWidth, "2 m", "no slip of the gauge"},
		{"too high to be true", p.WithHeight, "3 m", "no slip of the gauge"},
		{"no amount", p.WithYarn, "some", "no amount of yarn"},
		{"of no yarn", p.WithYarn, "18 g of \x1b[2Jred", "the pattern has no yarn"},
	} {
		got, err := c.told(c.text)
		require.ErrorContains(t, err, c.says, c.name)
		assert.NotContains(t, err.Error(), "\x1b", c.name)
		assert.Equal(t, p, got, "%s: the plan stays", c.name)
	}
	_, err := planOf(t, matText, 4, 0).WithHeight("3 cm")
	assert.ErrorContains(t, err, "too little", "over three rows")
	_, err = plan.New(nil, p.Order, pattern.Start())
	assert.ErrorContains(t, err, "peg count")
}

// Zones that lie between are left out, and the words say so.
func TestTheBorderNowLeavesOutWhatLiesBetween(t *testing.T) {
	text := matText[:len(matText)-len("[[zone]]\nname = \"top border\"\nlike = \"bottom border\"\n[[zone]]\nname = \"set-up\"\nborder = true\nrows = [\"k\"]\n")] +
		"[[zone]]\nname = \"sky\"\nsides = 3\nrows = [\"k\"]\ntimes = 10\n[[zone]]\nname = \"top border\"\nlike = \"bottom border\"\n[[zone]]\nname = \"set-up\"\nborder = true\nrows = [\"k\"]\n"
	p := planOf(t, text, 13, 0)
	i := slices.IndexFunc(p.Ways, func(e fit.Ending) bool { return e.Way == fit.BorderNow })
	require.Positive(t, i)
	assert.Equal(t, "planned anew: 21 rows, the top border from row 15, without sky", p.Words(i))
	made, found := file.Load("f", p.Ways[i].Text)
	require.NoError(t, found.Err())
	assert.Equal(t, 21, made.Grid.Rows())
}

// In a tube it is the way round that is measured.
func TestATubeIsMeasuredRound(t *testing.T) {
	p := planOf(t, "pattern = 1\nform = 'tube'\npegs = 40\n[gauge]\nstitches = 10\nrows = 15\nover = '10 cm'\n[[zone]]\nname = 'body'\nrows = ['k', 'p']\ntimes = 10\n", 9, 0)
	assert.Regexp(t, `^40 cm round, .* high$`, p.SayPlanned())
	p, err := p.WithWidth("44 cm")
	require.NoError(t, err)
	assert.Equal(t, "44 cm round", p.SayMeasured())
	assert.Contains(t, p.SayWay(0), "44 cm round and")
}
