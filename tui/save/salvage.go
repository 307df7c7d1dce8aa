package save

import (
	"encoding/hex"
	"hash/crc32"
	"strings"
)

// # How whole records are found in damage
//
// One lost newline must not cost two steps. So a line that does not check is searched
// for the records within it. A record ends with its sum; where it begins is found from
// its time, by going back over the two numbers before it. Junk, or the end of another
// record, may touch the first number, so that each of its digits may be the first.
//
// To try every beginning with every end would take the square of the line's length,
// and a line is somebody's damage: it may be long and full of sums and times. But a
// sum need not be taken anew for each pair. Shifting a register of the sum by a byte
// is a multiplication by x⁸ in a field, and can be taken back. With P(k) the register
// after the first k bytes of the line, begun from nothing, and S the register after
// the seed, the bytes from b to e have the sum w exactly when
//
//	(S + P(b))·x⁻⁸ᵇ = (P(e) + w)·x⁻⁸ᵉ
//
// The left side is of the beginning alone, the right side of the end alone. So each
// beginning is kept under its key and each end looks its own up, and the work grows
// with the bytes only. What is found like this is then read as any line is.

const (
	maxStretch = 64 << 10 // bytes a record can have
	maxDigits  = 20       // digits a record's number can have
)

// salvager looks for records in one line.
type salvager struct {
	line, seed string
	seeded     uint32 // S of the note above
	start      int    // where the last record found ends
	begin, end cursor
	// Beginnings by key, those in reach of the present end. The newest that has a key
	// is the one kept. When the recent ones fill a stretch they become the older ones.
	recent, older map[uint32]int
	since         int // where the recent ones begin
}

// salvage finds the whole records within a line that does not check.
func salvage(line, seed string) []Record {
	if !strings.Contains(line, sumField) {
		return nil
	}
	s := &salvager{
		line: line, seed: seed, seeded: ^checksum(seed, ""),
		begin: atStart(line), end: atStart(line),
		recent: make(map[uint32]int), older: make(map[uint32]int),
	}
	var found []Record
	for at := range len(line) {
		switch {
		case line[at] != ' ':
		case stampAt(line[at:]):
			s.note(at)
		case strings.HasPrefix(line[at:], sumField) && at >= s.start:
			if r, ok := s.endsAt(at); ok {
				found = append(found, r)
			}
		}
	}
	return found
}

// note keeps the beginnings that belong to the time at line[at].
func (s *salvager) note(at int) {
	prev := digitsBefore(s.line, at)
	if prev == at || prev == 0 || s.line[prev-1] != ' ' {
		return
	}
	if at-s.since > maxStretch {
		s.recent, s.older = s.older, s.recent
		clear(s.recent)
		s.since = at
	}
	last := prev - 1
	for i := max(digitsBefore(s.line, last), last-maxDigits, s.start); i < last; i++ {
		s.begin.to(i)
		s.recent[s.begin.key(s.seeded)] = i
	}
}

// endsAt finds the record whose sum is the field at line[at].
func (s *salvager) endsAt(at int) (Record, bool) {
	end := at + sumLen
	if end > len(s.line) {
		return Record{}, false
	}
	var sum [4]byte
	if _, err := hex.Decode(sum[:], []byte(s.line[at+len(sumField):end])); err != nil {
		return Record{}, false
	}
	want := uint32(sum[0])<<24 | uint32(sum[1])<<16 | uint32(sum[2])<<8 | uint32(sum[3])
	s.end.to(at)
	key := s.end.key(^want)
	for _, beginnings := range []map[uint32]int{s.recent, s.older} {
		i, ok := beginnings[key]
		if !ok || end-i > maxStretch {
			continue
		}
		if r, v := parseRecord(s.line[i:end], s.seed); v == sound {
			s.start = end
			s.forget()
			return r, true
		}
		delete(beginnings, key) // no beginning is read twice
	}
	return Record{}, false
}

// forget drops the beginnings: they lie within a record that is found.
func (s *salvager) forget() {
	clear(s.recent)
	clear(s.older)
	s.since = s.start
}

// cursor goes along a line and knows the sum of what lies behind it.
type cursor struct {
	line string
	at   int
	crc  uint32 // the register is its complement
	back uint32 // x⁻⁸ to the power of at
}

func atStart(line string) cursor { return cursor{line: line, crc: ^uint32(0), back: 1 << 31} }

// to moves the cursor on; it never moves back.
func (c *cursor) to(at int) {
	c.crc = crc32.Update(c.crc, castagnoli, []byte(c.line[c.at:at]))
	for ; c.at < at; c.at++ {
		c.back = shiftBack(c.back)
	}
}

// key is one side of the equation in the note above.
func (c *cursor) key(add uint32) uint32 { return multiply(^c.crc^add, c.back) }

// multiply multiplies in the field of the sum, where the highest bit is one and each
// lower bit is x times the one above it.
func multiply(a, b uint32) uint32 {
	var p uint32
	for ; a != 0; a <<= 1 {
		p ^= b & -(a >> 31)
		b = b>>1 ^ crc32.Castagnoli&-(b&1)
	}
	return p
}

// shiftBack divides by x⁸. The highest byte tells which entry of the table the shift
// forward has added, for no two entries begin alike.
func shiftBack(v uint32) uint32 {
	added := tableEntry[v>>24]
	return (v^castagnoli[added])<<8 | uint32(added)
}

// tableEntry finds an entry of the sum's table by the entry's highest byte.
var tableEntry = func() (entry [256]byte) {
	for i, v := range castagnoli {
		entry[v>>24] = byte(i)
	}
	return entry
}()

// stampShape is the shape of a time in a record, 0 standing for any digit.
const stampShape = " 0000-00-00T00:00:00"

// stampAt tells whether s begins with a time as records have it, between spaces.
func stampAt(s string) bool {
	rest, ok := cutShape(s, stampShape)
	if !ok || rest == "" {
		return false
	}
	switch rest[0] {
	case 'Z':
		return strings.HasPrefix(rest[1:], " ")
	case '+', '-':
		_, ok = cutShape(rest[1:], "00:00 ")
		return ok
	}
	return false
}

func cutShape(s, shape string) (rest string, ok bool) {
	if len(s) < len(shape) {
		return "", false
	}
	for i := range len(shape) {
		if shape[i] == '0' && (s[i] < '0' || s[i] > '9') || shape[i] != '0' && s[i] != shape[i] {
			return "", false
		}
	}
	return s[len(shape):], true
}

// digitsBefore is where the digits that end at s[end] begin.
func digitsBefore(s string, end int) int {
	for end > 0 && s[end-1] >= '0' && s[end-1] <= '9' {
		end--
	}
	return end
}
