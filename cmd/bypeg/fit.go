package main

import (
	"bufio"
	"cmp"
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/fit"
	"bypeg/pattern/safetext"
	"bypeg/tui/report"
)

// fitting is what fit was asked for.
type fitting struct {
	gauge, left, yarn, of, output string
	sample, ball, spacing         string
	width, height, form           string
	ownPiece                      string // its title, or newestOwn
	multiple                      []string
	plus, sides, loom, ends       int
	done, strands                 int
	pegs                          int
	margin, pace                  float64
	swatch, json, force           bool
	flags                         []string // that were given
}

func newFit(p *program) *cobra.Command {
	var ask fitting
	c := &cobra.Command{
		Use:   "fit [FILE]",
		Short: "size, yarn, loom and edges before you cast on; how many pegs a width takes",
		Long: `fit says what a pattern comes to: its size, the yarn it takes, whether loom and
yarn go together, which edges may roll, which pegs to mark, and how long it takes.
What is an estimate is called one.

With --gauge it reckons by your own gauge, and with --sample by a swatch that you
weighed; -o writes both into a copy of the pattern. With --loom and --spacing it
says whether the pattern goes on your own loom. --swatch prints a pattern to measure
and weigh, and says how. With --left it says how far the field can still go so that
border and bind-off are covered.

With --own it reckons by what a finished piece of yours measured and weighed, as you
put it down on the shelf: the newest that was made after this pattern, or else on such
pegs in such yarn; --own="Sluice Cloth" takes the one of that name.

Without FILE it answers how many pegs a width takes, or how many rows a height, and
--swatch is for the loom and the yarn at hand.`,
		Example: `  bypeg fit sluice-cloth
  bypeg fit sluice-cloth --gauge "16 stitches and 22 rows in 10 cm" -o mine.toml
  bypeg fit sluice-cloth --own -o mine.toml
  bypeg fit sluice-cloth --loom 24 --spacing "1/2 in"
  bypeg fit sluice-cloth --left 18g --done 24
  bypeg fit sluice-cloth --swatch > swatch.toml
  bypeg fit --swatch --loom 41 --spacing "3/8 in" > swatch.toml
  bypeg fit --width 52cm --gauge "24 pegs = 18.5 cm" --multiple 8 --plus 3 --sides 4
  bypeg fit --height 70cm --gauge "18 rows = 10 cm" --multiple 10 --ends 17
  bypeg fit --width 90cm --height 110cm --sample "15 x 15 cm = 11 g" --ball 100g
  bypeg fit --yarn "85 m/50 g"`,
		RunE: func(c *cobra.Command, args []string) error {
			ask.flags = slices.DeleteFunc(fitFlags(), func(flag string) bool { return !c.Flags().Changed(flag) })
			if err := ask.check(len(args)); err != nil {
				return err
			}
			if len(args) == 0 {
				return p.fitAlone(&ask)
			}
			return p.fitFile(args[0], &ask)
		},
	}
	f := c.Flags()
	f.StringVar(&ask.gauge, "gauge", "", `your gauge: "16 stitches and 22 rows in 10 cm", "4 sts/in, 5.5 rows/in", "24 pegs = 18.5 cm", "24 stitches and 30 rows = 15 x 16 cm"`)
	f.StringVar(&ask.ownPiece, "own", "", "reckon by a finished piece of yours that you measured: the newest that fits, or the one named")
	f.Lookup("own").NoOptDefVal = newestOwn
	f.StringVar(&ask.yarn, "yarn", "", `your yarn: "85 m/50 g", "11 wpi", "Nm 2", "500 tex", "class 4", "aran"`)
	f.IntVar(&ask.strands, "strands", 1, "with --yarn: how many strands are held together in place of the pattern's one")
	f.Float64Var(&ask.margin, "margin", 100*fit.DefaultMargin, "how many percent more yarn to buy")
	f.Float64Var(&ask.pace, "pace", 0, "how many stitches you work in a minute")
	f.Var(&once{to: &ask.left, why: "it was said already: ask for one yarn at a time, and weigh all of it together"}, "left", `how much yarn is left: "18 g", "9.5 m"`)
	f.IntVar(&ask.done, "done", 0, "with --left: how many rows are done; else as your piece has it")
	f.StringVar(&ask.of, "of", "", "with --left: the yarn's name, where there are several")
	f.BoolVar(&ask.swatch, "swatch", false, "print the pattern of a swatch to measure your gauge on")
	f.StringVarP(&ask.output, "output", "o", "", "with --gauge, --sample or --own: write the pattern with them; - is the standard output")
	f.BoolVar(&ask.force, "force", false, "with --output: write over a file that is there")
	f.StringVar(&ask.width, "width", "", `without FILE: how wide it is to be: "52 cm", "20 in"`)
	f.StringVar(&ask.height, "height", "", "without FILE: how high it is to be; counts rows")
	f.IntVar(&ask.pegs, "pegs", 0, "without FILE: a count of pegs that you have in mind")
	f.StringSliceVar(&ask.multiple, "multiple", nil, "the repeat's pegs or rows: 8, or 8+3 with its edge stitches; several must all come out")
	f.IntVar(&ask.plus, "plus", 0, "the edge stitches beside whole repeats")
	f.IntVar(&ask.sides, "sides", 0, "border pegs at each edge")
	f.IntVar(&ask.ends, "ends", 0, "with --height: rows of the borders at both ends together")
	f.IntVar(&ask.loom, "loom", 0, "how many pegs your loom has")
	f.StringVar(&ask.spacing, "spacing", "", `from peg to peg of your loom, "1/2 in"`)
	f.StringVar(&ask.form, "form", pattern.Panel.String(), "panel or tube")
	f.StringVar(&ask.sample, "sample", "", `a swatch that you weighed, "20 stitches and 57 rows = 12 g" or "15 x 15 cm = 11 g"`)
	f.StringVar(&ask.ball, "ball", "", `with --sample: what is in a ball, "100 g" or "85 m"`)
	f.BoolVar(&ask.json, "json", false, "print as JSON")
	return c
}

// fitFile tells of a pattern.
func (p *program) fitFile(name string, ask *fitting) error {
	src, err := source(name)
	if err != nil {
		return err
	}
	p.tellTrouble()
	var at pattern.Place
	if ask.left != "" && !ask.given("done") {
		if at, err = p.pieceLeft(&src); err != nil {
			return err
		}
	}
	owns := p.owns(src)
	by, err := p.byOwn(owns, ask)
	if err != nil {
		return err
	}
	var carried []string
	if by != nil {
		if src.Text, carried, err = withFigures(src.Text, by); err != nil {
			return err
		}
	}
	if ask.gauge != "" || ask.sample != "" {
		if src.Text, carried, err = ask.withOwn(src.Text); err != nil {
			return err
		}
	}
	o, err := p.loadSource(src)
	if err != nil {
		return err
	}
	held, err := ask.heedYarn(o.Pattern)
	if err != nil {
		return err
	}
	if err := ask.heedLoom(&o.Pattern.Design, 1); err != nil {
		return err
	}
	switch {
	case ask.output != "":
		return p.writeGauge(src.Text, carried, ask)
	case ask.swatch:
		p.noteSwatch()
		return p.print(fit.SwatchFor(&o.Pattern.Design, name))
	case ask.left != "":
		if ask.given("done") {
			if at, err = rowsDone(o.Pattern, ask.done, "done"); err != nil {
				return err
			}
		}
		return p.fitLeft(o, at, ask)
	}
	r := report.Of(o, src.Text).WithOwns(owns)
	r.By, r.Typed = by, true
	r.Heights = append(carried, r.Heights...)
	r.OwnLoom = ask.given("loom") || ask.given("spacing")
	r.Strands, r.Margin, r.Pace = ask.strands, ask.margin/100, ask.pace
	if held != nil {
		n := r.Yarns[0].Held(ask.strands, *held)
		r.Held = &n
	}
	if r.Pace == 0 && !ask.json {
		r.Pace = p.desk().Pace()
		r.OwnPace = r.Pace > 0
	}
	out := bufio.NewWriter(p.out)
	if ask.json {
		writeIndented(out, jsonOf(r, len(carried) > 0))
	} else {
		p.writeParts(out, r.Title(), r.Parts())
	}
	return written(out.Flush())
}

// noteSwatch says where a swatch tells what to do with it: whoever works it may never look
// into the file.
func (p *program) noteSwatch() {
	say(p.err, "note", "put it into a file, work it, let it rest, and measure and weigh it: the top of the file tells what, and the command to type then")
}

func (p *program) print(text string) error {
	_, err := p.out.WriteString(text)
	return written(err)
}

// withOwn is a pattern's text with the maker's own gauge and weighed swatch in it. A text
// that is no right pattern stays as it is: loading it says why.
func (ask *fitting) withOwn(text []byte) (changed []byte, carried []string, err error) {
	var g pattern.Gauge
	if ask.gauge != "" {
		if g, err = fit.ParseGauge(ask.gauge); err != nil {
			return nil, nil, usage("", "--gauge: %w", err)
		}
	}
	pat, _ := file.Load("", text)
	if pat == nil {
		return text, nil, nil
	}
	var weighed pattern.Swatch
	if ask.sample != "" {
		by := pattern.Gauge{Stitches: cmp.Or(g.Stitches, pat.Gauge.Stitches), Rows: cmp.Or(g.Rows, pat.Gauge.Rows)}
		if weighed, err = fit.ParseWeighed(ask.sample, by); err != nil {
			return nil, nil, usage("", "--sample: %w", err)
		}
	}
	if changed, carried, err = fit.Regauge(text, g, weighed); err != nil {
		return nil, nil, notInto(err)
	}
	return changed, carried, nil
}

// notInto is why figures can't be written into a pattern.
func notInto(err error) error {
	return &failure{exitWrong, fmt.Errorf("your figures can't be written into the pattern: %w", err), "change [gauge] and [swatch] in the file by hand"}
}

func (p *program) writeGauge(text []byte, carried []string, ask *fitting) error {
	for _, note := range carried {
		say(p.err, "note", note)
	}
	if ask.output == standardOutput {
		return p.print(string(text))
	}
	if err := writeNew(ask.output, string(text), ask.force); err != nil {
		return err
	}
	_, err := fmt.Fprintf(p.err, "written: %s, with your %s%s\n", safetext.Clean(ask.output), ask.own(), comesTo(text))
	return written(err)
}

// comesTo is the size of a pattern that was written: ", 21.5 cm wide, 21.5 cm high"; nothing
// where it is not known.
func comesTo(text []byte) string {
	p, _ := file.Load("", text)
	if p == nil {
		return ""
	}
	s, wide := fit.SizeOf(p), "wide"
	if p.Form == pattern.Tube {
		wide = "round"
	}
	if !s.Width.Known() || !s.Height.Known() {
		return ""
	}
	return fmt.Sprintf(": %s %s, %s high", report.SizeText(s.Width), wide, report.SizeText(s.Height))
}

// own is what of the maker's own goes into a pattern.
func (ask *fitting) own() string {
	switch {
	case ask.ownPiece != "":
		return "own figures"
	case ask.sample == "":
		return "gauge"
	case ask.gauge == "":
		return "swatch"
	}
	return "gauge and swatch"
}

// heedYarn puts the maker's own yarn in place of the pattern's. Where several strands are
// held together it comes back: it is the one that is bought.
func (ask *fitting) heedYarn(p *pattern.Pattern) (*pattern.YarnInfo, error) {
	if ask.yarn == "" {
		return nil, nil
	}
	y, err := fit.ParseYarn(ask.yarn)
	if err != nil {
		return nil, usage("", "--yarn: %w", err)
	}
	main := &p.Yarns[0]
	if ask.strands > 1 {
		y.Fibre, y.Colour = main.Fibre, main.Colour
		return &y, nil
	}
	y.Name, y.Colour, y.Fibre = main.Name, main.Colour, main.Fibre
	*main = y
	return nil, nil
}

// yarnNamed finds a yarn by its name or its colour; the hint tells of those that are worked.
func yarnNamed(d *pattern.Design, name string, worked []pattern.Yarn) (pattern.Yarn, error) {
	var known []string
	for i, y := range d.Yarns {
		if y.Name == name || y.Colour == name {
			return pattern.Yarn(i), nil
		}
		known = append(known, cmp.Or(y.Name, y.Colour))
	}
	hint := ofWhich(d, worked)
	if near := safetext.Nearest(name, known); near != "" {
		hint = "did you mean " + near + "?"
	}
	return 0, usage(hint, "the pattern has no yarn %q", safetext.Clean(name))
}
