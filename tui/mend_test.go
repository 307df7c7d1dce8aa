package tui_test

import "testing"

func TestARepairIsKeptLikeAnyPlace(t *testing.T) {
	r := longRoom(t)
	d, p := r.work()
	p.press("space", "up", "up", "up", "up", "up", "up", "m")
	p.sees("Which peg went wrong?")
	p.press("4", "enter", "3", "enter", "down", "enter", "enter", "enter")
	p.sees("step 3 of ")
	p.press("esc")
	p.sees("row 6 of 11")
	d.Close()
	d, p = r.work()
	p.sees("a repair is under way: m goes on with it")
	p.press("m")
	p.sees("step 3 of ")
	p.press("esc", "space")
	p.sees("space again works on without it")
	p.press("m")
	p.sees("step 3 of ")
	p.press("esc", "space", "space", "m")
	p.sees("Which peg went wrong?") // the work went on, and the repair is not of it any more
	p.press("esc")
	d.Close()
}

func TestTheTrackerFollowsRowsThatAreTakenBack(t *testing.T) {
	r := longRoom(t)
	d, p := r.work()
	p.press("space", "up", "up", "up", "up", "up", "up", "m", "enter", "5", "enter")
	p.sees("step 1 of 9")
	for range 9 {
		p.press("enter")
	}
	p.sees("row 5 of 11")
	p.rest()
	p.press("u")
	p.sees("row 6 of 11")
	d.Close()
}
