package rowtext

// span is a piece of the text: byte offsets, end behind the last byte.
type span struct{ start, end int }

func (s span) at() span { return s }

// to is the piece from the start of s to the end of t.
func (s span) to(t span) span { return span{s.start, t.end} }

// node is a part of a row. Its kinds are *work, *fill, *group and *star.
type node interface{ at() span }

// work is a stitch worked count times: "k7", "p". Bare tells that no count was
// written: alone in its row it means the whole row, in a list one stitch.
type work struct {
	span
	stitch Stitch
	count  int
	bare   bool
}

// fill is one stitch worked as far as to says: "k to end".
type fill struct {
	span
	stitch Stitch
	to     far
}

// group is parts worked count times: "(k2, p2) 3 times". Counted tells whether the
// count was written; a bracket without one is worked once.
type group struct {
	span
	parts   []node
	count   int
	counted bool
}

// star is parts repeated as far as to says: "*k2, p2; rep from * to end".
type star struct {
	span
	parts []node
	to    far
}

// reach is how the end of an open part is told.
type reach uint8

const (
	reachOpen  reach = iota // not told: as far as the rest of the row leaves room
	reachLast               // to a number of pegs before the end; 0 is the end itself
	reachWhole              // the whole row: "k all"
)

// far is the end of an open part. Last counts pegs and is used by reachLast. The
// span is the phrase, empty where nothing was written.
type far struct {
	span
	reach reach
	last  int
}
