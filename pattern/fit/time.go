package fit

import "bypeg/pattern"

// StitchesOf is how many stitches a pattern has, and how many loops are cast on and bound
// off beside them.
func StitchesOf(p *pattern.Pattern) (stitches, loops int) {
	return p.StitchesBefore(p.Grid.Rows() + 1), p.CastOnLoops() + p.BindOffLoops()
}

// Hours is how long a pattern takes at so many stitches a minute, the cast-on and bind-off
// at the pace of stitches; 0 at no pace.
func Hours(p *pattern.Pattern, perMinute float64) float64 {
	if perMinute <= 0 {
		return 0
	}
	stitches, loops := StitchesOf(p)
	return float64(stitches+loops) / perMinute / 60
}
