package mend_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/mend"
)

func TestCountedColumnsAreReadAsPeopleWriteThem(t *testing.T) {
	v, b := mend.V, mend.Bump
	for _, c := range []struct {
		text    string
		fromTop bool
		want    mend.Looks
	}{
		{"14=vvb", false, mend.Looks{Peg: 14, Seen: []mend.Seen{v, v, b}}},
		{" 14 = V V, b ", false, mend.Looks{Peg: 14, Seen: []mend.Seen{v, v, b}}},
		{"14=vvb..", false, mend.Looks{Peg: 14, Seen: []mend.Seen{v, v, b}, Part: true}},
		{"14=vvb…", true, mend.Looks{Peg: 14, Seen: []mend.Seen{b, v, v}, Part: true, FromTop: true}},
		{"14=vvb.", false, mend.Looks{Peg: 14, Seen: []mend.Seen{v, v, b}}},
		{"3=v?b", false, mend.Looks{Peg: 3, Seen: []mend.Seen{v, mend.Unread, b}}},
	} {
		got, err := mend.ParseLooks(c.text, c.fromTop)
		require.NoError(t, err, c.text)
		assert.Equal(t, c.want, got, c.text)
	}
	for _, text := range []string{"", "14", "14=", "=vb", "0=v", "-3=v", "x=v", "14=..", "99999999999999999999=v", "14=v.b"} {
		_, err := mend.ParseLooks(text, false)
		assert.Error(t, err, text)
	}
	_, err := mend.ParseLooks("14=vbé\x1b[2Jx", false)
	assert.ErrorContains(t, err, "letter 3 of the column is no v, b or ?")
	assert.NotContains(t, err.Error(), "\x1b")
}

func TestSafeRowsAreReadAsPeopleNoteThem(t *testing.T) {
	for text, want := range map[string]mend.Safe{
		"line at row 40":               {Row: 40},
		"Lifeline after round 12":      {Row: 12},
		"40":                           {Row: 40},
		"new ball at row 22":           {Row: 22, Kind: mend.Join},
		"joined the third ball, row 9": {Row: 9, Kind: mend.Join},
	} {
		got, ok := mend.ParseSafe(text)
		assert.True(t, ok, text)
		assert.Equal(t, want, got, text)
	}
	for _, text := range []string{"", "line", "blue from row 4", "no line at row 40", "line at row 99999999", "40 line"} {
		_, ok := mend.ParseSafe(text)
		assert.False(t, ok, text)
	}
}

func FuzzParseLooks(f *testing.F) {
	for _, s := range []string{"14=vvb", "3=v ?,b…", "1=..", "=", "7=vbvbvb.."} {
		f.Add(s, true)
		f.Add(s, false)
	}
	o := garter(f, 9, 8)
	f.Fuzz(func(t *testing.T, text string, fromTop bool) {
		l, err := mend.ParseLooks(text, fromTop)
		if err != nil {
			return
		}
		if l.Peg < 1 || l.Peg > pattern.MaxPegs || len(l.Seen) == 0 || len(l.Seen) > len(text) {
			t.Fatalf("%q reads as %+v", text, l)
		}
		for rows := range o.Pattern.Grid.Rows() + 1 {
			if _, err := mend.Compare(o, placeAfterRow(o.Pattern, rows), []mend.Looks{l}); err != nil && rows > 0 && l.Peg <= 9 && len(l.Seen) <= rows+1 {
				t.Fatal(err)
			}
		}
	})
}

func FuzzParseSafe(f *testing.F) {
	for _, s := range []string{"line at row 40", "new ball at row 22", "40", "no line", "ball 3 row 4"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if s, ok := mend.ParseSafe(text); ok && (s.Row < 0 || s.Row > pattern.MaxRows) {
			t.Fatalf("%q reads as %+v", text, s)
		}
	})
}
