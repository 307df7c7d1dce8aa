package track

import (
	"fmt"
	"strings"

	"bypeg/pattern"
)

// Note is what a maker noted on a row. Row 0 is the cast-on, one above the last row the
// bind-off: see RowOf.
type Note struct {
	Row  int
	Text string
}

// leastRepeat is the shortest repeat in which a note counts for later rows: of plain
// rows and of garter every one would be its like.
const leastRepeat = 3

// NoteAt is the note that belongs to a row: its own, or else that of the last row below
// which is the same one of the zone's repeat.
func NoteAt(p *pattern.Pattern, notes []Note, row int) (Note, bool) {
	best, found := Note{}, false
	for _, n := range notes {
		if n.Row <= row && (!found || n.Row > best.Row) && (n.Row == row || sameInRepeat(p, n.Row, row)) {
			best, found = n, true
		}
	}
	return best, found
}

func sameInRepeat(p *pattern.Pattern, a, b int) bool {
	if a < 1 || b > p.Grid.Rows() || p.ZoneIndex(a) != p.ZoneIndex(b) {
		return false
	}
	repeat := Repeat(p.ZoneAt(a))
	return repeat >= leastRepeat && (b-a)%repeat == 0
}

// SayNote says a note at a row: "note: blue from here", "note from row 14: blue".
func (t *Tracker) SayNote(n Note) string {
	if n.Row == t.RowInHand() {
		return "note: " + n.Text
	}
	return fmt.Sprintf("note from %s %d: %s", t.rowWord(), n.Row, n.Text)
}

// Annotate puts a note on its row in place of the one it had; an empty text takes the
// note away.
func Annotate(notes []Note, n Note) []Note {
	var kept []Note
	for _, old := range notes {
		if old.Row != n.Row {
			kept = append(kept, old)
		}
	}
	if n.Text = strings.TrimSpace(n.Text); n.Text != "" {
		kept = append(kept, n)
	}
	return kept
}
