package rowtext

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Readings that are taken although another is possible: each with its warning. Source:
// common practice, no source; the counts are arithmetic.
func TestADoubtfulReadingIsTakenAndTold(t *testing.T) {
	tests := []struct {
		name, text string
		pegs       int
		want, told string
	}{
		{"a star behind a bracket", "(k2, p2)*", 12, "k2 p2 k2 p2 k2 p2", "a star behind a bracket is read as a repeat to the end"},
		{"a star that is never repeated", "*k3, p2", 15, "k3 p2 k3 p2 k3 p2", "nothing says how far the star goes: it is read as a repeat to the end"},
		{"a star that only closes", "k2, p1*", 6, "k2 p1 k2 p1", "this star only closes: the repeat is read as beginning at the start of the row"},
		{"an end that describes the last repeat", "K2, *(P1, K2); rep from * ending with K2", 11, "k2 p1 k2 p1 k2 p1 k2",
			"the row is full without it: it is read as what the last repeat ends with"},
		{"an end that cuts the last repeat short", "P2, *K1, P1, K1, P3; rep from * across. End P2.", 13, "p2 k1 p1 k1 p3 k1 p1 k1 p2",
			"as an end of its own it does not fit: it is read as the end of the last repeat, which is cut short"},
		{"a list across that stops within a repeat", "K2, P2 across", 13, "k2 p2 k2 p2 k2 p2 k1", "the row ends within a repeat: 1 peg left over"},
		{"a rib by name that stops within a repeat", "K2P2", 14, "k2 p2 k2 p2 k2 p2 k2", "the row ends within a repeat: 2 pegs left over"},
		{"a list to the end", "k2, p1 to end", 6, "k2 p1 k2 p1", "without a star the whole list is read as the repeat"},
		{"a repeat worked no time", "k2, *p2, k2; rep from * to last 3, k3", 5, "k5", "no peg is left for this repeat: it is worked no time"},
		{"a fill worked no time", "k3, p to last 3, k3", 6, "k6", "no peg is left for this part: it is not worked"},
		{"old words for a yarn over", "k 2, o, n, k 1", 5, "k2 yo:1 k2tog:1 k1", "o is read as a yarn over, as old books have it"},
		{"make 1", "Knit 2, make 1, knit 2 together, knit 1", 5, "k2 yo:1 k2tog:1 k1",
			"make 1 is read as a yarn over, as in old openwork; today it is another increase: m1"},
		{"the British yarn forward", "k2, yfwd, k2tog", 4, "k2 yo:1 k2tog:1", "yfwd is read as a yarn over; elsewhere it only brings the yarn to the front"},
		{"to a peg", "K to peg 6, P to end", 10, "k6 p4", "to a peg is read as working that peg too"},
		{"dots behind a unit shown once", "k2, p2 ....", 8, "k2 p2 k2 p2", "dots behind what is shown once: all of it is read as the repeat"},
		{"colours within a row", "with A, k3, with B, k3", 6, "k6", "the colours of a row are not read, only its stitches"},
		{"a count of repeats that fits both ways", "*k1, p1; rep from * 2 times, k to end", 9, "k1 p1 k1 p1 k1 p1 k3", "this can mean 3 in all or 2 times: 3 is taken"},
		{"an end told before what follows it", "*k1, p1; rep from * to end, k1", 5, "k1 p1 k1 p1 k1", "to the end is read as up to what follows"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			runs, notes, err := ReadRow(tt.text, tt.pegs)
			require.NoError(t, err)
			assert.Equal(t, tt.want, tally(runs))
			require.NotEmpty(t, notes)
			assert.Equal(t, tt.told, notes[0].Msg)
			for _, n := range notes {
				assert.True(t, 0 <= n.Start && n.Start < n.End && n.End <= len(tt.text), "the warning has a place: %v", n)
			}
		})
	}
}

// What reads in one way only is taken without a word. Source: common practice, no
// source.
func TestAPlainReadingIsTakenWithoutAWord(t *testing.T) {
	tests := []struct {
		name, text string
		pegs       int
		want       string
	}{
		{"a count as often again", "*K2, P1; rep from * 4 times, K2", 17, "k2 p1 k2 p1 k2 p1 k2 p1 k2 p1 k2"},
		{"a count in all, since only that fits", "K2, P2, *K5, P5 (rep from * 3 times); P2, K2", 38, "k2 p2 k5 p5 k5 p5 k5 p7 k2"},
		{"the end of the last repeat", "K2, *P3, K4; rep from *, end last repeat K2", 21, "k2 p3 k4 p3 k4 p3 k2"},
		{"stars in stars", "*K1, **P1, K1; rep from ** twice more, P3; rep from * to end", 20, "k1 p1 k1 p1 k1 p1 k1 p3 k1 p1 k1 p1 k1 p1 k1 p3"},
		{"a unit shown twice and dots", "K4, P2, K4, P2 .... repeat to end of row", 24, "k4 p2 k4 p2 k4 p2 k4 p2"},
		{"a rib by its columns", "2x2 rib", 8, "k2 p2 k2 p2"},
		{"pegs by their numbers", "Peg 1: slip. Pegs 2-7: knit. Peg 8: purl.", 8, "sl:1 k6 p1"},
		{"odd and even pegs", "Purl odd pegs, knit even pegs", 5, "p1 k1 p1 k1 p1"},
		{"yarn overs take no loop", "*K2, yo, k2tog; rep from * to end", 8, "k2 yo:1 k2tog:1 k2 yo:1 k2tog:1"},
		{"a slip passed over", "sl1-k1-psso, k2, sl 1, k2tog, psso", 7, "skp:1 k2 sk2p:1"},
		{"crosses", "p1, c4f, 2/1rpc, c2b, p1", 11, "p1 c4f:1 2/1rpc:1 c2b:1 p1"},
		{"the count behind the row", "(k2tog, k2) 3 times (9 sts)", 12, "k2tog:1 k2 k2tog:1 k2 k2tog:1 k2"},
		{"a remark", "Sl1 (skip this peg), P2, *K2, P3, rep from * to last 4 st, K2, P2", 17, "sl:1 p2 k2 p3 k2 p3 k2 p2"},
		{"what counts nothing", "With A, k2, pm, p2, slip marker, k2, turn", 6, "k2 p2 k2"},
		{"invisible characters", "k\u200b3,\u00a0p\u00ad2", 5, "k3 p2"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			runs, notes, err := ReadRow(tt.text, tt.pegs)
			require.NoError(t, err)
			assert.Equal(t, tt.want, tally(runs))
			assert.Empty(t, notes)
		})
	}
}

func TestAReturningRowMeetsTheSamePegsFromTheOtherEnd(t *testing.T) {
	for text, want := range map[string]string{
		"K pegs 1-4, P pegs 5-12":       "p8 k4",
		"Purl odd pegs, knit even pegs": "k1 p1 k1 p1 k1 p1 k1 p1 k1 p1 k1 p1",
		"K to peg 9, P to end":          "k4 p8",
		"Skip peg 12, k to end":         "sl:1 k11",
		"p4, k pegs 5 to 8, p4":         "p4 k4 p4",
	} {
		b, errs := parseBody(text, lex(text, span{0, len(text)}), 0)
		require.Empty(t, errs)
		runs, _, errs := b.lay(scene{loops: 12, back: true})
		require.Empty(t, errs, text)
		assert.Equal(t, want, tally(runs), text)
	}
	_, err := Expand("Skip peg 12, k to end", 12)
	assert.ErrorContains(t, err, "the row comes to peg 1 here, not to peg 12")
}

// The stitches below, seen from the front on a loom and in a round, turned over with
// the work on needles. Source: common practice, no source.
func TestKnitTheKnitsFollowsTheRowBelow(t *testing.T) {
	below, err := Expand("k3, p1, k2, p2", 8)
	require.NoError(t, err)
	const text = "knit the knits and purl the purls"
	b, errs := parseBody(text, lex(text, span{0, len(text)}), 0)
	require.Empty(t, errs)
	for name, tt := range map[string]struct {
		scene scene
		want  string
	}{
		"a loom's row runs back over the same pegs":            {scene{back: true}, "p2 k2 p1 k3"},
		"a round goes on the same way":                         {scene{}, "k3 p1 k2 p2"},
		"on needles the return row sees the other side":        {scene{back: true, wrong: true}, "k2 p2 k1 p3"},
		"on needles from a wrong-side row to a right-side one": {scene{back: true, belowSeen: true}, "k2 p2 k1 p3"},
	} {
		t.Run(name, func(t *testing.T) {
			tt.scene.loops, tt.scene.below = 8, below
			runs, _, errs := b.lay(tt.scene)
			require.Empty(t, errs)
			assert.Equal(t, tt.want, tally(runs))
		})
	}
	_, _, errs = b.lay(scene{loops: 8})
	require.NotEmpty(t, errs)
	assert.Equal(t, "there is no row below whose stitches could be followed", errs[0].Msg)
	_, _, errs = b.lay(scene{loops: 9, below: below})
	require.NotEmpty(t, errs)
}

// Of several sizes one is read, and none where none is chosen. Source: common practice,
// no source.
func TestOneOfSeveralSizesIsRead(t *testing.T) {
	const text = "k3 (5, 7), p2 (2, 4), k3 (5, 7)"
	for size, want := range map[int]string{1: "k3 p2 k3", 2: "k5 p2 k5", 3: "k7 p4 k7"} {
		b, errs := parseBody(text, lex(text, span{0, len(text)}), size)
		require.Empty(t, errs)
		n, ok := b.width()
		require.True(t, ok)
		runs, _, errs := b.lay(scene{loops: n})
		require.Empty(t, errs)
		assert.Equal(t, want, tally(runs))
	}
	_, errs := parseBody(text, lex(text, span{0, len(text)}), 0)
	require.Len(t, errs, 3)
	assert.Equal(t, "several sizes are given and none is chosen (write the one that is worked, or choose: size 1 is 3, size 2 is 5, size 3 is 7)", errs[0].Error())
	_, errs = parseBody(text, lex(text, span{0, len(text)}), 4)
	assert.Equal(t, "there is no size 4 here, only 3", errs[0].Error())
}

// A row with pegs not in use is measured by the pegs its stitches end on.
func TestPegsNotInUseAreCountedAsPegs(t *testing.T) {
	runs, err := Expand("none 1, k2tog, k to last 3, ssk, none 2", 12)
	require.NoError(t, err)
	assert.Equal(t, "none:1 k2tog:1 k7 ssk:1 none:2", tally(runs))
	assert.Equal(t, 11, In(runs))
	assert.Equal(t, 9, Out(runs))
}

func TestACountBeforeABracketIsNotTheOneBeforeIts(t *testing.T) {
	for text, want := range map[string]string{
		"(k4), 3 x (k1, p1)":     "k5 p1 k1 p1 k1 p1",
		"(k4, p1), twice":        "k4 p1 k4 p1",
		"(k1, p1), 3 times, k4":  "k1 p1 k1 p1 k1 p1 k4",
		"2 x (k1, p1) x 1":       "",
		"(k1, p1), 2 x (k3, p1)": "k1 p1 k3 p1 k3 p1",
	} {
		runs, err := Expand(text, 10)
		if want == "" {
			assert.Error(t, err, text)
			continue
		}
		require.NoError(t, err, text)
		assert.Equal(t, want, tally(runs), text)
	}
}

// Each of these could be read past what it says, which would be silent. Source: found by
// a tester who damaged good rows.
func TestWhatChangesARowIsNeverPassedOver(t *testing.T) {
	for _, tt := range []struct {
		name, text string
		pegs       int
	}{
		{"half an instruction", "knit the knits", 2},
		{"a bracket that changes the stitch", "K3 (twisted), P3", 6},
		{"a bracket that says where the loop is taken", "K3 [in back loop], P3", 6},
		{"a bracket that says where the yarn is", "Sl 1 (with yarn in front), k5", 6},
		{"how often in a bracket", "K2 (twice), P2", 4},
		{"times in a bracket", "K2 (3 times)", 2},
		{"a stitch where a colour is named", "With yarn over, knit", 6},
		{"a purl where a colour is named", "Using purl, knit", 6},
		{"a yarn over where a colour is named", "k1 with yarn over, k5", 6},
		{"a blank lost in where the yarn is", "Sl 1 with yarn inback, k5", 6},
		{"a stitch lost before to end", "Sl1,  to end", 9},
		{"a stitch lost before to the end of row", "K4,  to end of row", 12},
		{"a stitch lost before to last", "K4, to last 2 sts, P2", 10},
		{"how often behind to end", "*K2, P2; rep from * to end (twice)", 12},
	} {
		t.Run(tt.name, func(t *testing.T) { faultsOf(t, tt.text, tt.pegs) })
	}
	for text, want := range map[string]string{
		"Sl 1 with yarn front, k5": "sl.wyif:1 k5", "sl 1 with yf, k5": "sl.wyif:1 k5", "sl 1 with yarn fwd, k5": "sl.wyif:1 k5",
		"Sl 1 with yarn held in front, k5": "sl.wyif:1 k5", "with the yarn at the back, sl 1, k5": "sl.wyib:1 k5",
		"K2, P1 (repeat to end)": "k2 p1 k2 p1",
	} {
		runs, notes, err := ReadRow(text, 6)
		require.NoError(t, err, text)
		assert.Equal(t, want, tally(runs), text)
		assert.Empty(t, notes, text)
	}
}

func TestPurlTheKnitsIsTheOppositeOfTheRowBelow(t *testing.T) {
	below := []Run{{Knit, 3}, {Purl, 1}}
	for text, want := range map[string]string{
		"P the knits and K the purls": "k1 p3", "k the p sts and p the k sts": "k1 p3", "purl the purls, knit the knits": "p1 k3",
		"K the k's & P the p's": "p1 k3", "work the sts as they appear": "p1 k3",
	} {
		b, errs := parseBody(text, lex(text, span{0, len(text)}), 0)
		require.Empty(t, errs, text)
		runs, _, errs := b.lay(scene{loops: 4, back: true, below: below})
		require.Empty(t, errs, text)
		assert.Equal(t, want, tally(runs), text)
	}
}
