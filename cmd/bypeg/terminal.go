package main

import (
	"os"
	"runtime"
	"strings"

	"github.com/charmbracelet/lipgloss"
	"github.com/charmbracelet/x/term"
	"github.com/muesli/termenv"

	"bypeg/chart"
	"bypeg/pattern/safetext"
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

// coloured tells whether output is to have colours. The flag goes before NO_COLOR,
// that before CLICOLOR_FORCE, and that before what the output is.
func (p *program) coloured() (bool, error) {
	switch p.flags.color {
	case "always":
		return true, nil
	case "never":
		return false, nil
	case "auto":
	default:
		return false, usage("write --color auto, always or never", "--color cannot be %q", p.flags.color)
	}
	switch force := p.getenv("CLICOLOR_FORCE"); {
	case p.getenv("NO_COLOR") != "":
		return false, nil
	case force != "" && force != "0":
		return true, nil
	}
	return isTerminal(p.out) && !p.dumb(), nil
}

// style is how everything looks on this output.
func (p *program) style() (*look.Style, error) {
	set, err := p.symbolSet()
	if err != nil {
		return nil, err
	}
	colours, err := p.coloured()
	if err != nil {
		return nil, err
	}
	theme, ok := look.ParseTheme(p.flags.theme)
	if !ok {
		return nil, usage("write --theme "+strings.Join(look.ThemeNames(), ", "), "--theme cannot be %q", safetext.Clean(p.flags.theme))
	}
	r := lipgloss.NewRenderer(p.out)
	r.SetHasDarkBackground(true) // nothing asks: themes know their grounds
	r.SetColorProfile(termenv.Ascii)
	if colours {
		r.SetColorProfile(profile(runtime.GOOS, p.getenv("TERM"), p.getenv("COLORTERM")))
	}
	theme = theme.On(look.GroundOf(p.getenv("TERM"), p.getenv("COLORFGBG")))
	return look.NewStyle(r, theme, set, p.flags.ascii || !p.speaksUTF8()), nil
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

func (p *program) symbolSet() (chart.Set, error) {
	set, ok := chart.ParseSet(p.flags.symbols)
	if !ok {
		return 0, usage("write --symbols "+strings.Join(chart.SetNames(), ", "), "--symbols cannot be %q", p.flags.symbols)
	}
	return set, nil
}

// speaksUTF8 tells whether the locale can show more than ASCII. Windows does not say
// and can.
func (p *program) speaksUTF8() bool {
	if runtime.GOOS == "windows" {
		return true
	}
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if v := p.getenv(name); v != "" {
			v = strings.ToLower(strings.ReplaceAll(v, "-", ""))
			return strings.Contains(v, "utf8")
		}
	}
	return false
}

// width is how many cells a line of output may have.
func (p *program) width() int {
	if w, _, err := term.GetSize(p.out.Fd()); err == nil && w > 0 {
		return w
	}
	return 80
}
