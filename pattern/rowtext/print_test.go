package rowtext

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// How such rows are written in patterns: common practice, no source. "To last 1" for "to
// last st" is ours.
var shortest = []struct{ name, runs, want string }{
	{"a plain row", "k12", "k"},
	{"a purl row", "p10", "p"},
	{"one stitch", "k1", "k1"},
	{"an e-wrapped row", "ew:9", "ew"},
	{"slips in front need their count", "sl.wyif:9", "sl9 wyif"},
	{"garter sides", "k3 p9 k3", "k3, p to last 3, k3"},
	{"garter sides on few pegs are seen at a glance", "k3 p4 k3", "k3, p4, k3"},
	{"a figure beside the middle", "k1 p6 k3", "k1, p6, k3"},
	{"an edge and the rest", "k3 p5", "k3, p to end"},
	{"a slipped edge", "sl:1 k8", "sl1, k to end"},
	{"a body before an edge", "k20 p4", "k to last 4, p4"},
	{"two steps of like size", "k5 p4", "k5, p4"},
	{"seed edges", "k1 p1 k1 p20 k1 p1 k1", "k1, p1, k1, p to last 3, k1, p1, k1"},
	{"slipped edges in front", "sl.wyif:1 k7 sl.wyif:1", "sl1 wyif, k to last 1, sl1 wyif"},
	{"1x1 rib", "k1 p1 k1 p1 k1 p1", "*k1, p1; rep from * to end"},
	{"seed on an odd count", "k1 p1 k1 p1 k1", "k1, *p1, k1; rep from * to end"},
	{"2x2 rib", "k2 p2 k2 p2 k2 p2", "*k2, p2; rep from * to end"},
	{"2x2 rib, balanced", "k2 p2 k2 p2 k2", "k2, *p2, k2; rep from * to end"},
	{"a repeat with its edges", "p3 k4 p2 k4 p2 k4 p2 k4 p2 k4 p2 k4 p3", "p3, *k4, p2; rep from * to last 7, k4, p3"},
	{"a run cut by the edge", "p3 k4 p2 k5 p1 k4 p2 k5 p1 k4 p2 k5 p3", "p2, *p1, k4, p2, k5; rep from * to last 3, p3"},
	{"a repeat that ends as it begins", "k2 p1 k4 p1 k4 p1 k2", "*k2, p1, k2; rep from * to end"},
	{"a run cut by the repeat", "k7 p1 k3 p1 k3 p1 k3 p1 k7", "k4, *k3, p1; rep from * to last 7, k7"},
	{"a repeat that ends as it begins, worked twice, is no shorter", "k2 p1 k4 p1 k2", "k2, p1, k4, p1, k2"},
	{"brackets in a repeat", "k1 p1 k1 p1 k1 p1 k7 p1 k1 p1 k1 p1 k6", "*(k1, p1) 3 times, k6; rep from * to end"},
	{"a bracket in a bracket", "k9 p1 k2 p1 k2 p1 k2 p3 k5 p1 k2 p1 k2 p1 k2 p3 k5 p30 k3 p29",
		"k9, [(p1, k2) 3 times, p3, k5] 2 times, p30, k3, p29"},
	{"a bracket beside plain edges", "k10 p1 k1 p1 k1 p1 k1 p1 k11", "k10, (p1, k1) 3 times, p1, k11"},
	{"the letters of a word", "k4 p2 k10 p4 k4", "k4, p2, k10, p4, k4"},
	{"pegs not in use", "none:3 k20 none:3", "none3, k20, none3"},
	{"pegs not in use have no end to go to", "none:1 k2 p2 k2 p2 k2 p2 k2 p2", "none1, (k2, p2) 4 times"},
	{"nor has a body beside them", "none:3 k20", "none3, k20"},
	{"a bracket worked often", "none:1 k2 p2 k2 p2 k2 p2 k2 p2 k2 p2 k2 p2 k2 p2 k2 p2 k2 p2 k3", "none1, (k2, p2) 9 times, k3"},
	{"square brackets hold round ones", "none:1 k2tog:2 p3 k2tog:2 p3 k2tog:2 p3", "none1, [(k2tog) 2 times, p3] 3 times"},
	{"lace", "k2 yo:1 k2tog:1 k2 yo:1 k2tog:1 k2 yo:1 k2tog:1", "*k2, yo, k2tog; rep from * to end"},
	{"lace that ends with a yarn over", "k2 k2tog:1 yo:1 k2 k2tog:1 yo:1 k1", "*k2, k2tog, yo; rep from * to last 1, k1"},
	{"no repeat before an edge that takes no loops", "k2 p1 k2 p1 k2 p1 yo:1", "(k2, p1) 3 times, yo"},
	{"nor with a cut run", "k8 p1 k3 p1 k3 p1 yo:1", "k8, p1, k3, p1, k3, p1, yo"},
	{"decreases across", "k2tog:12", "*k2tog; rep from * to end"},
	{"decreases between edges", "k1 ssk:8 k1", "k1, *ssk; rep from * to last 1, k1"},
	{"yarn overs alone", "yo:3", "(yo) 3 times"},
	{"twisted rib", "ktbl:1 p1 ktbl:1 p1 ktbl:1 p1", "*k1 tbl, p1; rep from * to end"},
	{"cables count their pegs", "p2 c4f:1 p2 c4f:1 p2 c4f:1 p2", "p2, *c4f, p2; rep from * to end"},
	{"cables between edges", "k3 p2 c4f:1 p2 c4f:1 p2 k3", "k3, *p2, c4f; rep from * to last 5, p2, k3"},
	{"increases", "k1 kfb:1 k16 kfb:1 k1", "k1, kfb, k to last 2, kfb, k1"},
	{"neighbours that are equal are one", "k1 k2 p1 p1", "k3, p2"},
}

func TestRowsAreWrittenAsThePatternsDo(t *testing.T) {
	for _, c := range shortest {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, Shortest(plainRuns(t, c.runs))) })
	}
}

func TestRowsInFullWords(t *testing.T) {
	for _, c := range []struct {
		noun       Noun
		runs, want string
	}{
		{NounStitches, "k3 p9 k3", "knit 3, purl to the last 3 stitches, knit 3"},
		{NounPegs, "k3 p9 k3", "knit 3, purl to the last 3 pegs, knit 3"},
		{NoNoun, "k3 p9 k3", "knit 3, purl to the last 3, knit 3"},
		{NounStitches, "sl:1 k8 p1", "slip 1, knit to the last stitch, purl 1"},
		{NounPegs, "k2 p2 k2 p2 k2 p2", "*knit 2, purl 2; repeat from * to the end"},
		{NounPegs, "p3 k4 p2 k4 p2 k4 p3", "purl 3, *knit 4, purl 2; repeat from * to the last 7 pegs, knit 4, purl 3"},
		{NounPegs, "ew:9", "e-wrap"},
		{NounPegs, "k1 yo:1 k2tog:1 ssk:2", "knit 1, yarn over, knit 2 together, (ssk) 2 times"},
		{NounPegs, "sl.wyif:1 sl.wyib:1 ktbl:1 k1", "slip 1 with yarn in front, slip 1 with yarn in back, knit 1 through the back loop, knit 1"},
	} {
		require.Equal(t, c.want, Wording{Words: Full, Noun: c.noun}.Row(plainRuns(t, c.runs)))
	}
	require.Equal(t, "sl1, k to last st, p1", Wording{Noun: NounStitches}.Row(plainRuns(t, "sl:1 k8 p1")))
	require.Equal(t, "k3, p to last 3 pegs, k3", Wording{Noun: NounPegs}.Row(plainRuns(t, "k3 p9 k3")))
}

func TestThePlainListAlwaysCounts(t *testing.T) {
	require.Equal(t, "k3, sl1 wyif, k2 tbl, k2tog, (yo) 2 times, c4f, none2",
		Print(plainRuns(t, "k3 sl.wyif:1 ktbl:2 k2tog:1 yo:2 c4f:1 none:2")))
	require.Empty(t, Print(nil))
}

func TestEveryStepHasAMeaningAndAName(t *testing.T) {
	for _, s := range append(Stitches(), crosses...) {
		if s != NoStitch {
			require.NotEmpty(t, Meaning(s), s.Name())
		}
		require.NotEmpty(t, Letters.say(s).head)
		require.NotEmpty(t, Full.say(s).head)
	}
	require.Empty(t, Meaning(NoStitch))
	require.Equal(t, "2 over 2, leaning left", Meaning(crosses[0]))
}

// The two sets of terms: published, save double seed, which is common practice, no source.
func TestTermsDifferAcrossTheOcean(t *testing.T) {
	for term, want := range map[Term][2]string{
		BindOff: {"bind off", "cast off"}, Stockinette: {"stockinette stitch", "stocking stitch"},
		Gauge: {"gauge", "tension"}, Seed: {"seed stitch", "moss stitch"}, DoubleSeed: {"double seed stitch", "double moss stitch"},
	} {
		require.Equal(t, want, [2]string{US.Of(term), UK.Of(term)})
	}
}

// drawRuns are random runs in which repeats are likely. Neighbours differ.
func drawRuns(t *rapid.T, steps []Stitch) []Run {
	var runs []Run
	block := func() (unit []Run) {
		for range rapid.IntRange(1, 4).Draw(t, "unit") {
			unit = append(unit, Run{rapid.SampledFrom(steps).Draw(t, "stitch"), rapid.IntRange(1, 4).Draw(t, "count")})
		}
		return unit
	}
	for range rapid.IntRange(1, 4).Draw(t, "blocks") {
		unit := block()
		for range rapid.IntRange(1, 5).Draw(t, "times") {
			for _, r := range unit {
				runs = push(runs, r)
			}
		}
	}
	return runs
}

func drawWording(t *rapid.T) Wording {
	return Wording{
		Words: rapid.SampledFrom([]Words{Letters, Full}).Draw(t, "words"),
		Noun:  rapid.SampledFrom([]Noun{NoNoun, NounPegs, NounStitches}).Draw(t, "noun"),
		Tell:  rapid.SampledFrom([]Tell{TellNothing, TellDirection, TellSide}).Draw(t, "tell"),
	}
}

func TestRowsReadBackAsTheyWere(t *testing.T) {
	all := append(Stitches(), crosses...)
	few := []Stitch{Knit, Purl, YarnOver, KnitTwo}
	rapid.Check(t, func(t *rapid.T) {
		runs := drawRuns(t, rapid.SampledFrom([][]Stitch{all, few, few[:2]}).Draw(t, "steps"))
		w := drawWording(t)
		require.Equal(t, runs, slowRow(t, w.Row(runs), In(runs)), w.Row(runs))
		require.Equal(t, runs, slowList(t, Print(runs), 0))
	})
}

// pegWise are the steps of one loop, by the words Expand reads.
var pegWise = []Stitch{Knit, Purl, Slip, EWrap, UWrap, NoStitch}

func TestRowsOfOneLoopForOneAreReadByExpand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		runs := drawRuns(t, rapid.SampledFrom([][]Stitch{pegWise, pegWise[:2]}).Draw(t, "steps"))
		w := drawWording(t)
		got, err := Expand(w.Row(runs), sum(runs))
		require.NoError(t, err, w.Row(runs))
		require.Equal(t, runs, got, w.Row(runs))
		again, err := Expand(Shortest(got), sum(runs))
		require.NoError(t, err)
		require.Equal(t, got, again)
	})
}
