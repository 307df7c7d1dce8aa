package main

import (
	"bufio"
	"cmp"
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
	"bypeg/pattern/safetext"
	"bypeg/tui"
	"bypeg/tui/track"
)

// resizing is what resize was asked for.
type resizing struct {
	loom, pegs, weight, pick      int
	spacing, gauge, width, height string
	looms, output                 string
	sameSize, samePegs, fill      bool
	json, force, picked           bool
	wish                          fit.Wish
}

func newResize(p *program) *cobra.Command {
	var ask resizing
	c := &cobra.Command{
		Use:   "resize FILE",
		Short: "carry a design over to another loom, gauge or size",
		Long: `resize says which counts of pegs and rows the same design can have on another
loom, in another gauge or yarn, or at another size, at most five side by side,
the best first: those that the loom has pegs for, and then those that it has not.
Borders keep their width, ridges their height, and repeats stay whole. What you
don't ask for stays: without a width or a height, the size.

With -o it writes one of them as a pattern file, the first or the one that --pick
names: only the values that change differ from FILE, comments stay.

--looms reads a list of looms, as a class has them, and tells the best for each,
with its markers; with --fill on as many of its pegs as can be:

  looms = 1

  [window]
  pegs    = 24
  spacing = "1/2 in"`,
		Example: `  bypeg resize sluice-cloth --loom 24
  bypeg resize sluice-cloth --gauge "16 stitches and 22 rows in 10 cm"
  bypeg resize sluice-cloth --width 52cm -o wide-cloth.toml --pick 2
  bypeg resize sluice-cloth --looms looms.toml`,
		Args: oneFile("resize"),
		RunE: func(c *cobra.Command, args []string) error {
			if err := ask.settle(c); err != nil {
				return err
			}
			src, err := source(args[0])
			if err != nil {
				return err
			}
			p.tellTrouble()
			if ask.looms != "" {
				return p.resizeForLooms(src, &ask)
			}
			return p.resize(src, &ask)
		},
	}
	f := c.Flags()
	f.IntVar(&ask.loom, "loom", 0, "how many pegs the new loom has")
	f.StringVar(&ask.spacing, "spacing", "", `from peg to peg of the new loom: "1/2 in", "9.5 mm"`)
	f.StringVar(&ask.gauge, "gauge", "", `your gauge: "16 stitches and 22 rows in 10 cm", "24 pegs = 18.5 cm"`)
	f.IntVar(&ask.weight, "weight", 0, "the class of the new yarn, 0 to 7")
	f.StringVar(&ask.width, "width", "", `how wide it is to be: "52 cm", "20 in"`)
	f.StringVar(&ask.height, "height", "", "how high it is to be")
	f.IntVar(&ask.pegs, "pegs", 0, "just so many pegs; the rows change with them, to keep the shape")
	f.BoolVar(&ask.sameSize, "same-size", false, "keep the size; so it is unless you ask for another")
	f.BoolVar(&ask.fill, "fill", false, "as many pegs as the loom has room for; the rows stay")
	f.BoolVar(&ask.samePegs, "same-pegs", false, "keep the pegs, and the shape with them")
	f.StringVar(&ask.looms, "looms", "", "a list of looms: one line for each")
	f.StringVarP(&ask.output, "output", "o", "", "write one as a pattern file; - is the standard output")
	f.IntVar(&ask.pick, "pick", 1, "with --output: which one")
	f.BoolVar(&ask.force, "force", false, "with --output: write over a file that is there")
	f.BoolVar(&ask.json, "json", false, "print as JSON")
	return c
}

// settle turns what the flags say into a wish.
func (ask *resizing) settle(c *cobra.Command) error {
	given := c.Flags().Changed
	if err := ask.checkCounts(given); err != nil {
		return err
	}
	if err := namesOutput(c, ask.output); err != nil {
		return err
	}
	if err := ask.checkTogether(given); err != nil {
		return err
	}
	w := &ask.wish
	*w = fit.Wish{Weight: pattern.UnknownWeight, Loom: pattern.Loom{Pegs: ask.loom}, Pegs: ask.pegs, Spacing: ask.spacing, Fill: ask.fill}
	ask.picked = given("pick")
	if given("weight") {
		w.Weight = ask.weight
	}
	lengths := map[string]measure.Length{}
	for flag, text := range map[string]string{"spacing": ask.spacing, "width": ask.width, "height": ask.height} {
		if !given(flag) {
			continue
		}
		l, err := measure.ParseLength(text)
		if err != nil {
			return usage(fmt.Sprintf("write it like --%s %s", flag, map[bool]string{true: `"1/2 in"`, false: "52cm"}[flag == "spacing"]), "--%s: %w", flag, err)
		}
		lengths[flag] = l
	}
	w.Loom.SpacingMM, w.Width, w.Height = lengths["spacing"].In(measure.Millimetre), lengths["width"], lengths["height"]
	if given("gauge") {
		var err error
		if w.Gauge, err = fit.ParseGauge(ask.gauge); err != nil {
			return usage("", "--gauge: %w", err)
		}
	}
	return nil
}

func (ask *resizing) checkCounts(given func(string) bool) error {
	for _, f := range []struct {
		flag            string
		n, least, most  int
		example, reason string
	}{
		{"loom", ask.loom, 1, pattern.MaxPegs, "--loom 41", "a number of pegs"},
		{"pegs", ask.pegs, 1, pattern.MaxPegs, "--pegs 43", "a number of pegs"},
		{"weight", ask.weight, 0, 7, "--weight 4", "a yarn's class"},
		{"pick", ask.pick, 1, 5, "--pick 2", "the number before a line"},
	} {
		if given(f.flag) && (f.n < f.least || f.n > f.most) {
			return usage("write it like "+f.example, "--%s is %s, from %d to %d", f.flag, f.reason, f.least, f.most)
		}
	}
	return nil
}

// checkTogether holds flags against each other.
func (ask *resizing) checkTogether(given func(string) bool) error {
	if given("looms") && ask.looms == "" {
		return usage("write --looms looms.toml", "--looms names no file")
	}
	widths := 0
	for _, flag := range []string{"width", "pegs", "same-pegs", "fill"} {
		if given(flag) {
			widths++
		}
	}
	switch {
	case widths > 1 || ask.sameSize && (widths > 0 || given("height")):
		return usage("leave one of them out", "--width, --pegs, --same-pegs, --fill and --same-size each say how wide it is to be")
	case given("looms") && (given("loom") || given("spacing") || given("gauge") || given("pegs") || ask.samePegs):
		return usage("write --looms FILE alone, or with --width, --height or --fill", "the list of looms says what looms there are and what gauge is got on them")
	case given("looms") && given("output"):
		return usage("write --loom 24 -o FILE for each loom", "--looms writes no pattern files")
	case ask.json && ask.output == standardOutput:
		return usage("name a file, or leave --json out", "--json and --output - both print to the standard output")
	case (given("pick") || ask.force) && ask.output == "":
		return usage("write -o FILE beside it", "--pick and --force are for a file that --output names")
	}
	for _, flag := range []string{"loom", "spacing", "gauge", "weight", "width", "height", "pegs", "same-size", "same-pegs", "fill", "looms"} {
		if given(flag) {
			return nil
		}
	}
	return usage(`write --loom 24, --width 52cm or --gauge "24 pegs = 18.5 cm"`, "say what is to be otherwise: loom, gauge, yarn or size")
}

// resize tells the candidates, and writes one where that is asked for.
func (p *program) resize(src tui.Source, ask *resizing) error {
	if ask.samePegs {
		pegs, err := p.statedPegs(src)
		if err != nil {
			return err
		}
		ask.wish.Pegs = pegs
	}
	r, err := p.resized(src, ask.wish)
	if err != nil {
		return err
	}
	told := io.Writer(p.out)
	if ask.output == standardOutput {
		told = p.err // the pattern goes to the other
	}
	out := bufio.NewWriter(told)
	if ask.json {
		writeResizedJSON(out, r)
	} else {
		p.writeResized(out, r, ask)
	}
	if err := out.Flush(); err != nil {
		return written(err)
	}
	switch {
	case ask.output != "":
		return p.writePicked(r, ask)
	case r.Candidates[0].Fits == fit.No:
		return &failure{exitWrong, errors.New("none of them fits the loom"), ""}
	}
	return nil
}

func (p *program) statedPegs(src tui.Source) (int, error) {
	o, err := p.loadSource(src)
	if err != nil {
		return 0, err
	}
	return o.Pattern.Pegs, nil
}

// resized are the candidates. What is wrong with the pattern has been told when it comes
// back as an error.
func (p *program) resized(src tui.Source, w fit.Wish) (*fit.Resized, error) {
	if _, err := p.loadSource(src); err != nil {
		return nil, err
	}
	r, err := fit.Resize(src.Text, w)
	var refusal *fit.Refusal
	if errors.As(err, &refusal) {
		return nil, &failure{exitWrong, err, refusal.Hint}
	}
	return r, err
}

// farOff is by how many percent a candidate may miss the wish and still be written without
// being picked.
const farOff = 25

// writePicked writes one of the candidates.
func (p *program) writePicked(r *fit.Resized, ask *resizing) error {
	if ask.pick > len(r.Candidates) {
		return usage(fmt.Sprintf("write --pick 1 to --pick %d", len(r.Candidates)), "there is no candidate %d", ask.pick)
	}
	c := r.Candidates[ask.pick-1]
	switch {
	case ask.picked:
	case c.Fits == fit.No:
		return &failure{exitWrong, errors.New("none of them fits the loom, so none was written"), "--pick 1 writes it all the same, for a longer loom"}
	case c.Error > farOff:
		return &failure{exitWrong, fmt.Errorf("the nearest is %s, so none was written", cmp.Or(missed(r, c, ask.wish), track.Plural(c.Pegs, "peg"))), "--pick 1 writes it all the same"}
	}
	if ask.output == standardOutput {
		if _, err := p.out.Write(c.Text); err != nil {
			return written(err)
		}
		return p.tellWritten(r, c, ask)
	}
	if err := writeNew(ask.output, string(c.Text), ask.force); err != nil {
		return err
	}
	if _, err := fmt.Fprintf(p.err, "written: %s, %s\n", safetext.Clean(ask.output), candidateSize(c)); err != nil {
		return written(err)
	}
	return p.tellWritten(r, c, ask)
}

// tellWritten tells what is not as it was asked for in a candidate that was written.
func (p *program) tellWritten(r *fit.Resized, c fit.Candidate, ask *resizing) error {
	var all []remark
	if text := missed(r, c, ask.wish); text != "" {
		if n := nearerOnLonger(r, c); n > 0 {
			text += fmt.Sprintf(", for %s has %s: --pick %d is nearer, and takes a longer loom",
				cmp.Or(ask.ownLoom("the pattern's own loom"), "the loom"), track.Plural(c.Pattern.Loom.Pegs, "peg"), n)
		}
		all = append(all, remark{text: text})
	}
	for _, text := range c.Notes {
		all = append(all, remark{text: text})
	}
	if r.Carried {
		name := safetext.Clean(ask.output)
		switch {
		case name == standardOutput:
			name = "FILE"
		case strings.Contains(name, " "):
			name = `"` + name + `"`
		}
		all = append(all, remark{text: "the gauge in it is an estimate. Work a swatch (bypeg fit " + name + " --swatch), and put in your own: bypeg fit " +
			name + ` --gauge "16 stitches and 22 rows in 10 cm" -o mine.toml`})
	}
	out := bufio.NewWriter(p.err)
	p.writeRemarks(out, all)
	return written(out.Flush())
}
