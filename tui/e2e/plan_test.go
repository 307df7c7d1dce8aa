//go:build unix

package e2e_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/term"
)

// The yarn runs short half-way: the maker weighs what is left, ends the field where it
// says, is killed in the middle of it, and goes on with the new plan, asked nothing.
func TestAPieceIsPlannedAnewWhereTheYarnRunsShort(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	l := cloth(t, home)
	l.toRow(18)
	l.waitAt(18, 0)
	l.Keys(t, "f")
	l.WaitText(t, "how to go on")
	l.Keys(t, "y")
	l.WaitText(t, "how much yarn is left")
	l.Keys(t, "14 g"+term.Enter)
	l.WaitText(t, "14 g: after row 30, 13 rows from here")
	l.waitSays("▸ as far as the yarn reaches")
	l.Keys(t, term.Enter)
	l.WaitText(t, "again keeps this plan")
	l.Keys(t, term.Enter)
	l.WaitText(t, "on purpose: planned anew: 37 rows, the top border from row 31")
	l.waitAt(18, 0)
	assert.Contains(t, l.Text(), "row 18 of 37")
	l.steps(3)
	l.waitAt(18, 3)
	l.Kill()
	l.Wait(t)

	l = cloth(t, home)
	l.waitAt(18, 3)
	text := l.Text()
	assert.Contains(t, text, "row 18 of 37")
	assert.NotContains(t, text, "has changed")
	p := pieceOf(t, home)
	require.Contains(t, p.read(firstJournal), `text="planned anew: 37 rows`)
	for row := 19; row <= 31; row++ {
		l.Keys(t, term.Up)
		l.waitAt(row, 0)
	}
	l.WaitText(t, "top border")
	l.leaves("Sluice Cloth: row 31 peg 1, saved")
}
