package report

import (
	"fmt"

	"bypeg/pattern/fit"
)

// Own is a finished piece of the maker's that was measured or weighed.
type Own struct {
	Title   string
	Day     string // when it was worked last, as people say it: "24 Nov"
	Date    string // the same as programs read it: "2026-11-24"
	Figures *fit.Own
}

// mostOwns is of how many pieces the figures are offered.
const mostOwns = 2

// WithOwns is the report with the pieces by whose figures it could be reckoned, the best
// first.
func (r *Report) WithOwns(owns []Own) *Report {
	r.Owns = owns[:min(len(owns), mostOwns)]
	return r
}

// own is the label of the part that tells of them.
const own = "your own"

// ownLines offer the maker's own figures, where all is reckoned by the pattern's; or they say
// by whose it is, at the same place.
func (r *Report) ownLines() []string {
	if r.By != nil {
		return []string{"all of this is by " + r.By.says()}
	}
	var lines []string
	for i := range r.Owns {
		line := r.Owns[i].says()
		if i == 0 {
			line += r.flag("own")
		}
		lines = append(lines, line)
	}
	return lines
}

func (o *Own) says() string { return fmt.Sprintf("%s, %s: %s", o.Title, o.Day, o.Figures.SayFigures()) }
