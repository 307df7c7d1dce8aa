package main

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/rowtext"
	"bypeg/pattern/safetext"
	"bypeg/tui"
	"bypeg/tui/track"
)

// rowsAsked is what the command rows is asked for.
type rowsAsked struct {
	text   string // a text of rows; else a file is named
	pegs   int    // of a text; 0 where it says itself
	form   string // of a text: panel, tube, or empty
	size   int    // of a text
	strict bool
	json   bool
	sheet  sheetAsked
}

func newRows(p *program) *cobra.Command {
	var ask rowsAsked
	c := &cobra.Command{
		Use:   "rows FILE|-",
		Short: "print every row in the order of work",
		Long: `rows prints a line a row: its number, the way it runs, and what the pegs take in
the order of work. FILE is a pattern file, an example's name, or a text of written
rows as they stand in a leaflet; - reads one from the standard input, --text takes
it from the command line. A text may say itself how many pegs it is for ("Cast on
13 sts"); else --pegs does.

A text that could be read in two ways is told with the reading taken; with
--strict it is refused. What it says beside rows, like how often to repeat them,
stands below them.

A text is written for the right hand unless it says how its rows run; --hand left
tells it from the other end, so that the same fabric comes of it.

With --folded equal rows are told once; --words writes them in full, --terms uk
as on the British side, --for needles as they are knit there, by your own hand:
of a panel, rows that are seen from behind are swapped.`,
		Example: `  bypeg rows quay-mat
  bypeg rows quay-mat --hand left
  bypeg rows quay-mat --folded --words
  bypeg rows --pegs 26 --text "k3, *p2, k2; rep from * to last 3, k3"
  bypeg rows leaflet.txt --pegs 40 --json`,
		Args: func(c *cobra.Command, args []string) error { return ask.check(c, args) },
		RunE: func(c *cobra.Command, args []string) error {
			if c.Flags().Changed("text") {
				return p.rowsOfText(ask, "row", ask.text)
			}
			return p.rows(ask, args[0])
		},
	}
	f := c.Flags()
	f.IntVar(&ask.pegs, "pegs", 0, "of a text: how many pegs row 1 is worked on")
	f.StringVar(&ask.text, "text", "", "written rows to read")
	f.StringVar(&ask.form, "form", "", "of a text: panel or tube; a panel unless it speaks of rounds")
	f.IntVar(&ask.size, "size", 0, "of a text: which of several sizes, as in k3 (5, 7)")
	f.BoolVar(&ask.strict, "strict", false, "a warning is as bad as an error")
	f.BoolVar(&ask.json, "json", false, "print as JSON")
	ask.sheet.addFlags(c)
	return c
}

// check holds what is asked for against itself.
func (ask *rowsAsked) check(c *cobra.Command, args []string) error {
	const hint = `write bypeg rows FILE, or bypeg rows --pegs 26 --text "k3, p to last 3, k3"`
	given := c.Flags().Changed("text")
	switch {
	case given && len(args) > 0:
		return usage(hint, "--text takes no file beside it")
	case !given && len(args) != 1:
		return usage(hint, "rows takes one file, not %d", len(args))
	case ask.pegs < 0 || ask.pegs > pattern.MaxPegs:
		return usage(`write --pegs 26 --text "k3, p to last 3, k3"`, "--pegs must be 1 to %d", pattern.MaxPegs)
	case ask.size < 0:
		return usage("write --size 2 for the first one in the brackets", "--size must be 1 or more")
	case ask.form != "" && ask.form != pattern.Panel.String() && ask.form != pattern.Tube.String():
		return usage("write --form panel or --form tube", "--form cannot be %q", safetext.Clean(ask.form))
	}
	return ask.sheet.check(ask.json)
}

// rows prints the rows of a file, of an example or of what comes in.
func (p *program) rows(ask rowsAsked, name string) error {
	src, err := p.rowsSource(name)
	if err != nil {
		return err
	}
	if !file.IsPattern(src.Shown, src.Text) {
		return p.rowsOfText(ask, src.Shown, string(src.Text))
	}
	if ask.pegs > 0 || ask.form != "" || ask.size > 0 {
		return usage("leave them out: the pattern says all that itself", "--pegs, --form and --size are for written rows, and %s is a pattern", safetext.Clean(name))
	}
	p.tellTrouble()
	pat, diags := file.Load(src.Shown, src.Text)
	warnings := diags.Of(safetext.Warning)
	if ask.strict && len(warnings) > 0 {
		pat, diags = nil, asErrors(diags)
	}
	if pat == nil {
		return p.refuse(ask, diags)
	}
	_, way := p.chosen.settings.Way(&pat.Design)
	o := pattern.Order{Pattern: pat, Way: way}
	out := bufio.NewWriter(p.out)
	switch {
	case ask.json:
		writeRowsJSON(out, jsonOfPattern(o, warnings))
	case ask.sheet.wanted():
		if err := ask.sheet.ofPattern(out, o, p.chosen.settings.Hand); err != nil {
			return err
		}
	default:
		writeRows(out, o)
	}
	if err := out.Flush(); err != nil {
		return written(err)
	}
	if !ask.json {
		p.tell(warnings)
	}
	return nil
}

// rowsSource is a text that may be rows: what comes in for "-", else what is found
// under a name.
func (p *program) rowsSource(name string) (tui.Source, error) {
	if name != "-" {
		return source(name)
	}
	text, err := io.ReadAll(io.LimitReader(p.in, rowtext.MaxText+1))
	if err != nil {
		return tui.Source{}, &failure{exitIO, fmt.Errorf("could not read the standard input: %w", err), ""}
	}
	return tui.Source{Name: "-", Shown: "standard input", Text: text}, nil
}

// asErrors are the errors of a strict reading: its warnings too.
func asErrors(diags safetext.Diagnostics) safetext.Diagnostics {
	var errs safetext.Diagnostics
	for _, d := range diags {
		if d.Severity == safetext.Warning {
			d.Severity = safetext.Error
		}
		if d.Severity == safetext.Error {
			errs = append(errs, d)
		}
	}
	return errs
}

// refuse tells why there are no rows.
func (p *program) refuse(ask rowsAsked, diags safetext.Diagnostics) error {
	if !ask.json {
		p.tell(diags)
		return &failure{code: exitWrong}
	}
	out := bufio.NewWriter(p.out)
	writeErrorsJSON(out, diags.Of(safetext.Error))
	if err := out.Flush(); err != nil {
		return written(err)
	}
	return &failure{code: exitWrong}
}

// writeRows writes a whole pattern as instructions, zone by zone. A maker who follows
// them from the cast-on makes the fabric.
func writeRows(w io.Writer, o pattern.Order) {
	p := o.Pattern
	word := p.Form.RowWord()
	fmt.Fprintf(w, "%s: %s, %s, %s; peg 1 is at the %s\n", safetext.Clean(p.Title), p.Form,
		track.Plural(p.Pegs, "peg"), track.Plural(p.Grid.Rows(), word), o.Way.Peg1)
	castOn := fmt.Sprintf("cast on %d, %s", p.CastOnLoops(), o.CastOnDirection())
	if p.CastOn.Passes == 2 && p.Form == pattern.Panel {
		castOn += " and back"
	}
	if p.CastOn.Name != "" {
		castOn += ": " + p.CastOn.Name
	}
	fmt.Fprintln(w, castOn)
	digits := len(fmt.Sprint(p.Grid.Rows()))
	for i := range p.Zones {
		z := &p.Zones[i]
		fmt.Fprintf(w, "\n%s\n", safetext.Clean(z.Name))
		for row := z.First; row <= z.Last; row++ {
			fmt.Fprintf(w, "%s %*d, %s: %s\n", word, digits, row, o.Direction(row), printRow(o, row))
		}
	}
}

// stretch is steps of a row that are worked with one yarn.
type stretch struct {
	runs []rowtext.Run
	yarn pattern.Yarn
}

// stretches are what each peg of a row takes, in the order of work.
func stretches(o pattern.Order, row int) []stretch {
	if len(o.Pattern.Yarns) < 2 {
		return []stretch{{runs: rowtext.LineOf(o, row)}}
	}
	var all []stretch
	for r := range rowtext.Worked(o, row) {
		if last := len(all) - 1; last < 0 || all[last].yarn != r.Yarn {
			all = append(all, stretch{yarn: r.Yarn})
		}
		last := &all[len(all)-1]
		last.runs = rowtext.AddCells(last.runs, r)
	}
	return all
}

// printRow is what a row's pegs take in the order of work. Where the piece has several
// yarns each stretch says its own.
func printRow(o pattern.Order, row int) string {
	var text []string
	for _, s := range stretches(o, row) {
		text = append(text, rowtext.Print(s.runs)+inYarn(o.Pattern, s.yarn))
	}
	return strings.Join(text, "; ")
}

// inYarn names a yarn where there is more than one.
func inYarn(p *pattern.Pattern, yarn pattern.Yarn) string {
	if len(p.Yarns) < 2 || int(yarn) >= len(p.Yarns) {
		return ""
	}
	return " in " + p.Yarns[yarn].Called()
}
