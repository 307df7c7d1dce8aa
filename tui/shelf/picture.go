package shelf

import (
	"bypeg/chart"
	"bypeg/pattern"
	"bypeg/tui/track"
)

// pictureWidth is how many cells the picture of a cloth takes at most.
func (m Model) pictureWidth() int { return min(3*m.tall()+2, m.width/2) }

// hasPicture tells whether there is room for one beside the words.
func (m Model) hasPicture() bool { return m.width >= 60 }

// picture is the cloth of the one under the hand, in so many lines at most, and how wide it
// is. What is not worked yet is faint.
func (m Model) picture(most int) (lines []string, width int) {
	if !m.hasPicture() {
		return nil, 0
	}
	v := chart.View{Width: m.pictureWidth()}
	var o pattern.Order
	switch it := m.hand(); {
	case it.piece != nil && it.piece.Order.Pattern != nil:
		o = it.piece.Order
		v.At = chart.At{Active: true, Row: track.RowOf(o.Pattern, it.piece.At), Done: it.piece.At.Done}
	case it.example != nil && it.example.Order.Pattern != nil:
		o = it.example.Order
	default:
		return nil, 0
	}
	return chart.New(o, m.style.Chart()).Picture(v, most)
}
