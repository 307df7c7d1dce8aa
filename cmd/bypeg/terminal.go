package main

import (
	"os"
	"runtime"
	"strings"

	"github.com/charmbracelet/lipgloss"
	"github.com/charmbracelet/x/term"
	"github.com/muesli/termenv"

	"bypeg/tui/look"
)

func isTerminal(f *os.File) bool { return f != nil && term.IsTerminal(f.Fd()) }

// needTerminal is the error of a screen that has no terminal to be on.
func (p *program) needTerminal(hint string) error {
	if isTerminal(p.in) && isTerminal(p.out) {
		return nil
	}
	return usage(hint, "this needs a terminal for its keys and its screen")
}

// dumb tells whether the terminal only prints: no cursor can be moved on it.
func (p *program) dumb() bool { return p.getenv("TERM") == "dumb" }

// needScreen is the error of a screen on a terminal that can have none.
func (p *program) needScreen(hint string) error {
	if err := p.needTerminal(hint); err != nil {
		return err
	}
	if p.dumb() {
		return usage(hint, "this terminal only prints (TERM=dumb): a screen can't be drawn on it")
	}
	return nil
}

// coloured tells whether output is to have colours.
func (p *program) coloured() bool {
	switch p.chosen.colour {
	case "always":
		return true
	case "never":
		return false
	}
	return isTerminal(p.out)
}

// style is how everything looks on this output.
func (p *program) style() *look.Style {
	r := lipgloss.NewRenderer(p.out)
	r.SetHasDarkBackground(true) // nothing asks: themes know their grounds
	r.SetColorProfile(termenv.Ascii)
	if p.coloured() {
		r.SetColorProfile(profile(runtime.GOOS, p.getenv("TERM"), p.getenv("COLORTERM")))
	}
	s := p.chosen.settings
	theme := s.Theme.On(look.GroundOf(p.getenv("TERM"), p.getenv("COLORFGBG")))
	return look.NewStyle(r, theme, s.Symbols, s.ASCII)
}

// profile is how many colours a terminal has, by what it says of itself: it is never
// asked. GNU screen, whose name its TERM bears, makes something else of full colours.
func profile(system, term, colorterm string) termenv.Profile {
	full := colorterm == "truecolor" || colorterm == "24bit"
	switch {
	case system == "windows", full && !strings.HasPrefix(term, "screen"):
		return termenv.TrueColor
	case strings.Contains(term, "256color"):
		return termenv.ANSI256
	}
	return termenv.ANSI
}

// localeWithoutUTF8 is the variable of the locale that says that no more than ASCII can be
// shown, or "LANG" where none says anything; "" where more can be. Windows does not say
// and can.
func (p *program) localeWithoutUTF8() string {
	if runtime.GOOS == "windows" {
		return ""
	}
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if v := p.getenv(name); v != "" {
			v = strings.ToLower(strings.ReplaceAll(v, "-", ""))
			if strings.Contains(v, "utf8") {
				return ""
			}
			return name
		}
	}
	return "LANG"
}

// width is how many cells a line of output may have.
func (p *program) width() int {
	if w, _, err := term.GetSize(p.out.Fd()); err == nil && w > 0 {
		return w
	}
	return 80
}
