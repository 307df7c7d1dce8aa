package rowtext

import "fmt"

// nothingAfterEnd reports the parts behind "to end", which have no pegs left.
func (s *solver) nothingAfterEnd(i int) {
	rest := s.parts[i+1:]
	at := rest[0].at().to(rest[len(rest)-1].at())
	s.add(at, s.roomHint(rest), "nothing can follow a part that goes to the end")
}

// roomHint says what leaves room for the parts, if they have a width.
func (s *solver) roomHint(parts []node) string {
	for _, n := range parts {
		if _, open := openPart(n); open {
			return ""
		}
	}
	n := widthOf(parts, s.m)
	if n > maxPegs {
		return ""
	}
	return fmt.Sprintf("to leave room for it write to last %d", n)
}

// noRoom reports parts beside an open one that are wider than the row. Room is below 0.
func (s *solver) noRoom(room int) {
	n := s.parts[s.open]
	s.add(n.at(), "", "the parts beside this one need %s and have %d: %s",
		many(s.fixed, "peg"), s.fixed+room, tooMany(s.fixed, -room))
}

// uneven reports a repeat that does not end with a whole turn.
func (s *solver) uneven(n *star, unit, room int) {
	hint := turnsHint(s.pegs-room, unit, max(0, room/unit))
	if room < unit {
		by := fmt.Sprintf("%d too few", unit-room)
		if unit >= tooWide {
			by = "far too few"
		}
		s.add(n.span, hint, "the repeat needs %s and has %d: %s", many(unit, "peg"), room, by)
		return
	}
	s.add(n.span, hint, "the repeat of %s does not come out even on %d: %d left over", many(unit, "peg"), room, room%unit)
}

// misfit reports a stretch without an open part that is not as wide as its pegs.
// Room is what is left over, below 0 what is missing.
func (s *solver) misfit(room int) {
	rest := s.parts[s.first:]
	have := s.pegs - s.from
	if s.anchor != nil {
		s.tailMisfit(rest, have, room)
		return
	}
	hint := s.fitHint(rest)
	if room > 0 {
		s.add(rest[len(rest)-1].at(), hint, "the row needs %s and has %d: %d left over", many(s.fixed, "peg"), have, room)
		return
	}
	s.add(s.beyond(rest), hint, "the row needs %s and has %d: %s", many(s.fixed, "peg"), have, tooMany(s.fixed, -room))
}

// tailMisfit reports a tail that is not as wide as "to last" says.
func (s *solver) tailMisfit(rest []node, have, room int) {
	if len(rest) == 0 {
		s.add(s.anchor.span, "write to end, or what is worked there", "the last %s are announced and none worked: %d too few",
			many(have, "peg"), have)
		return
	}
	hint := ""
	if s.fixed < s.pegs {
		hint = fmt.Sprintf("to last %d would match what is worked there", s.fixed)
	}
	at := rest[0].at().to(rest[len(rest)-1].at())
	by := tooMany(s.fixed, -room)
	if room > 0 {
		by = fmt.Sprintf("%d too few", room)
	}
	s.add(at, hint, "the last %s are announced and %d worked: %s", many(have, "peg"), s.fixed, by)
}

// tooMany is by how much a width is over; widths that stopped growing have no
// number.
func tooMany(width, over int) string {
	if width >= tooWide {
		return "far too many"
	}
	return fmt.Sprintf("%d too many", over)
}

// beyond is the piece of the row that the pegs do not reach.
func (s *solver) beyond(rest []node) span {
	end, sum := rest[len(rest)-1].at(), 0
	for _, n := range rest {
		if sum += width(n, s.m); sum > s.pegs {
			return n.at().to(end)
		}
	}
	return end
}

// fitHint says which turns of the row's only bracket fit, or which pegs the row as
// written.
func (s *solver) fitHint(parts []node) string {
	var only *group
	for _, n := range parts {
		if g, ok := n.(*group); ok {
			if only != nil {
				return asWritten(s.fixed)
			}
			only = g
		}
	}
	if only == nil {
		return s.listHint(parts)
	}
	unit := widthOf(only.parts, s.m)
	rest := s.fixed - times(unit, only.count)
	if s.fixed >= tooWide || rest < 0 || unit == 0 {
		return ""
	}
	turns := max(0, (s.pegs-rest)/unit)
	if turns > 0 && rest+turns*unit == s.pegs {
		return fmt.Sprintf("with the bracket %s it fits", many(turns, "time"))
	}
	return turnsHint(rest, unit, turns)
}

// listHint is the hint for a row of plain stitches.
func (s *solver) listHint(parts []node) string {
	if 0 < s.fixed && s.fixed < s.pegs && s.pegs%s.fixed == 0 && len(parts) > 1 {
		return "to fill the row put a * before it and rep from * to end behind it"
	}
	return asWritten(s.fixed)
}

func asWritten(pegs int) string {
	if pegs > maxPegs {
		return ""
	}
	return fmt.Sprintf("as written it fits %s", many(pegs, "peg"))
}

// turnsHint names the nearest fitting numbers of turns and their pegs, fewer first.
func turnsHint(rest, unit, fewer int) string {
	if rest+(fewer+1)*unit > maxPegs {
		return ""
	}
	more := rest + (fewer+1)*unit
	if fewer < 1 {
		return fmt.Sprintf("1 repeat gives %s", many(more, "peg"))
	}
	verb := "give"
	if fewer == 1 {
		verb = "gives"
	}
	return fmt.Sprintf("%s %s %s, %d give %d", many(fewer, "repeat"), verb, many(rest+fewer*unit, "peg"), fewer+1, more)
}
