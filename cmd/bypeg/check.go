package main

import (
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"bypeg/pattern/file"
	"bypeg/pattern/safetext"
	"bypeg/tui/track"
)

func newCheck(p *program) *cobra.Command {
	var strict bool
	c := &cobra.Command{
		Use:     "check FILE",
		Short:   "say all that is wrong or doubtful in a pattern",
		Example: "  bypeg check my-blanket.toml --strict",
		Args:    oneFile("check"),
		RunE:    func(_ *cobra.Command, args []string) error { return p.check(args[0], strict) },
	}
	c.Flags().BoolVar(&strict, "strict", false, "a warning is as bad as an error")
	return c
}

func (p *program) check(name string, strict bool) error {
	src, err := source(name)
	if err != nil {
		return err
	}
	if err := notWritten(src); err != nil {
		return err
	}
	pat, diags := file.Load(src.Shown, src.Text)
	p.tell(diags)
	warned := slices.ContainsFunc(diags, func(d safetext.Diagnostic) bool { return d.Severity == safetext.Warning })
	if pat == nil || strict && warned {
		return &failure{code: exitWrong}
	}
	verdict := "nothing wrong"
	if warned {
		verdict = "it can be worked; see the warnings"
	}
	_, err = fmt.Fprintf(p.out, "%s: %s, %s: %s\n", safetext.Clean(pat.Title), track.Plural(pat.Pegs, "peg"),
		track.Plural(pat.Grid.Rows(), pat.Form.RowWord()), verdict)
	return written(err)
}

// tell writes diagnostics as editors can jump to, each with its picture and what to
// do.
func (p *program) tell(diags safetext.Diagnostics) {
	for _, d := range diags {
		fmt.Fprintln(p.err, d.Error())
		if d.Text != "" {
			fmt.Fprintln(p.err, d.Picture())
		}
		if d.Hint != "" {
			fmt.Fprintln(p.err, "hint: "+d.Hint)
		}
	}
}
