package fit

import (
	"slices"

	"bypeg/pattern"
)

// Class is one of the yarn weight classes 0 to 7 and what is usual for it. They are
// guidelines, and they overlap. Sources stand beside the values in the tests.
type Class struct {
	Name     string
	Stitches Span // plain, in 4 in
	Needles  Span // in mm
	WPI      Span // wraps per inch
	Metres   Span // in 100 g
}

// Span is from Low to High, both included.
type Span struct{ Low, High float64 }

// has tells whether a figure lies in the span, or not so far outside that figures told
// in whole numbers would differ.
func (s Span) has(x float64) bool { return x >= s.Low-0.005*s.Low && x <= s.High+0.005*s.High }

// Open is the end of a span that has none.
const Open = 1e9

// Classes are the classes by their numbers. The Standard Yarn Weight System has stitches,
// needles and wraps; metres are those of one published table, and others differ. Class 7 has
// no lower end in stitches: 3 is from memory. Class 1 has the thin yarns of
// 500 to 600 m too.
var Classes = [...]Class{
	{"lace", Span{33, 40}, Span{1.5, 2.25}, Span{30, Open}, Span{600, Open}},
	{"super fine", Span{27, 32}, Span{2.25, 3.25}, Span{14, 30}, Span{350, 600}},
	{"fine", Span{23, 26}, Span{3.25, 3.75}, Span{12, 18}, Span{250, 350}},
	{"light", Span{21, 24}, Span{3.75, 4.5}, Span{11, 15}, Span{200, 250}},
	{"medium", Span{16, 20}, Span{4.5, 5.5}, Span{9, 12}, Span{120, 200}},
	{"bulky", Span{12, 15}, Span{5.5, 8}, Span{6, 9}, Span{100, 130}},
	{"super bulky", Span{7, 11}, Span{8, 12.75}, Span{5, 6}, Span{0, 100}},
	{"jumbo", Span{3, 6}, Span{12.75, Open}, Span{1, 4}, Span{0, 100}},
}

// ByWraps are the classes of a yarn with so many wraps per inch. Between two classes it is
// the nearest.
func ByWraps(wpi float64) []int {
	return classesWith(wpi, func(c Class) Span { return c.WPI })
}

// ByMetres are the classes of a yarn with so many metres in 100 g.
func ByMetres(in100g float64) []int {
	return classesWith(in100g, func(c Class) Span { return c.Metres })
}

// ByStitches are the classes whose usual gauge is so many stitches in 4 in.
func ByStitches(in4inches float64) []int {
	return classesWith(in4inches, func(c Class) Span { return c.Stitches })
}

// classesWith are the classes in whose span a figure lies, or the nearest one.
func classesWith(x float64, of func(Class) Span) []int {
	if x <= 0 {
		return nil
	}
	var found []int
	nearest, off := 0, float64(2*Open)
	for i, c := range Classes {
		s := of(c)
		if s.has(x) {
			found = append(found, i)
		}
		if d := max(s.Low-x, x-s.High); d < off {
			nearest, off = i, d
		}
	}
	if found == nil {
		return []int{nearest}
	}
	return found
}

// ClassesOf are the classes a yarn may have by all that is said of it; none where nothing
// is. What is stated goes before what follows from figures.
func ClassesOf(y pattern.YarnInfo) []int {
	if y.Weight != pattern.UnknownWeight {
		return []int{y.Weight}
	}
	return figuredClasses(y)
}

// figuredClasses are those that the figures of a yarn leave; where wraps and metres leave
// none in common, all that either allows.
func figuredClasses(y pattern.YarnInfo) []int {
	byWraps, byMetres := ByWraps(y.WPI), ByMetres(MetresIn100g(y))
	switch {
	case byWraps == nil:
		return byMetres
	case byMetres == nil:
		return byWraps
	}
	both := slices.DeleteFunc(slices.Clone(byWraps), func(c int) bool { return !slices.Contains(byMetres, c) })
	if len(both) > 0 {
		return both
	}
	all := append(slices.Clone(byWraps), byMetres...)
	slices.Sort(all)
	return slices.Compact(all)
}

// MetresIn100g is how many metres 100 g of a yarn have; 0 where nobody says.
func MetresIn100g(y pattern.YarnInfo) float64 {
	switch {
	case y.Metres > 0 && y.Grams > 0:
		return 100 * y.Metres / y.Grams
	case y.Tex > 0:
		return Tex(y.Tex).MetresIn100g()
	}
	return 0
}
