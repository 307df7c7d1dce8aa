package look

import (
	"slices"
	"strconv"
	"strings"

	"github.com/charmbracelet/lipgloss"

	"bypeg/chart"
)

// Theme is a choice of colours for one kind of ground. No theme paints the ground: it
// stays the terminal's own.
type Theme uint8

// The themes.
const (
	Auto          Theme = iota // reads on a black ground and on a white one alike
	Dark                       // for dark grounds
	Light                      // for light ones
	Contrast                   // strong, for dark grounds
	ContrastLight              // strong, for light ones
	NoColour
)

var themeNames = []string{Auto: "auto", Dark: "dark", Light: "light", Contrast: "contrast", ContrastLight: "contrast on light", NoColour: "none"}

// String is the theme's name.
func (t Theme) String() string {
	if int(t) >= len(themeNames) {
		return "unknown"
	}
	return themeNames[t]
}

// ThemeNames are the themes that a person can choose.
func ThemeNames() []string {
	return slices.DeleteFunc(slices.Clone(themeNames), func(name string) bool { return name == ContrastLight.String() })
}

// ParseTheme finds a theme that a person can choose by its name.
func ParseTheme(name string) (Theme, bool) {
	if !slices.Contains(ThemeNames(), name) {
		return Auto, false
	}
	return Theme(slices.Index(themeNames, name)), true
}

// Ground is what is known of the terminal's ground.
type Ground uint8

// The grounds.
const (
	UnknownGround Ground = iota
	DarkGround
	LightGround
)

// GroundOf reads what a terminal says of itself, in the variables TERM and COLORFGBG. The
// latter is "15;0" or "15;default;0", the last number being the ground's.
func GroundOf(term, colorfgbg string) Ground {
	last := colorfgbg[strings.LastIndex(colorfgbg, ";")+1:]
	n, err := strconv.Atoi(last)
	switch {
	case err == nil && (n == 7 || n >= 9 && n <= 15):
		return LightGround
	case err == nil && n >= 0 && n <= 8, term == "linux":
		return DarkGround
	}
	return UnknownGround
}

// On is the theme as it is on a ground.
func (t Theme) On(g Ground) Theme {
	switch {
	case t == Auto && g == DarkGround:
		return Dark
	case t == Auto && g == LightGround:
		return Light
	case t == Contrast && g == LightGround:
		return ContrastLight
	}
	return t
}

// ink is one colour: in full, of the 256 that many terminals have, and of the sixteen that
// all have. Where none of those reads well the text keeps the terminal's own colour: the
// shape tells what it is anyway.
type ink struct {
	full, of256, of16 string
	bold              bool
}

func (i ink) style(plain lipgloss.Style) lipgloss.Style {
	if i.full != "" {
		plain = plain.Foreground(lipgloss.CompleteColor{TrueColor: i.full, ANSI256: i.of256, ANSI: i.of16})
	}
	return plain.Bold(i.bold)
}

// palette is the inks of a theme.
type palette struct {
	faint  ink // what steps back: numbers, lines, rows to come
	border ink // the one cool tone
	coming ink // of the border
	other  ink // stitches in a further yarn
	hand   ink // the one warm accent: the peg in hand
	marker ink
	danger ink // red, and nothing else is
}

// palettes are the themes as data. Each ink has a contrast of 4.5 to 1 at least, 7 to 1 in
// the strong ones, on every ground that its theme is for; a test computes it.
var palettes = map[Theme]palette{
	Auto: {
		faint:  ink{full: "#757575", of256: "243"},
		border: ink{full: "#327ea5", of256: "29"},
		coming: ink{full: "#537b97", of256: "243"},
		other:  ink{full: "#9661b1", of256: "98"},
		hand:   ink{full: "#ba5d00", of256: "163", bold: true},
		marker: ink{full: "#a36a31"},
		danger: ink{full: "#d64040", of256: "131", bold: true},
	},
	Dark: {
		faint:  ink{full: "#979797", of256: "246", of16: "8"},
		border: ink{full: "#6fb7dc", of256: "74", of16: "6"},
		coming: ink{full: "#8199ab", of256: "246", of16: "8"},
		other:  ink{full: "#c4a3e0", of256: "183", of16: "13"},
		hand:   ink{full: "#ffbf57", of256: "215", of16: "11", bold: true},
		marker: ink{full: "#d7af6f", of256: "179", of16: "3"},
		danger: ink{full: "#ff8a80", of256: "210", of16: "9", bold: true},
	},
	Light: {
		faint:  ink{full: "#6a6a6a", of256: "242"},
		border: ink{full: "#005f87", of256: "24", of16: "4"},
		coming: ink{full: "#53707f", of256: "242"},
		other:  ink{full: "#6f3fa0", of256: "91", of16: "5"},
		hand:   ink{full: "#9a4b00", of256: "94", bold: true},
		marker: ink{full: "#875f00", of256: "94"},
		danger: ink{full: "#b00020", of256: "124", of16: "1", bold: true},
	},
	Contrast: {
		faint:  ink{full: "#c0c0c0", of256: "250", of16: "7"},
		border: ink{full: "#87d7ff", of256: "117", of16: "14"},
		coming: ink{full: "#a5c8da", of256: "250", of16: "7"},
		other:  ink{full: "#d7afff", of256: "183"},
		hand:   ink{full: "#ffd75f", of256: "221", of16: "11", bold: true},
		marker: ink{full: "#ffd75f", of256: "221", of16: "11"},
		danger: ink{full: "#ffaf9f", of256: "217", bold: true},
	},
	ContrastLight: {
		faint:  ink{full: "#4a4a4a", of256: "239"},
		border: ink{full: "#004a6b", of256: "17", of16: "4"},
		coming: ink{full: "#3f5360", of256: "239"},
		other:  ink{full: "#5f0087", of256: "54"},
		hand:   ink{full: "#6a3300", bold: true},
		marker: ink{full: "#5f3f00"},
		danger: ink{full: "#8f0018", of256: "88", bold: true},
	},
	NoColour: {hand: ink{bold: true}, danger: ink{bold: true}},
}

// inks are the palette by what the chart calls its tones. What is not here has the
// terminal's own colour.
func (p palette) inks() map[chart.Tone]ink {
	return map[chart.Tone]ink{
		chart.Faint: p.faint, chart.Number: p.faint, chart.FieldComing: p.faint, chart.OtherComing: p.faint,
		chart.Border: p.border, chart.Zone: p.border, chart.BorderComing: p.coming,
		chart.Other: p.other, chart.Marker: p.marker, chart.InHand: p.hand,
	}
}
