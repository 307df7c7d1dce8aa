package plan

import (
	"fmt"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
	"bypeg/tui/track"
)

// CannotChange says why a way can't be gone on with.
const CannotChange = "the pattern is written in a way that can't be changed from here: change a copy of its file by hand"

// NotReached is said of a way that takes more than is left.
const NotReached = "the yarn that is left may not reach"

// SayLeft is the yarn that a way still takes, in the unit in which it was told what is left.
func (p Plan) SayLeft(i int) string {
	if e := p.Ways[i]; p.Stock.Grams > 0 && e.LeftGrams > 0 {
		return fmt.Sprintf("%.0f g", e.LeftGrams)
	}
	return fmt.Sprintf("%.0f m", p.Ways[i].Left)
}

// SayPlanned is the size by the pattern; "" where it has no gauge.
func (p Plan) SayPlanned() string {
	if p.PlannedWidth <= 0 {
		return ""
	}
	says := p.PlannedWidth.Rough() + " " + p.Wide()
	if p.PlannedHeight > 0 {
		says += ", " + p.PlannedHeight.Rough() + " high"
	}
	return says
}

// SayYarn is how far the yarn that is left reaches, or why that can't be said; "" where
// nothing was told of it.
func (p Plan) SayYarn() string {
	if p.Left == nil {
		return p.LeftWhy
	}
	says := SayStop(p.Order.Pattern, p.Left)
	if likely := SayLikely(p.Order.Pattern, p.Left); likely != "" {
		says += "; " + likely
	}
	return says
}

// SayMeasured is what was measured on the piece; "" for nothing.
func (p Plan) SayMeasured() string {
	var says []string
	if p.Width > 0 {
		says = append(says, p.Width.String()+" "+p.Wide())
	}
	if p.Height > 0 {
		says = append(says, fmt.Sprintf("%s high over %s", p.Height, track.Plural(p.Done, p.Order.Pattern.Form.RowWord())))
	}
	return strings.Join(says, ", ")
}

// SayShape is a way, and the rows that it leads to.
func (p Plan) SayShape(i int) string {
	return p.Ways[i].Way.String() + ": " + p.sayRows(i)
}

// sayRows is the rows that a way leads to.
func (p Plan) sayRows(i int) string {
	e, word := p.Ways[i], p.Order.Pattern.Form.RowWord()
	says := track.Plural(e.Rows, word)
	if e.Border > 0 {
		says += fmt.Sprintf(", the top border from %s %d", word, e.Border)
	}
	if len(e.Skipped) > 0 {
		says += ", without " + strings.Join(e.Skipped, " and ")
	}
	return says
}

// SayBriefly is the size of a way, and the yarn it still takes.
func (p Plan) SayBriefly(i int) string {
	e := p.Ways[i]
	var says []string
	if e.Width > 0 && e.Height > 0 {
		says = append(says, p.SayBoth(e.Width, e.Height))
	}
	if e.Left > 0 && p.at.Phase != pattern.Finishing {
		says = append(says, p.SayLeft(i)+" still to work")
	}
	if p.Short(i) {
		says = append(says, NotReached)
	}
	return strings.Join(says, ", ")
}

// SayBoth is a width and a height: "21.5 by 24 cm".
func (p Plan) SayBoth(width, height measure.Length) string {
	return strings.TrimSuffix(width.Rough(), " cm") + " by " + height.Rough()
}

// SayWay is what becomes of the piece in one of the ways, against what is planned.
func (p Plan) SayWay(i int) string {
	e, word := p.Ways[i], p.Order.Pattern.Form.RowWord()
	var says []string
	if more := e.Rows - p.Ways[0].Rows; more > 0 {
		says = append(says, track.Plural(more, word)+" more")
	} else if more < 0 {
		says = append(says, track.Plural(-more, word)+" fewer")
	}
	if len(e.Skipped) > 0 {
		says = append(says, "without "+strings.Join(e.Skipped, " and "))
	}
	switch {
	case e.Border == p.Done+1 && e.Border > 0:
		says = append(says, "the top border comes now, like the bottom one")
	case e.Border > p.Done:
		says = append(says, fmt.Sprintf("the top border begins with %s %d, like the bottom one", word, e.Border))
	}
	if e.Way == fit.KeepShape {
		says = append(says, "as high for its width as was planned")
	}
	if e.Width > 0 && e.Height > 0 {
		says = append(says, fmt.Sprintf("%s %s and %s high", e.Width.Rough(), p.Wide(), e.Height.Rough()))
	}
	if e.Left > 0 && p.at.Phase != pattern.Finishing {
		says = append(says, "about "+p.SayLeft(i)+" of yarn still to work, with the bind-off")
	}
	if p.Short(i) {
		says = append(says, NotReached)
	}
	return strings.Join(says, "; ")
}
