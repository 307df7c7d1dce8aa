package fit

import (
	"fmt"
	"slices"
	"strings"

	"bypeg/pattern"
)

// Fibre is what a yarn is made of, as far as it matters near heat and water.
type Fibre uint8

// The fibres.
const (
	UnknownFibre Fibre = iota
	Cotton
	Linen
	Wool
	Silk
	Viscose
	Acrylic
	Nylon
	Polyester
)

// fibreWords are fibres by the words that labels have. Animal hair counts as wool.
var fibreWords = map[string]Fibre{
	"cotton": Cotton, "linen": Linen, "flax": Linen, "hemp": Linen, "jute": Linen, "ramie": Linen,
	"wool": Wool, "merino": Wool, "lambswool": Wool, "alpaca": Wool, "mohair": Wool, "cashmere": Wool, "yak": Wool, "angora": Wool,
	"silk": Silk, "viscose": Viscose, "rayon": Viscose, "bamboo": Viscose, "lyocell": Viscose, "modal": Viscose,
	"acrylic": Acrylic, "polyacrylic": Acrylic, "polyacrylonitrile": Acrylic,
	"nylon": Nylon, "polyamide": Nylon, "polyester": Polyester, "microfibre": Polyester, "microfiber": Polyester,
}

// FibreWords are the fibres that are known here, as one may write them.
func FibreWords() []string {
	words := make([]string, 0, len(fibreWords))
	for w := range fibreWords {
		words = append(words, w)
	}
	slices.Sort(words)
	return words
}

// FibresOf are the fibres that a label names: "60 % cotton, 40 % acrylic". A word that is
// none is passed over; none at all comes back empty.
func FibresOf(label string) []Fibre {
	var found []Fibre
	for _, word := range strings.FieldsFunc(strings.ToLower(label), func(r rune) bool { return r < 'a' || r > 'z' }) {
		if f, ok := fibreWords[word]; ok && !slices.Contains(found, f) {
			found = append(found, f)
		}
	}
	return found
}

// softens is from how many degrees Celsius on a fibre softens, breaks down or melts, up to
// the highest that sources give (published); pots are hotter. Fibres that char instead have
// none.
var softens = map[Fibre]Span{Acrylic: {180, 300}, Nylon: {215, 264}, Polyester: {250, 260}}

// melts tells whether a fibre gives way near hot pots.
func (f Fibre) melts() bool { return softens[f].Low > 0 }

// heat says at what heat a fibre gives way.
func (f Fibre) heat() string {
	name := map[Fibre]string{Acrylic: "acrylic", Nylon: "nylon", Polyester: "polyester"}[f]
	return fmt.Sprintf("%s softens or melts from about %.0f C on", name, softens[f].Low)
}

// standsHeat tells whether a fibre is one that hot pads are made of (published).
func (f Fibre) standsHeat() bool { return f == Cotton || f == Linen || f == Wool }

// ironAt is the highest heat of the iron that a fibre stands, in degrees Celsius (published).
var ironAt = map[Fibre]float64{Cotton: 200, Linen: 200, Wool: 150, Acrylic: 110, Nylon: 110}

// ironDots are the heats that care labels tell by dots, the coolest first (published).
var ironDots = []float64{110, 150, 200}

// ironing says how hot the iron may be where a fibre stands less than the hottest; nothing
// where one is not known.
func ironing(fibres []Fibre) []string {
	lowest := ironDots[len(ironDots)-1]
	for _, f := range fibres {
		heat, known := ironAt[f]
		if !known {
			return nil
		}
		lowest = min(lowest, heat)
	}
	if lowest == ironDots[len(ironDots)-1] {
		return nil
	}
	return []string{fmt.Sprintf("iron it at no more than %.0f C, %s on the label", lowest, IronDots(int(lowest)))}
}

// IronDots are those of the care label for a heat in degrees Celsius: "two dots" for 150.
func IronDots(celsius int) string {
	dots := slices.IndexFunc(ironDots, func(heat float64) bool { return heat >= float64(celsius) })
	return []string{"one dot", "two dots", "three dots"}[dots]
}

const whereSold = "where it is sold, check your local product-safety rules"

// Cautions are what follows from the use of a piece and the fibres of its yarns, shortly.
// They say what is known, and never that something is safe.
func Cautions(d *pattern.Design) []string { return cautions(d, true) }

// CautionsBesidesIron are those beside which the heat of the iron is told on its own.
func CautionsBesidesIron(d *pattern.Design) []string { return cautions(d, false) }

func cautions(d *pattern.Design, iron bool) []string {
	var fibres []Fibre
	var strange []string
	for _, y := range d.Yarns {
		of := FibresOf(y.Fibre)
		if y.Fibre != "" && len(of) == 0 {
			strange = append(strange, y.Fibre)
		}
		fibres = append(fibres, of...)
	}
	var said []string
	switch d.Use {
	case pattern.HotPad:
		said = hotPad(fibres)
	case pattern.Mat:
		if i := slices.IndexFunc(fibres, Fibre.melts); i >= 0 {
			said = append(said, "not for hot pots: "+fibres[i].heat()+"; it soaks up little, too")
		}
	case pattern.Cloth:
		if len(fibres) > 0 && !slices.Contains(fibres, Cotton) && !slices.Contains(fibres, Linen) {
			said = append(said, "cotton or linen soak up more than this yarn")
		}
	case pattern.Baby:
		said = []string{
			"before 12 months nothing loose belongs where a baby sleeps: no blanket, pillow or soft toy",
			"no cords at hood or neck up to 7 years; nothing small that could come off up to 3 years",
			whereSold,
		}
	case pattern.Wearable:
		said = []string{"for children up to 7 no cords at hood or neck; " + whereSold}
	}
	if iron && d.Use != pattern.HotPad && len(strange) == 0 {
		said = append(said, ironing(fibres)...)
	}
	for _, label := range strange {
		said = append(said, "the fibre "+quote(label)+" is not known here: write cotton, linen, wool, acrylic, nylon or polyester")
	}
	return said
}

func hotPad(fibres []Fibre) []string {
	var said []string
	i := slices.IndexFunc(fibres, Fibre.melts)
	switch {
	case i >= 0:
		said = append(said, "not for hot pots: "+fibres[i].heat()+"; take cotton, linen or wool")
	case len(fibres) == 0:
		said = append(said, "hot pads take cotton, linen or wool, never acrylic, nylon or polyester")
	case !slices.ContainsFunc(fibres, Fibre.standsHeat):
		said = append(said, "hot pads are made of cotton, linen or wool")
	}
	return append(said, "make it thick and double, and use it dry: a damp pad lets the heat through", whereSold)
}
