package save

import (
	"bytes"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const otherText = "pattern = 1\ntitle = \"Sluice Lane Mat\"\npegs = 30\n"

// changed works a piece to five stitches of row 12, the last two of them with another
// pattern text, and lays it away.
func (s *stand) changed(t *testing.T) (id string) {
	t.Helper()
	p := s.begun(t)
	for i := range 3 {
		require.NoError(t, p.Append([]Step{rowTwelve(i + 1)}))
	}
	require.NoError(t, p.ChangePattern([]byte(otherText), at(12, 3), 26, ""))
	require.NoError(t, p.Append([]Step{rowTwelve(4)}))
	require.NoError(t, p.Append([]Step{rowTwelve(5)}))
	require.NoError(t, p.Close())
	return p.ID()
}

// changeLine is the number of the line that tells of the change, the header being 0.
const changeLine = 5

func TestThePatternIsTheOneNamedLast(t *testing.T) {
	damageChange := func(t *testing.T, s *stand, id string) {
		lines := bytes.SplitAfter(s.journalOf(t, id), []byte{'\n'})
		lines[changeLine][30] ^= 1
		s.setJournal(t, id, bytes.Join(lines, nil))
	}
	oldJournal := func(t *testing.T, s *stand, id string) {
		lines := bytes.SplitAfter(s.journalOf(t, id), []byte{'\n'})
		s.setJournal(t, id, bytes.Join(lines[:changeLine-1], nil))
	}
	noCopy := func(t *testing.T, s *stand, id string) { require.NoError(t, os.Remove(s.path(id, copyName))) }
	for _, c := range []struct {
		name    string
		harm    []func(*testing.T, *stand, string)
		answer  Origin
		want    string
		notices []string
	}{
		{"by a record", nil, 0, otherText, nil},
		{
			"by the second copy, where the record is damaged",
			[]func(*testing.T, *stand, string){damageChange}, 0, otherText,
			[]string{"1 of 7 lines can't be read. Your place is not affected."},
		},
		{
			"by nothing that can be read, and a kept text hints at it",
			[]func(*testing.T, *stand, string){damageChange, noCopy}, 0, patternText,
			[]string{
				"1 of 7 lines can't be read. Your place is not affected.",
				"the pattern may have been changed in a line that can't be read: compare it with your own copy before you go on",
			},
		},
		{
			"by the answer that the old journal is right",
			[]func(*testing.T, *stand, string){oldJournal}, FromJournal, patternText, nil,
		},
		{
			"by the answer that the second copy is right",
			[]func(*testing.T, *stand, string){oldJournal}, FromCopy, otherText, nil,
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newStand(t)
			id := s.changed(t)
			for _, harm := range c.harm {
				harm(t, s, id)
			}
			p, o := s.open(t, id)
			assert.Equal(t, c.notices, o.Notices)
			if q := o.Question; q != nil {
				for _, choice := range q.Choices {
					if choice.Origin == c.answer {
						_, err := p.Settle(choice)
						require.NoError(t, err)
					}
				}
			}
			assert.Equal(t, c.want, string(p.Pattern()))
			p, o = reopened(t, s, p)
			assert.Nil(t, o.Question)
			assert.Equal(t, c.want, string(p.Pattern()))
			p.letGo()

			list, err := List(s.env, s.root)
			require.NoError(t, err)
			text, err := list[0].Pattern(s.env, s.root)
			require.NoError(t, err)
			assert.Equal(t, c.want, string(text), "the list says the same")
		})
	}
}

// TestAnAnswerNamesNoPatternThatIsNotThere: the second copy came without its pattern.
func TestAnAnswerNamesNoPatternThatIsNotThere(t *testing.T) {
	s := newStand(t)
	id := s.changed(t)
	lines := bytes.SplitAfter(s.journalOf(t, id), []byte{'\n'})
	s.setJournal(t, id, bytes.Join(lines[:changeLine-1], nil))
	require.NoError(t, os.Remove(s.path(id, patternName(patternMark([]byte(otherText))))))
	p, o := s.open(t, id)
	require.NotNil(t, o.Question)
	_, err := p.Settle(Choice{Place: at(12, 5), Of: 26})
	require.NoError(t, err)
	p, o = reopened(t, s, p)
	assert.Equal(t, at(12, 5), o.Place)
	assert.Equal(t, patternText, string(p.Pattern()))
}

func TestAKeptPatternIsPutBackByTheVeryTextOnly(t *testing.T) {
	s := newStand(t)
	id := s.changed(t)
	kept := s.path(id, patternName(patternMark([]byte(otherText))))
	put := func(text string) bool {
		restored, err := RestorePattern(s.env, s.root, id, []byte(text))
		require.NoError(t, err)
		return restored
	}
	assert.False(t, put(otherText), "it is there")
	require.NoError(t, os.WriteFile(kept, []byte("pegs"), 0o600))
	assert.False(t, put(patternText), "it is the former one")
	assert.True(t, put(otherText))
	data, err := os.ReadFile(kept)
	require.NoError(t, err)
	assert.Equal(t, otherText, string(data))
}
