package file

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/BurntSushi/toml"
	"github.com/stretchr/testify/require"
)

// bigChart is a drawn file of 2 million cells in which no two rows are equal: 1,000
// pegs, 2,000 rows.
func bigChart() string {
	const pegs, rows = 1000, 2000
	var b strings.Builder
	b.WriteString("pattern = 1\npegs = 1000\n[[zone]]\nname = 'picture'\nchart = '''\n")
	seed := uint32(1)
	for range rows {
		for col := 0; col < pegs; {
			seed = seed*1664525 + 1013904223
			run := min(1+int(seed>>28), pegs-col) // 1 to 16 pegs, as in a picture
			b.WriteString(strings.Repeat("|-"[seed>>27&1:][:1], run))
			col += run
		}
		b.WriteByte('\n')
	}
	b.WriteString("'''\n")
	return b.String()
}

// timed is how long the work takes.
func timed(work func()) time.Duration {
	start := time.Now()
	work()
	return time.Since(start)
}

// The law: all that is done beside decoding takes no longer than decoding. The two
// are timed in turn, so that what disturbs the machine disturbs both, and the fastest
// of each is taken, which is the least disturbed.
func TestABigChartLoadsInTwiceTheTimeOfDecodingAlone(t *testing.T) {
	if raceEnabled {
		t.Skip("the race detector slows the two unequally")
	}
	const most = 2.0
	text := bigChart()
	best := math.Inf(1)
	for range 5 { // other tests run beside this one: what counts is the round they left alone
		decode, load := time.Duration(math.MaxInt64), time.Duration(math.MaxInt64)
		for range 5 {
			decode = min(decode, timed(func() {
				var values map[string]any
				_, err := toml.Decode(text, &values)
				require.NoError(t, err)
			}))
			load = min(load, timed(func() {
				p, _ := Load("f.toml", []byte(text))
				require.Equal(t, 2000, p.Grid.Kept())
			}))
		}
		best = min(best, float64(load)/float64(decode))
		t.Logf("decoding %v, loading %v; the best ratio so far %.2f", decode.Round(time.Millisecond), load.Round(time.Millisecond), best)
		if best <= most {
			break
		}
	}
	require.LessOrEqual(t, best, most)
}

func BenchmarkDecodeBigChart(b *testing.B) {
	text := bigChart()
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		var values map[string]any
		if _, err := toml.Decode(text, &values); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkLoadBigChart(b *testing.B) {
	text := []byte(bigChart())
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		if p, _ := Load("f.toml", text); p == nil {
			b.Fatal("no pattern")
		}
	}
}
