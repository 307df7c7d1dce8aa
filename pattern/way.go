package pattern

// Side is a side of the fabric as seen from its right side, and of the loom.
type Side uint8

// The two sides.
const (
	Left Side = iota
	Right
)

// String is "left" or "right".
func (s Side) String() string {
	if s == Right {
		return "right"
	}
	return "left"
}

// Opposite is the other side.
func (s Side) Opposite() Side { return s ^ 1 }

// Direction is the way a row runs, told by the side it runs to.
type Direction uint8

// The two directions.
const (
	ToLeft  Direction = iota // right to left
	ToRight                  // left to right
)

// String is "right to left" or "left to right".
func (d Direction) String() string {
	if d == ToRight {
		return "left to right"
	}
	return "right to left"
}

// Opposite is the other way.
func (d Direction) Opposite() Direction { return d ^ 1 }

// From is the side where a row of this direction starts.
func (d Direction) From() Side {
	if d == ToRight {
		return Left
	}
	return Right
}

// To is the side where a row of this direction ends.
func (d Direction) To() Side { return d.From().Opposite() }

// Hand is the hand a maker works with. It sets the defaults of a Way and nothing
// else.
type Hand uint8

// The two hands.
const (
	RightHand Hand = iota
	LeftHand
)

// String is "right" or "left".
func (h Hand) String() string {
	if h == LeftHand {
		return "left"
	}
	return "right"
}

// Way holds the two facts that fix every direction of a piece: the side of peg 1,
// and the way row 1 runs. Makers differ in both, so both are settings.
type Way struct {
	Peg1 Side
	Row1 Direction
}

// DefaultWay is the usual way of a hand: peg 1 at the right and row 1 right to left
// for the right hand (as charts are read), both mirrored for the left.
func DefaultWay(h Hand) Way {
	if h == LeftHand {
		return Way{Peg1: Left, Row1: ToRight}
	}
	return Way{Peg1: Right, Row1: ToLeft}
}

// Mirrored is the same way for the other hand.
func (w Way) Mirrored() Way {
	return Way{Peg1: w.Peg1.Opposite(), Row1: w.Row1.Opposite()}
}

// Form is whether a piece is worked flat or in the round.
type Form uint8

// The two forms.
const (
	Panel Form = iota // rows, back and forth
	Tube              // rounds, always the same way
)

// String is "panel" or "tube".
func (f Form) String() string {
	if f == Tube {
		return "tube"
	}
	return "panel"
}

// RowWord is what one course is called: "row" for a panel, "round" for a tube.
func (f Form) RowWord() string {
	if f == Tube {
		return "round"
	}
	return "row"
}

// Direction is the way the given row runs. Row 1 is the first after the cast-on.
func (f Form) Direction(w Way, row int) Direction {
	if f == Panel && row%2 == 0 {
		return w.Row1.Opposite()
	}
	return w.Row1
}
