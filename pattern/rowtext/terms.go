package rowtext

// Terms are the words that knitters on two sides of an ocean do not share. Rows
// themselves are written alike on both: see Meaning for why yo stays.
type Terms uint8

// The two sets of terms.
const (
	US Terms = iota
	UK
)

// Term is a word that differs.
type Term uint8

// The terms that differ.
const (
	BindOff     Term = iota // loops taken off the pegs for good
	Stockinette             // plain fabric: knits on the right side
	Gauge                   // stitches and rows to a length
	Seed                    // knits and purls in turn, moved by one each row
	DoubleSeed              // the same, moved by one every second row
	terms
)

// What is called what: published for bind off, stockinette, gauge and seed. That "moss
// stitch" alone is seed in one country and double seed in another is common practice, no
// source: hence the double one is never called moss alone.
var termNames = [2][terms]string{
	US: {"bind off", "stockinette stitch", "gauge", "seed stitch", "double seed stitch"},
	UK: {"cast off", "stocking stitch", "tension", "moss stitch", "double moss stitch"},
}

// Of is the term as it is said: "bind off", "cast off".
func (t Terms) Of(term Term) string { return termNames[t][term] }
