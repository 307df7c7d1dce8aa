package main

import (
	"errors"

	"github.com/spf13/cobra"

	"bypeg/pattern/fit"
	"bypeg/pattern/safetext"
)

func newMeasured(p *program) *cobra.Command {
	return &cobra.Command{
		Use:   "measured FILE [SIZE]",
		Short: "put down what a finished piece measures and weighs",
		Long: `measured puts down what the last finished piece of FILE measures and weighs, as
the shelf does too: the width first, or only what you know of it. Without SIZE it
says what is put down. From then on it is your own swatch: bypeg fit offers the
gauge and the yarn that follow for the next piece, and with --own reckons by them.

Wash it as it will be washed and let it rest first; measure it flat, unstretched.
The width of a tube is that of the tube laid flat, half of the way round, unless you
write round behind it.`,
		Example: `  bypeg measured quay-mat "11.5 x 8 cm, 6 g"
  bypeg measured my-blanket.toml "110 cm high"
  bypeg measured lock-collar "22.5 x 30 cm"
  bypeg measured lock-collar "45 cm round, 30 cm high"
  bypeg measured quay-mat`,
		Args: func(c *cobra.Command, args []string) error {
			if len(args) < 1 || len(args) > 2 {
				return usage(`bypeg measured quay-mat "11.5 x 8 cm, 6 g"`, "measured takes a FILE and what the piece measures, in quotes")
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error { return p.measured(args) },
	}
}

// measured puts down what the last finished piece of a pattern measures, or says it.
func (p *program) measured(args []string) error {
	p.tellTrouble()
	desk := p.desk()
	piece, err := p.offLoom(desk, args[0])
	switch {
	case err != nil:
		return err
	case len(args) == 1 && piece.Says == "":
		return &failure{exitWrong, errors.New("nothing is put down of the last one"), `bypeg measured ` + safetext.Clean(args[0]) + ` "` + fit.ExampleOf(piece.Form) + `" puts it down`}
	case len(args) == 1:
		return p.print(piece.Says + "\n")
	}
	f, err := fit.ParseFinished(args[1], piece.Form)
	if err != nil {
		return usage("", "%w", err)
	}
	says, err := desk.PutDown(piece.ID, f)
	refusal := (*fit.Refusal)(nil)
	switch {
	case errors.As(err, &refusal):
		return &failure{exitWrong, errors.New(refusal.Msg), refusal.Hint}
	case err != nil:
		return &failure{exitIO, err, ""}
	}
	return p.print(says + "\n")
}
