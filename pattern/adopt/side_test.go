package adopt_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"bypeg/pattern"
	"bypeg/pattern/adopt"
)

// What a header says counts wherever its instructions stand, and for its own rows alone.
func TestAHeaderSpeaksForItsOwnRows(t *testing.T) {
	a := must(t, adopt.Options{}, "Cast on 4", "Row 1 (left to right):", "k1, p3", "Row 2: k")
	assert.Equal(t, pattern.ToRight, a.Pattern.Way.Row1)
	assert.Equal(t, "kppp", seen(a, 1))

	needles := adopt.Options{From: adopt.Needles}
	a = must(t, needles, "Cast on 6", "Rows 2 and 4 (WS): p6. Row 1: k6. Row 3: k3, p3")
	assert.Equal(t, "k6", worked(a, 2), "a wrong-side row of purls is plain")
	assert.Equal(t, "k3, p3", worked(a, 3))

	needles.Side = adopt.RightSide
	msg, at := refused(t, needles, "Cast on 4", "Row 1 (WS):", "k1, p3", "Row 2:", "k")
	assert.Contains(t, msg, "the text makes row 1 a wrong-side row, not a right-side one")
	assert.Contains(t, at, "Row 1 (WS):")
}

func TestATextsFirstLineIsItsTitle(t *testing.T) {
	assert.Equal(t, "Lock Cloth", must(t, adopt.Options{}, "Lock Cloth.", "Cast on 12", "Row 1: k").Title)
	assert.Empty(t, must(t, adopt.Options{}, "Cast on 12", "Row 1: k").Title)
	assert.Empty(t, must(t, adopt.Options{}, "k12", "p12").Title)
}
