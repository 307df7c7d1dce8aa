package tui_test

import "testing"

// The place was lost: the maker worked on without the program. Three answers find it, and a
// wrong guess is one undo away.
func TestALostPlaceIsFoundFromTheFabric(t *testing.T) {
	r := longRoom(t)
	d, p := r.work()
	p.press("space", "up", "up", "up")
	p.sees("row 3 of 11")
	p.press("w")
	p.sees("You left off at row 3 peg 1")
	p.press("l", "enter", "3", "enter")
	p.sees("7 rows are done")
	p.sees("You are further than the program thought: 5 rows more.")
	p.press("enter")
	p.sees("row 8 of 11")
	p.press("enter") // the key that answered works nothing until it is let go
	p.sees("row 8 of 11")
	p.press("u") // any other is meant for the loom
	p.sees("row 3 of 11")
	p.press("U")
	p.sees("row 8 of 11")
	d.Close()
	d, p = r.work()
	p.sees("row 8 of 11")
	d.Close()
}

func TestTheTalkAboutThePlaceComesAndGoes(t *testing.T) {
	r := longRoom(t)
	d, p := r.work()
	p.press("space", "up", "up", "w")
	p.sees("where am I")
	p.press("esc")
	p.seesNot("where am I")
	p.sees("row 2 of 11")
	p.press("w", "ctrl+c")
	p.seesNot("where am I")
	d.Close()
}
