package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"bypeg/pattern"
	"bypeg/pattern/rowtext"
	"bypeg/pattern/safetext"
	"bypeg/tui/track"
)

// sheetAsked is how rows are written for people who read them on paper.
type sheetAsked struct {
	folded bool
	words  bool
	terms  string
	on     string // loom or needles
}

// What --terms and --for take.
const (
	usTerms   = "us"
	ukTerms   = "uk"
	onLoom    = "loom"
	onNeedles = "needles"
)

func (s *sheetAsked) addFlags(c *cobra.Command) {
	f := c.Flags()
	f.BoolVar(&s.folded, "folded", false, "tell equal rows once: Rows 1, 3, 5")
	f.BoolVar(&s.words, "words", false, "write rows in full: purl 3, knit to the end")
	f.StringVar(&s.terms, "terms", "", "write rows in us or uk terms")
	f.StringVar(&s.on, "for", "", "write rows for loom or needles")
}

// check holds what is asked for against itself.
func (s *sheetAsked) check(asJSON bool) error {
	switch {
	case !slices.Contains([]string{"", usTerms, ukTerms}, s.terms):
		return usage("write --terms us or --terms uk", "--terms cannot be %q", safetext.Clean(s.terms))
	case !slices.Contains([]string{"", onLoom, onNeedles}, s.on):
		return usage("write --for loom or --for needles", "--for cannot be %q", safetext.Clean(s.on))
	case asJSON && s.wanted():
		return usage("leave out --json, or what says how rows are written", "--json prints every row by its stitches' names")
	}
	return nil
}

// wanted tells whether rows are to be written in another way than peg by peg.
func (s *sheetAsked) wanted() bool { return s.folded || s.words || s.terms != "" || s.on != "" }

func (s *sheetAsked) term(t rowtext.Term) string {
	if s.terms == ukTerms {
		return rowtext.UK.Of(t)
	}
	return rowtext.US.Of(t)
}

// wording is how a sheet's rows are worded: what stands in the brackets behind a number
// is the way a loom's row runs, or the side in front on needles.
func (s *sheetAsked) wording() rowtext.Wording {
	w := rowtext.Wording{Tell: rowtext.TellDirection, Noun: rowtext.NounPegs}
	if s.on == onNeedles {
		w.Tell, w.Noun = rowtext.TellSide, rowtext.NounStitches
	}
	if s.words {
		w.Words = rowtext.Full
	}
	return w
}

// sheetKey is what explains names behind all sheets, each once.
type sheetKey struct{ lines []string }

func (k *sheetKey) add(lines []string) {
	for _, line := range lines {
		if !slices.Contains(k.lines, line) {
			k.lines = append(k.lines, line)
		}
	}
}

func (k *sheetKey) write(out io.Writer) {
	if len(k.lines) > 0 {
		fmt.Fprintln(out)
	}
	for _, line := range k.lines {
		fmt.Fprintln(out, line)
	}
}

// write writes one sheet, and adds to the key what is to be explained of it.
func (s *sheetAsked) write(out io.Writer, sheet rowtext.Sheet, hand pattern.Hand, key *sheetKey) error {
	if s.on == onNeedles {
		var err error
		if sheet, err = sheet.ForNeedles(hand); err != nil {
			return &failure{exitWrong, err, ""}
		}
	}
	if s.words {
		key.add(sheet.Key())
	}
	lines := sheet.Each
	if s.folded {
		lines = sheet.Fold
	}
	for _, line := range lines(s.wording()) {
		fmt.Fprintln(out, line)
	}
	return nil
}

// ofPattern writes a pattern's rows zone by zone.
func (s *sheetAsked) ofPattern(out io.Writer, o pattern.Order, hand pattern.Hand) error {
	p := o.Pattern
	noun := "peg"
	if s.on == onNeedles {
		noun = "stitch"
	}
	fmt.Fprintf(out, "%s: %s, %s, %s", safetext.Clean(p.Title), p.Form, many(p.Pegs, noun), track.Plural(p.Grid.Rows(), p.Form.RowWord()))
	if s.on == onNeedles {
		fmt.Fprintf(out, "; %s", forNeedles(hand))
	} else {
		fmt.Fprintf(out, "; peg 1 is at the %s", o.Way.Peg1)
	}
	fmt.Fprintf(out, "\ncast on %d\n", p.CastOnLoops())
	var key sheetKey
	for i := range p.Zones {
		z := &p.Zones[i]
		sheet, err := rowtext.SheetOf(o, z.First, z.Last)
		if err != nil {
			return &failure{exitWrong, err, ""}
		}
		fmt.Fprintf(out, "\n%s:\n", safetext.Clean(z.Name)) // the colon makes it a heading for who reads it again
		if err := s.write(out, sheet, hand, &key); err != nil {
			return err
		}
	}
	fmt.Fprintf(out, "\n%s all\n", s.term(rowtext.BindOff)) // with a number it would be a row's step
	key.write(out)
	return nil
}

// forNeedles heads rows for needles: which way they run, and what k2tog is, follows from
// the hand.
func forNeedles(hand pattern.Hand) string { return fmt.Sprintf("for needles, %s hand", hand) }

// ofText writes rows that were read. Where numbers are left out a new sheet begins.
func (s *sheetAsked) ofText(out io.Writer, read *rowtext.Reading, way pattern.Way, hand pattern.Hand) error {
	if s.on == onNeedles {
		fmt.Fprintln(out, forNeedles(hand))
	}
	more := slices.ContainsFunc(read.Directives, func(n rowtext.Note) bool { return n.Unwritten })
	var key sheetKey
	for rows := read.Rows; len(rows) > 0; {
		n := 1
		for n < len(rows) && rows[n].Number == rows[n-1].Number+1 {
			n++
		}
		sheet := rowtext.Sheet{Form: read.Form, Row1: way.Row1, First: rows[0].Number, Yarns: 1, Part: more || n < len(read.Rows)}
		for _, r := range rows[:n] {
			sheet.Lines = append(sheet.Lines, rowtext.Line{Runs: r.Runs})
		}
		if err := s.write(out, sheet, hand, &key); err != nil {
			return err
		}
		rows = rows[n:]
	}
	key.write(out)
	return nil
}

// many is a number with its noun: "1 stitch", "2 stitches".
func many(n int, noun string) string {
	if n != 1 && strings.HasSuffix(noun, "ch") {
		return fmt.Sprintf("%d %ses", n, noun)
	}
	return track.Plural(n, noun)
}
