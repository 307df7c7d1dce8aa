package main

import "bypeg/tui/track"

// ownPace is how many stitches a minute the maker works, by the piece worked last; 0 where
// that tells too little. It looks only: no lock is taken and nothing is written.
func (p *program) ownPace() float64 {
	desk := p.desk()
	id, ok, err := desk.Last()
	if err != nil || !ok {
		return 0
	}
	o, err := desk.Look(id)
	if err != nil {
		return 0
	}
	defer desk.Close()
	var pace track.Pace
	for _, m := range desk.Start(o).Moments {
		pace = pace.Mark(m)
	}
	const stitches = 1000
	seconds, ok := pace.Left(stitches)
	if !ok || seconds <= 0 {
		return 0
	}
	return stitches / seconds * 60
}
