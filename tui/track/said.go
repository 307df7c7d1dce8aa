package track

import (
	"fmt"
	"strings"

	"bypeg/pattern"
)

// Words for whoever hears the work instead of seeing it: what was done, how far it is,
// what a row looks like.

// String is the part of a line behind its label: "knit 2, pegs 17, 16; 9 of 26 worked".
func (t Told) String() string {
	says := t.What
	if t.Pegs != "" {
		says += ", " + t.Pegs
	}
	if t.Remark != "" {
		says += "; " + t.Remark
	}
	return says
}

// sayMost is how many stretches of a row are told one by one when they are done.
const sayMost = 4

// SayWorked says what was worked from one place to a later one of the same row, or to
// its end where the later one lies in another: "row 18, purl 2, pegs 15, 14",
// "cast on 3, pegs 12 to 10", "row 18, pegs 26 to 1" where there is much to tell.
func SayWorked(o pattern.Order, from, to pattern.Place) string {
	t := Tracker{order: o, at: from}
	end := o.Pattern.Of(from)
	if to.Phase == from.Phase && to.Row == from.Row {
		end = to.Done
	}
	last := from
	last.Done = end - 1
	all := Part{Count: end - from.Done, First: o.Peg(o.ColumnAt(from)), Last: o.Peg(o.ColumnAt(last))}
	switch from.Phase {
	case pattern.CastingOn:
		return fmt.Sprintf("cast on %d, %s", all.Count, all.Pegs())
	case pattern.BindingOff:
		return fmt.Sprintf("bind off %d, %s", all.Count, all.Pegs())
	}
	row := fmt.Sprintf("%s %d, ", t.rowWord(), from.Row)
	var parts []string
	for done := from.Done; done < end; {
		run := o.RunAt(from.Row, done)
		run.To = min(run.To, end)
		if len(parts) == sayMost {
			return row + all.Pegs()
		}
		p := t.part(run, done)
		parts = append(parts, t.Say(p)+", "+p.Pegs())
		done = run.To
	}
	return row + strings.Join(parts, "; ")
}

// SayRow says a whole row in the order of work: "row 18, right to left: purl 3, knit 20,
// purl 3". Stretches that come again side by side are told once: "knit 3; 5 times knit 2,
// purl 2; knit 3".
func SayRow(o pattern.Order, row int) string {
	t := Tracker{order: o, at: pattern.Place{Phase: pattern.Working, Row: row}}
	var parts []string
	for run := range o.Runs(row) {
		p := t.part(run, run.From)
		p.Border = 0
		parts = append(parts, t.Say(p))
	}
	return fmt.Sprintf("%s %d, %s: %s", t.rowWord(), row, t.Direction(), fold(parts))
}

// longestFold is how many stretches may come again together.
const longestFold = 4

// fold tells what comes again side by side once, and how often. Three parts or more must
// be saved by it: else it is easier to hear them all.
func fold(parts []string) string {
	var says, single []string
	flush := func() {
		if len(single) > 0 {
			says = append(says, strings.Join(single, ", "))
		}
		single = nil
	}
	for i := 0; i < len(parts); {
		period, times := repeatAt(parts[i:])
		if period*(times-1) < 3 {
			single = append(single, parts[i])
			i++
			continue
		}
		flush()
		says = append(says, fmt.Sprintf("%d times %s", times, strings.Join(parts[i:i+period], ", ")))
		i += period * times
	}
	flush()
	return strings.Join(says, "; ")
}

// repeatAt is the repeat at the beginning of parts that covers most of them.
func repeatAt(parts []string) (period, times int) {
	period, times = 1, 1
	for p := 1; p <= min(longestFold, len(parts)/2); p++ {
		n := p
		for n < len(parts) && parts[n] == parts[n-p] {
			n++
		}
		if n/p > 1 && n/p*p > period*times {
			period, times = p, n/p
		}
	}
	return period, times
}

// SayProgress says how far the work is: "row 18 of 49: field, row 12 of 36; 8 ridges;
// 35%".
func (t *Tracker) SayProgress() string {
	p := t.order.Pattern
	var says []string
	switch z, in, ok := t.InZone(); {
	case ok:
		says = append(says, fmt.Sprintf("%s %d of %d: %s, %s %d of %d",
			t.rowWord(), t.at.Row, p.Grid.Rows(), z.Name, t.rowWord(), in.Done, in.Of))
	case t.at.Phase == pattern.Finishing:
		says = append(says, "finished")
	default:
		c := t.InRow()
		says = append(says, fmt.Sprintf("%s, %d of %d loops", t.at.Phase, c.Done, c.Of))
	}
	if r := t.Ridges(); r.Of > 0 && t.at.Phase != pattern.CastingOn {
		says = append(says, Plural(r.Done, "ridge"))
	}
	return strings.Join(append(says, fmt.Sprintf("%d%%", t.Progress().Percent())), "; ")
}

// SayTime says a while of so many seconds as exactly as a guess can be: "4 min",
// "25 min", "1 h 20".
func SayTime(seconds float64) string {
	minutes := int(seconds/60 + 0.999)
	switch {
	case minutes < 10:
		return fmt.Sprintf("%d min", max(1, minutes))
	case minutes < 58:
		return fmt.Sprintf("%d min", (minutes+2)/5*5)
	case minutes < 10*60:
		minutes = (minutes + 5) / 10 * 10
		if minutes%60 == 0 {
			return fmt.Sprintf("%d h", minutes/60)
		}
		return fmt.Sprintf("%d h %d", minutes/60, minutes%60)
	}
	return fmt.Sprintf("%d h", (minutes+30)/60)
}
