package save

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
)

// What a piece measures is told by the list and by an opening, from whichever of the two
// files is left; what was put down last counts, and the time is when it was worked.
func TestWhatAPieceMeasuresIsKept(t *testing.T) {
	for _, c := range []struct {
		name string
		lost []string
	}{{"both files", nil}, {"the second copy is gone", []string{copyName}}, {"the journal is gone", []string{"journal-0001.txt"}}} {
		t.Run(c.name, func(t *testing.T) {
			s := newStand(t)
			p := s.begun(t)
			done := Step{Kind: Forward, Place: pattern.Place{Phase: pattern.Finishing}}
			require.NoError(t, p.Append([]Step{done}))
			require.NoError(t, p.Close())
			worked := one(t, s)
			assert.Empty(t, worked.Made)

			require.NoError(t, Measure(s.env, s.root, p.ID(), "21 x 30 cm"))
			require.NoError(t, Measure(s.env, s.root, p.ID(), "21.5 x 30 cm, \x1b[2J62 g"))
			require.NoError(t, Rename(s.env, s.root, p.ID(), "Weir Mat"), "the second copy is written anew")
			for _, name := range c.lost {
				require.NoError(t, os.Remove(s.path(p.ID(), name)))
			}
			now := one(t, s)
			assert.Equal(t, "21.5 x 30 cm, [2J62 g", now.Made)
			assert.True(t, worked.Time.Equal(now.Time), "nothing was worked")
			assert.Equal(t, worked.Place, now.Place)

			if len(c.lost) > 0 && c.lost[0] != copyName {
				return // the maker is asked for the place first
			}
			require.NoError(t, Measure(s.env, s.root, p.ID(), ""))
			assert.Empty(t, one(t, s).Made)
		})
	}
}

// one is the only piece there is.
func one(t *testing.T, s *stand) Summary {
	t.Helper()
	all, err := List(s.env, s.root)
	require.NoError(t, err)
	require.Len(t, all, 1)
	require.Empty(t, all[0].Err)
	return all[0]
}
