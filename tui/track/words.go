package track

import (
	"fmt"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/mend"
)

// Words for what the tracker knows, in plain ASCII, without colour or arrows, so that
// a screen, a printed line and a screen reader say the same.

// String says what the pegs take: "purl 3", "purl 5: 2, then border 3", "knit all 26",
// "yarn over, 2 times".
func (p Part) String() string {
	c, _, cross := p.Stitch.Cross()
	switch {
	case cross:
		return "cross " + c.String()
	case p.Stitch.LoopsIn() != 1 && p.Count == 1: // its name has a number of its own: "knit 2 together"
		return p.Stitch.String()
	case p.Stitch.LoopsIn() != 1:
		return fmt.Sprintf("%s, %d times", p.Stitch, p.Count)
	case p.Border > 0 && p.Border < p.Count:
		return fmt.Sprintf("%s %d: %d, then border %d", p.Stitch, p.Count, p.Count-p.Border, p.Border)
	case p.Whole && p.Count > 1:
		return fmt.Sprintf("%s all %d", p.Stitch, p.Count)
	}
	return fmt.Sprintf("%s %d", p.Stitch, p.Count)
}

// Pegs says where: "peg 17", "pegs 17, 16", "pegs 17 to 4".
func (p Part) Pegs() string {
	switch p.Count {
	case 1:
		return fmt.Sprintf("peg %d", p.First)
	case 2:
		return fmt.Sprintf("pegs %d, %d", p.First, p.Last)
	}
	return fmt.Sprintf("pegs %d to %d", p.First, p.Last)
}

// Say says the part with its yarn where the piece has several.
func (t *Tracker) Say(p Part) string {
	if yarn := t.SayYarn(p); yarn != "" {
		return p.String() + " in " + yarn
	}
	return p.String()
}

// SayYarn is what the yarn of a part is called; "" where the piece has but one.
func (t *Tracker) SayYarn(p Part) string {
	yarns := t.order.Pattern.Yarns
	if len(yarns) < 2 || int(p.Yarn) >= len(yarns) {
		return ""
	}
	return yarns[p.Yarn].Called()
}

// SayWarning says a warning: "border in 2 pegs: purl 3", "after this row: top border,
// 3 ridges, as the bottom border".
func (t *Tracker) SayWarning(w Warning) string {
	switch w.Kind {
	case BorderSoon:
		return fmt.Sprintf("border in %s: %s", Plural(w.In, "peg"), t.Say(w.Part))
	case BorderAtHand:
		if w.Last {
			return fmt.Sprintf("border: %s, then turn", t.Say(w.Part))
		}
		return fmt.Sprintf("border: %s, then the field", t.Say(w.Part))
	case ZoneNext:
		return "after this " + t.order.Pattern.Form.RowWord() + ": " + t.sayZone(w.Zone)
	case ZoneBegins:
		says := "from here: " + t.sayZone(w.Zone)
		if w.Row > 0 {
			says += fmt.Sprintf("; it shows from %s %d", t.rowWord(), w.Row)
		}
		return says
	case ZoneShows:
		p := t.order.Pattern
		return fmt.Sprintf("%s: this is the first %s unlike the %s", p.Zones[w.Zone].Name, t.rowWord(), p.Zones[w.Zone-1].Name)
	}
	return ""
}

func (t *Tracker) sayZone(zone int) string {
	p := t.order.Pattern
	if zone >= len(p.Zones) {
		return "bind off"
	}
	z := p.Zones[zone]
	says := []string{z.Name, Plural(z.Rows(), p.Form.RowWord())}
	if ridges := p.RidgesIn(zone); z.Border && p.HasRidges(zone) && 2*ridges == z.Rows() {
		says[1] = Plural(ridges, "ridge")
	}
	if z.Like != "" {
		says = append(says, "as the "+z.Like)
	}
	return strings.Join(says, ", ")
}

// SayCheck says what to count: "count 88 loops: 8 markers, and 8 after the last",
// "to feel at the edge: 10 ridges".
func (t *Tracker) SayCheck(c Check) string {
	if c.Ridges > 0 {
		return fmt.Sprintf("to feel at the edge: %s", Plural(c.Ridges, "ridge"))
	}
	if c.BindOff {
		says := "the bind-off takes about five widths of yarn"
		if c.Metres > 0 {
			says = fmt.Sprintf("the bind-off takes about %.1f m of yarn, its tail too", c.Metres)
		}
		switch {
		case c.Below == 0 && c.Above == 0:
			return says
		case c.Below == c.Above:
			return fmt.Sprintf("%s at both ends? %s", Plural(c.Below, "ridge"), says)
		}
		return fmt.Sprintf("%s below and %d above, as planned; %s", Plural(c.Below, "ridge"), c.Above, says)
	}
	says := "count " + Plural(c.Loops, "loop")
	if c.Markers > 0 {
		says += ": " + Plural(c.Markers, "marker")
		if c.Beyond > 0 {
			says += fmt.Sprintf(", and %d after the last", c.Beyond)
		}
	}
	return says
}

// wideCross is from how many pegs on a cross tears at tight loops. Our own choice, no source.
const wideCross = 4

// SayLoosely says that the next row crosses stitches, for which this one is worked loosely:
// tight loops do not reach over. It is "" where there is nothing to say.
func (t *Tracker) SayLoosely() string {
	next := t.at.Row + 1
	if t.at.Phase != pattern.Working || next > t.order.Pattern.Grid.Rows() {
		return ""
	}
	for _, cell := range t.order.Pattern.Grid.Row(next).Cells() {
		if c, _, crosses := cell.Stitch.Cross(); crosses && c.Width() >= wideCross {
			return fmt.Sprintf("%s %d crosses %d pegs: work this one loosely, peg by peg", t.rowWord(), next, c.Width())
		}
	}
	return ""
}

// SayWrapAhead says which pegs may be wrapped ahead; "" where there are no two.
func (t *Tracker) SayWrapAhead() string {
	if a := mend.WrapAhead(t.order, t.at); a.Count > 1 {
		return a.Words()
	}
	return ""
}

// SayTurn says what to do when a row is complete: "turn: row 18 done, yarn at the
// right, away from the tail". In a tube there are no sides to tell, and nobody turns.
func (t *Tracker) SayTurn(turn Turn) string {
	done := fmt.Sprintf("%s %d done", t.rowWord(), turn.RowDone)
	if turn.RowDone == 0 {
		done = "cast-on done"
	}
	switch {
	case t.order.Pattern.Form == pattern.Tube:
		return done + ": go straight on"
	case turn.RowDone == 0:
		return fmt.Sprintf("%s: yarn at the %s, %s", done, turn.Yarn, turn.tail())
	}
	return fmt.Sprintf("turn: %s, yarn at the %s, %s", done, turn.Yarn, turn.tail())
}

// SayTurnShort is SayTurn for a narrow screen: "turn: yarn right, away from tail".
func (t *Tracker) SayTurnShort(turn Turn) string {
	if t.order.Pattern.Form == pattern.Tube {
		return t.SayTurn(turn)
	}
	return fmt.Sprintf("turn: yarn %s, %s", turn.Yarn, strings.Replace(turn.tail(), "the ", "", 1))
}

func (turn Turn) tail() string {
	if turn.AtTail {
		return "beside the tail"
	}
	return "away from the tail"
}

// SayWhyNot says why an action leads nowhere; peg and back are what works a peg and takes
// one back.
func (t *Tracker) SayWhyNot(a Action, peg, back string) string {
	switch {
	case a == Undo:
		return "nothing to undo"
	case a == Redo:
		return "nothing to redo"
	case (a == GoLeft || a == GoRight) && t.at.Phase == pattern.Working:
		return fmt.Sprintf("%s %d runs the other way: %s works its first peg, %s goes back", t.rowWord(), t.at.Row, peg, back)
	case t.at.Phase == pattern.Finishing:
		return "the piece is finished"
	}
	return "this is where the work begins"
}

// SayPlace says where the work stands: "row 18 peg 17", "cast-on, 12 of 26", "bind-off, 3 of 26", "finished".
func SayPlace(o pattern.Order, at pattern.Place) string {
	switch at.Phase {
	case pattern.Working:
		return fmt.Sprintf("%s %d peg %d", o.Pattern.Form.RowWord(), at.Row, o.Peg(o.ColumnAt(at)))
	case pattern.Finishing:
		return "finished"
	}
	return fmt.Sprintf("%s, %d of %d", at.Phase, at.Done, o.Pattern.Of(at))
}

// Plural is a count of things: "1 peg", "2 pegs".
func Plural(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
