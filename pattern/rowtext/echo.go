package rowtext

import (
	"slices"

	"bypeg/pattern"
)

// echo reads "knit the knits and purl the purls" and what says the same.
func (p *parser) echo(start span) (node, bool) {
	save := p.i
	if !p.asTheyAppear() && !p.eachTheSame() {
		p.i = save
		return nil, false
	}
	f, _ := p.far()
	return &echo{span: start.to(p.last()), to: f}, true
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

// eachTheSame reads "k the k sts and p the p sts".
func (p *parser) eachTheSame() bool {
	for i := range 2 {
		s, ok := stitchOf(p.tok().word)
		if !ok || s != Knit && s != Purl {
			return false
		}
		p.next()
		p.accept("all", "into")
		if !p.accept("the") {
			return false
		}
		again, ok := stitchOf(p.tok().word)
		if !ok || again != s {
			return false
		}
		p.next()
		p.acceptLoops()
		if i == 0 {
			p.breaks()
			p.accept("and")
			if p.tok().kind == tokAnd {
				p.next()
			}
		}
	}
	return true
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
