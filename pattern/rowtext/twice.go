package rowtext

import (
	"iter"

	"bypeg/pattern"
)

// Worked is the runs of a row in the order of work, with the second stitch of every kfb
// behind a knit. Who works a row from its other end meets the second stitch first; but it
// is made of the loop beside it, so the knit is told first there too.
func Worked(o pattern.Order, row int) iter.Seq[pattern.Run] {
	return func(yield func(pattern.Run) bool) {
		var second pattern.Run // waits for its knit
		last := pattern.NoStitch
		for r := range o.Runs(row) {
			switch {
			case r.Stitch == pattern.IncreaseKnit && last != pattern.Knit && second.Len() == 0:
				second = r
				continue
			case second.Len() == 0:
			case r.Stitch == pattern.Knit:
				knit := r
				knit.From, knit.To = second.From, second.From+1
				second.From, second.To = second.From+1, second.To+1
				if !yield(knit) || !yield(second) {
					return
				}
				second = pattern.Run{}
				if r.From++; r.Len() == 0 {
					last = pattern.IncreaseKnit
					continue
				}
			default:
				if !yield(second) {
					return
				}
				second = pattern.Run{}
			}
			last = r.Stitch
			if !yield(r) {
				return
			}
		}
		if second.Len() > 0 {
			yield(second)
		}
	}
}
