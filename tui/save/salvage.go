package save

import (
	"regexp"
	"strings"
)

// Bounds of salvage: a line is somebody's damage, and looking at it must end soon.
const (
	maxStretch = 64 << 10 // bytes a record can have
	maxStamps  = 8        // times that are looked at before each sum
	maxDigits  = 20       // digits a record's number can have
)

var stampPattern = regexp.MustCompile(` \d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(?:Z|[+-]\d\d:\d\d) `)

// salvage finds the whole records within a line that does not check: one lost
// newline must not cost two steps. A record ends with its sum; where it begins is
// found from its time, by going back over the two numbers before it.
func salvage(line, seed string) []Record {
	var found []Record
	start, look := 0, 0
	for {
		at := strings.Index(line[look:], sumField)
		end := look + at + sumLen
		if at < 0 || end > len(line) {
			return found
		}
		look += at + len(sumField)
		if r, ok := endsInRecord(line[max(start, end-maxStretch):end], seed); ok {
			found = append(found, r)
			start, look = end, end
		}
	}
}

// endsInRecord finds the record that ends where s ends.
func endsInRecord(s, seed string) (Record, bool) {
	stamps := stampPattern.FindAllStringIndex(s, -1)
	for tries := 0; tries < maxStamps && tries < len(stamps); tries++ {
		at := stamps[len(stamps)-1-tries][0]
		prev := digitsBefore(s, at)
		if prev == at || prev == 0 || s[prev-1] != ' ' {
			continue
		}
		// Junk, or the end of another record, may touch the number: each of its
		// digits may be the first.
		last := prev - 1
		for i := last - 1; i >= max(digitsBefore(s, last), last-maxDigits); i-- {
			if r, v := parseRecord(s[i:], seed); v == sound {
				return r, true
			}
		}
	}
	return Record{}, false
}

// digitsBefore is where the digits that end at s[end] begin.
func digitsBefore(s string, end int) int {
	for end > 0 && s[end-1] >= '0' && s[end-1] <= '9' {
		end--
	}
	return end
}
