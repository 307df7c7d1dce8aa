package fit

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// 90 cm at 16 in 10 cm are 144 pegs; of 8 plus 3 between borders of 4 a panel has 19 or 27
// pegs, and on a loom of 24 only 19. Each seam takes 2: common practice, no source.
func TestPanelsAreOfCountsThatCanBeKnitted(t *testing.T) {
	w := CountWish{Size: 90 * cm, Per10: 16, Multiples: []Multiple{{8, 3}}, Ends: 8, Limit: 24}
	c, err := CountsFor(w)
	require.NoError(t, err)
	assert.Equal(t, 147, c.Wide.N)
	panels, each := w.Panels(c.Wide.N)
	assert.Equal(t, []int{9, 19, 155}, []int{panels, each, Sewn(panels, each)})

	cloth := exampleTexts(t)["sluice-cloth"] // 6 and borders of 3 and 3: 18, 24
	r := mustResize(t, cloth, asked(func(w *Wish) { w.Loom.Pegs, w.Width = 24, 90*cm }))
	assert.Equal(t, []string{"the wish takes 126 pegs and the loom has 24: 8 panels of 18 pegs, with as many rows each, are 130 pegs wide once they are sewn, 93 cm" +
		" (each seam takes an edge peg of both)"}, r.Notes)
	r = mustResize(t, cloth, asked(func(w *Wish) { w.Loom.Pegs = 5 }))
	assert.Equal(t, []string{"the loom has 5 pegs and the design takes 18 at the least: it can't be worked on it, not even in panels"}, r.Notes)
}
