package fit

import (
	"fmt"
	"slices"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/measure"
	"bypeg/pattern/safetext"
)

// looms is what a file of looms is for its reader.
var looms = file.Kind{Noun: "loom list", Example: "pegs = 24", Bytes: 256 << 10, Size: "256 KiB"}

// loomsVersion is the kind of looms file this program reads.
const loomsVersion = 1

// maxLooms is how many looms a file may have, and how many faults of one are told.
const maxLooms = 200

// OwnedLoom is a loom that somebody owns, by its name. Its gauge is what a maker gets on
// it, 0 where nobody measured.
type OwnedLoom struct {
	Name    string
	Loom    pattern.Loom
	Spacing string // as written
	Gauge   pattern.Gauge
}

// ReadLooms is the bytes of a file of looms, as file.Kind.Read tells.
func ReadLooms(path string) ([]byte, error) { return looms.Read(path) }

// Looms are the looms of a file, in its order. The name is how diagnostics call the
// file; where there are any there are no looms. No text brings it down.
//
//	looms = 1
//
//	[window]
//	pegs    = 24
//	spacing = "1/2 in"
//
//	[door]
//	pegs     = 41
//	stitches = 16      # what a maker gets on it
//	rows     = 22
//	over     = "10 cm"
func Looms(name string, text []byte) ([]OwnedLoom, safetext.Diagnostics) {
	s := strings.TrimPrefix(string(text), "\ufeff")
	if len(s) > looms.Bytes {
		s = s[:looms.Bytes+1] // enough to be refused
	}
	r := &loomsReader{src: safetext.NewSource(name, s)}
	nodes, f := looms.Nodes(s)
	if f != nil {
		r.fault(f.At, f.Hint, "%s", f.Msg)
		return nil, r.faults
	}
	versioned := false
	for _, n := range nodes {
		switch {
		case n.Key == "looms":
			versioned = true
			if n.Value != int64(loomsVersion) {
				r.fault(n.Stands, "write looms = 1, or look for a newer version of this program", "this program reads looms = %d and no other", loomsVersion)
			}
		case n.Is == file.Table:
			r.loom(n)
		default:
			r.fault(n.KeyAt, "write [window], or what the loom is called, above its keys", "%s stands in no loom", quote(n.Key))
		}
	}
	start := file.Range{}
	switch {
	case !versioned:
		r.fault(start, "write looms = 1 as the first line", "this is no looms file: it does not begin with looms = 1")
	case len(r.looms) == 0 && len(r.faults) == 0:
		r.fault(start, "write [window], or what the loom is called, and below it pegs = 24", "there is no loom in the file")
	case len(r.looms) > maxLooms:
		r.fault(start, "", "a file has at most %d looms", maxLooms)
	}
	if len(r.faults) > 0 {
		r.faults.Sort()
		return nil, r.faults
	}
	return r.looms, nil
}

// loomsReader is a file of looms being read.
type loomsReader struct {
	src    *safetext.Source
	looms  []OwnedLoom
	faults safetext.Diagnostics
}

func (r *loomsReader) fault(at file.Range, hint, format string, args ...any) {
	if len(r.faults) < maxLooms {
		r.faults = append(r.faults, r.src.At(at.Start, at.End, safetext.Error, fmt.Sprintf(format, args...), hint))
	}
}

// loom reads one loom.
func (r *loomsReader) loom(table file.Node) {
	l := OwnedLoom{Name: safetext.Clean(table.Key)}
	if strings.TrimSpace(l.Name) == "" {
		r.fault(table.KeyAt, "", "a loom's name has nothing to be seen")
	}
	if slices.ContainsFunc(r.looms, func(other OwnedLoom) bool { return other.Name == l.Name }) {
		r.fault(table.KeyAt, "give each a name of its own", "there are two looms called %s", quote(l.Name))
	}
	over := measure.Length(0)
	var stitches, rows file.Node
	for _, n := range table.Nodes {
		switch n.Key {
		case "pegs":
			if pegs, ok := n.Value.(int64); ok && pegs >= 1 && pegs <= pattern.MaxPegs {
				l.Loom.Pegs = int(pegs)
			} else {
				r.fault(n.Stands, "write it like pegs = 24", "pegs is a whole number from 1 to %d", pattern.MaxPegs)
			}
		case "spacing":
			l.Spacing, _ = n.Value.(string)
			l.Loom.SpacingMM = r.length(n, "1/2 in").In(measure.Millimetre)
		case "over":
			over = r.length(n, "10 cm")
		case "stitches":
			stitches = n
		case "rows":
			rows = n
		default:
			r.unknown(n)
		}
	}
	if l.Loom.Pegs == 0 && !slices.ContainsFunc(table.Nodes, func(n file.Node) bool { return n.Key == "pegs" }) {
		r.fault(table.KeyAt, "write pegs = 24, or how many it has, below its name", "the loom %s does not say how many pegs it has", quote(l.Name))
	}
	l.Gauge.Stitches, l.Gauge.Rows = r.density(stitches, over), r.density(rows, over)
	r.looms = append(r.looms, l)
}

func (r *loomsReader) unknown(n file.Node) {
	known := []string{"pegs", "spacing", "stitches", "rows", "over"}
	hint := "its keys are " + strings.Join(known, ", ")
	if near := safetext.Nearest(n.Key, known); near != "" {
		hint = "did you mean " + near + "?"
	}
	r.fault(n.KeyAt, hint, "a loom has no key %s", quote(n.Key))
}

func (r *loomsReader) length(n file.Node, example string) measure.Length {
	text, ok := n.Value.(string)
	if !ok {
		r.fault(n.Stands, fmt.Sprintf("write it like %s = %q", n.Key, example), "%s takes a length in quotes; this is %s", n.Key, n.Describe())
		return 0
	}
	l, err := measure.ParseLength(text)
	if err != nil {
		r.fault(n.Stands, "", "%s: %v", n.Key, err)
	}
	return l
}

// density is a figure counted over a length, in 10 cm; 0 where there is none.
func (r *loomsReader) density(n file.Node, over measure.Length) float64 {
	if n.Key == "" {
		return 0
	}
	var x float64
	switch v := n.Value.(type) {
	case int64:
		x = float64(v)
	case float64:
		x = v
	}
	if !(x > 0 && x <= 1e6) { // not a number fails this too
		r.fault(n.Stands, "leave the key out where nobody measured it", "%s is a number above 0", n.Key)
		return 0
	}
	if over <= 0 {
		r.fault(n.Stands, `add over = "10 cm", or over = "4 in"`, "the loom does not say over which length its %s were counted", n.Key)
		return 0
	}
	d := float64(measure.DensityOf(x, over))
	if d < 0.5 || d > 500 {
		r.fault(n.Stands, "count over a relaxed swatch, and check over", "%s %s in 10 cm is no gauge of knitted fabric", measure.Number(min(d, 1e9), 1), n.Key)
		return 0
	}
	return d
}

// quote is foreign text as messages quote it: cleaned, not too long.
func quote(s string) string {
	const width = 40
	if s = safetext.Clean(s[:min(len(s), 8*width)]); safetext.Width(s) > width {
		s = safetext.Cut(s, width-3) + "..."
	}
	return `"` + s + `"`
}
