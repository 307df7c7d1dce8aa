package fit

// Range is a figure that is known within bounds. All three are equal where it was
// measured, and 0 where nothing is known of it.
type Range[T ~float64] struct{ Low, Likely, High T }

// just is a figure that is known.
func just[T ~float64](x T) Range[T] { return Range[T]{x, x, x} }

// Known tells whether anything is known of the figure.
func (r Range[T]) Known() bool { return r.Likely > 0 }

// Exact tells whether the bounds are one.
func (r Range[T]) Exact() bool { return r.Low == r.High }

func (r Range[T]) plus(s Range[T]) Range[T] {
	return Range[T]{r.Low + s.Low, r.Likely + s.Likely, r.High + s.High}
}

func (r Range[T]) times(s Range[float64]) Range[T] {
	return Range[T]{r.Low * T(s.Low), r.Likely * T(s.Likely), r.High * T(s.High)}
}

// by multiplies all three by a factor that is known.
func (r Range[T]) by(factor float64) Range[T] { return r.times(just(factor)) }
