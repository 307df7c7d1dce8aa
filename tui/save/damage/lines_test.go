package damage_test

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/figures"
	"bypeg/tui/save"
)

// kind is a way to damage the i-th of some lines, which all have their newline.
type kind struct {
	name   string
	damage func(lines [][]byte, i int) [][]byte
	// keeps tells that nothing of what the line said is lost.
	keeps bool
	// torn tells that the last line, so damaged, lacks its newline; unseen that it is
	// gone without a trace.
	torn, unseen bool
}

// kinds are the ways to damage a line; others are the lines of another piece.
func kinds(others [][]byte) []kind {
	as := func(with func(line []byte, i int) []byte) func([][]byte, int) [][]byte {
		return func(lines [][]byte, i int) [][]byte {
			lines[i] = with(lines[i], i)
			return lines
		}
	}
	chance := rand.New(rand.NewPCG(11, 26))
	return []kind{
		{"deleted", func(lines [][]byte, i int) [][]byte { return slices.Delete(lines, i, i+1) }, false, false, true},
		{"doubled", func(lines [][]byte, i int) [][]byte { return slices.Insert(lines, i, lines[i]) }, true, false, false},
		{"changed with the one before it", func(lines [][]byte, i int) [][]byte {
			if i > 0 {
				lines[i-1], lines[i] = lines[i], lines[i-1]
			}
			return lines
		}, true, false, false},
		{"moved to the end", func(lines [][]byte, i int) [][]byte {
			line := lines[i]
			return append(slices.Delete(lines, i, i+1), line)
		}, true, false, false},
		{"blanked with zeros", as(func(line []byte, _ int) []byte {
			return append(make([]byte, len(line)-1), '\n')
		}), false, false, false},
		{"blanked with zeros, its newline too", as(func(line []byte, _ int) []byte {
			return make([]byte, len(line))
		}), false, true, false},
		{"half lost with its newline", as(func(line []byte, _ int) []byte {
			return line[:len(line)/2]
		}), false, true, false},
		{"replaced by that of another piece", as(func(_ []byte, i int) []byte {
			return others[i]
		}), false, false, false},
		{"written over by the bytes of another piece", as(func(line []byte, i int) []byte {
			other := others[i][:len(others[i])/2]
			return append(bytes.Clone(other), line[min(len(other), len(line)-1):]...)
		}), false, false, false},
		{"replaced by noise", as(func(line []byte, _ int) []byte {
			noise := make([]byte, len(line))
			for i := range noise {
				noise[i] = byte(chance.UintN(256))
			}
			noise[len(noise)-1] = '\n'
			return noise
		}), false, false, false},
	}
}

func TestEveryLineOfAJournalDamagedInEveryWay(t *testing.T) {
	l := newLife(t)
	others := bytes.SplitAfter(l.foreign, []byte("\n"))
	for _, k := range kinds(others) {
		t.Run(k.name, func(t *testing.T) {
			var sum count
			for _, s := range l.seconds() {
				for i := 0; i <= records; i++ {
					b := blow{
						name:     fmt.Sprintf("line %d %s, %s", i, k.name, s.name),
						journal:  bytes.Join(k.damage(l.lines(), i), nil),
						copy:     s.copy,
						least:    leastAfter(i),
						nameless: i == 1 && s.copy == nil,
					}
					if i == records {
						b.torn, b.unseen = k.torn, k.unseen && s.at < records
						b.quiet = b.unseen
					}
					if k.keeps {
						b.least, b.nameless, b.quiet = records, false, true
						l.costsNothing(t, b)
					}
					l.strike(t, b, &sum)
				}
			}
			figures.Say(t, "%v", sum)
			assert.Equal(t, 3*(records+1), sum.blows)
			if k.keeps {
				assert.Equal(t, count{blows: sum.blows, kept: sum.blows}, sum)
			}
		})
	}
}

// costsNothing holds that a line which is there, whether in its place or more than
// once, is read as ever, without a word.
func (l *life) costsNothing(t *testing.T, b blow) {
	t.Helper()
	d := l.disk.Clone()
	put(t, d, journal, b.journal)
	put(t, d, copyName, b.copy)
	p, o, err := save.Open(envOn(d, id), root, id)
	require.NoError(t, err, b.name)
	defer p.Close()
	require.Equal(t, records, o.History.Len(), b.name)
	require.Nil(t, o.Question, b.name)
	require.Empty(t, o.Notices, b.name)
}
