package mend

import (
	"fmt"
	"slices"

	"bypeg/pattern"
)

// The steps of taking back. Peg by peg there is a step a stitch. Off the loom there is one to
// thread the line, one to take the loops off, one a row, and one a loop that goes back. Last
// comes what is to be seen then.

// Len is how many steps there are.
func (b *Back) Len() int {
	if b.OffTheLoom {
		return 2 + len(b.Undo) + len(b.Loops) + 1
	}
	return b.Stitches + 1
}

// Words says one of the steps.
func (b *Back) Words(i int) string {
	switch {
	case i == b.Len()-1:
		return b.result()
	case !b.OffTheLoom:
		return b.undoWords(i)
	case i == 0:
		return b.lineWords()
	case i == 1:
		return "take all loops off the pegs; the line holds them"
	}
	if i -= 2; i < len(b.Undo) {
		return b.rowWords(b.Undo[i])
	}
	return b.loopWords(i - len(b.Undo))
}

// undoWords says how the i-th stitch is undone.
func (b *Back) undoWords(i int) string {
	for _, u := range b.Undo {
		if i >= u.Len() {
			i -= u.Len()
			continue
		}
		at := pattern.Place{Phase: u.Phase, Row: u.Row, Done: u.To - 1 - i}
		col := b.order.ColumnAt(at)
		peg := b.order.Peg(col)
		if u.Phase == pattern.BindingOff {
			return fmt.Sprintf("bind-off: lift its last loop, pull the yarn back out of it and hang the loop on peg %d again", peg)
		}
		return fmt.Sprintf("%s %d, peg %d: %s", b.order.Pattern.Form.RowWord(), u.Row, peg, b.undoStitch(u.Row, col))
	}
	return ""
}

func (b *Back) undoStitch(row, col int) string {
	s := b.order.Pattern.Grid.Row(row).Cells()[col].Stitch
	switch {
	case s == pattern.Slip || s == pattern.SlipFront:
		return "it was slipped: bring the yarn back past it, the loop stays"
	case s.LoopsIn() == 1 && !crosses(s):
		return "lift the loop below onto the peg, then pull the yarn out of the newest one"
	}
	return fmt.Sprintf("undo %s: pull its yarn out and hang the loops it took back on their pegs", s)
}

func crosses(s pattern.Stitch) bool {
	_, _, ok := s.Cross()
	return ok
}

func (b *Back) lineWords() string {
	word := b.order.Pattern.Form.RowWord()
	loops := count(len(b.Loops), "loop")
	switch {
	case b.Held:
		return fmt.Sprintf("the lifeline lies in %s %d: see that it runs through all %s", word, b.RowsLeft, loops)
	case b.RowsLeft == 0:
		return fmt.Sprintf("thread a smooth line through the cast-on's %s: they are to be put back", loops)
	case b.Line < b.RowsLeft && b.Line > 0:
		return fmt.Sprintf("thread a smooth line through the loops of %s %d, peg by peg; the stitches of %s %d move, so a line is sure only at %s %d",
			word, b.RowsLeft, word, b.RowsLeft, word, b.Line)
	}
	return fmt.Sprintf("thread a smooth line through the %s of %s %d, one a peg", loops, word, b.RowsLeft)
}

func (b *Back) rowWords(u Undone) string {
	if u.Phase == pattern.BindingOff {
		return fmt.Sprintf("undo the bind-off, %s", count(u.Len(), "loop"))
	}
	word := b.order.Pattern.Form.RowWord()
	first, last := b.Pegs(u)
	text := fmt.Sprintf("pull out %s %d: %s, from peg %d to peg %d", word, u.Row, count(u.Len(), "stitch"), first, last)
	if slices.Contains(b.lined, u.Row) {
		text += "; its lifeline comes out first"
	}
	return text
}

func (b *Back) loopWords(i int) string {
	l := b.Loops[i]
	made := fmt.Sprintf("of %s %d", b.order.Pattern.Form.RowWord(), l.Row)
	if l.Row == 0 {
		made = "of the cast-on"
	}
	from := ""
	if i == 0 {
		from = "beginning where the yarn comes out, "
	}
	return fmt.Sprintf("%sput the loop %s back on peg %d, not twisted", from, made, b.order.Peg(l.Col))
}

// result says what is to be seen when all is taken back.
func (b *Back) result() string {
	p := b.order.Pattern
	word := p.Form.RowWord()
	next := b.order.Peg(b.order.ColumnAt(b.To))
	text := fmt.Sprintf("%s left", count(b.RowsLeft, word))
	if b.HasRidges {
		text += ", " + count(b.Ridges, "ridge")
	}
	if b.To.Done > 0 {
		last := b.To
		last.Done--
		return fmt.Sprintf("%s, and %d of %s %d: the yarn comes from peg %d, next is peg %d again, %s",
			text, b.To.Done, word, b.To.Row, b.order.Peg(b.order.ColumnAt(last)), next, b.order.Direction(b.To.Row))
	}
	text = fmt.Sprintf("%s; %s; next is %s %d, %s, from peg %d", text, yarnWords(b.order, b.RowsLeft), word, b.To.Row, b.order.Direction(b.To.Row), next)
	if p.Form == pattern.Panel {
		text += "; if the yarn comes out at the other end, one row too many or too few is gone"
	}
	return text
}
