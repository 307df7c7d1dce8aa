package rowtext

import (
	"math/rand"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// told is a step, or a phrase of how often or how far, in a row in letters.
var told = regexp.MustCompile(`[a-z0-9/]*[a-z][a-z0-9]*( wyi[bf]| tbl)?( to (end|last \d+))?`)

// partsOf is how many steps and phrases are told.
func partsOf(text string) int {
	text = strings.ReplaceAll(text, "rep from * to", "rep to")
	return len(told.FindAllString(text, -1))
}

func TestNoRowHasMorePartsThanItsPlainList(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		runs := drawRuns(t, []Stitch{Knit, Purl, Slip, KnitTwo, YarnOver})
		require.LessOrEqual(t, partsOf(Shortest(runs)), partsOf(Print(runs)), Print(runs))
	})
	require.Equal(t, 6, partsOf("p3, *k4, p2; rep from * to last 7, k4, p3"))
	require.Equal(t, 5, partsOf("sl1 wyif, (k2tog, yo) 3 times, k to last 2"))
}

// plainCost is what a row in parts costs, the inside of a bracket or a repeat at its plain
// length.
func plainCost(parts []part) int {
	cost := 0
	for _, p := range parts {
		inside := costPart * len(slowRuns(p.parts))
		switch p.kind {
		case partBracket:
			cost += inside + costTimes
		case partStar:
			cost += inside + costRep
		default:
			cost += costPart
		}
	}
	return cost
}

// slowRuns writes parts out, brackets turn by turn.
func slowRuns(parts []part) []Run {
	var runs []Run
	for _, p := range parts {
		if p.kind == partStep {
			runs = append(runs, p.run)
		}
		for range p.times {
			runs = append(runs, slowRuns(p.parts)...)
		}
	}
	return runs
}

// slowCheapest tries every list with brackets.
func slowCheapest(runs []Run) int {
	if len(runs) == 0 {
		return 0
	}
	best := costPart + slowCheapest(runs[1:])
	for q := 2; 2*q <= len(runs); q++ {
		for n := 2; n*q <= len(runs) && slices.Equal(runs[:q], runs[(n-1)*q:n*q]); n++ {
			best = min(best, costPart*q+costTimes+slowCheapest(runs[n*q:]))
		}
	}
	return best
}

// slowStarred tries every repeat that is not cut out of a run.
func slowStarred(runs []Run) int {
	best := 1 << 30
	for from := range runs {
		for q := 2; from+2*q <= len(runs); q++ {
			unit := runs[from : from+q]
			for n := 2; from+n*q <= len(runs) && slices.Equal(unit, runs[from+(n-1)*q:from+n*q]); n++ {
				tail := runs[from+n*q:]
				if In(unit) == 0 || 2*n*In(unit) < In(runs) || len(tail) > 0 && In(tail) == 0 {
					continue
				}
				best = min(best, slowCheapest(runs[:from])+costPart*q+costRep+slowCheapest(tail))
			}
		}
	}
	return best
}

func TestTheShortestIsAsShortAsEveryShapeTried(t *testing.T) {
	stars, brackets := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		runs := drawRuns(t, []Stitch{Knit, Purl, YarnOver})
		if len(runs) > 16 || mainRun(runs, In(runs)) >= 0 {
			return
		}
		got := shorten(runs)
		list := slowCheapest(runs)
		require.Equal(t, list, newShortener(runs).head[len(runs)].cost, Print(runs))
		i := slices.IndexFunc(got, func(p part) bool { return p.kind == partStar })
		best := min(list, slowStarred(runs))
		switch {
		case i < 0:
			require.Equal(t, best, plainCost(got), Print(runs))
			brackets++
		case len(got[i].parts) > 0:
			// A cut repeat pays for the cut beside its parts.
			require.LessOrEqual(t, plainCost(got), best, Print(runs))
			stars++
		}
	})
	require.Positive(t, stars)
	require.Positive(t, brackets)
}

// slowRepeats are the longest pieces of each period, found by looking at all of them.
func slowRepeats(x []int, lack int) []stretch {
	var all []stretch
	for q := 2; q < len(x); q++ {
		for from := 0; from+q < len(x); from++ {
			to := from
			for to+q < len(x) && x[to] == x[to+q] {
				to++
			}
			if to-from >= max(1, q-lack) && (from == 0 || x[from-1] != x[from-1+q]) {
				all = append(all, stretch{from, to + q, q})
			}
		}
	}
	return all
}

func TestRepeatsAreFoundAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.SliceOfN(rapid.IntRange(0, 2), 0, 24).Draw(t, "x")
		cut := rapid.Bool().Draw(t, "cut")
		lack := map[bool]int{true: 1}[cut]
		found, all := repeats(x, cut), slowRepeats(x, lack)
		for _, s := range found {
			require.Contains(t, all, s)
		}
		for _, s := range all {
			covered := slices.ContainsFunc(append(found, slowOnes(x)...), func(f stretch) bool {
				return s.period%f.period == 0 && f.from <= s.from && s.to <= f.to
			})
			require.True(t, covered, "%v of %v", s, x)
		}
	})
}

// slowOnes are the pieces of equal elements.
func slowOnes(x []int) []stretch {
	var all []stretch
	for from := 0; from < len(x); {
		to := from
		for to < len(x) && x[to] == x[from] {
			to++
		}
		all = append(all, stretch{from, to, 1})
		from = to
	}
	return all
}

// hard are rows that could take long to shorten.
func hard(n int) map[string][]Run {
	r := rand.New(rand.NewSource(1))
	rows := map[string][]Run{}
	for i := range n {
		k := Stitch(Knit + Stitch(i%2))
		add := func(name string, count int) { rows[name] = append(rows[name], Run{k, count}) }
		add("random", 1+r.Intn(9))
		add("random, of two", 1+r.Intn(2))
		add("of one period", 1)
		add("halves", 1+(i%(n/2))*(i%(n/2))%97)
		add("powers", 1+trailing(i+1))
		add("nearly of one period", 1+boolInt(r.Intn(100) == 0))
	}
	fib := []int{1}
	for a, b := []int{1}, []int{1, 2}; len(fib) < n; a, b = b, append(slices.Clone(b), a...) {
		fib = b
	}
	for i := range n {
		rows["golden"] = append(rows["golden"], Run{Knit + Stitch(i%2), fib[i]})
	}
	return rows
}

func boolInt(b bool) int {
	if b {
		return 1
	}
	return 0
}

func trailing(i int) int {
	n := 0
	for ; i%2 == 0; i /= 2 {
		n++
	}
	return n
}

func TestHardRowsTakeBoundedWork(t *testing.T) {
	for name, runs := range hard(4000) {
		f := finder[Run]{x: runs, least: 1, covers: make([]stretch, len(runs))}
		for q := 1; 2*q-1 <= len(runs); q++ {
			f.period(q)
		}
		require.Less(t, f.steps, 1_000_000, name)
		start := time.Now()
		text := Shortest(runs)
		t.Log(name, f.steps, "steps", len(f.found), "stretches", time.Since(start), len(text), "bytes")
		require.Equal(t, runs, slowRow(t, text, In(runs)), name)
	}
}

func BenchmarkShortest(b *testing.B) {
	typical := map[string][]Run{
		"repeat": plainRuns(b, "p3 k4 p2 k4 p2 k4 p2 k4 p2 k4 p2 k4 p2 k4 p2 k4 p2 k4 p3"),
		"edges":  plainRuns(b, "k3 p54 k3"),
		"rib":    slices.Repeat(plainRuns(b, "k1 p1"), 30),
		"random": hard(60)["random, of two"][:40],
	}
	for name, runs := range typical {
		b.Run("60 pegs, "+name, func(b *testing.B) {
			b.ReportAllocs()
			for range b.N {
				Shortest(runs)
			}
		})
	}
	for name, runs := range hard(4000) {
		b.Run("4000 runs, "+name, func(b *testing.B) {
			b.ReportAllocs()
			for range b.N {
				Shortest(runs)
			}
		})
	}
}
