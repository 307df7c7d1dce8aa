package main

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"bypeg/chart"
	"bypeg/examples"
	"bypeg/pattern/safetext"
	"bypeg/tui/config"
	"bypeg/tui/look"
)

// flags are those that every command takes.
// Those that set what the config file sets too are not among them: settle reads them.
type flags struct {
	color, data, config string
	plain, once         bool // of work
	finished            bool // of work: open the last finished piece again
}

const longHelp = `bypeg keeps the place in a piece on a peg loom, row by row and peg by peg.

Alone it opens the shelf: the pieces on the loom, and examples to begin
something new. With FILE, a pattern file or an example's name, it goes on with
the piece begun from it, or begins one.

Exit codes: 0 done; 1 the pattern is wrong, or check or config found errors;
2 wrong usage, or no terminal where one is needed; 3 could not read or write;
70 a bug; 129, 130, 131, 143 ended by a signal (130 also by ctrl+c). The place is
saved in every case.`

// newRoot is the command itself, with all others below it.
func newRoot(p *program) *cobra.Command {
	c := &cobra.Command{
		Use:               "bypeg [FILE]",
		Short:             "row by row, peg by peg, never lost",
		Long:              longHelp,
		Args:              cobra.ArbitraryArgs,
		SilenceErrors:     true,
		SilenceUsage:      true,
		Version:           version(),
		PersistentPreRunE: func(c *cobra.Command, _ []string) error { return p.settle(c) },
		RunE: func(_ *cobra.Command, args []string) error {
			switch len(args) {
			case 0:
				return p.shelf()
			case 1:
				return p.workOn(args[0])
			}
			return usage("bypeg --help lists the commands", "%q is no command", safetext.Clean(args[0]))
		},
	}
	c.SetVersionTemplate("{{.Version}}\n")
	f, d := c.PersistentFlags(), config.Default()
	f.String("hand", d.Hand.String(), "the hand you work with: right or left")
	f.String("peg-1", "", "the side where you count peg 1: right or left")
	f.String("row-1", "", `the way your row 1 runs: "right to left" or "left to right"`)
	f.StringVar(&p.flags.color, "color", "auto", "colours: auto, always or never")
	f.String("theme", d.Theme.String(), "which colours: "+strings.Join(look.ThemeNames(), ", "))
	f.Bool("ascii", d.ASCII, "draw with plain ASCII")
	f.String("symbols", d.Symbols.String(), "how stitches are drawn: "+strings.Join(chart.SetNames(), ", "))
	f.Int("lead", d.Lead, "how many pegs ahead a border is told")
	f.Bool("bell", d.Bell, "ring the terminal's bell where a border comes")
	f.Bool("mouse", d.Mouse, "scroll by the mouse's wheel; it never moves the place")
	f.Bool("wrap-ahead", d.WrapAhead, "tell which pegs may be wrapped ahead in an e-wrapped garter row")
	f.String("double-press", "1 s", `ask where a second whole row comes within this time; "0 s" never`)
	f.String("pause", "45 min", `suggest a rest after so much work without one; "0 min" never`)
	f.StringVar(&p.flags.data, "data", "", "the folder that keeps your pieces")
	f.StringVar(&p.flags.config, "config", "", "the file with your settings")
	addPlain(p, c)
	c.AddCommand(newWork(p), newChart(p), newRows(p), newCheck(p), newAdopt(p), newConfig(p), newResize(p), newFit(p), newPlace(p), newMend(p), newMeasured(p))
	return c
}

// exampleNamed is the text of an example.
func exampleNamed(name string) ([]byte, bool) {
	if !slices.Contains(examples.Names(), name) {
		return nil, false
	}
	return examples.Text(name)
}
