package main

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"strings"

	"github.com/adrg/xdg"
	"github.com/spf13/cobra"

	"bypeg/pattern/safetext"
	"bypeg/tui/config"
	"bypeg/tui/track"
)

// chosen is what the maker has chosen. A flag goes before the environment, that before
// the config file, and that before what comes by itself.
type chosen struct {
	settings config.Settings
	colour   string            // auto, always or never
	sources  map[string]string // what sets each setting that does not come by itself, by its name
	wayAsked bool              // a flag says how the maker works

	path    string // of the config file
	missing bool   // there is none, and none was named
	faults  safetext.Diagnostics
	unread  error  // why it can't be read
	trouble string // a line that says that something is wrong with it; mostly ""
}

// settle finds out what the maker has chosen. What is wrong with the config file is no
// error: it must not keep anybody from working.
func (p *program) settle(c *cobra.Command) error {
	p.chosen = readConfig(p.configPath(), c.Flags().Changed("config"))
	p.heedEnvironment()
	return p.heedFlags(c)
}

func (p *program) configPath() string {
	if p.flags.config != "" {
		return p.flags.config
	}
	return filepath.Join(xdg.ConfigHome, "bypeg", "config.toml")
}

// readConfig reads the config file. One that is not there is a fault only where it was
// named.
func readConfig(path string, named bool) chosen {
	c := chosen{settings: config.Default(), colour: "auto", sources: map[string]string{}, path: safetext.Clean(path)}
	command := "bypeg config"
	if named {
		command += " --config FILE"
	}
	text, err := config.Read(path)
	switch {
	case errors.Is(err, fs.ErrNotExist) && !named:
		c.missing = true
	case err != nil:
		c.unread, c.trouble = err, "the config file can't be read: "+command+" tells"
	default:
		loaded := config.Load(path, text)
		c.settings, c.faults = loaded.Settings, loaded.Faults
		for name := range loaded.FromFile {
			c.sources[name] = c.path
		}
	}
	if n := len(c.faults); n > 0 {
		c.trouble = fmt.Sprintf("the config file has %s: %s tells", track.Plural(n, "fault"), command)
	}
	return c
}

// heedEnvironment sets what the variables of the environment say. NO_COLOR goes before
// CLICOLOR_FORCE, and that before what the terminal is.
func (p *program) heedEnvironment() {
	c := &p.chosen
	switch force := p.getenv("CLICOLOR_FORCE"); {
	case p.getenv("NO_COLOR") != "":
		c.colour, c.sources["color"] = "never", "NO_COLOR"
	case force != "" && force != "0":
		c.colour, c.sources["color"] = "always", "CLICOLOR_FORCE"
	case p.dumb():
		c.colour, c.sources["color"] = "never", "TERM"
	}
	if name := p.localeWithoutUTF8(); name != "" {
		c.settings.ASCII, c.sources["ascii"] = true, name
	}
}

// heedFlags sets what the flags say.
func (p *program) heedFlags(command *cobra.Command) error {
	c, set := &p.chosen, command.Flags()
	for _, v := range c.settings.Values() {
		name := strings.ReplaceAll(v.Name, "_", "-")
		flag := set.Lookup(name)
		if flag == nil || !flag.Changed || command.LocalNonPersistentFlags().Lookup(name) != nil { // adopt has a --row-1 of its own
			continue
		}
		var wrong *config.WrongValue
		if err := c.settings.Set(v.Name, flag.Value.String()); errors.As(err, &wrong) {
			return usage("--"+name+" can be "+wrong.Takes, "--%s cannot be %s", name, wrong.Shown())
		}
		c.sources[v.Name] = "--" + name
	}
	c.wayAsked = set.Changed("hand") || set.Changed("peg-1") || set.Changed("row-1")
	if !set.Changed("color") {
		return nil
	}
	switch p.flags.color {
	case "auto", "always", "never":
		c.colour, c.sources["color"] = p.flags.color, "--color"
		return nil
	}
	return usage("write --color auto, always or never", "--color cannot be %q", safetext.Clean(p.flags.color))
}

// tellTrouble says in one line that something is wrong with the config file, where there is
// no screen to say so.
func (p *program) tellTrouble() {
	if p.chosen.trouble != "" {
		say(p.err, "note", p.chosen.trouble)
	}
}
