package mend

import (
	"fmt"

	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
)

// BindOffKind is how loops are taken off the pegs.
type BindOffKind uint8

// The kinds.
const (
	BasicBindOff    BindOffKind = iota // a flat edge, one loop over the next
	GatheredBindOff                    // a tube drawn shut on its tail
)

// String is the kind's name: "basic", "gathered".
func (k BindOffKind) String() string {
	return [...]string{"basic", "gathered"}[min(k, GatheredBindOff)]
}

// BindOffNamed finds a kind by its name.
func BindOffNamed(s string) (BindOffKind, bool) {
	for k := BasicBindOff; k <= GatheredBindOff; k++ {
		if s == k.String() {
			return k, true
		}
	}
	return 0, false
}

// Act is one move of a bind-off.
type Act uint8

// The moves.
const (
	WorkPeg     Act = iota // knit the loop on the peg
	MoveLoop               // lift it onto another peg
	LiftOver               // lift the lower loop over the upper one and off the peg
	CutTail                // cut the yarn, a tail left
	DrawThrough            // the tail through the last loop, or through the peg's loop, which stays on
	TakeOff                // lift the loop off the peg, on the tail
	PullTight              // draw the tail tight
)

// BindStep is one step of a bind-off: what is done at a column, and for MoveLoop where the
// loop goes.
type BindStep struct {
	Do      Act
	Col, To int
}

// BindOff is a bind-off peg by peg.
type BindOff struct {
	Kind  BindOffKind
	Loops int
	Steps []BindStep
	// Metres is the yarn it needs, with its tail; nothing is known of it without a gauge, and
	// for the gathered one without the loom's spacing.
	Metres fit.Range[float64]
	order  pattern.Order
}

// BindOffOf binds off the loops of the last row, from the end where the yarn hangs. Only a
// tube can be gathered: for a panel it is an error.
func BindOffOf(o pattern.Order, k BindOffKind) (*BindOff, error) {
	if k == GatheredBindOff && o.Pattern.Form != pattern.Tube {
		return nil, fmt.Errorf("only a tube can be drawn shut: bind a panel off the basic way")
	}
	b := &BindOff{Kind: k, Loops: o.Pattern.BindOffLoops(), order: o, Metres: bindOffMetres(o.Pattern, k)}
	cols := make([]int, b.Loops)
	for i := range cols {
		cols[i] = o.ColumnAt(pattern.Place{Phase: pattern.BindingOff, Done: i})
	}
	if b.Loops == 0 {
		return b, nil
	}
	if b.Steps = basic(cols); k == GatheredBindOff {
		b.Steps = gathered(cols)
	}
	return b, nil
}

// basic works two, puts the second loop on the first peg, lifts the lower over the upper and
// moves what is left back, until one loop is left.
func basic(cols []int) []BindStep {
	steps := []BindStep{{Do: WorkPeg, Col: cols[0]}}
	for i, col := range cols[1:] {
		before := cols[i]
		steps = append(steps,
			BindStep{Do: WorkPeg, Col: col}, BindStep{MoveLoop, col, before},
			BindStep{Do: LiftOver, Col: before}, BindStep{MoveLoop, before, col})
	}
	last := cols[len(cols)-1]
	return append(steps, BindStep{Do: WorkPeg, Col: last}, BindStep{Do: CutTail, Col: last},
		BindStep{Do: DrawThrough, Col: last}, BindStep{Do: PullTight, Col: last})
}

// gathered draws the tail through all loops, then takes them off it.
func gathered(cols []int) []BindStep {
	steps := []BindStep{{Do: CutTail, Col: cols[0]}}
	for _, col := range cols {
		steps = append(steps, BindStep{Do: DrawThrough, Col: col})
	}
	for _, col := range cols {
		steps = append(steps, BindStep{Do: TakeOff, Col: col})
	}
	return append(steps, BindStep{Do: PullTight, Col: cols[len(cols)-1]})
}

// roundTheLoom is how many times round the loom the tail of a gathered bind-off goes.
const roundTheLoom = 2

// bindOffMetres is the yarn of a bind-off, with its tail.
func bindOffMetres(p *pattern.Pattern, k BindOffKind) fit.Range[float64] {
	if k == GatheredBindOff {
		m := roundTheLoom * float64(p.Pegs) * p.Loom.SpacingMM / 1000
		return fit.Range[float64]{Low: m, Likely: m, High: m}
	}
	for _, n := range fit.YarnOf(p) {
		if n.BindOff.Metres.Known() {
			return n.BindOff.Metres
		}
	}
	return fit.Range[float64]{}
}

// StepsFor is how many steps of a basic bind-off are done once so many pegs are.
func StepsFor(pegs int) int {
	if pegs == 0 {
		return 0
	}
	return 1 + 4*(pegs-1)
}

// PegsBy is how many pegs are done by so many steps of a basic bind-off: what StepsFor turned
// round.
func PegsBy(steps int) int {
	if steps == 0 {
		return 0
	}
	return 1 + (steps-1)/4
}

// Lifts is how many loops are lifted over another.
func (b *BindOff) Lifts() int {
	n := 0
	for _, s := range b.Steps {
		if s.Do == LiftOver {
			n++
		}
	}
	return n
}

// LiftsBy is how many loops are lifted over another before step i.
func (b *BindOff) LiftsBy(i int) int {
	part := BindOff{Steps: b.Steps[:i]}
	return part.Lifts()
}

// Len is how many steps there are.
func (b *BindOff) Len() int { return len(b.Steps) }

// Words says one of the steps.
func (b *BindOff) Words(i int) string {
	s := b.Steps[i]
	peg := b.order.Peg(s.Col)
	switch s.Do {
	case WorkPeg:
		if b.Kind == BasicBindOff && i == len(b.Steps)-4 {
			return fmt.Sprintf("knit the last loop on peg %d once more", peg)
		}
		return fmt.Sprintf("knit peg %d", peg)
	case MoveLoop:
		return fmt.Sprintf("move the loop of peg %d onto peg %d", peg, b.order.Peg(s.To))
	case LiftOver:
		return fmt.Sprintf("on peg %d lift the lower loop over the upper one", peg)
	case CutTail:
		if b.Kind == GatheredBindOff {
			return fmt.Sprintf("wind the yarn %s round the loom, cut it there and thread a needle", times(roundTheLoom))
		}
		return fmt.Sprintf("cut the yarn, %s of it left", measure.Number(fit.Tail.In(measure.Centimetre), 0)+" cm")
	case DrawThrough:
		if b.Kind == GatheredBindOff {
			if i == 1 {
				return fmt.Sprintf("draw the tail through the loop on peg %d, the way the round runs, and leave it on", peg)
			}
			return fmt.Sprintf("draw it through the loop on peg %d, and leave that on", peg)
		}
		return fmt.Sprintf("draw the tail through the loop on peg %d and lift it off", peg)
	case TakeOff:
		return fmt.Sprintf("lift the loop off peg %d; the tail holds it", peg)
	}
	if b.Kind == GatheredBindOff {
		return "pull the tail tight a little at a time, and sew it fast inside"
	}
	return "pull the tail tight"
}

func times(n int) string {
	if n == 2 {
		return "twice"
	}
	return fmt.Sprintf("%d times", n)
}

// NeedWords say the yarn that it needs, before it starts; empty where that is not known.
func (b *BindOff) NeedWords() string {
	if !b.Metres.Known() {
		return ""
	}
	text := measure.Number(b.Metres.Likely, 1) + " m"
	if !b.Metres.Exact() {
		text = fmt.Sprintf("%s, at most %s m", text, measure.Number(b.Metres.High, 1))
	}
	return "it needs about " + text + " of yarn, the tail with it"
}
