package save

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"time"

	"bypeg/pattern"
)

// # How nearly every line is read
//
// A long life is a hundred thousand lines, and nearly all of them are plain: the fields
// of a step, in the order and the letters in which appendLine writes them, and none
// besides:
//
//	4711 4710 2026-01-02T19:05:40+01:00 step phase=rows row=12 done=9 of=26 sum=1a2b3c4d
//
// Such a line is read in one pass that asks for no memory. Every other line is refused
// here, whatever is the matter with it, and left to parseRecord, which judges it. So
// what must hold is one thing only: a line that is taken here is sound to parseRecord
// too, which reads the same in it. A test holds them together.

// plainReader reads plain lines.
type plainReader struct {
	seeded uint32 // the sum of the seed alone, from which the sum of a line goes on

	// What the line read last tells.
	number, prev uint64
	kind         Kind
	place        pattern.Place
	of           int
	sum          uint32
	size         int // of the line, without its newline

	clock uint64 // of its time, as clockAt reads it

	// What the next line mostly has too.
	day      [daySize]byte
	zone     []byte
	midnight time.Time
	alike    []byte // the zone and all up to the number of the row
}

func newPlainReader(seed string) plainReader { return plainReader{seeded: checksum(seed, "")} }

// The most digits that are read here: what they make fits the type.
const (
	numberDigits = 18
	countDigits  = 9
)

// read reads the line that text begins with and returns its length, newline included;
// 0 where it is not plain.
func (p *plainReader) read(text []byte) int {
	var i int
	if p.number, i = digits(text, 0, numberDigits); !startsAt(text, i, " ") {
		return 0
	}
	if p.prev, i = digits(text, i+1, numberDigits); !startsAt(text, i, " ") || p.prev >= p.number {
		return 0
	}
	if i = p.middle(text, i+1); i == 0 {
		return 0
	}
	row, i := digits(text, i, countDigits)
	if !startsAt(text, i, doneField) {
		return 0
	}
	done, i := digits(text, i+len(doneField), countDigits)
	if !startsAt(text, i, ofField) {
		return 0
	}
	of, i := digits(text, i+len(ofField), countDigits)
	p.place.Row, p.place.Done, p.of = int(row), int(done), int(of)
	return p.end(text, i)
}

// The names of fields of a plain line, with what stands around them.
const (
	phaseField = " phase="
	rowField   = " row="
	doneField  = " done="
	ofField    = " of="
)

// record is the line read last.
func (p *plainReader) record() Record {
	return Record{
		Number: p.number,
		Prev:   p.prev,
		Time:   p.midnight.Add(p.second()),
		Kind:   p.kind,
		Place:  p.place,
		Of:     p.of,
		sum:    p.sum,
	}
}

// startsAt tells whether word stands in text at i.
func startsAt(text []byte, i int, word string) bool {
	return len(text)-i >= len(word) && string(text[i:i+len(word)]) == word
}

// digits reads a number of at most so many digits from text[i] on, and returns where it
// ends; where none is, that is the end of the text.
func digits(text []byte, i, most int) (n uint64, end int) {
	from := i
	for ; i < len(text) && text[i]-'0' <= 9; i++ {
		n = 10*n + uint64(text[i]-'0')
	}
	if i == from || i-from > most {
		return 0, len(text)
	}
	return n, i
}

// daySize is the length of what stands before the clock of a stamp, stampSize of what
// stands before its zone.
const (
	daySize      = len("2026-01-02T")
	stampSize    = daySize + len("19:05:40")
	longestStamp = stampSize + len("+01:00")
)

// middle reads the time at text[i], the kind and the phase, and returns where the number
// of the row begins; 0 where these are not plain. But for the clock they mostly are what
// they were in the line before.
func (p *plainReader) middle(text []byte, i int) int {
	zone := i + stampSize
	end := zone + len(p.alike)
	if end == zone || end > len(text) ||
		[daySize]byte(text[i:]) != p.day || string(text[zone:end]) != string(p.alike) {
		return p.another(text, i)
	}
	var ok bool
	if p.clock, ok = clockAt(text[i+daySize:]); !ok {
		return 0
	}
	return end
}

// another reads what middle does where it is not what it was.
func (p *plainReader) another(text []byte, i int) int {
	p.alike = nil
	end := p.stamp(text, i)
	if end == 0 {
		return 0
	}
	if end = p.words(text, end); end == 0 {
		return 0
	}
	p.alike = text[i+stampSize : end]
	return end
}

// stamp reads the time at text[i] and returns where it ends, 0 where it is none.
func (p *plainReader) stamp(text []byte, i int) int {
	end := i + stampSize + len(p.zone)
	if end > len(text) || [daySize]byte(text[i:]) != p.day || string(text[i+stampSize:end]) != string(p.zone) {
		return p.anotherDay(text, i)
	}
	var ok bool
	if p.clock, ok = clockAt(text[i+daySize:]); !ok {
		return 0
	}
	return end
}

// clockAt reads a time like "19:05:40" that text begins with, each of its digits into a
// byte of its own, the first one the highest.
func clockAt(text []byte) (digits uint64, ok bool) {
	const (
		zeros = 0x30303a30303a3030 // "00:00:00"
		nines = 0x0209000509000509 // the most that each can be
		over  = 0x7f7f7f7f7f7f7f7f - nines
		high  = 0x8080808080808080
	)
	digits = binary.BigEndian.Uint64(text) ^ zeros
	return digits, (digits|(digits+over))&high == 0 && digits>>48 < 0x0204
}

// second is the second of the day that the clock shows.
func (p *plainReader) second() time.Duration {
	two := func(shift int) time.Duration {
		return time.Duration(10*(p.clock>>(shift+8)&0xf) + p.clock>>shift&0xf)
	}
	return two(48)*time.Hour + two(24)*time.Minute + two(0)*time.Second
}

// anotherDay reads a time as stamp does, and keeps its day and its zone.
func (p *plainReader) anotherDay(text []byte, i int) int {
	n := bytes.IndexByte(text[i:min(len(text), i+longestStamp+1)], ' ')
	if n < stampSize || !stampAt(string(text[i-1:i+n+1])) {
		return 0
	}
	t, err := time.Parse(time.RFC3339, string(text[i:i+n]))
	if err != nil {
		return 0
	}
	p.clock, _ = clockAt(text[i+daySize:])
	p.day, p.zone = [daySize]byte(text[i:]), text[i+stampSize:i+n]
	// The zone is the one that stands there, all day, whatever the rules of this place.
	_, offset := t.Zone()
	p.midnight = t.In(time.FixedZone("", offset)).Add(-p.second())
	return i + n
}

// plainKinds are those of which there is nothing to tell but the place.
var plainKinds = [...]Kind{Forward, Back, Jump, Undo, Redo, Noted}

// words reads the kind and the phase, and returns where the row's number begins; 0
// where these are not plain.
func (p *plainReader) words(text []byte, i int) int {
	if !startsAt(text, i, " ") {
		return 0
	}
	i++
	for _, kind := range plainKinds {
		name := kind.String()
		if from := i + len(name); startsAt(text, i, name) && startsAt(text, from, phaseField) {
			from += len(phaseField)
			n := max(0, bytes.IndexByte(text[from:], ' '))
			var known bool
			p.kind = kind
			p.place.Phase, known = pattern.ParsePhase(string(text[from : from+n]))
			if known && startsAt(text, from+n, rowField) {
				return from + n + len(rowField)
			}
			return 0
		}
	}
	return 0
}

// end reads the sum, which is all that may be left of the line at text[i], and returns
// where the next line begins; 0 where the sum does not agree.
func (p *plainReader) end(text []byte, i int) int {
	end := i + sumLen
	if !startsAt(text, i, sumField) || end > len(text) {
		return 0
	}
	p.sum = crc32.Update(p.seeded, castagnoli, text[:i])
	if binary.BigEndian.Uint64(text[end-8:]) != hexDigits(p.sum) {
		return 0
	}
	p.size = end
	switch {
	case startsAt(text, end, "\n"):
		return end + 1
	case startsAt(text, end, "\r\n"):
		return end + 2
	case end == len(text):
		return end
	}
	return 0
}

// hexDigits are the eight digits of a sum, the first one in the highest byte.
func hexDigits(sum uint32) uint64 {
	v := uint64(sum) // its digits are spread, one to a byte
	v = (v | v<<16) & 0x0000ffff0000ffff
	v = (v | v<<8) & 0x00ff00ff00ff00ff
	v = (v | v<<4) & 0x0f0f0f0f0f0f0f0f
	letters := (v + 0x0606060606060606) >> 4 & 0x0101010101010101
	return v + 0x3030303030303030 + letters*('a'-'0'-10)
}
