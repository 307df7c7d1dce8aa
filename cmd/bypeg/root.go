package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"bypeg/chart"
	"bypeg/examples"
	"bypeg/pattern"
	"bypeg/pattern/safetext"
	"bypeg/tui/look"
	"bypeg/tui/track"
)

// flags are those that every command takes.
type flags struct {
	hand, peg1, row1 string
	color, data      string
	theme            string
	ascii            bool
	symbols          string
	lead             int
	plain, once      bool // of work
}

const longHelp = `bypeg keeps the place in a piece on a peg loom, row by row and peg by peg.

Alone it opens the shelf: the pieces on the loom, and examples to begin
something new. With FILE, a pattern file or an example's name, it goes on with
the piece begun from it, or begins one.

Exit codes: 0 done; 1 the pattern is wrong, or check found errors; 2 wrong
usage, or no terminal where one is needed; 3 could not read or write; 70 a bug;
129, 130, 131, 143 ended by a signal (130 also by ctrl+c). The place is saved in
every case.`

// newRoot is the command itself, with all others below it.
func newRoot(p *program) *cobra.Command {
	c := &cobra.Command{
		Use:           "bypeg [FILE]",
		Short:         "row by row, peg by peg, never lost",
		Long:          longHelp,
		Args:          cobra.ArbitraryArgs,
		SilenceErrors: true,
		SilenceUsage:  true,
		Version:       version(),
		PersistentPreRunE: func(c *cobra.Command, _ []string) error {
			set := c.Flags()
			p.wayAsked = set.Changed("hand") || set.Changed("peg-1") || set.Changed("row-1")
			return p.checkFlags()
		},
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
	f := c.PersistentFlags()
	f.StringVar(&p.flags.hand, "hand", "right", "the hand you work with: right or left")
	f.StringVar(&p.flags.peg1, "peg-1", "", "the side where you count peg 1: right or left")
	f.StringVar(&p.flags.row1, "row-1", "", `the way your row 1 runs: "right to left" or "left to right"`)
	f.StringVar(&p.flags.color, "color", "auto", "colours: auto, always or never")
	f.StringVar(&p.flags.theme, "theme", "auto", "which colours: "+strings.Join(look.ThemeNames(), ", "))
	f.BoolVar(&p.flags.ascii, "ascii", false, "draw with plain ASCII")
	f.StringVar(&p.flags.symbols, "symbols", "bars", "how stitches are drawn: "+strings.Join(chart.SetNames(), ", "))
	f.StringVar(&p.flags.data, "data", "", "the folder that keeps your pieces")
	f.IntVar(&p.flags.lead, "lead", track.DefaultLead, "how many pegs ahead a border is told")
	addPlain(p, c)
	c.AddCommand(newWork(p), newChart(p), newRows(p), newCheck(p))
	return c
}

// checkFlags finds a wrong value of a flag that all commands take, also where the
// command would have no use for it.
func (p *program) checkFlags() error {
	if p.flags.lead < 0 {
		return usage("write --lead 2", "--lead cannot be %d", p.flags.lead)
	}
	if _, err := p.way(); err != nil {
		return err
	}
	_, err := p.style()
	return err
}

// way is how the maker works a design: its own way for their hand, unless they say
// otherwise.
func (p *program) way() (func(*pattern.Design) (pattern.Hand, pattern.Way), error) {
	hand, err := pick("--hand", p.flags.hand, pattern.RightHand, pattern.LeftHand)
	if err != nil {
		return nil, err
	}
	peg1, err := pick("--peg-1", p.flags.peg1, pattern.Left, pattern.Right)
	if err != nil {
		return nil, err
	}
	row1, err := pick("--row-1", p.flags.row1, pattern.ToLeft, pattern.ToRight)
	if err != nil {
		return nil, err
	}
	return func(d *pattern.Design) (pattern.Hand, pattern.Way) {
		w := d.WayFor(hand)
		if p.flags.peg1 != "" {
			w.Peg1 = peg1
		}
		if p.flags.row1 != "" {
			w.Row1 = row1
		}
		return hand, w
	}, nil
}

// pick finds the value of a flag that is one of a few words; an empty flag is the
// first of them.
func pick[T fmt.Stringer](flag, value string, values ...T) (T, error) {
	if value == "" {
		return values[0], nil
	}
	var words []string
	for _, v := range values {
		if v.String() == value {
			return v, nil
		}
		words = append(words, `"`+v.String()+`"`)
	}
	return values[0], usage("write "+flag+" "+strings.Join(words, " or "), "%s cannot be %q", flag, safetext.Clean(value))
}

// exampleNamed is the text of an example.
func exampleNamed(name string) ([]byte, bool) {
	if !slices.Contains(examples.Names(), name) {
		return nil, false
	}
	return examples.Text(name)
}
