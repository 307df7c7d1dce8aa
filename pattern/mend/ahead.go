package mend

import "bypeg/pattern"

// Ahead is which pegs may be wrapped ahead in the row under way: a knit row of e-wraps is
// laid round them without lifting, and the purl row on the way back takes them up. Count
// stitches from the place on may; First and Last are their pegs.
type Ahead struct {
	Count       int
	First, Last int
	AtMarker    bool // they end at a marker
}

// WrapAhead says how many pegs may be wrapped ahead at a place, none where the peg in hand
// may not. A peg may where it takes an e-wrapped knit now and a purl in the next row; at a
// marker one stops, for what lies beyond may be worked another way. A tube has no way back.
func WrapAhead(o pattern.Order, at pattern.Place) Ahead {
	p := o.Pattern
	var a Ahead
	if at.Phase != pattern.Working || at.Row >= p.Grid.Rows() || p.Form == pattern.Tube {
		return a
	}
	row, next := p.Grid.Row(at.Row).Cells(), p.Grid.Row(at.Row+1).Cells()
	wrapped := p.ZoneAt(at.Row).KnitAs == pattern.WrapE
	for done := at.Done; done < p.Of(at); done++ {
		col := o.Column(at.Row, done)
		s := row[col].Stitch
		if (s != pattern.EWrap && (s != pattern.Knit || !wrapped)) || next[col].Stitch != pattern.Purl || row[col].Yarn != next[col].Yarn {
			break
		}
		if a.Count == 0 {
			a.First = o.Peg(col)
		}
		a.Count, a.Last = a.Count+1, o.Peg(col)
		if p.Marked(col) {
			a.AtMarker = true
			break
		}
	}
	return a
}

// Words say it.
func (a Ahead) Words() string {
	switch {
	case a.Count == 0:
		return "nothing can be wrapped ahead here"
	case a.AtMarker:
		return "wrap ahead " + pegs(a.First, a.Last) + " and stop at the marker; purl them on the way back"
	}
	return "wrap ahead " + pegs(a.First, a.Last) + " and no further; purl them on the way back"
}
