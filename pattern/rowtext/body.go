package rowtext

// body is the instructions of one row: what stands behind its header.
type body struct {
	span
	parts []node
}

// scene is what a row is worked on.
type scene struct {
	loops     int   // on the pegs
	back      bool  // the row runs from the last peg to peg 1
	wrong     bool  // it is seen from behind: a wrong-side row on needles
	below     []Run // the row below in the order it was worked; nil where there is none
	belowBack bool
	belowSeen bool // the row below was seen from behind
}

// parseBody makes the tree of one row from its tokens, the last of which is a tokEnd.
// Of several sizes it takes the one named; 0 refuses a choice.
func parseBody(text string, tokens []token, size int) (*body, Errors) {
	at := span{tokens[0].start, tokens[len(tokens)-1].end}
	p := &parser{text: text, tokens: tokens}
	parts := p.list()
	return &body{at, parts}, p.faults.list
}

// lay is the runs of a row on a scene, in the order of work, with the readings that
// were taken and could be others.
func (b *body) lay(s scene) ([]Run, []Note, Errors) {
	turns, err := solve(b.parts, s.loops)
	if err != nil {
		return nil, nil, err.(Errors)
	}
	var runs []Run
	for i, n := range b.parts {
		runs = expand(runs, n, turns[i])
	}
	return runs, nil, nil
}

// width is how many loops the row takes where nothing in it is open.
func (b *body) width() (loops int, ok bool) {
	for _, n := range b.parts {
		if _, open := openPart(n); open {
			return 0, false
		}
	}
	return widthOf(b.parts), true
}
