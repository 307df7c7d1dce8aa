package save

import (
	"iter"
	"slices"

	"bypeg/pattern/safetext"
)

// ledger has the records of a journal. Of most of them it keeps no more than where their
// lines are and what leads from one to the other: to know where the work stands, a
// hundred thousand lines must check, and few need be understood.
type ledger struct {
	seed  string
	files [][]byte // as read; they must not be changed
	links []link   // in file order
	whole []Record // those whose lines are not plain

	reader plainReader // for one record at a time, while the piece is being opened
}

func newLedger(seed string) *ledger { return &ledger{seed: seed, reader: newPlainReader(seed)} }

// link is what is at hand of a record: its number, that of the record it follows, and
// where the rest of it is. A history of links is followed from one to the next.
type link struct {
	number, prev uint64
	file         int32 // in which its line is, or inWhole
	at           int32 // where its line begins, or which one of the whole records it is
}

// inWhole stands where a link to a whole record has no file.
const inWhole = -1

// plain tells whether there is nothing to tell of the record but its place.
func (k link) plain() bool { return k.file != inWhole }

// addWhole keeps a record whose line is not plain.
func (l *ledger) addWhole(r Record) link {
	l.whole = append(l.whole, r)
	return link{number: r.Number, prev: r.Prev, file: inWhole, at: int32(len(l.whole) - 1)}
}

// record reads a record.
func (l *ledger) record(k link) Record {
	if !k.plain() {
		return l.whole[k.at]
	}
	l.reader.read(l.files[k.file][k.at:])
	return l.reader.record()
}

// lineOf is the line of a record, without its newline.
func (l *ledger) lineOf(k link) []byte {
	if !k.plain() {
		return []byte(l.whole[k.at].line)
	}
	text := l.files[k.file][k.at:]
	l.reader.read(text)
	return text[:l.reader.size]
}

// isHere tells whether the record is the answer to a question.
func (l *ledger) isHere(k link) bool { return !k.plain() && l.whole[k.at].Kind == Here }

// pattern is the mark of the pattern text that the record names, or "".
func (l *ledger) pattern(k link) string {
	if k.plain() {
		return ""
	}
	return l.whole[k.at].facts.pattern
}

// dropRepeats takes out the records that are there again. Numbers ascend in almost every
// journal; late are those, by their places among the links, that come after a higher one.
func (l *ledger) dropRepeats(late []int) {
	if len(late) == 0 {
		return
	}
	twice := make(map[uint64]bool, len(late)) // numbers that may be there twice
	lowest := l.links[late[0]].number
	for _, i := range late {
		twice[l.links[i].number] = true
		lowest = min(lowest, l.links[i].number)
	}
	type key struct {
		number uint64
		sum    uint32
	}
	seen := make(map[key]bool, len(late))
	from := slices.IndexFunc(l.links, func(k link) bool { return k.number >= lowest })
	kept := l.links[:from]
	for _, k := range l.links[from:] {
		if twice[k.number] {
			id := key{k.number, l.record(k).sum}
			if seen[id] {
				continue
			}
			seen[id] = true
		}
		kept = append(kept, k)
	}
	l.links = kept
}

// History is all that led to a place, oldest first. It is read from the lines of the
// journal when it is asked for: to show where the work stands needs none of it. The zero
// History is empty.
type History struct {
	ledger *ledger
	links  []link
}

// Len is how many records there are.
func (h History) Len() int { return len(h.links) }

// All goes over the records. Their texts are safe to show.
func (h History) All() iter.Seq[Record] {
	return func(yield func(Record) bool) {
		if h.Len() == 0 {
			return
		}
		p := newPlainReader(h.ledger.seed)
		for _, k := range h.links {
			var r Record
			if k.plain() {
				p.read(h.ledger.files[k.file][k.at:])
				r = p.record()
			} else {
				r = h.ledger.whole[k.at]
				r.Text = safetext.Clean(r.Text)
			}
			if !yield(r) {
				return
			}
		}
	}
}
