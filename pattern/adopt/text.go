package adopt

import (
	"errors"

	"bypeg/pattern"
	"bypeg/pattern/rowtext"
)

// mostEdge is how many edge stitches are tried where pegs are asked for in another form than
// the text's, and mostTried how long a text may be for that.
const (
	mostEdge  = 24
	mostTried = 64 << 10
)

// Text makes a pattern of a text of written rows. An error is a rowtext.Errors with places
// in the text, a *AskSide, or one that concerns the rows as a whole.
func Text(text string, o Options) (*Adopted, error) {
	a, err := readAndMake(text, o, o.Pegs)
	if o.Pegs == 0 || o.Want == AsWritten || err == nil && a.Pattern.Pegs == o.Pegs {
		return a, err
	}
	if err == nil {
		err = refusal(0, len(text), "leave --pegs out, and see how many it comes to", "the rows do not come to %d pegs as a %s", o.Pegs, formOf(o.Want))
	}
	var several rowtext.Errors
	if !errors.As(err, &several) || len(text) > mostTried {
		return nil, err
	}
	// The rows are in another form than the one asked for, and there have other pegs.
	for edge := 1; edge <= mostEdge; edge++ {
		for _, pegs := range []int{o.Pegs + edge, o.Pegs - edge} {
			other, err := readAndMake(text, o, pegs)
			if err != nil {
				continue
			}
			if other.Pattern.Pegs != o.Pegs { // now it is known how many they differ by
				other, err = readAndMake(text, o, pegs+o.Pegs-other.Pattern.Pegs)
			}
			if err == nil && other.Pattern.Pegs == o.Pegs {
				return other, nil
			}
			edge = mostEdge
		}
	}
	return nil, err
}

func formOf(w Wanted) pattern.Form {
	if w == WantTube {
		return pattern.Tube
	}
	return pattern.Panel
}

// readAndMake reads a text on so many pegs, 0 its own, and makes a pattern of it.
func readAndMake(text string, o Options, pegs int) (*Adopted, error) {
	if o.Pegs > 0 && pegs < 1 {
		return nil, refusal(0, len(text), "", "no pegs are left for the rows")
	}
	ro := rowtext.Options{Pegs: pegs, Needles: o.From == Needles, WrongSide: o.Side == WrongSide, Size: o.Size}
	if o.From == Round {
		ro.Form = pattern.Tube
	}
	r, c, err := readAll(text, ro)
	if err != nil {
		return nil, err
	}
	a, err := Of(text, r, o)
	if err != nil {
		return nil, err
	}
	if len(c.parts) > 1 && len(a.Changes) > 0 {
		return nil, refusal(0, len(text), "leave --form out, or write the rows without parts", "the parts are those of a %s, and another form would move their pegs", r.Form)
	}
	c.tell(a)
	return a, nil
}

// readAll reads a text, be it one of rows alone or one of parts side by side.
func readAll(text string, o rowtext.Options) (*rowtext.Reading, course, error) {
	rest, l := cutLength(text)
	if heads := findHeads(rest); len(heads) > 0 {
		return readParts(rest, heads, l, o)
	}
	r, err := rowtext.Read(rest, o)
	if err != nil {
		return nil, course{}, amid(err, rest, l)
	}
	if err := behindAll(rest, 0, r, l, o); err != nil {
		return nil, course{}, err
	}
	return goOn(r, l, o)
}

// moved is errors of a part of a text, with places in the whole.
func moved(err error, by int) error {
	var several rowtext.Errors
	if !errors.As(err, &several) {
		return err
	}
	all := make(rowtext.Errors, len(several))
	for i, e := range several {
		at := *e
		at.Start, at.End = at.Start+by, at.End+by
		all[i] = &at
	}
	return all
}
