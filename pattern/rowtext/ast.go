package rowtext

// span is a piece of the text: byte offsets, end behind the last byte.
type span struct{ start, end int }

func (s span) at() span { return s }

// to is the piece from the start of s to the end of t.
func (s span) to(t span) span { return span{s.start, t.end} }

// node is a part of a row. Its kinds are *work, *fill, *group, *star, *pegs and *echo.
type node interface{ at() span }

// work is a stitch worked count times: "k7", "p". Bare tells that no count was
// written: alone in its row it means the whole row, in a list one stitch.
type work struct {
	span
	stitch Stitch
	count  int
	bare   bool
	place  edge // where in the row it says it stands
}

// edge is where in its row a part says it stands: "first 3 pegs", "last st".
type edge uint8

const (
	anywhere edge = iota
	atStart
	atEnd
)

// fill is one stitch worked as far as to says: "k to end".
type fill struct {
	span
	stitch Stitch
	to     far
}

// echo is stitches worked as those below look, as far as to says: "knit the knits and
// purl the purls".
type echo struct {
	span
	to       far
	opposite bool // "purl the knits and knit the purls"
}

// group is parts worked count times: "(k2, p2) 3 times". Counted tells whether the
// count was written; a bracket without one is worked once.
type group struct {
	span
	parts   []node
	count   int
	counted bool
	literal int // where the count can be read in two ways: as often again
	other   int // and in all; 0 where there is one reading
}

// star is parts repeated as far as to says: "*k2, p2; rep from * to end".
type star struct {
	span
	parts []node
	to    far
	end   *ending // what is said of the last repeat; nil for nothing
	loose bool    // it may stop within a repeat: "k2, p2 across", a rib by its name
	doubt string  // why reading it as a repeat is a guess; empty where it is none
}

// ending is what stands behind "end" or "end last repeat".
type ending struct {
	span
	parts    []node
	replaces bool // it says that it is the end of the last repeat
}

// pegs is a stitch on pegs named by their numbers: "k pegs 1-4", "purl odd pegs".
type pegs struct {
	span
	stitch Stitch
	ranges []pegRange
	parity parity // in place of ranges
}

// pegRange is the pegs from one number to another, both worked.
type pegRange struct{ from, to int }

// parity is which pegs of a row are meant.
type parity uint8

const (
	everyPeg parity = iota
	oddPegs
	evenPegs
)

// reach is how the end of an open part is told.
type reach uint8

const (
	reachOpen  reach = iota // not told: as far as the rest of the row leaves room
	reachLast               // to a number of loops before the end; 0 is the end itself
	reachWhole              // the whole row: "k all"
	reachPeg                // to a peg by its number, which is worked too
)

// far is the end of an open part. Last is loops before the end, or the number of a
// peg. The span is the phrase, empty where nothing was written.
type far struct {
	span
	reach reach
	last  int
	said  bool // the word end is written
	rest  bool // the word rest is written: also pegs that were passed over
}
