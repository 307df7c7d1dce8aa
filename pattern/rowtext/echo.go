package rowtext

import (
	"slices"

	"bypeg/pattern"
)

// echo reads "knit the knits and purl the purls" and what says the same, or the opposite.
func (p *parser) echo(start span) (node, bool) {
	save := p.i
	opposite := false
	if !p.asTheyAppear() {
		var ok bool
		if opposite, ok = p.eachOfThem(); !ok {
			p.i = save
			return nil, false
		}
	}
	f, _ := p.far()
	return &echo{span: start.to(p.last()), to: f, opposite: opposite}, true
}

// asTheyAppear reads "sts as they appear".
func (p *parser) asTheyAppear() bool {
	p.accept("the", "all")
	p.acceptLoops()
	if !p.accept("as") {
		return false
	}
	p.accept("the")
	p.acceptLoops()
	p.accept("they", "it")
	return p.accept("appear", "appears", "face", "present", "look", "show", "come", "set", "are")
}

// eachOfThem reads "k the k sts and p the p sts", and the opposite "p the knits and k the
// purls".
func (p *parser) eachOfThem() (opposite, ok bool) {
	worked, seen, ok := p.eachOne()
	if !ok {
		return false, false
	}
	p.breaks()
	p.accept("and")
	if p.tok().kind == tokAnd {
		p.next()
	}
	otherWorked, otherSeen, ok := p.eachOne()
	return worked != seen, ok && worked != otherWorked && seen != otherSeen
}

// eachOne reads "knit the knits": what is worked into what is seen.
func (p *parser) eachOne() (worked, seen Stitch, ok bool) {
	if worked, ok = stitchOf(p.tok().word); !ok || worked != Knit && worked != Purl {
		return worked, seen, false
	}
	p.next()
	p.accept("all", "into")
	if !p.accept("the") {
		return worked, seen, false
	}
	switch {
	case p.accept("k", "knit", "knits", "ks", "k's"):
		seen = Knit
	case p.accept("p", "purl", "purls", "ps", "p's"):
		seen = Purl
	default:
		return worked, seen, false
	}
	p.acceptLoops()
	return worked, seen, true
}

// shown is a stretch of the row below as it meets the worker, told as knits and purls:
// count loops behind the first few in the order of work.
func (s scene) shown(from, count int) []Run {
	var faces []Run
	for _, r := range s.below {
		for _, c := range r.Stitch.Cells() {
			if c == pattern.NoStitch {
				continue
			}
			face := Knit
			if c.Face() == pattern.FacePurl {
				face = Purl
			}
			if s.wrong != s.belowSeen {
				face = Knit + Purl - face
			}
			n := r.Count
			if r.Stitch.Out() > 1 {
				n = 1 // a step of several loops, shown loop by loop below
			}
			faces = push(faces, Run{face, n})
		}
		if r.Stitch.Out() > 1 {
			unit := slices.Clone(faces[len(faces)-1:])
			faces = push(faces, Run{unit[0].Stitch, (r.Count - 1) * r.Stitch.Out()})
		}
	}
	if s.back != s.belowBack {
		slices.Reverse(faces)
	}
	return cutRuns(faces, from, count)
}

// opposed is knits for purls and purls for knits.
func opposed(runs []Run) []Run {
	for i := range runs {
		runs[i].Stitch = Knit + Purl - runs[i].Stitch
	}
	return runs
}

// cutRuns are the runs of count steps behind the first few.
func cutRuns(runs []Run, from, count int) []Run {
	var inner []Run
	for _, r := range runs {
		skip := min(from, r.Count)
		r.Count = min(r.Count-skip, count)
		from, count = from-skip, count-r.Count
		if r.Count > 0 {
			inner = push(inner, r)
		}
	}
	return inner
}
