package plain

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/mend"
	"bypeg/tui/track"
)

// mending is what was said of mending, and the repair that is led through.
type mending struct {
	fault  mend.Fault
	ways   []mend.Repair // as said last
	at     pattern.Place // where they were said
	typed  string        // the line in hand
	warned bool          // that line, that a repair is under way
	led    *led          // nil while none is led through
	done   bool          // the line before ended one
}

// mendOn says how something is put right, or begins or goes on with it.
func (t *Talk) mendOn(text string) {
	fields := strings.Fields(strings.ToLower(text))
	if len(fields) == 0 {
		t.goOnMending()
		return
	}
	switch rest := fields[1:]; fields[0] {
	case "back":
		t.mendBack(rest)
	case "compare":
		t.compare(rest)
	case "cast", "bind", "gather":
		t.mendWhole(fields[0])
	case "pegs":
		t.sayPegs()
	case "borders":
		t.sayBorders()
	case "ahead":
		t.Say(mend.WrapAhead(t.piece.Tracker.Order(), t.piece.Tracker.Place()).Words())
	default:
		t.mendNumbers(fields)
	}
}

// mendNumbers takes a peg and a row, or the number of a way.
func (t *Talk) mendNumbers(fields []string) {
	switch n, ok := numbersIn(fields); {
	case ok && len(n) == 2:
		t.sayRepairs(n[0], n[1])
	case ok && len(n) == 1 && len(fields) == 1:
		t.chooseRepair(n[0])
	default:
		t.sayHowToMend()
	}
}

// linking are words that may stand around the numbers.
var linking = []string{"peg", "from", "row", "round", "to", "the", "start", "of", "on"}

// numbersIn are the numbers among words that link them; false where another word is there.
func numbersIn(fields []string) (numbers []int, ok bool) {
	for _, f := range fields {
		if slices.Contains(linking, f) {
			continue
		}
		n, err := strconv.Atoi(f)
		if err != nil {
			return nil, false
		}
		numbers = append(numbers, n)
	}
	return numbers, true
}

// goOnMending goes on with the repair under way, finishes a piece off the loom, or says how
// to mend.
func (t *Talk) goOnMending() {
	switch now := t.underWay(); {
	case now != nil:
		t.goOn(*now)
	case t.piece.Tracker.Place().Phase == pattern.Finishing:
		t.begin(track.Mending{What: track.Finish})
	default:
		t.sayHowToMend()
	}
}

// mendWhole leads through the cast-on or the bind-off.
func (t *Talk) mendWhole(word string) {
	tr := t.piece.Tracker
	what := map[string]track.Repair{"cast": track.CastOn, "bind": track.BindOff, "gather": track.Gather}[word]
	t.begin(track.LedThrough(what, tr.Order(), tr.Place()))
}

// sayHowToMend says what can be typed behind mend where the work stands.
func (t *Talk) sayHowToMend() {
	word, at := t.rowWord(), t.piece.Tracker.Place()
	switch at.Phase {
	case pattern.CastingOn:
		t.Say("mend cast on: the cast-on step by step")
		return
	case pattern.BindingOff:
		t.Say("mend bind off: the bind-off step by step")
		if t.piece.Tracker.Order().Pattern.Form == pattern.Tube && at.Done == 0 {
			t.Say("mend gather: draw the tube shut, step by step")
		}
	}
	t.Say(
		fmt.Sprintf("mend 6 from 31: the ways to put peg 6 right from %s 31 on", word),
		fmt.Sprintf("mend back to 31: take %ss back to the start of %[1]s 31", word),
		"mend compare 6 vvbv: what peg 6 shows from the front, the newest first, v for a V, b for a bump, beside the pattern",
		fmt.Sprintf("mend pegs: which pegs of this %s take what; mend ahead: which may be wrapped ahead; mend borders: the top border beside the bottom one", word),
	)
}

// sayRepairs says the ways to put a peg right, from a row on.
func (t *Talk) sayRepairs(peg, row int) {
	tr := t.piece.Tracker
	o, at := tr.Order(), tr.Place()
	if peg < 1 || peg > o.Pattern.Pegs {
		t.Say(track.WhichPegs(o))
		return
	}
	col := o.ColumnOfPeg(peg)
	if newest := mend.Top(o, at, col); row < 1 || row > newest {
		says := fmt.Sprintf("on peg %d ", peg) + track.WhichWorked(o, newest)
		if newest > 0 {
			says += fmt.Sprintf(": type one of them, like mend %d from %d", peg, newest)
		}
		t.Say(says)
		return
	}
	f := mend.Fault{Cols: []int{col}, Row: row}
	t.mending.fault, t.mending.at, t.mending.ways = f, at, mend.Repairs(o, at, f, t.piece.SafeRows())
	t.Say(fmt.Sprintf("ways to put peg %d right from %s %d on, those that serve best first:", peg, t.rowWord(), row))
	for i, way := range t.mending.ways {
		t.Say(fmt.Sprintf("%d: %s", i+1, way.Words(o.Pattern)))
	}
	t.Say("mend and a number begins it")
}

// chooseRepair begins one of the ways that were said, by its number.
func (t *Talk) chooseRepair(n int) {
	m := &t.mending
	if len(m.ways) == 0 || m.at != t.piece.Tracker.Place() { // they may cost otherwise by now
		t.Say(fmt.Sprintf("say first what went wrong: mend 6 from 31 is peg 6 from %s 31 on", t.rowWord()))
		return
	}
	if n < 1 || n > len(m.ways) {
		t.Say(fmt.Sprintf("there are ways 1 to %d", len(m.ways)))
		return
	}
	way := m.ways[n-1]
	r, onLoom := track.MendingBy(way, m.fault)
	switch {
	case way.Refused != "":
		t.Say(way.Refused)
	case !onLoom:
		t.Say("nothing on the loom changes by that: the work goes on")
	default:
		t.begin(r)
	}
}

// mendBack takes whole rows back to the start of one.
func (t *Talk) mendBack(fields []string) {
	o := t.piece.Tracker.Order()
	newest := track.Newest(o, t.piece.Tracker.Place())
	n, ok := numbersIn(fields)
	switch {
	case !ok || len(n) != 1:
		t.Say(fmt.Sprintf("back to which %s? mend back to 31 takes %[1]ss back to the start of %[1]s 31", t.rowWord()))
	case newest > 0 && (n[0] < 1 || n[0] > newest):
		t.Say(fmt.Sprintf("%s: mend back to %d takes the newest back", track.WhichWorked(o, newest), newest))
	case newest == 0:
		t.Say(track.WhichWorked(o, newest))
	default:
		t.begin(track.BackTo(n[0]))
	}
}

// compare lays columns as they were counted beside the pattern's: "6 vvbv", or several.
func (t *Talk) compare(fields []string) {
	o := t.piece.Tracker.Order()
	looks, ok := columnsIn(fields)
	if !ok {
		t.Say(sayCompare)
		return
	}
	c, err := mend.Compare(o, t.piece.Tracker.Place(), looks)
	if err != nil {
		t.Say(err.Error())
		return
	}
	t.Say(c.Lines(o)...)
	f, mendable := c.Mendable()
	for _, col := range f.Cols {
		t.Say(fmt.Sprintf("mend %d from %d says how to put it right", o.Peg(col), f.Row))
	}
	if !mendable && (len(c.Fits) == 0 || c.Fits[0].Slip != mend.Nothing) {
		t.sayNextPeg(fields, looks)
	}
}

// longestAgain is how many letters of what was typed are said again at most.
const longestAgain = 40

// sayNextPeg says the line that lays the next peg beside those counted.
func (t *Talk) sayNextPeg(fields []string, looks []mend.Looks) {
	counted := func(peg int) bool {
		return slices.ContainsFunc(looks, func(l mend.Looks) bool { return l.Peg == peg })
	}
	pegs, last := t.piece.Tracker.Order().Pattern.Pegs, looks[len(looks)-1].Peg
	next := last%pegs + 1 // the last peg's next is the first
	for ; counted(next); next = next%pegs + 1 {
		if next == last {
			return
		}
	}
	typed := strings.Join(fields, " ")
	if len(typed) > longestAgain {
		t.Say(fmt.Sprintf("peg %d too: the same line with %[1]d and what peg %[1]d shows behind it", next))
		return
	}
	t.Say(fmt.Sprintf("peg %d too: mend compare %s %[1]d and what peg %[1]d shows", next, typed))
}

const sayCompare = "say the peg and what its column shows from the front, the newest first: mend compare 6 vvbv; v is a V, b a bump, ? what can't be told, .. behind it where you stopped; up before it counts from the cast-on"

// columnsIn are the columns among words: a number begins the next. It is false where there is
// none, or one can't be read.
func columnsIn(fields []string) (all []mend.Looks, ok bool) {
	var columns []string
	for _, f := range strings.Fields(strings.ReplaceAll(strings.Join(fields, " "), "=", " ")) {
		_, err := strconv.Atoi(f)
		switch {
		case f == "peg":
		case err == nil:
			columns = append(columns, f+"=")
		case len(columns) == 0:
			return nil, false
		default:
			columns[len(columns)-1] += f
		}
	}
	for _, text := range columns {
		number, column, _ := strings.Cut(text, "=")
		peg, _ := strconv.Atoi(number) // it was one above
		l, err := mend.ParseColumn(peg, column)
		if err != nil {
			return nil, false
		}
		all = append(all, l)
	}
	return all, len(all) > 0
}

// sayPegs says what the row in hand takes on which pegs: who finds too few of them left lays
// the loom beside that.
func (t *Talk) sayPegs() {
	at := t.piece.Tracker.Place()
	if at.Phase != pattern.Working {
		t.Say("no " + t.rowWord() + " is in hand")
		return
	}
	t.Say(track.SayPegs(t.piece.Tracker.Order(), at.Row)...)
}

func (t *Talk) sayBorders() {
	b, ok := mend.BordersAt(t.piece.Tracker.Order(), t.piece.Tracker.Place())
	if !ok {
		t.Say(mend.ErrNoBorders.Error())
		return
	}
	t.Say(b.Lines()...)
}
