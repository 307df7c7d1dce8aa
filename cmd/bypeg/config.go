package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"bypeg/pattern/safetext"
	"bypeg/tui/config"
)

func newConfig(p *program) *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "config",
		Short: "print every setting and what sets it",
		Long: `config prints every setting, and what sets it: a flag, a variable of the
environment, the config file, or nothing, where it is as it comes. What is wrong
with the config file is told too.

The file is TOML. Write what you want otherwise than it comes, and no more:

  hand = "left"
  theme = "light"        # auto, dark, light, contrast, none
  bell = true            # rings where a border comes
  wrap_ahead = true      # tells which pegs of e-wrapped garter may be wrapped ahead
  double_press = "0 s"   # a second whole row at once is never asked about
  pause = "30 min"       # a rest is suggested after so much work

  [keys]                 # of the work screen, by the names printed here
  peg = ["space", "x"]

  [shelf_keys]           # of the shelf
  choose = ["enter", "space"]

  [chart_keys]           # of the chart
  here = "g"

  [list_keys]            # of questions
  leave = ["q", "esc"]`,
		Example: `  bypeg config
  bypeg config --json`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return p.config(asJSON) },
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print as JSON")
	return c
}

// config prints what is chosen, then what is wrong with the config file.
func (p *program) config(asJSON bool) error {
	out := bufio.NewWriter(p.out)
	if asJSON {
		p.chosen.writeJSON(out)
	} else {
		p.chosen.write(out)
	}
	if err := out.Flush(); err != nil {
		return written(err)
	}
	p.tell(p.chosen.faults)
	switch {
	case p.chosen.unread != nil:
		return &failure{exitIO, p.chosen.unread, ""}
	case len(p.chosen.faults) > 0:
		return &failure{code: exitWrong}
	}
	return nil
}

// values are all settings: those that the config file can have, and the colours.
func (c chosen) values() []config.Value {
	return append([]config.Value{{Name: "color", Value: c.colour}}, c.settings.Values()...)
}

// source is what sets a setting.
func (c chosen) source(name string) string {
	if s, ok := c.sources[name]; ok {
		return s
	}
	return "default"
}

func (c chosen) write(w io.Writer) {
	fmt.Fprint(w, "config file: ", c.path)
	if c.missing {
		fmt.Fprint(w, " (there is none)")
	}
	fmt.Fprintln(w)
	names, says := 0, 0
	for _, v := range c.values() {
		names, says = max(names, safetext.Width(v.Name)), max(says, safetext.Width(sayValue(v.Value)))
	}
	table := "none yet"
	for _, v := range c.values() {
		in, _, keys := strings.Cut(v.Name, ".")
		if !keys {
			in = ""
		}
		if in != table { // a line apart
			fmt.Fprintln(w)
			table = in
		}
		fmt.Fprintf(w, "%s  %s  %s\n", safetext.Pad(v.Name, names), safetext.Pad(sayValue(v.Value), says), c.source(v.Name))
	}
}

// sayValue is a value in words.
func sayValue(v any) string {
	switch v := v.(type) {
	case nil:
		return "as the pattern has it"
	case []string:
		return strings.Join(v, " ")
	}
	return fmt.Sprint(v)
}

// jsonSchema is the version of what --json prints.
const jsonSchema = 1

func (c chosen) writeJSON(w io.Writer) {
	settings := map[string]any{}
	for _, v := range c.values() {
		settings[v.Name] = map[string]any{"source": c.source(v.Name), "value": v.Value}
	}
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	_ = e.Encode(map[string]any{ // the writer keeps its error; maps are written in the order of their keys
		"schema": jsonSchema, "settings": settings,
		"file": map[string]any{"faults": len(c.faults), "path": c.path, "read": !c.missing && c.unread == nil},
	})
}
