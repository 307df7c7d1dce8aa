package damage_test

import (
	"bytes"
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/tui/internal/disk"
	"bypeg/tui/save"
)

// blow is one piece of damage: what the files of the piece are after it, and what it
// can have cost.
type blow struct {
	name    string
	journal []byte // nil: there is none
	copy    []byte // nil: there is none

	// least is the number of the record that the place must come from at least: the
	// last one, where that was not hit.
	least int
	// torn tells that the last line has lost its newline. Then nobody can tell it from
	// one whose write was cut off, which was never shown as saved, so that a notice is
	// enough.
	torn bool
	// unseen tells that there is nothing left to tell by that anything is lost, for
	// lines are gone from the end; quiet that there is no damage to be seen either.
	unseen, quiet bool
	// nameless tells that nothing is left that says what the piece is. It is then
	// refused, and not begun anew.
	nameless bool
}

// count is how a lot of damage was borne.
type count struct {
	blows, kept, back, asked, refused int
}

func (c count) String() string {
	return fmt.Sprintf("%d tried: %d keep the place, %d have an earlier one, %d are asked about, %d are refused",
		c.blows, c.kept, c.back, c.asked, c.refused)
}

// strike gives the blow to the piece, opens it, goes on with it and opens it again.
func (l *life) strike(t *testing.T, b blow, sum *count) {
	t.Helper()
	sum.blows++
	d := l.disk.Clone()
	put(t, d, journal, b.journal)
	put(t, d, copyName, b.copy)
	l.list(t, b, d)
	env := envOn(d, id)
	p, o, err := save.Open(env, root, id)
	if err != nil {
		sum.refused++
		l.refused(t, b, d, err)
		return
	}
	require.Empty(t, o.LookOnly, b.name)
	l.opened(t, b, p, o)
	if o.Place == l.last().Place {
		sum.kept++
	} else {
		sum.back++
	}
	if o.Question != nil {
		sum.asked++
		l.settle(t, b, p, o.Question.Choices[0])
	}
	l.goneOnWith(t, b, d, p, o)
}

// settle answers the question with the surest place.
func (l *life) settle(t *testing.T, b blow, p *save.Piece, c save.Choice) {
	t.Helper()
	o, err := p.Settle(c)
	require.NoError(t, err, b.name)
	require.Nil(t, o.Question, b.name)
	require.Equal(t, c.Place, o.Place, b.name)
	if l.sound(b.copy) && l.numberOf(c.Place) >= widened {
		require.Equal(t, wider, string(p.Pattern()), "%s: the pattern of the place that was chosen", b.name)
	}
}

func put(t *testing.T, d *disk.Disk, name string, data []byte) {
	t.Helper()
	if data == nil {
		require.NoError(t, d.Remove(inPiece(name)))
		return
	}
	d.WriteFile(inPiece(name), data)
}

// opened holds what an opening tells against what is true.
func (l *life) opened(t *testing.T, b blow, p *save.Piece, o save.Opening) {
	t.Helper()
	number := 0 // of the last record that was found
	for r := range o.History.All() {
		if int(r.Number) <= number || !l.made(r) {
			require.Fail(t, "a history that never was", "%s: %+v after number %d", b.name, r, number)
		}
		number = int(r.Number)
	}
	if o.Question == nil || number > 0 {
		require.GreaterOrEqual(t, number, b.least, "%s: the place is record %d's", b.name, number)
		require.Equal(t, l.records[number-1].Place, o.Place, b.name)
	}
	if told := o.Question != nil || len(o.Notices) > 0; !told {
		require.True(t, b.quiet, "%s: %d of %d records are found and nothing is said", b.name, o.History.Len(), records)
	}
	if number < records && !b.unseen && !b.torn {
		require.NotNil(t, o.Question, "%s: the place is an earlier one and nobody is asked", b.name)
	}
	if b.copy != nil && !l.sound(b.copy) {
		require.NotEmpty(t, o.Notices, "%s: nothing is said of place.toml", b.name)
	}
	if o.Question != nil {
		l.asked(t, b, o.Question)
	}
	l.toldPattern(t, b, p, o)
}

// made tells whether a record found is one that was made.
func (l *life) made(r save.Record) bool {
	if r.Number > records {
		return false
	}
	want := l.records[r.Number-1]
	return want.Prev == r.Prev && sameStep(want, r)
}

// asked holds that all places offered are true ones, but for what can be made out in
// a damaged line; that one is offered for what it is.
func (l *life) asked(t *testing.T, b blow, q *save.Question) {
	t.Helper()
	require.NotEmpty(t, q.Choices, b.name)
	for _, c := range q.Choices {
		if c.Origin == save.FromDamaged {
			continue
		}
		require.NotZero(t, l.numberOf(c.Place), "%s: %v was never the place", b.name, c)
	}
	require.NotEqual(t, save.FromDamaged, q.Choices[0].Origin, "%s: it is never the surest", b.name)
}

// numberOf is the number of the record with a place, 0 where there is none.
func (l *life) numberOf(at pattern.Place) int {
	return 1 + slices.IndexFunc(l.records, func(r save.Record) bool { return r.Place == at })
}

// toldPattern holds that the pattern is the one that the piece is being made with, or
// that somebody is told that it may not be.
func (l *life) toldPattern(t *testing.T, b blow, p *save.Piece, o save.Opening) {
	t.Helper()
	switch string(p.Pattern()) {
	case wider:
	case narrower:
		require.False(t, l.sound(b.copy) && o.Question == nil, "%s: place.toml knows the pattern", b.name)
		known := slices.ContainsFunc(slices.Collect(o.History.All()), func(r save.Record) bool { return r.Number == widened })
		require.False(t, known, "%s: the pattern was changed", b.name)
		require.True(t, o.Question != nil || len(o.Notices) > 0 || b.unseen, "%s: the former pattern, and nothing is said", b.name)
	default:
		require.Fail(t, "no pattern of this piece", b.name)
	}
}

// sound tells whether it is a place.toml without damage. Both know the last pattern.
func (l *life) sound(second []byte) bool {
	return bytes.Equal(second, l.copy) || bytes.Equal(second, l.behind)
}

// goneOnWith makes one step more, leaves, and comes back.
func (l *life) goneOnWith(t *testing.T, b blow, d *disk.Disk, p *save.Piece, before save.Opening) {
	t.Helper()
	step := save.Step{Kind: save.Forward, Place: pattern.Place{Phase: pattern.Working, Row: 99, Done: 1}, Of: 26}
	require.NoError(t, p.Append([]save.Step{step}), b.name)
	require.NoError(t, p.Close(), b.name)
	if b.journal != nil {
		require.True(t, bytes.HasPrefix(read(t, d, inPiece(journal)), b.journal), "%s: the damaged bytes stay", b.name)
	}
	env := envOn(d, id)
	p, o, err := save.Open(env, root, id)
	require.NoError(t, err, b.name)
	defer p.Close()
	require.Nil(t, o.Question, b.name)
	require.Empty(t, o.LookOnly, b.name)
	require.Equal(t, step.Place, o.Place, b.name)
	history := slices.Collect(o.History.All())
	require.Equal(t, step.Place, history[len(history)-1].Place, b.name)
	for i, r := range slices.Collect(before.History.All()) { // what was made sure of has another number
		if !sameStep(r, history[i]) {
			require.Fail(t, "a step was there before", "%s: %+v", b.name, r)
		}
	}
	all, err := save.List(env, root)
	require.NoError(t, err)
	require.Equal(t, step.Place, all[0].Place, b.name)
	require.Empty(t, all[0].Err, b.name)
}

// sameStep tells whether two records tell the same. A place may be written again, under
// another number, to make sure of it.
func sameStep(r, s save.Record) bool {
	return r.Kind == s.Kind && r.Place == s.Place && r.Of == s.Of && r.Text == s.Text && r.Time.Equal(s.Time)
}

// list holds that the list of pieces invents nothing either.
func (l *life) list(t *testing.T, b blow, d *disk.Disk) {
	t.Helper()
	all, err := save.List(envOn(d, id), root)
	require.NoError(t, err)
	if len(all) == 0 { // as if it had never been begun
		require.True(t, b.nameless && b.least == 0, "%s: it is not listed", b.name)
		return
	}
	s := all[0]
	if s.Err != "" {
		require.True(t, b.nameless, "%s: %s", b.name, s.Err)
		require.Zero(t, s.Place, b.name)
		return
	}
	require.GreaterOrEqual(t, l.numberOf(s.Place), max(1, b.least), "%s: the list has %v", b.name, s.Place)
	if text, err := s.Pattern(envOn(d, id), root); l.sound(b.copy) && l.numberOf(s.Place) >= widened {
		require.NoError(t, err, b.name)
		require.Equal(t, wider, string(text), "%s: the pattern in the list", b.name)
	}
}

// refused holds that a piece is refused only where nothing says what it is, that the
// place is told all the same, and that nothing was touched.
func (l *life) refused(t *testing.T, b blow, d *disk.Disk, err error) {
	t.Helper()
	require.True(t, b.nameless, "%s: %v", b.name, err)
	if b.least > 0 {
		require.ErrorIs(t, err, save.ErrUnreadable, b.name)
		told := slices.ContainsFunc(l.records[b.least-1:], func(r save.Record) bool {
			return bytes.Contains([]byte(err.Error()), fmt.Appendf(nil, "row %d, %d of %d worked", r.Place.Row, r.Place.Done, r.Of))
		})
		require.True(t, told, "%s: %v", b.name, err)
	}
	for name, data := range map[string][]byte{journal: b.journal, copyName: b.copy} {
		if data != nil {
			require.Equal(t, data, read(t, d, inPiece(name)), b.name)
		}
	}
}
