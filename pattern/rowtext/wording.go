package rowtext

import (
	"strconv"

	"bypeg/pattern"
)

// Wording is how rows are put into words. It is told in values, so that nobody looks
// for words in a text to change them. The zero value is the shortest: "k3, p to last
// 3, k3".
type Wording struct {
	Words Words
	Noun  Noun
	Tell  Tell
}

// Words are letters or whole words.
type Words uint8

// The words of a row.
const (
	Letters Words = iota // "p3, k to last 3, p3"
	Full                 // "purl 3, knit to the last 3 stitches, purl 3"
)

// Noun is what "the last 3" are.
type Noun uint8

// The nouns.
const (
	NoNoun       Noun = iota // "to last 3"
	NounPegs                 // "to last 3 pegs"
	NounStitches             // "to last 3 sts", in full words "stitches"
)

// Tell is what stands in brackets behind the number of a row.
type Tell uint8

// What a row's number can be told with.
const (
	TellNothing   Tell = iota
	TellDirection      // "Row 1 (right to left): ..."
	TellSide           // "Row 1 (RS): ..."; of a tube nothing, for it has one side
)

// Row is one row at its shortest, in these words. The runs are in the order of work;
// equal neighbours are read as one.
func (w Wording) Row(runs []Run) string { return string(w.parts(nil, shorten(runs))) }

// Meaning is what a step's letters mean, for a key beside rows: "k2tog" is "knit 2
// together". It is empty for a peg not in use and for what is no step.
//
// The words are the same in US and UK rows. British rows have yrn and yfwd, and wool
// round needle, for what is called yo here, but yfwd also tells where the yarn is held,
// and "make 1" is a yarn over in old rows: those would be read in a second way, so yo
// and m1 stay.
func Meaning(s Stitch) string { return meaningBy(s, pattern.RightHand) }

// meaningBy is what a step means that is named as a hand on needles names it.
func meaningBy(s Stitch, hand pattern.Hand) string {
	if c, ok := s.Cross(); ok {
		if hand == pattern.LeftHand && namedByHold(c) {
			c.Lean = c.Lean.Opposite()
		}
		return c.String()
	}
	if s >= stitches {
		return ""
	}
	lean, ok := leans[s]
	switch {
	case !ok:
		return meanings[s]
	case hand == pattern.LeftHand:
		lean = lean.Opposite()
	}
	return meanings[s] + ", leaning " + lean.String()
}

// leans are the ways that steps lean by the right hand.
var leans = map[Stitch]pattern.Side{
	KnitTwo: pattern.Right, SlipSlipKnit: pattern.Left, SlipKnitPass: pattern.Left, SlipSlipPurl: pattern.Left,
}

// Key explains the steps of a sheet whose names stay letters in full words, a line each,
// in the order in which they are met: "ssk: slip 1, slip 1, knit the two together,
// leaning left".
func (s Sheet) Key() []string {
	var key []string
	known := map[Stitch]bool{}
	hand := pattern.RightHand
	if s.Needles {
		hand = s.Hand
	}
	for _, line := range s.Lines {
		for _, r := range line.Runs {
			if !known[r.Stitch] && Full.say(r.Stitch) == Letters.say(r.Stitch) {
				key = append(key, r.Stitch.Name()+": "+meaningBy(r.Stitch, hand))
			}
			known[r.Stitch] = true
		}
	}
	return key
}

var meanings = [stitches]string{
	Knit:         "knit",
	Purl:         "purl",
	Slip:         "slip",
	SlipBack:     "slip with the yarn behind",
	SlipFront:    "slip with the yarn in front",
	EWrap:        "knit by an e-wrap",
	UWrap:        "knit by a u-wrap",
	FlatKnit:     "knit with the yarn laid flat",
	TrueKnit:     "knit by drawing the yarn through the loop",
	KnitTBL:      "knit through the back of the loop",
	PurlTBL:      "purl through the back of the loop",
	YarnOver:     "yarn over: a new stitch that leaves a hole",
	MakeOne:      "make one: a new stitch from the strand between two",
	KnitTwice:    "knit into the front and the back of one stitch",
	KnitTwo:      "knit 2 together",
	SlipSlipKnit: "slip 1, slip 1, knit the two together",
	SlipKnitPass: "slip 1, knit 1, pass the slipped one over",
	PurlTwo:      "purl 2 together",
	SlipSlipPurl: "slip 1, slip 1, purl the two together",
	SlipTwoPass:  "slip 1, knit 2 together, pass the slipped one over",
}

// saying is how a step is said: a head, the count, and a tail. A step that covers
// several pegs or none has a number of its own, so its count can't stand beside it: it
// is said whole, and more than one of it in a bracket.
type saying struct {
	head, tail string
	whole      bool
}

// sayings are the steps in letters and in full words. Where full words would be read in
// a second way ("slip, slip, knit" is three steps; "make 1" a yarn over in old rows) the
// letters stay.
var sayings = [2][stitches]saying{
	Letters: {
		NoStitch: {head: "none"}, Knit: {head: "k"}, Purl: {head: "p"}, Slip: {head: "sl"},
		SlipBack: {head: "sl", tail: " wyib"}, SlipFront: {head: "sl", tail: " wyif"},
		EWrap: {head: "ew"}, UWrap: {head: "uw"}, FlatKnit: {head: "fk"}, TrueKnit: {head: "tk"},
		KnitTBL: {head: "k", tail: " tbl"}, PurlTBL: {head: "p", tail: " tbl"},
		YarnOver: {head: "yo", whole: true}, MakeOne: {head: "m1", whole: true}, KnitTwice: {head: "kfb", whole: true},
		KnitTwo: {head: "k2tog", whole: true}, SlipSlipKnit: {head: "ssk", whole: true}, SlipKnitPass: {head: "skp", whole: true},
		PurlTwo: {head: "p2tog", whole: true}, SlipSlipPurl: {head: "ssp", whole: true}, SlipTwoPass: {head: "sk2p", whole: true},
	},
	Full: {
		NoStitch: {head: "no stitch "}, Knit: {head: "knit "}, Purl: {head: "purl "}, Slip: {head: "slip "},
		SlipBack: {head: "slip ", tail: " with yarn in back"}, SlipFront: {head: "slip ", tail: " with yarn in front"},
		EWrap: {head: "e-wrap "}, UWrap: {head: "u-wrap "}, FlatKnit: {head: "flat knit "}, TrueKnit: {head: "true knit "},
		KnitTBL: {head: "knit ", tail: " through the back loop"}, PurlTBL: {head: "purl ", tail: " through the back loop"},
		YarnOver: {head: "yarn over", whole: true}, MakeOne: {head: "m1", whole: true}, KnitTwice: {head: "kfb", whole: true},
		KnitTwo: {head: "knit 2 together", whole: true}, SlipSlipKnit: {head: "ssk", whole: true}, SlipKnitPass: {head: "skp", whole: true},
		PurlTwo: {head: "purl 2 together", whole: true}, SlipSlipPurl: {head: "ssp", whole: true}, SlipTwoPass: {head: "sk2p", whole: true},
	},
}

// say is how a step is said in these words.
func (w Words) say(s Stitch) saying {
	if s < stitches {
		return sayings[w][s]
	}
	return saying{head: s.Name(), whole: true}
}

// bare tells whether the step's name alone, or before "to end", says all of it.
func bare(s Stitch) bool {
	said := Letters.say(s)
	return s != NoStitch && !said.whole && said.tail == ""
}

// step is a run as a part of a row.
func (w Wording) step(to []byte, r Run) []byte {
	said := w.Words.say(r.Stitch)
	switch {
	case !said.whole:
		to = append(to, said.head...)
		return append(strconv.AppendInt(to, int64(r.Count), 10), said.tail...)
	case r.Count == 1:
		return append(to, said.head...)
	}
	to = append(append(append(to, '('), said.head...), ")"...)
	return w.times(to, r.Count)
}

func (w Wording) times(to []byte, n int) []byte {
	to = strconv.AppendInt(append(to, ' '), int64(n), 10)
	return append(to, " times"...)
}

// name is a step's name alone, as a whole row and a fill have it.
func (w Wording) name(to []byte, s Stitch) []byte {
	head := w.Words.say(s).head
	if w.Words == Full {
		head = head[:len(head)-1] // its blank
	}
	return append(to, head...)
}

// far is how far an open part goes: to so many loops before the end.
func (w Wording) far(to []byte, last int) []byte {
	the := " "
	if w.Words == Full {
		the = " the "
	}
	to = append(append(to, " to"...), the...)
	if last == 0 {
		return append(to, "end"...)
	}
	to = append(to, "last"...)
	noun := w.noun(last)
	if last != 1 || noun == "" {
		to = strconv.AppendInt(append(to, ' '), int64(last), 10)
	}
	return append(to, noun...)
}

// noun is what so many loops are called, with a blank before it.
func (w Wording) noun(n int) string {
	switch {
	case w.Noun == NoNoun:
		return ""
	case w.Noun == NounPegs && n == 1:
		return " peg"
	case w.Noun == NounPegs:
		return " pegs"
	case w.Words == Letters && n == 1:
		return " st"
	case w.Words == Letters:
		return " sts"
	case n == 1:
		return " stitch"
	}
	return " stitches"
}

// parts are the parts of a row behind one another.
func (w Wording) parts(to []byte, parts []part) []byte {
	for i, p := range parts {
		if i > 0 {
			to = append(to, ", "...)
		}
		to = w.part(to, p)
	}
	return to
}

func (w Wording) part(to []byte, p part) []byte {
	switch p.kind {
	case partWhole:
		return w.name(to, p.run.Stitch)
	case partFill:
		return w.far(w.name(to, p.run.Stitch), p.last)
	case partBracket:
		open, end := byte('('), byte(')')
		if w.bracketed(p.parts) {
			open, end = '[', ']'
		}
		to = append(w.parts(append(to, open), p.parts), end)
		return w.times(to, p.times)
	case partStar:
		to = w.parts(append(to, '*'), p.parts)
		to = append(to, "; rep"...)
		if w.Words == Full {
			to = append(to, "eat"...)
		}
		return w.far(append(to, " from *"...), p.last)
	}
	return w.step(to, p.run)
}

// bracketed tells whether a bracket stands among the parts.
func (w Wording) bracketed(parts []part) bool {
	for _, p := range parts {
		if p.kind == partBracket || p.kind == partStep && p.run.Count > 1 && w.Words.say(p.run.Stitch).whole {
			return true
		}
	}
	return false
}
