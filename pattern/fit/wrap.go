package fit

import "bypeg/pattern"

// Yarn a stitch by the way it is wrapped, against one whose yarn is laid flat: by one
// published sample, of low confidence; a true knit is as large as a u-wrapped one (published,
// see the tests). A gauge that was measured in a wrap holds it
// already; it only serves to carry that gauge over to stitches wrapped otherwise.
var wrapYarn = [...]Range[float64]{
	pattern.WrapU:    {1.08, 1.08, 1.08},
	pattern.WrapE:    {1.4, 1.55, 1.7},
	pattern.WrapFlat: {1, 1, 1},
	pattern.WrapTrue: {1.08, 1.08, 1.08},
}

// namedWraps are the stitches that are named for their wrap.
var namedWraps = map[pattern.Stitch]pattern.Wrap{
	pattern.EWrap: pattern.WrapE, pattern.UWrap: pattern.WrapU, pattern.FlatKnit: pattern.WrapFlat, pattern.TrueKnit: pattern.WrapTrue,
}

// carried is by how much more yarn a stitch takes in a wrap than in the one that the gauge
// was measured in.
func carried(to, from pattern.Wrap) Range[float64] {
	if to == from {
		return just(1.0)
	}
	a, b := wrapYarn[to], wrapYarn[from]
	return Range[float64]{a.Low / b.High, a.Likely / b.Likely, a.High / b.Low}
}
