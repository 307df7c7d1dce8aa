package main

import (
	"bufio"
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"bypeg/chart"
	"bypeg/pattern"
	"bypeg/pattern/safetext"
)

func newChart(p *program) *cobra.Command {
	var rows, pegs string
	var width int
	var overview bool
	c := &cobra.Command{
		Use:   "chart FILE",
		Short: "print the chart of a pattern",
		Long: `chart prints the fabric seen from its right side, with rulers, markers, ridges and a key of just what occurs.

With --overview it prints the cloth small, as wide and as high as it comes out.`,
		Example: `  bypeg chart quay-mat
  bypeg chart sluice-cloth --rows 7-12 --symbols letters
  bypeg chart skiff-cloth --overview
  bypeg chart my-blanket.toml --pegs 1-40 --width 100`,
		Args: oneFile("chart"),
		RunE: func(_ *cobra.Command, args []string) error { return p.chart(args[0], rows, pegs, width, overview) },
	}
	c.Flags().StringVar(&rows, "rows", "", "only these rows: 12-30")
	c.Flags().StringVar(&pegs, "pegs", "", "only these pegs: 1-20")
	c.Flags().IntVar(&width, "width", 0, "cells in a line; the terminal's unless said")
	c.Flags().BoolVar(&overview, "overview", false, "the cloth small, in its true proportions")
	return c
}

// oneFile checks that a command is given one pattern.
func oneFile(command string) cobra.PositionalArgs {
	return func(_ *cobra.Command, args []string) error {
		if len(args) == 1 {
			return nil
		}
		return usage(fmt.Sprintf("write bypeg %s FILE, with a pattern file or an example's name", command),
			"%s takes one pattern, not %d", command, len(args))
	}
}

// mostLines is how high an overview is printed at most: a sheet of paper has as many.
const mostLines = 60

// leastWidth is the narrowest chart that can be asked for: less holds no words.
const leastWidth = 20

func (p *program) chart(name, rows, pegs string, width int, overview bool) error {
	o, err := p.load(name)
	if err != nil {
		return err
	}
	style := p.style()
	v := chart.View{Width: width}
	switch {
	case width == 0:
		v.Width = p.width()
	case width < leastWidth:
		return usage(fmt.Sprintf("write --width 80, and %d at least", leastWidth), "--width cannot be %d", width)
	}
	if v.First, v.Last, err = span("--rows", rows, o.Pattern.Grid.Rows()); err != nil {
		return err
	}
	if v.From, v.To, err = columns(o, pegs); err != nil {
		return err
	}
	out := bufio.NewWriter(p.out)
	fmt.Fprintln(out, style.Strong(safetext.Cut(o.Pattern.Title, v.Width)))
	c := chart.New(o, style.Chart())
	lines := c.Lines
	if overview {
		lines = func(v chart.View) []string { return c.Overview(v, mostLines).Lines(chart.View{}) }
	}
	for _, line := range lines(v) {
		fmt.Fprintln(out, line)
	}
	return written(out.Flush())
}

// written turns an error of output into a failure.
func written(err error) error {
	if err == nil {
		return nil
	}
	return &failure{exitIO, fmt.Errorf("could not write: %w", err), ""}
}

// span reads "12-30" or "12" within 1 to most; empty is all.
func span(flag, text string, most int) (first, last int, err error) {
	if text == "" {
		return 1, most, nil
	}
	a, b, ranged := strings.Cut(text, "-")
	if !ranged {
		b = a
	}
	first, errA := strconv.Atoi(strings.TrimSpace(a))
	last, errB := strconv.Atoi(strings.TrimSpace(b))
	if errA != nil || errB != nil || first < 1 || last < first || last > most {
		return 0, 0, usage(fmt.Sprintf("write %s FIRST-LAST, from 1 to %d", flag, most), "%s cannot be %q", flag, safetext.Clean(text))
	}
	return first, last, nil
}

// columns reads pegs as the maker numbers them; its result is columns of the fabric.
func columns(o pattern.Order, pegs string) (from, to int, err error) {
	first, last, err := span("--pegs", pegs, o.Pattern.Pegs)
	if err != nil {
		return 0, 0, err
	}
	a, b := o.ColumnOfPeg(first), o.ColumnOfPeg(last)
	return min(a, b), max(a, b) + 1, nil
}
