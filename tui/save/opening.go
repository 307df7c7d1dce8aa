package save

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"bypeg/pattern"
	"bypeg/pattern/safetext"
)

// Opening is what is found when a piece is opened. All its texts are safe to show.
type Opening struct {
	Place   pattern.Place // of the last record; the zero place where there is none
	Of      int           // stitches of its row, 0 where not known
	Time    time.Time     // when the piece was last worked
	History History       // all that led to the place, oldest first
	Notices []string      // what a person should know and need not answer

	// Question is nil unless somebody must say which place is the right one. Until
	// Settle nothing can be saved.
	Question *Question

	// LookOnly is the reason why the piece can be looked at and not worked, to go
	// behind such words as the screen has for that; "" where it can be worked.
	LookOnly string
	// Held tells whether LookOnly is because the piece is open elsewhere, so that
	// TryTakeOver may succeed later.
	Held bool
}

// QuestionKind is why the place is in doubt.
type QuestionKind uint8

// The kinds of question.
const (
	DamagedEnd QuestionKind = iota // the last full line of the journal does not check
	LineAdded                      // a person wrote a place into the journal
	TwoPlaces                      // two accounts of the work do not agree
)

// Origin is where a choice comes from. The origins are in the order in which a
// question has its choices, the surest first; but the second copy goes before a sound
// journal that ends before it, which is an old one come back.
type Origin uint8

// The origins of a choice.
const (
	FromMemory  Origin = iota // what this program had saved before the file was changed
	FromJournal               // the journal's last record
	FromCopy                  // place.toml
	FromRival                 // another history within the journal
	FromAdded                 // the line that a person wrote
	FromDamaged               // what can be made out in the damaged line
)

var originWords = [...]string{
	"what was saved here", "the journal", "the second copy", "another history in the journal",
	"the line added by hand", "the damaged line",
}

// String tells the origin to a person.
func (o Origin) String() string {
	if int(o) >= len(originWords) {
		return "origin " + strconv.Itoa(int(o))
	}
	return originWords[o]
}

// Choice is one place that may be the right one.
type Choice struct {
	Origin Origin
	Place  pattern.Place
	Of     int
	Time   time.Time // zero where not known

	// Another tells that it is a place in another pattern than the one of Pattern; see
	// PatternOf.
	Another bool

	record  Record // the one that has it, its Number 0 where none has
	pattern string // the mark of the pattern text that it is a place in
}

// String tells the choice to a person: "the journal: row 12, 6 of 26 worked,
// 2026-01-02 19:04".
func (c Choice) String() string {
	s := fmt.Sprintf("%s: %s", c.Origin, placeWords(c.Place, c.Of))
	if c.Another {
		s += " in another pattern"
	}
	if !c.Time.IsZero() {
		s += ", " + c.Time.Format(minuteFormat)
	}
	return s
}

const minuteFormat = "2006-01-02 15:04"

// Question asks which place is the right one.
type Question struct {
	Kind    QuestionKind
	Line    string   // the damaged or added line at the journal's end, made safe; mostly "" for TwoPlaces
	Choices []Choice // the surest first, one at least: see Origin
}

// String is the question in words. A screen that knows the pegs can do better.
func (q Question) String() string {
	switch q.Kind {
	case DamagedEnd:
		sure := q.Choices[0]
		s := fmt.Sprintf("last sure place %s; the damaged line after it reads %q", sure, q.Line)
		if q.Line == "" {
			s = fmt.Sprintf("last sure place %s; the damaged line after it has nothing that can be read", sure)
		}
		for _, c := range q.Choices[1:] {
			s += fmt.Sprintf(": %s?", placeWords(c.Place, c.Of))
		}
		return s
	case LineAdded:
		return fmt.Sprintf("a line was added by hand: %q; use it?", q.Line)
	}
	words := make([]string, len(q.Choices))
	for i, c := range q.Choices {
		words[i] = c.String()
	}
	return "which place is the right one? " + strings.Join(words, "; ")
}

// same tells whether two choices are one place in one pattern. Where it is not known in
// which pattern one is, the place alone counts.
func (c Choice) same(d Choice) bool {
	return c.Place == d.Place && (c.pattern == d.pattern || c.pattern == "" || d.pattern == "")
}

// offer adds a choice unless it is already among them.
func (q *Question) offer(c Choice) {
	if !slices.ContainsFunc(q.Choices, c.same) {
		q.Choices = append(q.Choices, c)
	}
}

// maxGuesses is how many damaged lines a place is made out in: the last ones, for the
// work went on from there.
const maxGuesses = 16

// ask finds out whether the place is in doubt. Where several things speak against
// it, all the places are offered in one question.
func ask(s *scan, c chain, second *secondCopy, mark string) *Question {
	q := &Question{}
	top := c.top
	doubt := second != nil && c.disputed(second)
	if own := c.pattern(); doubt && own != "" {
		mark = own
	}
	offerCopy := func() {
		q.offer(Choice{Origin: FromCopy, Place: second.at, Of: second.of, Time: second.time, pattern: second.facts.pattern})
		q.Kind = TwoPlaces
	}
	// A sound journal that ends before the second copy is an old one come back.
	if doubt && second.number > top.Number && len(s.atEnd) == 0 {
		offerCopy()
	}
	if top.Number > 0 {
		q.offer(Choice{Origin: FromJournal, Place: top.Place, Of: top.Of, Time: top.Time, record: top, pattern: mark})
	}
	if doubt {
		offerCopy()
	}
	for _, r := range c.tips {
		q.offer(Choice{Origin: FromRival, Place: r.Place, Of: r.Of, Time: r.Time, record: r, pattern: r.facts.pattern})
		q.Kind, doubt = TwoPlaces, true
	}
	if s.added != nil {
		q.offer(Choice{Origin: FromAdded, Place: s.added.at, Of: s.added.of, pattern: mark})
		if !doubt {
			q.Kind, q.Line, doubt = LineAdded, shown(s.added.line), true
		}
	}
	if len(s.atEnd) > 0 {
		for _, line := range s.atEnd[max(0, len(s.atEnd)-maxGuesses):] {
			if at, of, ok := guessPlace(line); ok {
				q.offer(Choice{Origin: FromDamaged, Place: at, Of: of, pattern: mark})
			}
		}
		if q.Line == "" {
			q.Line = shown(s.atEnd[0])
		}
		if !doubt {
			q.Kind, doubt = DamagedEnd, true
		}
	}
	if !doubt || len(q.Choices) == 0 {
		return nil
	}
	return q
}

// shown is a line of the file as it may be shown: safe, and not longer than a person
// would read.
func shown(line string) string {
	const most = 200
	runes := []rune(safetext.Clean(line[:min(len(line), 4*most)]))
	if len(runes) > most {
		return string(runes[:most]) + "…"
	}
	return string(runes)
}

// What a person is told when lines were passed over.
const (
	tornNotice         = "an interrupted line was skipped; nothing saved was lost"
	copyDamagedNotice  = "the second copy of the place can't be read. Your place is not affected."
	copyUnreadNotice   = "the second copy of the place can't be read now, and may have a later place: try again, or move place.toml away"
	patternDoubtNotice = "the pattern may have been changed in a line that can't be read: compare it with your own copy before you go on"
	patternNotice      = "the kept pattern was changed or damaged: compare it with your own copy before you go on"
	noLocksNotice      = "this folder can't be locked: do not open the piece in two terminals"
)

// Why a piece can be looked at only.
const (
	newerWords      = "last worked with a newer version of the program"
	copyUnreadWords = "its second copy can't be read: "
)

// unreadNotice is "1 of 4,711 lines can't be read. Your place is not affected.", or
// "" where every line can.
func unreadNotice(unread, lines int) string {
	if unread == 0 {
		return ""
	}
	return fmt.Sprintf("%s of %s lines can't be read. Your place is not affected.",
		thousands(unread), thousands(max(lines, unread)))
}

// thousands writes a count with commas between thousands.
func thousands(n int) string {
	s := strconv.Itoa(n)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}
