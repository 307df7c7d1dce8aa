package save

import (
	"cmp"
	"encoding/binary"
	"encoding/hex"
	"fmt"
	"hash/crc32"
	"strconv"
	"strings"
	"time"

	"bypeg/pattern"
)

// Kind is what a record tells.
type Kind uint8

// The kinds of record.
const (
	Begun          Kind = iota // the piece was begun
	Forward                    // stitches were worked
	Back                       // stitches were taken back
	Jump                       // the maker went to another place
	Undo                       // the last change of place was undone
	Redo                       // an undone change was done again
	Noted                      // a note was made
	PatternChanged             // the piece goes on with another pattern text
	Here                       // the maker said which place is the right one
	Purposed                   // a change made on purpose was written down
	Named                      // the piece was given a name
	Shelved                    // the piece was put to another place on the shelf: its text is a Shelf
	Mending                    // a repair is under way, told in words; without words it is over
	Measured                   // the finished piece was measured or weighed: its text says it; without one it was not
	Safe                       // a lifeline was put in or a ball joined, told in words
)

var kindNames = [...]string{"begin", "step", "back", "jump", "undo", "redo", "note", "pattern", "here", "purpose", "name", "shelf", "mend", "measured", "safe"}

// String is the kind as a journal writes it.
func (k Kind) String() string {
	if int(k) >= len(kindNames) {
		return fmt.Sprintf("kind %d", uint8(k))
	}
	return kindNames[k]
}

func parseKind(s string) (Kind, bool) {
	for i, name := range kindNames {
		if s == name {
			return Kind(i), true
		}
	}
	return 0, false
}

// Record is one line of a journal. Its place is absolute: a single record, read by
// itself, says where the work stood.
type Record struct {
	Number uint64    // counts up from 1; a number whose write failed is not used again
	Prev   uint64    // the record it follows, 0 for the first
	Time   time.Time // to the second, in the maker's zone at that time
	Kind   Kind
	Place  pattern.Place
	Of     int    // how many stitches the row (or cast-on, or bind-off) has
	Text   string // words of a note or of a change made on purpose (of the pattern too), a name, a Shelf

	// Instead are, of Here, places in the same pattern that had been saved, were not
	// chosen, and may be on no other line; mostly none.
	Instead []pattern.Place

	aside   []Choice // the same in other patterns: written for people, and not read
	void    []uint32 // sums of records before it whose write failed and that were given up
	facts   facts    // what Begun tells of the piece; PatternChanged and Here tell the pattern
	follows uint32   // of Here: the sum of the record it follows, where two have its number
	sum     uint32   // as read
	line    string   // as read, without its newline
}

// facts are what a piece is, apart from its place.
type facts struct {
	title   string
	source  string
	hand    pattern.Hand
	way     pattern.Way
	pattern string // the mark of the pattern text, see patternMark
	base    string // the mark of what the pattern was made of by a change on purpose; "" for none
	pegs    int    // the count that the maker chose in place of the pattern's; 0 for none
	shelf   Shelf
	made    string // the size and the weight that it came to, as its maker told them; "" where it was not measured
}

// amend takes over what a record changes of the facts, the pattern apart.
func (f *facts) amend(r Record) {
	switch r.Kind {
	case Named:
		f.title = cmp.Or(r.Text, f.title)
	case Shelved:
		f.shelf, _ = parseNamed(r.Text, OnLoom, PutAway, Deleted)
	case Measured:
		f.made = r.Text
	}
}

// turnTo takes over the pattern that a record names, if it names one. A change on purpose
// is told in words: what the pattern was made of is then still what the source had.
func (f *facts) turnTo(r Record) {
	switch mark := r.facts.pattern; {
	case mark == "":
		return
	case r.Kind == PatternChanged && r.Text != "":
		f.base = cmp.Or(f.base, f.pattern)
	case mark != f.pattern:
		f.base = ""
	}
	f.pattern = r.facts.pattern
}

// sameStep tells whether two records tell the same, whenever and under whichever
// number they were written.
func (r Record) sameStep(s Record) bool {
	return r.Kind == s.Kind && r.Place == s.Place && r.Of == s.Of && r.Text == s.Text && r.facts == s.facts
}

// sameTry tells whether two records are tries to save one step: that step was made at one
// time, however often it was tried.
func (r Record) sameTry(s Record) bool { return r.sameStep(s) && r.Time.Unix() == s.Time.Unix() }

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

// checksum is the CRC-32C of the seed followed by text. The seed is the id of the
// piece, so that a line that strayed in from another piece does not check.
func checksum(seed, text string) uint32 {
	return crc32.Update(crc32.Checksum([]byte(seed), castagnoli), castagnoli, []byte(text))
}

const sumField = " sum="

// sumLen is the length of the field that ends a line: its name and eight digits.
const sumLen = len(sumField) + 8

// appendSum ends a line that began at from with its sum and a newline.
func appendSum(b []byte, from int, seed string) []byte {
	return fmt.Appendf(b, "%s%08x\n", sumField, checksum(seed, string(b[from:])))
}

// splitSum parts a line from its sum and tells whether they agree.
func splitSum(line, seed string) (text string, sum uint32, ok bool) {
	cut := len(line) - sumLen
	if cut < 0 || !strings.HasPrefix(line[cut:], sumField) {
		return "", 0, false
	}
	sum = checksum(seed, line[:cut])
	var digits [8]byte
	hex.Encode(digits[:], binary.BigEndian.AppendUint32(nil, sum))
	return line[:cut], sum, string(digits[:]) == line[cut+len(sumField):]
}

// appendLine writes the record as a line of the journal of the piece with that seed.
func (r Record) appendLine(b []byte, seed string) []byte {
	from := len(b)
	b = strconv.AppendUint(b, r.Number, 10)
	b = append(b, ' ')
	b = strconv.AppendUint(b, r.Prev, 10)
	b = append(b, ' ')
	b = append(b, stamp(r.Time)...)
	b = fmt.Appendf(b, " %s phase=%s row=%d done=%d of=%d", r.Kind, r.Place.Phase, r.Place.Row, r.Place.Done, r.Of)
	switch r.Kind {
	case Begun:
		f := r.facts
		b = fmt.Appendf(b, " hand=%s peg_1=%s row_1=%q pattern=%s", f.hand, f.way.Peg1, f.way.Row1.String(), f.pattern)
		b = fmt.Appendf(b, " title=%s source=%s", strconv.Quote(f.title), strconv.Quote(f.source))
		if f.pegs > 0 {
			b = fmt.Appendf(b, " pegs=%d", f.pegs)
		}
	case PatternChanged:
		b = append(b, " pattern="+r.facts.pattern...)
	case Here:
		if r.follows != 0 {
			b = fmt.Appendf(b, " follows=%08x", r.follows)
		}
		if r.facts.pattern != "" {
			b = append(b, " pattern="+r.facts.pattern...)
		}
		for _, at := range r.Instead {
			b = fmt.Appendf(b, " instead=%s:%d:%d", at.Phase, at.Row, at.Done)
		}
		for _, c := range r.aside {
			b = fmt.Appendf(b, " aside=%s:%d:%d:%s", c.Place.Phase, c.Place.Row, c.Place.Done, c.pattern)
		}
	}
	for _, sum := range r.void {
		b = fmt.Appendf(b, " void=%08x", sum)
	}
	if r.Text != "" {
		b = append(b, " text="+strconv.Quote(r.Text)...)
	}
	return appendSum(b, from, seed)
}

// stamp writes a time as RFC 3339 has it. A clock set outside the years that it can
// write must not make a line that cannot be read back.
func stamp(t time.Time) string {
	if y := t.Year(); y < 0 || y > 9999 {
		t = time.Unix(0, 0).UTC()
	}
	return t.Format(time.RFC3339)
}

// verdict is what became of reading a line.
type verdict uint8

const (
	damaged verdict = iota // the line and its sum do not agree
	sound                  // a record
	foreign                // whole, but written by a program that knows more
)

// parseRecord reads a line without its newline.
func parseRecord(line, seed string) (Record, verdict) {
	text, sum, ok := splitSum(line, seed)
	if !ok {
		return Record{}, damaged
	}
	r := Record{sum: sum, line: line}
	head := strings.SplitN(text, " ", 5)
	if len(head) != 5 || !r.parseHead(head) {
		return Record{}, foreign
	}
	var seen place
	for rest := head[4]; rest != ""; {
		key, value, after, ok := cutField(rest)
		if !ok || !seen.set(key, value) || !r.setField(key, value) {
			return Record{}, foreign
		}
		rest = after
	}
	r.Place, r.Of = seen.Place, seen.of
	if !seen.complete() || r.Prev >= r.Number {
		return Record{}, foreign
	}
	return r, sound
}

// parseHead reads what every line begins with: number, number, time, kind.
func (r *Record) parseHead(head []string) bool {
	var err1, err2, err3 error
	var ok bool
	r.Number, err1 = strconv.ParseUint(head[0], 10, 63)
	r.Prev, err2 = strconv.ParseUint(head[1], 10, 63)
	r.Time, err3 = time.Parse(time.RFC3339, head[2])
	r.Kind, ok = parseKind(head[3])
	return err1 == nil && err2 == nil && err3 == nil && ok
}

// setField takes a field other than those of the place. A key that it does not know
// is passed over: a later version may have more to tell.
func (r *Record) setField(key, value string) bool {
	switch key {
	case "text":
		r.Text = value
		return true
	case "follows":
		sum, err := strconv.ParseUint(value, 16, 32)
		r.follows = uint32(sum)
		return err == nil
	case "instead":
		at, ok := parseInstead(value)
		r.Instead = append(r.Instead, at)
		return ok
	case "void":
		sum, err := strconv.ParseUint(value, 16, 32)
		r.void = append(r.void, uint32(sum))
		return err == nil
	}
	return r.facts.set(key, value)
}

// parseInstead reads a place like "rows:12:9": phase, row, stitches worked.
func parseInstead(value string) (at pattern.Place, ok bool) {
	words := strings.Split(value, ":")
	if len(words) != 3 {
		return at, false
	}
	at.Phase, ok = pattern.ParsePhase(words[0])
	return at, ok && setCount(&at.Row, words[1]) && setCount(&at.Done, words[2])
}

// set takes one fact as a journal or place.toml writes it.
func (f *facts) set(key, value string) (ok bool) {
	switch key {
	case "title":
		f.title = value
	case "source":
		f.source = value
	case "made":
		f.made = value
	case "pattern":
		f.pattern = value
		return isMark(value)
	case "base":
		f.base = value
		return isMark(value)
	case "pegs":
		return setCount(&f.pegs, value) && f.pegs <= maxDone
	case "shelf":
		f.shelf, ok = parseNamed(value, OnLoom, PutAway, Deleted)
		return ok
	case "hand":
		f.hand, ok = parseNamed(value, pattern.RightHand, pattern.LeftHand)
		return ok
	case "peg_1":
		f.way.Peg1, ok = parseNamed(value, pattern.Left, pattern.Right)
		return ok
	case "row_1":
		f.way.Row1, ok = parseNamed(value, pattern.ToLeft, pattern.ToRight)
		return ok
	}
	return true
}

// parseNamed finds the value whose String is s.
func parseNamed[T fmt.Stringer](s string, values ...T) (T, bool) {
	for _, v := range values {
		if v.String() == s {
			return v, true
		}
	}
	var none T
	return none, false
}

// cutField takes the first key=value off s. A value is bare or quoted as Go quotes.
func cutField(s string) (key, value, rest string, ok bool) {
	key, s, ok = strings.Cut(s, "=")
	if !ok {
		return "", "", "", false
	}
	if !strings.HasPrefix(s, `"`) {
		value, rest, _ = strings.Cut(s, " ")
		return key, value, rest, true
	}
	quoted, err := strconv.QuotedPrefix(s)
	if err != nil {
		return "", "", "", false
	}
	value, err = strconv.Unquote(quoted)
	return key, value, strings.TrimPrefix(s[len(quoted):], " "), err == nil
}
