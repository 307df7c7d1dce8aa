package track

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestARepairIsReadAsItIsKept(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := Mending{What: Repair(rapid.IntRange(0, int(Gather)).Draw(t, "what")), Step: rapid.IntRange(0, 9999).Draw(t, "step")}
		if m.What <= TakeBack {
			m.Row = rapid.IntRange(0, 100_000).Draw(t, "row")
		}
		if m.What == LetDown {
			m.Col = rapid.IntRange(0, 4000).Draw(t, "col")
		}
		read, ok := ParseMending(m.String())
		assert.True(t, ok)
		assert.Equal(t, m, read)
	})
	for _, text := range []string{"", "column", "column 1 from row 2, step 3, and more", "back to row x, step 1", "column 01 from row 2, step 3"} {
		_, ok := ParseMending(text)
		assert.False(t, ok, text)
	}
}
