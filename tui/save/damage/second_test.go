package damage_test

import (
	"bytes"
	"fmt"
	"iter"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/disk"
	"bypeg/tui/internal/figures"
	"bypeg/tui/save"
)

// damagedSeconds gives place.toml damaged in every way: every bit, every length, every
// line.
func (l *life) damagedSeconds() iter.Seq2[string, []byte] {
	return func(yield func(string, []byte) bool) {
		for bit := 0; bit < 8*len(l.copy); bit += every() {
			data := bytes.Clone(l.copy)
			data[bit/8] ^= 1 << (bit % 8)
			if !yield(fmt.Sprintf("bit %d of byte %d", bit%8, bit/8), data) {
				return
			}
		}
		for n := 0; n < len(l.copy); n += every() {
			if !yield(fmt.Sprintf("cut after %d bytes", n), l.copy[:n]) {
				return
			}
		}
		others := bytes.SplitAfter(l.behind, []byte("\n"))
		for _, k := range kinds(others) {
			for i := range bytes.Count(l.copy, []byte("\n")) {
				lines := bytes.SplitAfter(l.copy, []byte("\n"))
				data := bytes.Join(k.damage(lines[:len(lines)-1], i), nil)
				if bytes.Equal(data, l.copy) {
					continue // the line is alike in both
				}
				if !yield(fmt.Sprintf("line %d %s", i, k.name), data) {
					return
				}
			}
		}
	}
}

// TestADamagedSecondCopyCostsNothing: the journal is sound, and so is the place.
func TestADamagedSecondCopyCostsNothing(t *testing.T) {
	l := newLife(t)
	var sum count
	for name, data := range l.damagedSeconds() {
		b := blow{name: name, journal: l.journal, copy: data, least: records}
		l.strike(t, b, &sum)
	}
	figures.Say(t, "%v", sum)
	assert.GreaterOrEqual(t, sum.blows, 3_000/every())
	assert.Equal(t, count{blows: sum.blows, kept: sum.blows}, sum)
}

// TestADamagedSecondCopyAloneIsRefused: there is no journal any more, so that nothing
// vouches for any place. Nothing is begun in its stead, and nothing is touched.
func TestADamagedSecondCopyAloneIsRefused(t *testing.T) {
	l := newLife(t)
	blows := 0
	for name, data := range l.damagedSeconds() {
		blows++
		d := l.without(t, data)
		_, _, err := save.Open(envOn(d, id), root, id)
		require.ErrorIs(t, err, save.ErrUnreadable, name)
		require.Equal(t, data, read(t, d, inPiece(copyName)), name)
		all, err := save.List(envOn(d, id), root)
		require.NoError(t, err)
		require.Len(t, all, 1, name)
		require.NotEmpty(t, all[0].Err, name)
		require.Zero(t, all[0].Place, name)
	}
	figures.Say(t, "%d tried: all are refused", blows)
	assert.GreaterOrEqual(t, blows, 3_000/every())
}

// TestASoundSecondCopyAloneIsAskedAbout: it has the place, and may be an old one.
func TestASoundSecondCopyAloneIsAskedAbout(t *testing.T) {
	l := newLife(t)
	for _, s := range l.seconds()[:2] {
		t.Run(s.name, func(t *testing.T) {
			d := l.without(t, s.copy)
			p, o, err := save.Open(envOn(d, id), root, id)
			require.NoError(t, err)
			require.NotNil(t, o.Question)
			require.Len(t, o.Question.Choices, 1)
			c := o.Question.Choices[0]
			assert.Equal(t, save.FromCopy, c.Origin)
			assert.Equal(t, l.records[s.at-1].Place, c.Place)
			assert.Equal(t, wider, string(p.Pattern()))
			_, err = p.Settle(c)
			require.NoError(t, err)
			l.goneOnWith(t, blow{name: s.name, copy: s.copy}, d, p, o)
		})
	}
}

// without is the disk with a place.toml and no journal.
func (l *life) without(t *testing.T, second []byte) *disk.Disk {
	t.Helper()
	d := l.disk.Clone()
	put(t, d, journal, nil)
	put(t, d, copyName, second)
	return d
}
