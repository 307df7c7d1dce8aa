package adopt

import (
	"regexp"
	"slices"
	"strings"

	"bypeg/pattern"
	"bypeg/pattern/rowtext"
)

// Rows of parts that lie side by side are worked as one, so that what one part says of them
// holds for all: whether they are rounds, which side they show, which way they run.

// agreed holds the parts against each other. It is the side that row 1 shows by their own
// words.
func agreed(parts []*rowtext.Reading, heads []head, o rowtext.Options) (rowtext.Side, error) {
	side, course := rowtext.SideUnsaid, rowtext.CourseUnsaid
	sideOf, courseOf := "", ""
	for i, r := range parts {
		if r.Form != parts[0].Form {
			return 0, refusal(heads[i].start, heads[i].end, "write rows in all parts or rounds in all", "some parts have rows and others rounds")
		}
		for _, row := range r.Rows {
			if row.Side == rowtext.SideUnsaid || r.Form == pattern.Tube {
				continue
			}
			switch said := turnedSide(row.Side, row.Back); {
			case side == rowtext.SideUnsaid:
				side, sideOf = said, heads[i].name
			case said != side:
				return 0, refusal(row.Start-row.Header, row.Start, "rows of parts side by side are worked as one: mend one of them",
					"row %d shows another side here than %s has it show", row.Number, sideOf)
			}
		}
	}
	for i, r := range parts {
		for _, row := range r.Rows {
			// What is left and right from behind is anybody's guess.
			behind := o.Needles && turnedSide(side, row.Back) == rowtext.WrongSide
			if row.Course == rowtext.CourseUnsaid || behind {
				continue
			}
			said := row.Course
			if row.Back {
				said = rowtext.CourseToLeft + rowtext.CourseToRight - said
			}
			switch {
			case course == rowtext.CourseUnsaid:
				course, courseOf = said, heads[i].name
			case said != course:
				return 0, refusal(row.Start-row.Header, row.Start, "rows of parts side by side are worked as one: mend one of them",
					"row %d runs another way here than %s has it run", row.Number, courseOf)
			}
		}
	}
	return side, nil
}

// turnedSide is the side of row 1 by that of another row, which may run back.
func turnedSide(s rowtext.Side, back bool) rowtext.Side {
	if !back || s == rowtext.SideUnsaid {
		return s
	}
	return rowtext.RightSide + rowtext.WrongSide - s
}

// saidAmidParts refuses a length that is not behind all parts.
func saidAmidParts(heads []head, l length) error {
	if l.end > 0 && l.start < heads[len(heads)-1].start {
		return refusal(l.start, l.end, "write it behind the last row of the last part, where it counts for all", "this stands before the rows of another part, so it can't be told which rows it means")
	}
	return nil
}

var (
	// sectionLabel is a heading of a section in a part: words and a colon.
	sectionLabel = regexp.MustCompile(`(?im)^[ \t]*([a-z][a-z \t'/&,-]{1,40}?)[ \t]*(?:\([^()\n]*\)|,?[ \t]*pegs?[ \t]+\d[^\n:]*)?[ \t]*:`)
	// sectionWords is one without a colon.
	sectionWords = regexp.MustCompile(`(?im)^[ \t]*((?:[a-z]+[ \t]+){0,2}(?:border|hem|edging|brim|cuff))\b[^:\n]*$`)
	// acrossAll says that a row is worked over all parts, or is one of a border.
	acrossAll = regexp.MustCompile(`(?im)^[ \t]*(?:rows?|rnds?|rounds?)\b[^:\n]*\b(?:border|hem|edging|brim|cuff)\b[^:\n]*:|\b(?:all|both)[ \t]+(?:the[ \t]+)?(?:parts|panels|strips)\b|\b(?:full|whole)[ \t]+width\b`)
	// ofRows are words that begin what is said of rows or of the text, and no section.
	ofRows   = regexp.MustCompile(`(?i)\b(?:rows?|rnds?|rounds?|rs|ws|side|notes?|tip|repeat|r)\b`)
	blankRow = regexp.MustCompile(`\n[ \t\r]*\n`)
)

const fileOfTheirOwn = "rows across all parts: write them in a file of their own"

// firstRow is where the rows of a part begin to be written.
var firstRow = regexp.MustCompile(`(?im)^[ \t]*\(?(?:rows?|rnds?|rounds?|r)\b|^[ \t]*[^ \t\r\n][^\n]*\n`)

// acrossAPart refuses what stands under the heading of a part and seems to lie across all of
// them: a heading of another kind behind its first row.
func acrossAPart(text string, h head) error {
	body := text[h.end:h.body]
	at := acrossAll.FindStringIndex(body)
	if at != nil {
		return refusal(h.end+at[0], h.end+at[1], fileOfTheirOwn, "this stands under the heading of one part")
	}
	if at = firstRow.FindStringIndex(body); at == nil {
		return nil
	}
	rows := at[1]
	for _, re := range []*regexp.Regexp{sectionLabel, sectionWords} {
		for _, at := range re.FindAllStringSubmatchIndex(body, -1) {
			if at[2] >= rows && !ofRows.MatchString(body[at[2]:at[3]]) {
				return refusal(h.end+at[2], h.end+at[3], fileOfTheirOwn, "a heading inside a part that is no panel or strip with its pegs")
			}
		}
	}
	return nil
}

// lengthFits refuses a length that can't be told from the parts, and rows that go on behind it
// or behind a gap.
func lengthFits(text string, heads []head, parts []*rowtext.Reading, l length, o rowtext.Options) error {
	last := len(heads) - 1
	o.Pegs = heads[last].pegs
	if err := behindAll(text, heads[last].end, parts[last], l, o); err != nil {
		return err
	}
	if l.end > 0 && l.more && slices.ContainsFunc(parts, func(r *rowtext.Reading) bool { return len(r.Rows) != len(parts[0].Rows) }) {
		return refusal(l.start, l.end, "write how many rows there are in all: Work 60 rows.", "the parts have different numbers of rows, so it can't be told behind which row they go on")
	}
	return goesOnBehindGap(text, heads, parts)
}

// goesOnBehindGap refuses rows of the last part behind its only blank line, where the other parts
// have just as many rows as it has before.
func goesOnBehindGap(text string, heads []head, parts []*rowtext.Reading) error {
	last := len(parts) - 1
	rows := parts[last].Rows
	before := slices.IndexFunc(rows, func(row rowtext.Row) bool {
		return row.Start > rows[0].Start && blankRow.MatchString(text[rows[0].Start:row.Start-min(row.Header, row.Start-rows[0].Start)])
	})
	if before < 1 || last == 0 || slices.ContainsFunc(parts[:last], func(r *rowtext.Reading) bool { return len(r.Rows) != before }) {
		return nil
	}
	row := rows[before]
	between := strings.Count(strings.ReplaceAll(text[heads[last].end:heads[last].body], "\r", ""), "\n\n")
	if between > 2 && before == 1 {
		return nil // a blank line between all rows
	}
	return refusal(row.Start-row.Header, row.End, fileOfTheirOwn+"; for a row of this part leave the blank line out",
		"row %d stands apart, where the other parts have ended", row.Number)
}
