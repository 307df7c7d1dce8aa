package rowtext

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// readable are the stitches that Expand reads: one loop for one, and the peg not in
// use.
var readable = []Stitch{
	NoStitch, Knit, Purl, Slip, SlipBack, SlipFront, EWrap,
	UWrap, FlatKnit, TrueKnit, KnitTBL, PurlTBL,
}

func TestEveryStitchOfOneLoopForOneIsReadable(t *testing.T) {
	for _, s := range Stitches() {
		if s.In() == 1 && s.Out() == 1 {
			require.Contains(t, readable, s)
		}
	}
}

func TestPrintThenExpandIsTheIdentity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var runs []Run
		for range rapid.IntRange(1, 30).Draw(t, "runs") {
			runs = push(runs, Run{rapid.SampledFrom(readable).Draw(t, "stitch"), rapid.IntRange(1, 130).Draw(t, "count")})
		}
		got, err := Expand(Print(runs), sum(runs))
		require.NoError(t, err)
		require.Equal(t, runs, got)
	})
}

// rowMaker writes a random row together with its cells, worked out plainly.
type rowMaker struct{ t *rapid.T }

func (m rowMaker) stitch() (text, cells string) {
	n := rapid.IntRange(1, 5).Draw(m.t, "count")
	letter := rapid.SampledFrom([]string{"k", "p"}).Draw(m.t, "letter")
	forms := []string{"%s%d", "%s %d", "%s %d sts"}
	text = fmt.Sprintf(rapid.SampledFrom(forms).Draw(m.t, "form"), letter, n)
	return text, strings.Repeat(letter, n)
}

// list is one to three parts, brackets among them while depth is left.
func (m rowMaker) list(depth int) (text, cells string) {
	var texts []string
	for range rapid.IntRange(1, 3).Draw(m.t, "parts") {
		part, worked := m.stitch()
		if depth > 0 && rapid.Bool().Draw(m.t, "bracket") {
			inner, once := m.list(depth - 1)
			n := rapid.IntRange(1, 3).Draw(m.t, "times")
			part, worked = fmt.Sprintf("(%s) %d times", inner, n), strings.Repeat(once, n)
		}
		texts, cells = append(texts, part), cells+worked
	}
	return strings.Join(texts, rapid.SampledFrom([]string{", ", " ", "; ", ". "}).Draw(m.t, "break")), cells
}

// row is a row with at most one open part.
func (m rowMaker) row() (text, cells string) {
	front, frontCells := m.list(2)
	tail, tailCells := m.list(1)
	open := rapid.IntRange(0, 4).Draw(m.t, "open")
	turns := rapid.IntRange(1, 4).Draw(m.t, "turns")
	unit, unitCells := m.list(2)
	switch open {
	case 0:
		return front + ", " + tail, frontCells + tailCells
	case 1:
		return fmt.Sprintf("%s, p to last %d, %s", front, len(tailCells), tail), frontCells + strings.Repeat("p", turns) + tailCells
	case 2:
		return front + ", k to end", frontCells + strings.Repeat("k", turns)
	case 3:
		return fmt.Sprintf("%s, *%s; rep from *, %s", front, unit, tail), frontCells + strings.Repeat(unitCells, turns) + tailCells
	}
	return fmt.Sprintf("%s, *%s; rep from * to last %d sts, %s", front, unit, len(tailCells), tail),
		frontCells + strings.Repeat(unitCells, turns) + tailCells
}

// cellsOf writes runs out cell by cell.
func cellsOf(runs []Run) string {
	var b strings.Builder
	for _, r := range runs {
		b.WriteString(strings.Repeat(r.Stitch.Name(), r.Count))
	}
	return b.String()
}

func TestExpandAgreesWithRowsWorkedOutPlainly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text, cells := rowMaker{t}.row()
		if len(cells) > maxPegs {
			return
		}
		runs, err := Expand(text, len(cells))
		require.NoError(t, err, text)
		require.Equal(t, cells, cellsOf(runs), text)
	})
}

func TestOneMorePegIsNeverSilentlyFilled(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text, cells := rowMaker{t}.list(2)
		_, err := Expand(text+", k1", len(cells)+2)
		require.Error(t, err, text)
	})
}

func TestWidthsComputedAreWidthsExpanded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text, _ := rowMaker{t}.list(3)
		b, errs := parseBody(text, lex(text, span{0, len(text)}), 0)
		require.Empty(t, errs)
		for _, n := range b.parts {
			require.Equal(t, width(n, byLoops), sum(expand(nil, n, 1)), text)
		}
	})
}

// absurd are rows whose counts would take for ever if they were expanded.
var absurd = []string{
	"(K1, P1) 999999999 times",
	"((((((((k1, p1) 4000 times) 4000 times) 4000 times) 4000 times) 4000 times) 4000 times) 4000 times) 4000 times",
	"*((k1, p1) 4000 times) 4000 times; rep from * to end",
	"k to last 99999999999999999999999999, p1",
	"k18446744073709551676", // 2 to the power 64, and 60
	"*((((((k1) 2048 times) 2048 times) 2048 times) 2048 times) 2048 times) 2048 times; rep from * to end", // 2 to the power 66
	strings.Repeat("(", 60000),
	strings.Repeat("(k)4000x", 6000),
	strings.Repeat("*", 60000),
}

func TestWidthsStopGrowing(t *testing.T) {
	long := strings.Repeat("k4000, ", 300)
	b, errs := parseBody(long, lex(long, span{0, len(long)}), 0)
	require.Empty(t, errs)
	require.Equal(t, tooWide, widthOf(b.parts, byLoops))
	require.Equal(t, tooWide, times(tooWide, maxPegs))
	require.Equal(t, tooWide-1, times(tooWide-1, 1))
	require.Zero(t, times(0, maxPegs))
}

func TestAbsurdCountsDieUnexpanded(t *testing.T) {
	for _, text := range absurd {
		allocs := testing.AllocsPerRun(1, func() {
			_, err := Expand(text, 60)
			require.Error(t, err)
		})
		require.Less(t, allocs, float64(len(text)+200), text[:min(len(text), 40)])
	}
}

// nodes is how many nodes a tree has.
func nodes(parts []node) int {
	n := len(parts)
	for _, p := range parts {
		switch p := p.(type) {
		case *group:
			n += nodes(p.parts)
		case *star:
			n += nodes(p.parts)
		}
	}
	return n
}

// unused is how many pegs not in use runs name.
func unused(runs []Run) int {
	n := 0
	for _, r := range runs {
		if r.Stitch == NoStitch {
			n += r.Count
		}
	}
	return n
}

// maxWork is how many tokens the parser may look at for each byte of a row.
const maxWork = 40

func FuzzExpand(f *testing.F) {
	for _, text := range append(absurd[:4:4],
		"P4, (K6, P2) x 5, K6, P4", "*k3, p2; rep from * to last 3, k3", "k to last 3 sts, [p1 k1] x 2", "sl1 wyif, k-2, p1.5",
		"*k1* twice, no stitch ★ … \\* × −3 {k} until you reach the last st") {
		f.Add(text, 60)
	}
	f.Fuzz(func(t *testing.T, text string, pegs int) {
		start := time.Now()
		runs, err := Expand(text, pegs)
		require.Less(t, time.Since(start), time.Second, "work is bounded by text and pegs")
		head := text[:min(len(text), maxText)]
		b, _ := parseBody(head, lex(head, span{0, len(head)}), 0)
		require.LessOrEqual(t, nodes(b.parts), len(text), "a node stands for at least one byte")
		require.LessOrEqual(t, b.work, maxWork*(len(text)+1)+maxPegs, "the tokens looked at are bounded by the text, a unit shown before dots by the pegs")
		if err != nil {
			all := err.(Errors)
			require.NotEmpty(t, all)
			require.LessOrEqual(t, len(all), maxErrors)
			for _, e := range all {
				require.True(t, 0 <= e.Start && e.Start <= e.End && e.End <= len(text), "%d to %d of %d", e.Start, e.End, len(text))
				require.True(t, e.Start < e.End || text == "", "an error has a width: %v", e)
				require.NotEmpty(t, e.Msg)
				require.Less(t, len(e.Error()), 250)
			}
			return
		}
		require.Equal(t, pegs, In(runs)+unused(runs))
		for i, r := range runs {
			require.Positive(t, r.Count)
			require.True(t, i == 0 || runs[i-1].Stitch != r.Stitch, "equal neighbours are merged")
		}
		again, err := Expand(Print(runs), pegs)
		require.NoError(t, err)
		require.Equal(t, runs, again)
	})
}

// typical are rows as patterns for mats and cloths have them.
var typical = []string{
	"k", "p", "k3, p to last 3, k3", "*k2, p2; rep from * to end", "p4, *k3, p1; rep from * to last 4 sts, p4",
	"k5, (p2, k3) 10 times, k5", "sl1, k to last st, p1", "k10, p5, k15, p15, k5, p10",
}

func BenchmarkExpand(b *testing.B) {
	b.ReportAllocs()
	for i := range b.N {
		if _, err := Expand(typical[i%len(typical)], 60); err != nil {
			b.Fatal(err)
		}
	}
}
