package track

import "fmt"

// Mending is a repair under way: a column that was let down, or rows that are taken back.
type Mending struct {
	Back bool // rows are taken back to the start of Row; else a column was let down to below it
	Col  int  // of the grid, where a column was let down
	Row  int
	Step int // steps that are done
}

// String is the repair as a journal keeps it: "column 12 from row 31, step 4", "back to row
// 31, step 2".
func (m Mending) String() string {
	if m.Back {
		return fmt.Sprintf("back to row %d, step %d", m.Row, m.Step)
	}
	return fmt.Sprintf("column %d from row %d, step %d", m.Col, m.Row, m.Step)
}

// ParseMending reads what String writes.
func ParseMending(text string) (Mending, bool) {
	m := Mending{Back: true}
	if n, err := fmt.Sscanf(text, "back to row %d, step %d", &m.Row, &m.Step); n == 2 && err == nil {
		return m, m.String() == text
	}
	m = Mending{}
	n, err := fmt.Sscanf(text, "column %d from row %d, step %d", &m.Col, &m.Row, &m.Step)
	return m, n == 3 && err == nil && m.String() == text
}
