package rowtext

import "bypeg/pattern"

// Options say what a text of written rows does not.
type Options struct {
	// Pegs the first row is worked on, 1 to 4,000; 0 takes the count from the text.
	Pegs int
	// Form the rows are worked in. A text that speaks of rounds is a tube's.
	Form pattern.Form
	// Needles tells that the rows were written for needles: every other row of a panel
	// is seen from behind. It matters to "knit the knits" alone: nothing is turned
	// round or swapped here.
	Needles bool
	// WrongSide tells that row 1 of a needle text is seen from behind.
	WrongSide bool
	// Size is which of several sizes "k3 (5, 7)" is read: 1 the first, outside the
	// brackets; 0 refuses a text with several.
	Size int
}

// Reading is what a text of written rows says.
type Reading struct {
	Pegs       int          // that the first row is worked on; 0 where the text has no row
	Form       pattern.Form // tube where the text speaks of rounds
	Rows       []Row        // in the order of their numbers
	Multiple   int          // declared: so many pegs a repeat; 0 where not said
	Plus       int          // declared: and so many beside the repeats
	Warnings   []Note       // readings that were taken and could be others
	Directives []Note       // what the text says beside rows: "repeat rows 1-4 until length 7 in"
}

// Row is one row or round as it is worked.
type Row struct {
	Number int
	Back   bool  // it runs from the last peg to peg 1
	Wrong  bool  // the text calls it a wrong-side row
	In     int   // loops it is worked into
	Out    int   // loops it leaves
	Runs   []Run // in the order of work; rows that are equal may share them
	// Start and End are where its instructions stand: byte offsets, End behind.
	Start, End int
}

// Note is something said of a piece of the text: byte offsets, End behind the last.
type Note struct {
	Start, End int
	Msg        string
}

// Limits of a text.
const (
	MaxText = 4 << 20 // bytes of a text of several rows
)
