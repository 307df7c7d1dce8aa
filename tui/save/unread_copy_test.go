package save

import (
	"bytes"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestASecondCopyThatCannotBeReadIsNotTakenForNone: the journal came back old, and the
// second copy, which alone has the place, cannot be read just then. Nothing may be
// worked that would write over it.
func TestASecondCopyThatCannotBeReadIsNotTakenForNone(t *testing.T) {
	for _, c := range []struct {
		name  string
		fault func(string, string) error
		words string
	}{
		{"too many files are open", once("open", copyName, syscall.EMFILE), "its second copy can't be read: too many files are open"},
		{"the disk reports an error", once("read", copyName, syscall.EIO), "its second copy can't be read: the disk reports an error"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newStand(t)
			p := s.begun(t)
			for i := range 3 {
				require.NoError(t, p.Append([]Step{rowTwelve(i + 1)}))
			}
			require.NoError(t, p.Close())
			s.setJournal(t, p.ID(), bytes.Join(bytes.SplitAfter(s.journalOf(t, p.ID()), []byte{'\n'})[:3], nil))
			before := filesOf(t, s, p.ID())
			s.fs.failing(c.fault)
			p, o := s.open(t, p.ID())
			assert.Equal(t, c.words, o.LookOnly)
			assert.Contains(t, o.Notices, copyUnreadNotice)
			require.ErrorIs(t, p.Append([]Step{{Kind: Forward, Place: at(5, 1), Of: 26}}), ErrLookOnly)
			require.NoError(t, p.Close())
			assert.Equal(t, before, filesOf(t, s, p.ID()))

			_, o = s.open(t, p.ID()) // it can be read again
			require.NotNil(t, o.Question)
			assert.Equal(t, at(12, 3), o.Question.Choices[0].Place)
		})
	}
}
