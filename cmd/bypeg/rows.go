package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"bypeg/pattern"
	"bypeg/pattern/rowtext"
	"bypeg/pattern/safetext"
	"bypeg/tui/track"
)

func newRows(p *program) *cobra.Command {
	var pegs int
	var text string
	c := &cobra.Command{
		Use:   "rows FILE",
		Short: "print every row in the order of work",
		Long: `rows prints a line a row: its number, the way it runs, and what the pegs take in
the order of work. With --pegs and --text it reads one written row and says
what it is on so many pegs.`,
		Example: `  bypeg rows quay-mat
  bypeg rows quay-mat --hand left
  bypeg rows --pegs 26 --text "k3, *p2, k2; rep from * to last 3, k3"`,
		Args: func(c *cobra.Command, args []string) error {
			const hint = `write bypeg rows FILE, or bypeg rows --pegs 26 --text "k3, p to last 3, k3"`
			switch {
			case c.Flags().Changed("text") && text == "":
				return usage(hint, "--text is empty")
			case text == "" && c.Flags().Changed("pegs"):
				return usage(hint, "--pegs is for a row given with --text")
			case text == "":
				return oneFile("rows")(c, args)
			case len(args) > 0:
				return usage(hint, "--text takes no pattern beside it")
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error {
			if text != "" {
				return p.rowText(pegs, text)
			}
			return p.rows(args[0])
		},
	}
	c.Flags().IntVar(&pegs, "pegs", 0, "with --text: how many pegs the row is worked on")
	c.Flags().StringVar(&text, "text", "", "a written row to read")
	return c
}

func (p *program) rows(name string) error {
	o, err := p.load(name)
	if err != nil {
		return err
	}
	out := bufio.NewWriter(p.out)
	writeRows(out, o)
	return written(out.Flush())
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

// printRow is what a row's pegs take in the order of work. Where the piece has several
// yarns each stretch says its own.
func printRow(o pattern.Order, row int) string {
	var text []string
	var runs []rowtext.Run
	var yarn pattern.Yarn
	flush := func() {
		if len(runs) > 0 {
			text = append(text, rowtext.Print(runs)+inYarn(o.Pattern, yarn))
		}
		runs = nil
	}
	for r := range o.Runs(row) {
		if r.Yarn != yarn && len(o.Pattern.Yarns) > 1 {
			flush()
		}
		yarn = r.Yarn
		runs = rowtext.AddCells(runs, r)
	}
	flush()
	return strings.Join(text, "; ")
}

// inYarn names a yarn where there is more than one.
func inYarn(p *pattern.Pattern, yarn pattern.Yarn) string {
	if len(p.Yarns) < 2 || int(yarn) >= len(p.Yarns) {
		return ""
	}
	return " in " + p.Yarns[yarn].Called()
}

// rowText reads one written row. What is wrong with it is told with a caret.
func (p *program) rowText(pegs int, text string) error {
	if pegs < 1 || pegs > pattern.MaxPegs {
		return usage("write --pegs 26 --text \"k3, p to last 3, k3\"", "--pegs must be 1 to %d", pattern.MaxPegs)
	}
	runs, err := rowtext.Expand(text, pegs)
	if err == nil {
		_, err := fmt.Fprintln(p.out, rowtext.Print(runs))
		return written(err)
	}
	src := safetext.NewSource("row", text)
	var diags safetext.Diagnostics
	var errs rowtext.Errors
	if !errors.As(err, &errs) {
		return &failure{exitWrong, err, ""}
	}
	for _, e := range errs {
		diags = append(diags, src.At(e.Start, e.End, safetext.Error, e.Msg, e.Hint))
	}
	p.tell(diags)
	return &failure{code: exitWrong}
}
