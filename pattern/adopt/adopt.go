package adopt

import (
	"fmt"
	"slices"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/rowtext"
)

// Source is what rows were written for.
type Source uint8

// The sources.
const (
	Loom    Source = iota // the right side always faces the worker
	Needles               // flat: every other row is seen from behind
	Round                 // in the round, on a loom or on needles
)

var sourceNames = []string{Loom: "loom", Needles: "needles", Round: "round"}

// String is "loom", "needles" or "round".
func (s Source) String() string { return sourceNames[s] }

// SourceNames are the sources as a person names them, in the order of their values.
func SourceNames() []string { return append([]string(nil), sourceNames...) }

// Side is the side of the fabric that faces a knitter on needles.
type Side uint8

// The sides.
const (
	SideUnsaid Side = iota
	RightSide
	WrongSide
)

var sideNames = []string{SideUnsaid: "unsaid", RightSide: "right-side", WrongSide: "wrong-side"}

// String is "right-side" or "wrong-side".
func (s Side) String() string { return sideNames[s] }

// Wanted is the form that the pattern is to have.
type Wanted uint8

// The forms.
const (
	AsWritten Wanted = iota
	WantPanel
	WantTube
)

// Options say what a text of rows does not.
type Options struct {
	From Source
	Told bool   // From is what somebody said, and not only what is taken unless said
	Side Side   // that faces the knitter on row 1 of a text for needles, where it does not say
	Want Wanted // the form of the pattern
	Pegs int    // of the pattern; 0 takes the count from the text
	Size int    // which of several sizes is read: 1 the first; 0 refuses a text with several
	// Row1 is the way row 1 of a text for the loom runs, where Row1Said.
	Row1     pattern.Direction
	Row1Said bool
}

// Adopted is a pattern made of written rows.
type Adopted struct {
	Title   string           // what the text calls itself; empty where it does not
	Pattern *pattern.Pattern // its zones are not those of the file: see Zones
	Rows    []Row
	Zones   []Zone
	Fabric  Fabric
	// WordForWord is what a loom makes of the rows of a text for needles as they stand.
	WordForWord Fabric
	Changes     []string // what was done to the rows beside seeing them from behind
	Warnings    []rowtext.Note
	Directives  []rowtext.Note
	Parts       []SidePart // with row repeats of their own, where the text has such
	Meets       int        // rows after which all parts begin together again

	open         []openRepeat
	ifForNeedles bool // they would be plain fabric if they were written for needles
	marksWrong   bool // some rows are called wrong-side ones, and nobody said that they are for a loom
}

// Row is one row as it is worked on the loom.
type Row struct {
	Number     int
	Direction  pattern.Direction
	Behind     bool          // the text has it as seen from behind
	Runs       []rowtext.Run // in the order of work; equal rows share them
	Of         []int         // the row of its repeat that each part is in
	Start, End int           // where its instructions stand in the text: byte offsets
}

// fabricGoingOn is what a pattern is once its open repeats go on.
func fabricGoingOn(p *pattern.Pattern, open []openRepeat) Fabric {
	t := newTexture(p.Grid, p.Form, Whole(p.Grid))
	t.goOn(open)
	return t.fabric()
}

// AskSide is what a text for needles does not say and nobody has told: which side row 1
// is.
type AskSide struct{}

// Error asks for it.
func (*AskSide) Error() string { return "the rows do not say which side row 1 is" }

// refusal is a fault at a place of the text.
func refusal(start, end int, hint, format string, args ...any) error {
	return rowtext.Errors{{Start: start, End: end, Msg: fmt.Sprintf(format, args...), Hint: hint}}
}

// Of makes a pattern of rows that were read from a text. An error is a rowtext.Errors, a
// *AskSide, or one that concerns the rows as a whole.
func Of(text string, r *rowtext.Reading, o Options) (*Adopted, error) {
	if len(r.Rows) == 0 {
		return nil, refusal(0, len(text), "write them a line each: Row 1: k3, p to last 3, k3", "there are no rows here")
	}
	s, err := newSheet(text, r, o)
	if err != nil {
		return nil, err
	}
	a := &Adopted{Title: strings.TrimRight(strings.TrimSpace(r.Title), ".:"), Warnings: warned(r.Warnings, r.Directives), Directives: r.Directives, open: openRepeats(r)}
	if first := r.Rows[0].Number; first != 1 {
		a.Changes = append(a.Changes, fmt.Sprintf("row %d of the text is row 1 of the pattern, and so on", first))
	}
	if o.From == Needles {
		a.WordForWord = wordForWord(r, o, s)
	}
	if err := s.shape(); err != nil {
		return nil, err
	}
	if err := s.reform(text, r, o, a); err != nil {
		return nil, err
	}
	if err := s.crossesCanBeWritten(); err != nil {
		return nil, err
	}
	if a.Pattern, err = s.build(); err != nil {
		return nil, err
	}
	for i, line := range s.rows {
		from := s.from[i]
		a.Rows = append(a.Rows, Row{
			Number: i + 1, Direction: s.direction(i), Behind: from.behind,
			Runs: s.lines[line], Start: from.start, End: from.end,
		})
	}
	a.Fabric = fabricGoingOn(a.Pattern, a.open)
	a.ifForNeedles = seemsForNeedles(a.Fabric, o, a.Pattern.Form)
	a.marksWrong = o.From == Loom && !o.Told && r.Form == pattern.Panel &&
		slices.ContainsFunc(r.Rows, func(row rowtext.Row) bool { return row.Wrong })
	a.Zones = zonesOf(s, a)
	return a, nil
}
