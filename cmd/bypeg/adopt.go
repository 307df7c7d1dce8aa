package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"bypeg/pattern"
	"bypeg/pattern/adopt"
	"bypeg/pattern/file"
	"bypeg/pattern/rowtext"
	"bypeg/pattern/safetext"
)

// adopting is what adopt was asked for.
type adopting struct {
	from, form, row1, title, output string
	pegs, size                      int
	json, strict, force             bool
	opts                            adopt.Options
}

func newAdopt(p *program) *cobra.Command {
	var w adopting
	c := &cobra.Command{
		Use:   "adopt FILE",
		Short: "make a pattern of written rows",
		Long: `adopt reads written rows, from a file or with - from what is typed or piped in, and
prints a pattern file. Beside it, it says row by row what it understood.

Rows for needles are seen from behind on every other row: --from needles turns
those round, so that the loom makes the same fabric. --from round is for rounds,
on needles or on a loom. --form makes a tube of a panel's rows, without their
edge stitches, or a panel of a tube's, with them.

How often rows are worked that go on "until it is long enough" is yours to say:
the file has them once, with a remark where times stands, and it is a warning.

--row-1 says which side row 1 of rows for needles is, right-side or wrong-side,
where they don't say; for other rows it is the way row 1 runs.`,
		Example: `  bypeg adopt rows.txt
  bypeg adopt rows.txt --from needles --row-1 wrong-side -o mat.toml
  bypeg adopt rows.txt --from needles --form tube --pegs 36`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 1 {
				return nil
			}
			return usage("write bypeg adopt FILE, with a file of written rows, or - for what is piped in", "adopt takes one text, not %d", len(args))
		},
		RunE: func(c *cobra.Command, args []string) error {
			if err := w.settle(c); err != nil {
				return err
			}
			return p.adopt(args[0], &w)
		},
	}
	f := c.Flags()
	f.StringVar(&w.from, "from", adopt.Loom.String(), "what the rows were written for: "+strings.Join(adopt.SourceNames(), ", "))
	f.StringVar(&w.form, "form", "", "make a panel or a tube of them; as they are unless said")
	f.StringVar(&w.row1, "row-1", "", `which side row 1 for needles is, "right-side" or "wrong-side"; else the way row 1 runs, "right to left" or "left to right"`)
	f.IntVar(&w.pegs, "pegs", 0, "how many pegs the pattern takes; as many as the rows say unless said")
	f.IntVar(&w.size, "size", 0, "which of several sizes k3 (5, 7) is read: 1 is the first")
	f.StringVar(&w.title, "title", "", "what the piece is called; the text's first line unless said, or the file's name")
	f.StringVarP(&w.output, "output", "o", "", "write the pattern to this file; - is the standard output")
	f.BoolVar(&w.force, "force", false, "with --output: write over a file that is there")
	f.BoolVar(&w.json, "json", false, "print as JSON")
	f.BoolVar(&w.strict, "strict", false, "a warning is as bad as an error")
	return c
}

// settle turns what the flags say into options.
func (w *adopting) settle(c *cobra.Command) error {
	i := slices.Index(adopt.SourceNames(), w.from)
	if i < 0 {
		return usage("write --from loom, needles or round", "--from cannot be %q", safetext.Clean(w.from))
	}
	w.opts = adopt.Options{From: adopt.Source(i), Told: c.Flags().Changed("from"), Pegs: w.pegs, Size: w.size}
	switch w.form {
	case "":
	case pattern.Panel.String():
		w.opts.Want = adopt.WantPanel
	case pattern.Tube.String():
		w.opts.Want = adopt.WantTube
	default:
		return usage("write --form panel or --form tube", "--form cannot be %q", safetext.Clean(w.form))
	}
	if err := namesOutput(c, w.output); err != nil {
		return err
	}
	if w.output == standardOutput {
		if w.json {
			return usage("leave out one of them: the JSON holds the pattern", "--json and --output - both print to the standard output")
		}
		w.output = "" // where it goes unless said
	}
	switch {
	case c.Flags().Changed("pegs") && (w.pegs < 1 || w.pegs > pattern.MaxPegs):
		return usage("write --pegs 26, or leave it out", "--pegs must be 1 to %d", pattern.MaxPegs)
	case c.Flags().Changed("size") && w.size < 1:
		return usage("write --size 2 for the second", "--size counts from 1")
	case w.force && w.output == "":
		return usage("write --output FILE --force", "--force is for a file that --output names")
	}
	return w.settleRow1()
}

// settleRow1 reads --row-1: a side for needles, a direction for a loom.
func (w *adopting) settleRow1() error {
	o := &w.opts
	value := strings.ReplaceAll(w.row1, "-", " ")
	switch needles := o.From == adopt.Needles; {
	case value == "":
	case needles && value == "right side":
		o.Side = adopt.RightSide
	case needles && value == "wrong side":
		o.Side = adopt.WrongSide
	case needles:
		return usage("write --row-1 right-side or --row-1 wrong-side", "--row-1 of rows for needles cannot be %q", safetext.Clean(w.row1))
	case value == pattern.ToLeft.String():
		o.Row1, o.Row1Said = pattern.ToLeft, true
	case value == pattern.ToRight.String():
		o.Row1, o.Row1Said = pattern.ToRight, true
	default:
		return usage(`write --row-1 "left to right"; a side of row 1 goes with --from needles`, "--row-1 cannot be %q", safetext.Clean(w.row1))
	}
	return nil
}

func (p *program) adopt(name string, w *adopting) error {
	text, shown, err := p.writtenRows(name)
	if err != nil {
		return err
	}
	p.tellTrouble()
	if file.IsPattern(shown, []byte(text)) {
		return &failure{exitWrong, fmt.Errorf("%s is a pattern already, and adopt takes written rows", safetext.Clean(shown)), "bypeg rows FILE prints its rows, bypeg check FILE looks for mistakes"}
	}
	src := safetext.NewSource(shown, text)
	if at, ok := noText(text); !ok {
		return p.refuse(rowsAsked{json: w.json}, notText(src, at))
	}
	a, err := adopt.Text(text, w.opts)
	var ask *adopt.AskSide
	if errors.As(err, &ask) && name != "-" && isTerminal(p.in) && isTerminal(p.err) {
		if w.opts.Side, err = p.askSide(); err == nil {
			a, err = adopt.Text(text, w.opts)
		}
	}
	if err != nil {
		return p.notAdopted(src, w, err)
	}
	if w.title == "" {
		w.title = a.Title
	}
	if w.title == "" && name != "-" {
		w.title = strings.TrimSuffix(filepath.Base(name), filepath.Ext(name))
	}
	made := a.File(w.title)
	pat, diags := file.Load("the pattern", []byte(made))
	if pat == nil {
		return &failure{exitWrong, fmt.Errorf("these rows can be read, but no pattern file holds them yet: %w", diags.Err()), ""}
	}
	_, way := p.chosen.settings.Way(&pat.Design)
	turned := way.Row1 != a.Pattern.Way.Row1
	if turned {
		a = a.WorkedIn(way)
	}
	if err := p.adopted(src, w, a, made); err != nil {
		return err
	}
	if turned {
		p.tellTurned(w)
	}
	return nil
}

// tellTurned says that the rows have been told from the other end than the text has them, and
// that the file has not been turned.
func (p *program) tellTurned(w *adopting) {
	say(p.err, "note", "the rows are told as you work them, from the other end than the text has them; the file and its fabric are the text's, and pegs are counted as the text counts them")
	if w.opts.From == adopt.Needles {
		say(p.err, "note", "rows for needles are read as a right-handed knitter works them; of rows written for a left hand this is the mirror image")
	}
}

// writtenRows is the text of a file and what it is called, or what is piped in.
func (p *program) writtenRows(name string) (text, shown string, err error) {
	if name == "-" {
		src, err := p.rowsSource(name)
		return string(src.Text), src.Shown, err
	}
	read, err := file.Read(name)
	if err != nil {
		return "", "", &failure{exitIO, err, ""}
	}
	return string(read), name, nil
}

// askSide asks which side row 1 is, once.
func (p *program) askSide() (adopt.Side, error) {
	fmt.Fprint(p.err, "Which side of the fabric faces you on row 1, right or wrong? ")
	line, err := bufio.NewReader(io.LimitReader(p.in, 80)).ReadString('\n')
	switch answer := strings.ToLower(strings.TrimSpace(line)); {
	case answer != "" && strings.HasPrefix("right side", answer), answer == "rs":
		return adopt.RightSide, nil
	case answer != "" && strings.HasPrefix("wrong side", answer), answer == "ws":
		return adopt.WrongSide, nil
	case err != nil && !errors.Is(err, io.EOF):
		return 0, &failure{exitIO, fmt.Errorf("the answer could not be read: %w", err), ""}
	}
	return 0, &adopt.AskSide{}
}

// notAdopted tells why rows can't be adopted.
func (p *program) notAdopted(src *safetext.Source, w *adopting, err error) error {
	var ask *adopt.AskSide
	var several rowtext.Errors
	switch {
	case errors.As(err, &ask):
		return usage("write --row-1 right-side, or --row-1 wrong-side, or (RS) behind the number of the first row", "%w", err)
	case !errors.As(err, &several):
		return &failure{exitWrong, err, ""}
	}
	return p.refuse(rowsAsked{json: w.json}, misread(src, err))
}

// adopted writes the pattern, and beside it what was understood.
func (p *program) adopted(src *safetext.Source, w *adopting, a *adopt.Adopted, made string) error {
	warnings := pointed(src, a.Warnings, safetext.Warning)
	directives := pointed(src, a.Directives, safetext.Note)
	if w.strict && len(warnings) > 0 {
		return p.refuse(rowsAsked{json: w.json}, asErrors(warnings))
	}
	if w.output != "" {
		if err := writeNew(w.output, made, w.force); err != nil {
			return err
		}
	}
	if w.json {
		out := bufio.NewWriter(p.out)
		writeAdoptedJSON(out, a, made, warnings, directives)
		return written(out.Flush())
	}
	told := p.err
	if w.output != "" {
		told = p.out
	} else if _, err := io.WriteString(p.out, made); err != nil {
		return written(err)
	}
	out := bufio.NewWriter(told)
	if w.output == "" {
		fmt.Fprintln(out)
	}
	writeAdopted(out, a, w.output != "")
	if w.output != "" {
		fmt.Fprintf(out, "written: %s\n", safetext.Clean(w.output))
	}
	if err := out.Flush(); err != nil {
		return written(err)
	}
	p.tell(warnings)
	for i, d := range directives {
		if said := a.Directives[i]; !said.Open && !said.Unwritten { // warnings tell those
			fmt.Fprintln(p.err, d.Error())
		}
	}
	return nil
}

// writeAdopted says row by row what was understood; folded, equal rows once.
func writeAdopted(w io.Writer, a *adopt.Adopted, folded bool) {
	word := a.Pattern.Form.RowWord()
	digits := len(fmt.Sprint(len(a.Rows)))
	folded = folded && len(a.Parts) < 2 // which row of which repeat a row is has no place there
	for _, z := range a.Zones {
		fmt.Fprintln(w, z.Told(word))
		if folded {
			for _, line := range a.Sheet(z).Fold(rowtext.Wording{Noun: rowtext.NounPegs, Tell: rowtext.TellDirection}) {
				fmt.Fprintln(w, line)
			}
			continue
		}
		for _, r := range a.Rows[z.First-1 : z.Last] {
			fmt.Fprintf(w, "%s %*d, %s: %s%s\n", word, digits, r.Number, r.Direction, rowtext.Shortest(r.Runs), besideRow(a, r))
		}
	}
	if way, ok := a.SeenFromBehind(); ok && folded {
		fmt.Fprintf(w, "note: the rows that run %s are from wrong-side rows: their knits and purls are changed over\n", way)
	}
	for _, note := range a.Notes() {
		fmt.Fprintln(w, note)
	}
}

// besideRow is what is said behind a row: that it was seen from behind, and in which row of
// its repeat each part is.
func besideRow(a *adopt.Adopted, r adopt.Row) string {
	var b strings.Builder
	if r.Behind {
		b.WriteString("  (from a wrong-side row)")
	}
	if len(r.Of) == 0 {
		return b.String()
	}
	b.WriteString("  (repeat row")
	for i, of := range r.Of {
		if i > 0 {
			b.WriteString(",")
		}
		if a.Parts[i].Name != "" {
			fmt.Fprintf(&b, " %s:", safetext.Clean(a.Parts[i].Name))
		}
		fmt.Fprintf(&b, " %d", of)
	}
	b.WriteString(")")
	return b.String()
}
