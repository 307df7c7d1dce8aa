package damage_test

import (
	"bytes"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"bypeg/tui/internal/figures"
)

// second is a state in which place.toml can be beside the journal.
type second struct {
	name string
	copy []byte // nil: none
	at   int    // the record it has, 0 without one
}

func (l *life) seconds() []second {
	return []second{
		{"place.toml up to date", l.copy, records},
		{"place.toml behind", l.behind, widened},
		{"no place.toml", nil, 0},
	}
}

// every is one in how many of the blows is tried.
func every() int {
	if testing.Short() || raceEnabled {
		return 11 // which comes round to every bit of a byte
	}
	return 1
}

func TestEveryBitOfAJournalFlipped(t *testing.T) {
	l := newLife(t)
	for i, s := range l.seconds() {
		step := every()
		if i > 0 {
			step *= 7 // as does this
		}
		t.Run(s.name, func(t *testing.T) {
			t.Parallel()
			var sum count
			for bit := 0; bit < 8*len(l.journal); bit += step {
				data := bytes.Clone(l.journal)
				data[bit/8] ^= 1 << (bit % 8)
				line := bytes.Count(l.journal[:bit/8], []byte("\n"))
				l.strike(t, blow{
					name:     fmt.Sprintf("bit %d of byte %d, in line %d", bit%8, bit/8, line),
					journal:  data,
					copy:     s.copy,
					least:    leastAfter(line),
					torn:     bit/8 == len(l.journal)-1,
					nameless: line == 1 && s.copy == nil,
				}, &sum)
			}
			figures.Say(t, "%v", sum)
			assert.GreaterOrEqual(t, sum.blows, 28_000/step)
		})
	}
}

// leastAfter is the record that the place must come from at least when a line is hit.
func leastAfter(line int) int {
	if line == records {
		return records - 1
	}
	return records
}

func TestAJournalCutAtEveryLength(t *testing.T) {
	l := newLife(t)
	for _, s := range l.seconds() {
		t.Run(s.name, func(t *testing.T) {
			var sum count
			for n := 0; n < len(l.journal); n += every() {
				whole := bytes.Count(l.journal[:n+1], []byte("\n")) // the newline alone may be missing
				b := blow{
					name:    fmt.Sprintf("cut after %d bytes", n),
					journal: l.journal[:n],
					copy:    s.copy,
					least:   max(0, whole-1), // the header is no record
				}
				b.unseen = s.at <= b.least
				b.quiet = b.unseen && (n == 0 || l.journal[n-1] == '\n' || l.journal[n] == '\n')
				b.nameless = s.copy == nil && b.least == 0
				l.strike(t, b, &sum)
			}
			figures.Say(t, "%v", sum)
			assert.GreaterOrEqual(t, sum.blows, 2_500/every())
		})
	}
}
