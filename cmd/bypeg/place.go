package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"bypeg/pattern"
	"bypeg/pattern/find"
	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
	"bypeg/pattern/safetext"
	"bypeg/tui"
	"bypeg/tui/track"
)

// placing is what place was told. Evidence is kept as written until the pattern is known.
type placing struct {
	one   map[find.Kind]*string // what is said once
	many  map[find.Kind]*[]string
	noted int
	json  bool
	given func(flag string) bool

	bare        []string // pegs that lost their loops
	at, reached int      // where the others are
}

func newPlace(p *program) *cobra.Command {
	ask := placing{one: map[find.Kind]*string{}, many: map[find.Kind]*[]string{}}
	c := &cobra.Command{
		Use:   "place FILE",
		Short: "find the place in a piece from what its fabric shows",
		Long: `place says which rows a piece can be at, the likeliest first, from what you see and
count in the fabric, and asks what tells most next. A row is the one to work next
or under way. Where you have a piece of the pattern on the loom, rows near its place
are the likeliest.

Look from the front unless the question says otherwise: a V is a knit, a bump a purl,
the newest stitch is just under the peg. The cast-on edge is not a ridge.

Where loops have come off their pegs, find the place by the pegs that kept theirs;
--bare then says how far each of the others has run down, and what to hook up.`,
		Example: `  bypeg place sluice-cloth
  bypeg place sluice-cloth --ridges 8 --last purl --yarn right
  bypeg place sluice-cloth --noted 31 --from-peg 17 --peg 12=vvb
  bypeg place sluice-cloth --at 32 --bare 12=vvb --bare 13=bvv`,
		Args: oneFile("place"),
		RunE: func(c *cobra.Command, args []string) error {
			ask.given = c.Flags().Changed
			return p.place(args[0], &ask)
		},
	}
	f := c.Flags()
	for _, flag := range placeFlags {
		if flag.kind.OfPeg() {
			ask.many[flag.kind] = f.StringArray(flag.kind.String(), nil, flag.says)
			continue
		}
		ask.one[flag.kind] = new(string)
		f.Var(&once{to: ask.one[flag.kind], why: "it was said already: say it once, as you see it now"}, flag.kind.String(), flag.says)
	}
	f.IntVar(&ask.noted, "noted", 0, "how many rows your notes have as done; else as your piece has it")
	f.StringArrayVar(&ask.bare, "bare", nil, "what is below the loose loop of a peg that lost it, the newest first: 12=vvb")
	f.IntVar(&ask.at, "at", 0, "with --bare: how many rows are done on the pegs that kept their loops; else as your piece has it")
	f.IntVar(&ask.reached, "reached", 0, "with --at: the next row is under way, and this is the peg worked last")
	f.BoolVar(&ask.json, "json", false, "print as JSON")
	return c
}

// placeFlags are the kinds of evidence, each with its flag and how that is answered.
var placeFlags = []struct {
	kind       find.Kind
	says, like string
}{
	{find.Yarn, "where the working yarn hangs: left, right, end or between two pegs", "--yarn left, --yarn right or --yarn between"},
	{find.FromPeg, "the peg that the working yarn comes from", "--from-peg 17"},
	{find.LastRow, "how the last row was worked: knit, purl or both. From the front a V is a knit; from behind, pulled back, a purl", "--last knit or --last purl"},
	{find.Ridges, "how many ridges you count; the cast-on edge is not one", "--ridges 8"},
	{find.Look, "what a peg shows, the newest first: 12=vvb, v for a V, b for a bump, e for the cast-on edge, ? for what you can't tell", "--peg %d=v, b for a bump, e for the cast-on edge"},
	{find.Bumps, "how many bumps there are in the column of a peg: 14=9", "--bumps %d=9"},
	{find.Alike, "how many stitches alike there are below a peg before another: 12=5v, 12=2b", "--alike %d=5v for 5 V's, --alike %[1]d=2b for 2 bumps"},
	{find.Crossed, "which row from the top the last crossing is, below a peg: 10=6", "--crossed %d=6"},
	{find.Colour, "the yarn of the loops on the pegs, by its colour or name", "--colour and its name"},
	{find.Length, `how long the fabric is, from the cast-on to the pegs: "12 cm"`, ""},
	{find.Zone, "the zone that you are in, by its name", ""},
	{find.Bound, "how many pegs are empty already, while it is bound off", "--bound 5"},
	{find.Loops, "how many loops are on already, while it is cast on", "--loops 5"},
}

// place says where a piece stands.
func (p *program) place(name string, ask *placing) error {
	src, err := source(name)
	if err != nil {
		return err
	}
	p.tellTrouble()
	o, noted, err := p.orderOf(src)
	if err != nil {
		return err
	}
	switch {
	case len(ask.bare) > 0:
		return p.bare(o, noted, ask)
	case ask.given("at") || ask.given("reached"):
		return usage("write --bare 12=vvb beside it", "--at and --reached are for pegs that lost their loops")
	}
	e := find.Evidence{Noted: noted}
	if err := ask.fill(&e, o); err != nil {
		return err
	}
	a := find.Search(o, e)
	out := bufio.NewWriter(p.out)
	if ask.json {
		writePlaceJSON(out, o, e, &a)
	} else {
		writePlace(out, o, e, &a)
		if noted != pattern.Start() {
			fmt.Fprintf(out, "\nyour piece is at %s\n", track.SayPlace(o, noted))
		}
	}
	if err := out.Flush(); err != nil {
		return written(err)
	}
	if len(a.Fits) == 0 {
		return &failure{code: exitWrong}
	}
	return nil
}

// orderOf is the maker's piece of a pattern in the order in which it is worked, and its place;
// or the pattern itself where none is on the loom. A hand that was asked for goes before the
// piece's own.
func (p *program) orderOf(src tui.Source) (pattern.Order, pattern.Place, error) {
	piece, found, err := p.underWay(src.Name)
	if err != nil {
		say(p.err, "note", err.Error())
	}
	if err != nil || !found || piece.Text == nil {
		o, err := p.loadSource(src)
		return o, pattern.Start(), err
	}
	o := piece.Tracker.Order()
	if p.chosen.wayAsked {
		_, o.Way = p.chosen.settings.Way(&o.Pattern.Design)
	}
	return o, piece.Tracker.Place(), nil
}

// fill reads what was said.
func (ask *placing) fill(e *find.Evidence, o pattern.Order) error {
	if ask.given("noted") {
		at, err := rowsDone(o.Pattern, ask.noted, "noted")
		if err != nil {
			return err
		}
		e.Noted = at
	}
	for _, flag := range placeFlags {
		var texts []string
		if flag.kind.OfPeg() {
			texts = *ask.many[flag.kind]
		} else if ask.given(flag.kind.String()) {
			texts = []string{*ask.one[flag.kind]}
		}
		for _, text := range texts {
			c, err := find.Parse(o, flag.kind, text)
			if err != nil {
				return usage("", "--%s: %w", flag.kind, err)
			}
			if flag.kind == find.Length {
				if e.Heights = heightsOf(o.Pattern); e.Heights == nil {
					return &failure{exitWrong, errors.New("a length tells nothing here: the pattern has no gauge"), "count something instead: ridges, or the bumps in a column"}
				}
			}
			*e = e.With(c)
		}
	}
	return nil
}

// How far a measured length may be off: a tape on soft fabric is read to half a centimetre,
// and the fabric gives a little.
const (
	tapeOff = 5.0 // mm
	giveOff = 0.04
)

// heightsOf is how high the fabric may be measured when so many rows are done; nil where nothing
// is known of it.
func heightsOf(p *pattern.Pattern) []find.Reach {
	size := fit.SizeOf(p)
	low, high := 0.0, 0.0
	var heights []find.Reach
	add := func() {
		heights = append(heights, find.Reach{Low: low*(1-giveOff) - tapeOff, High: high*(1+giveOff) + tapeOff})
	}
	add()
	for i, z := range size.Zones {
		if !z.Height.Known() {
			return nil
		}
		rows := float64(p.Zones[i].Rows())
		for range p.Zones[i].Rows() {
			low += z.Height.Low.In(measure.Millimetre) / rows
			high += z.Height.High.In(measure.Millimetre) / rows
			add()
		}
	}
	return heights
}

// How many lines are written at most of places that agree, and of those that agree but for
// one thing.
const (
	mostFits = 6
	mostButs = 3
)

func writePlace(w io.Writer, o pattern.Order, e find.Evidence, a *find.Answer) {
	title := safetext.Clean(o.Pattern.Title)
	switch n := a.Places(); {
	case n == 0:
		fmt.Fprintf(w, "%s: no %s agrees with all of that\n", title, o.Pattern.Form.RowWord())
		writeButs(w, o, e, a)
		return
	case n == 1:
		at := a.Fits[0].Place(o.Pattern)
		fmt.Fprintf(w, "%s: one place agrees\n\n", title)
		if at.Phase == pattern.CastingOn {
			fmt.Fprintln(w, a.Fits[0].Words(o))
			return
		}
		for _, says := range track.SayBack(o, at) {
			fmt.Fprintln(w, says)
		}
		if at.Phase == pattern.Working {
			fmt.Fprintln(w, track.SayRow(o, at.Row))
		}
		if near, ok := a.Near(o, e); ok {
			fmt.Fprintf(w, "\n%s\n", near.Instead(o, e))
		}
		return
	case len(e.Clues) == 0:
		fmt.Fprintf(w, "%s: nothing is said of the fabric yet\n", title)
	default:
		fmt.Fprintf(w, "%s: %d places agree, the likeliest first\n\n", title, n)
		writeFits(w, o, a.Fits)
	}
	writeAsk(w, o, a)
}

func writeFits(w io.Writer, o pattern.Order, fits []find.Fit) {
	more := 0
	for i, f := range fits {
		if i >= mostFits && len(fits) > mostFits+1 {
			more += f.Places()
			continue
		}
		fmt.Fprintln(w, f.Words(o))
	}
	if more > 0 {
		fmt.Fprintf(w, "and %s more\n", track.Plural(more, "place"))
	}
}

// writeButs names the rows that agree but for one thing, or else for two.
func writeButs(w io.Writer, o pattern.Order, e find.Evidence, a *find.Answer) {
	if len(a.But) == 0 {
		beyond := find.Beyond(o, e)
		for _, says := range beyond {
			fmt.Fprintln(w, says)
		}
		switch {
		case len(a.Two) > 0:
			fmt.Fprintln(w, "\nnearest, but for two things, the likeliest first:")
		case len(beyond) == 0:
			fmt.Fprintln(w, "look and count again, one thing after the other")
		}
		for _, two := range a.Two {
			fmt.Fprintf(w, "%s; %s\n", two.Words(o), two.Agrees(o, e))
		}
		return
	}
	fmt.Fprintln(w, "\nnearest, the likeliest first:")
	for _, b := range a.But[:min(mostButs, len(a.But))] {
		fmt.Fprintf(w, "%s; it agrees but for %s\n", b.Words(o), b.Doubt(o, e))
	}
}

// writeAsk asks what tells the places apart, and says how that is answered.
func writeAsk(w io.Writer, o pattern.Order, a *find.Answer) {
	if !a.Asks {
		fmt.Fprintln(w, "\nnothing in the fabric tells them apart: take the likeliest, and look again in a few rows")
		return
	}
	fmt.Fprintf(w, "\n%s\n", a.Ask.Words(o))
	for _, flag := range placeFlags {
		if flag.kind != a.Ask.Kind {
			continue
		}
		like := flag.like
		if flag.kind.OfPeg() {
			like = fmt.Sprintf(like, a.Ask.Peg)
		}
		switch {
		case flag.kind != find.Yarn:
		case o.Pattern.Form == pattern.Tube:
			like = "--yarn end or --yarn between"
		case a.Ask.Ended:
			like = "--yarn left or --yarn right"
		}
		fmt.Fprintf(w, "say so with %s\n", like)
	}
}
