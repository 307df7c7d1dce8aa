package save

import (
	"bytes"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// tellingMore has each record tell something that this program does not know, and
// says so in the header if headed is true.
func tellingMore(id string, data []byte, headed bool) []byte {
	var b []byte
	for line := range strings.Lines(string(data)) {
		text := strings.TrimSuffix(line, "\n")
		text = text[:len(text)-sumLen]
		switch {
		case !strings.HasPrefix(text, "#"):
			text += ` shade="moss, \"2\"" turns=7`
		case headed:
			text = strings.Replace(text, "version 1", "version 2", 1)
		}
		from := len(b)
		b = appendSum(append(b, text...), from, id)
	}
	return b
}

// newerCopy makes place.toml one of a newer version, with a key that is not known.
func (s *stand) newerCopy(t *testing.T, id string) {
	t.Helper()
	data, err := os.ReadFile(s.path(id, copyName))
	require.NoError(t, err)
	text, _, ok := bytes.Cut(data, []byte(copySum))
	require.True(t, ok)
	text = bytes.Replace(text, []byte("version = 1\n"), []byte("version = 2\nshade = \"moss\"\n"), 1)
	text = fmt.Appendf(text, "%s%08x\"\n", copySum, checksum(id, string(text)))
	require.NoError(t, os.WriteFile(s.path(id, copyName), text, 0o600))
}

// closed works like worked, and ends as a program that is left does.
func (s *stand) closed(t *testing.T, n int) (id string) {
	t.Helper()
	p, _ := s.open(t, s.worked(t, n))
	require.NoError(t, p.Close())
	return p.ID()
}

func TestWhatANewerVersionTellsMoreIsReadPast(t *testing.T) {
	for _, c := range []struct {
		name     string
		headed   bool
		lookOnly string
	}{
		{"in a journal of a newer version, which is looked at only", true, "last worked with a newer version of the program"},
		{"in a journal that says it is of this version", false, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newStand(t)
			id := s.closed(t, 5)
			s.setJournal(t, id, tellingMore(id, s.journalOf(t, id), c.headed))
			s.newerCopy(t, id)
			before := filesOf(t, s, id)
			p, o := s.open(t, id)
			assert.Equal(t, c.lookOnly, o.LookOnly)
			assert.Equal(t, at(12, 5), o.Place)
			assert.Len(t, history(o), 6)
			assert.Empty(t, o.Notices)
			assert.Nil(t, o.Question)
			assert.Equal(t, pieceTitle, p.Title())
			assert.Equal(t, patternText, string(p.Pattern()))
			all, err := List(s.env, s.root)
			require.NoError(t, err)
			assert.Equal(t, at(12, 5), all[0].Place)
			assert.Empty(t, all[0].Err)
			require.NoError(t, p.Close())
			assert.Equal(t, before, filesOf(t, s, id))
		})
	}
}

func TestASecondCopyOfANewerVersionIsNotReplaced(t *testing.T) {
	s := newStand(t)
	id := s.closed(t, 5)
	s.newerCopy(t, id)
	before := filesOf(t, s, id)[copyName]
	p, _ := s.open(t, id)
	require.NoError(t, p.Append([]Step{rowTwelve(6)}))
	require.ErrorIs(t, p.Close(), ErrCopyBehind)
	assert.Equal(t, before, filesOf(t, s, id)[copyName])
	_, o := s.open(t, id)
	assert.Equal(t, at(12, 6), o.Place)
	assert.Nil(t, o.Question)
}
