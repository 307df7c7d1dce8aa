package save

import (
	"bytes"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// TestRecordsRunTogetherAreAllFound glues any records together, with any junk between
// them.
func TestRecordsRunTogetherAreAllFound(t *testing.T) {
	junk := rapid.OneOf(
		rapid.SampledFrom([]string{
			"", "9", "90210", "9 9 ", "# ", " sum=01234567", "x sum=0123", " 2026-01-02T19:05:40Z ",
			"7 6 2026-01-02T19:05:40+01:00 step", "\x00\x00", "12345678901234567890",
		}),
		rapid.Map(rapid.SliceOfN(rapid.Byte(), 0, 40), func(b []byte) string { return string(b) }),
	)
	rapid.Check(t, func(t *rapid.T) {
		var line []byte
		var want, got []string
		for _, r := range rapid.SliceOfN(genRecord(), 0, 6).Draw(t, "records") {
			line = append(line, junk.Draw(t, "junk")...)
			from := len(line)
			line = r.appendLine(line, "k7q2")
			want = append(want, string(line[from:]))
			line = line[:len(line)-1]
		}
		line = append(line, junk.Draw(t, "junk at the end")...)
		for _, r := range salvage(string(line), "k7q2") {
			got = append(got, string(r.appendLine(nil, "k7q2")))
		}
		require.Equal(t, want, got)
		require.Empty(t, salvage(string(line), "k7q3"), "none is another piece's")
	})
}

// TestARecordAsLongAsOneCanBeIsFoundFarFromItsBeginning has records of every length
// up to the longest, among junk that is longer still.
func TestARecordAsLongAsOneCanBeIsFoundFarFromItsBeginning(t *testing.T) {
	var line []byte
	var want []uint64
	for n := uint64(1); n < 60; n++ {
		r := Record{Number: n, Prev: n - 1, Time: begin, Kind: Noted, Place: at(1, 1), Of: 2}
		r.Text = strings.Repeat("8 7 2026-01-02T19:05:40Z sum=00000000", int(n)*maxStretch/(40*60))
		line = bytes.TrimSuffix(r.appendLine(line, "k7q2"), []byte("\n"))
		line = append(line, strings.Repeat("6 5 2026-01-02T19:05:40Z ", 5_000)...)
		want = append(want, n)
	}
	var got []uint64
	for _, r := range salvage(string(line), "k7q2") {
		got = append(got, r.Number)
	}
	assert.Equal(t, want, got)
}

// TestMuchDamageIsReadSoon appends four megabytes to a journal, of kinds that once took
// the square of their length. The limit is lax for slow machines and for the race
// detector.
func TestMuchDamageIsReadSoon(t *testing.T) {
	const size = 4 << 20
	var rows strings.Builder
	for n := 1; rows.Len() < size; n++ {
		fmt.Fprintf(&rows, "row=%d done=%d\n", n%maxRow+1, n%7)
	}
	fill := func(s string) string { return strings.Repeat(s, size/len(s)) }
	for _, c := range []struct{ name, damage string }{
		{"times and sums", fill(" 2026-01-01T00:00:00Z sum=00000000")},
		{"sums", fill(" sum=00000000")},
		{"beginnings of records", fill("12345678901234567890 1 2026-01-01T00:00:00Z ")},
		{"beginnings and sums", fill("98765432109876543210 1 2026-01-01T00:00:00Z step phase=rows sum=00000000")},
		{"digits", fill("1")},
		{"spaces", fill(" ")},
		{"empty lines", fill("\n")},
		{"short lines", fill("x\n")},
		{"lines that may be places", rows.String()},
	} {
		for _, end := range []string{"", "\n"} {
			t.Run(fmt.Sprintf("%s, %q", c.name, end), func(t *testing.T) {
				s := newStand(t)
				id := s.worked(t, 3)
				s.setJournal(t, id, slices.Concat(s.journalOf(t, id), []byte(c.damage+end)))
				began := time.Now()
				p, o := s.open(t, id)
				p.letGo()
				opened := time.Since(began)
				all, err := List(s.env, s.root)
				require.NoError(t, err)
				t.Logf("opened in %v, listed in %v", opened, time.Since(began)-opened)
				assert.Less(t, time.Since(began), 10*time.Second)
				assert.Equal(t, at(12, 3), o.Place)
				assert.Equal(t, at(12, 3), all[0].Place)
				if o.Question != nil {
					assert.LessOrEqual(t, len(o.Question.Choices), maxGuesses+1, "nobody would read more")
				}
			})
		}
	}
}

func TestALongLineOfRecordsIsReadSoonUnderAnotherName(t *testing.T) {
	const events = 20_000
	s := newStand(t)
	id := s.worked(t, 3)
	data := s.journalOf(t, id)
	for n := uint64(5); n <= events; n++ {
		data = Record{Number: n, Prev: n - 1, Time: begin, Kind: Forward, Place: at(int(n)/100+1, int(n)%100), Of: 100}.appendLine(data, id)
	}
	s.setJournal(t, id, bytes.ReplaceAll(data, []byte("\n"), nil))
	require.NoError(t, os.Rename(s.path(id, ""), s.path("kept-aside", "")))
	began := time.Now()
	_, o := s.open(t, "kept-aside")
	t.Logf("opened in %v", time.Since(began))
	assert.Less(t, time.Since(began), 10*time.Second)
	assert.Len(t, history(o), events)
}

func TestTheLikeliestNameOfAPieceIsTriedFirst(t *testing.T) {
	of := func(id string) []byte { return []byte(header(id)) }
	for _, c := range []struct {
		name  string
		files [][]byte
		want  []string
	}{
		{"there is no file", nil, []string{"k7q2"}},
		{"the folder's name", [][]byte{of("k7q2"), of("k7q2")}, []string{"k7q2"}},
		{"all files have another one", [][]byte{of("k7q3"), of("k7q3"), nil}, []string{"k7q3", "k7q2"}},
		{"one file strayed in", [][]byte{of("k7q3"), of("k7q2")}, []string{"k7q2", "k7q3"}},
		{"one file strayed in and the other is damaged", [][]byte{of("k7q3"), []byte("noise\n")}, []string{"k7q2", "k7q3"}},
		{"all files strayed in, the segments being last", [][]byte{of("k7q3"), of("k7q4")}, []string{"k7q2", "k7q4", "k7q3"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.want, seedsOf("k7q2", c.files))
		})
	}
}
