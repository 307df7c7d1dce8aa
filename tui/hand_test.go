package tui_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"bypeg/pattern"
	"bypeg/pattern/mend"
	"bypeg/tui"
	"bypeg/tui/save"
	"bypeg/tui/track"
)

// threeHeights are the mat with a field of two, three and four repeats.
var threeHeights = func() []string {
	var all []string
	for _, n := range []string{"2", "3", "4"} {
		all = append(all, strings.Replace(matText, "rows = [\"k\", \"k1, p2, k1\"]\n", "rows = [\"k\", \"k1, p2, k1\"]\ntimes = "+n+"\n", 1))
	}
	return all
}()

// hand is a maker at a real desk who does anything in any order, and what was done, for whoever
// reads of a failure.
type hand struct {
	t   *rapid.T
	r   *room
	d   *tui.Desk
	p   track.Piece
	log []string
}

func (b *hand) say(f string, a ...any) { b.log = append(b.log, fmt.Sprintf(f, a...)) }

func (b *hand) fail(f string, a ...any) {
	text, _ := b.r.journal()
	b.t.Fatalf("%s\n--- what was done:\n%s\n--- journal:\n%s", fmt.Sprintf(f, a...), strings.Join(b.log, "\n"), text)
}

func (b *hand) start(o *tui.Opened, err error) {
	if err != nil {
		b.fail("open: %v", err)
	}
	b.p = b.d.Start(o)
	if s := b.p.Saver; s != nil {
		go func() {
			for {
				if _, ok := s.Next(); !ok {
					return
				}
			}
		}()
	} else {
		b.fail("look only: %s", b.p.Held)
	}
}

func (b *hand) put(e track.Event, ok bool) {
	if ok {
		b.p.Saver.Put(e)
	}
}

// standing is all that must be the same behind a restart.
type standing struct {
	at    pattern.Place
	mend  string
	safe  string
	notes string
}

func (b *hand) state() standing {
	tr := b.p.Tracker
	s := standing{at: tr.Place(), safe: fmt.Sprint(tr.Safe()), notes: fmt.Sprint(b.p.Notes)}
	if m := tr.Mending(); m != nil {
		s.mend = m.String()
	}
	return s
}

// allUndone is where redo and undo lead, to both ends.
func allUndone(p track.Piece) []string {
	var all []string
	tr := p.Tracker
	see := func(w string) {
		m := ""
		if tr.Mending() != nil {
			m = tr.Mending().String()
		}
		all = append(all, fmt.Sprint(w, tr.Place(), m, tr.Safe()))
	}
	n := 0
	for {
		if _, ok := tr.Do(track.Redo); !ok {
			break
		}
		n++
		see("redo ")
	}
	for {
		if _, ok := tr.Do(track.Undo); !ok {
			break
		}
		see("undo ")
	}
	return all
}

func (b *hand) restart(undo bool) {
	was := b.state()
	b.d.Close()
	old := b.p
	b.d = b.r.desk()
	o, err := b.reopen()
	if err == nil && o.Change != nil {
		b.say("restart, change asked %v", o.Change.Says)
		o.Change = nil
	} else {
		b.say("restart")
	}
	b.start(o, err)
	if now := b.state(); now != was {
		b.fail("restart: was %+v\n now %+v", was, now)
	}
	if !undo {
		return
	}
	a, c := allUndone(old), allUndone(b.p)
	if fmt.Sprint(a) != fmt.Sprint(c) {
		b.fail("undo history differs:\nlive     %s\nreplayed %s", strings.Join(a, "\n         "), strings.Join(c, "\n         "))
	}
	b.d.Close()
	b.d = b.r.desk()
	o, err = b.reopen()
	if err == nil {
		o.Change = nil
	}
	b.start(o, err)
}

// worked does anything in any order, with plans of the piece's own or a file taken over in
// between, restarts at any moment, and holds what is kept to what was there before.
func worked(t *testing.T, plan, adopt, undo bool) {
	rapid.Check(t, func(rt *rapid.T) {
		r := newRoom(t)
		r.files["mat.toml"] = threeHeights[1]
		b := &hand{t: rt, r: r, d: r.desk()}
		b.start(b.d.Work(r.source()))
		planned := false
		b.put(b.p.Tracker.Jump(pattern.Place{Phase: pattern.Working, Row: rapid.IntRange(1, 6).Draw(rt, "first")}))
		for range rapid.IntRange(1, 14).Draw(rt, "n") {
			tr := b.p.Tracker
			o := tr.Order()
			switch k := rapid.SampledFrom([]string{"move", "move", "move", "row", "row", "undo", "undo", "redo", "line", "ball", "repair", "repair", "step", "stop", "complete", "complete", "note", "jump", "plan", "adopt", "restart"}).Draw(rt, "what"); k {
			case "move":
				a := rapid.SampledFrom([]track.Action{track.OnePeg, track.OneRun, track.PegBack, track.RunBack, track.RowBack}).Draw(rt, "a")
				e, ok := tr.Do(a)
				b.put(e, ok)
				b.say("move %d -> %v %v", a, tr.Place(), ok)
			case "row":
				e, ok := tr.Do(track.OneRow)
				b.put(e, ok)
				b.say("row -> %v %v", tr.Place(), ok)
			case "undo", "redo":
				a := track.Undo
				if k == "redo" {
					a = track.Redo
				}
				e, ok := tr.Do(a)
				b.put(e, ok)
				b.say("%s -> %v %v", k, tr.Place(), ok)
			case "line", "ball":
				kind := mend.Lifeline
				if k == "ball" {
					kind = mend.Join
				}
				if s, ok := tr.SafeHere(kind); ok {
					b.say("%s at %v", s, tr.Place())
					b.put(tr.Secure(s), true)
				}
			case "repair":
				var m track.Mending
				newest := track.Newest(o, tr.Place())
				switch rapid.IntRange(0, 3).Draw(rt, "which") {
				case 0, 1:
					if newest == 0 {
						continue
					}
					m = track.BackTo(rapid.IntRange(1, newest).Draw(rt, "back"))
				case 2:
					if newest == 0 {
						continue
					}
					m = track.Mending{Col: rapid.IntRange(0, o.Pattern.Pegs-1).Draw(rt, "col"), Row: rapid.IntRange(1, newest).Draw(rt, "r")}
				case 3:
					m = track.LedThrough(rapid.SampledFrom([]track.Repair{track.CastOn, track.BindOff, track.Finish}).Draw(rt, "led"), o, tr.Place())
				}
				if _, _, err := m.Steps(o, tr.Place()); err != nil {
					continue
				}
				b.say("begin %s at %v", m, tr.Place())
				b.put(tr.Mend(&m), true)
			case "step":
				if m := tr.Mending(); m != nil {
					steps, _, err := m.Steps(o, tr.Place())
					if err != nil {
						b.fail("a repair under way has no steps at %v: %s: %v", tr.Place(), m, err)
					}
					now := *m
					now.Step = min(now.Step+1, steps.Len()-1)
					b.put(tr.Mend(&now), true)
					b.say("step %s", now)
				}
			case "stop":
				if tr.Mending() != nil {
					b.put(tr.Mend(nil), true)
					b.say("given up")
				}
			case "complete":
				if m := tr.Mending(); m != nil {
					_, to, err := m.Steps(o, tr.Place())
					if err != nil {
						b.fail("a repair under way has no steps at %v: %s: %v", tr.Place(), m, err)
					}
					b.say("complete %s", m)
					if to != nil {
						e, ok := tr.Complete(*to)
						b.put(e, ok)
						if !ok || tr.Mending() != nil {
							b.fail("completed, and still under way")
						}
					} else {
						b.put(tr.Mend(nil), true)
					}
				}
			case "note":
				b.p.Notes = track.Annotate(b.p.Notes, track.Note{Row: tr.RowInHand(), Text: "n"})
				b.p.Saver.Note(tr.Place(), "n")
				b.say("note")
			case "jump":
				row := rapid.IntRange(1, o.Pattern.Grid.Rows()).Draw(rt, "row")
				e, ok := tr.Jump(pattern.Place{Phase: pattern.Working, Row: row})
				b.put(e, ok)
				b.say("jump %d %v", row, ok)
			case "plan":
				if !plan {
					continue
				}
				was := b.state()
				o, err := b.d.GoOn([]byte(rapid.SampledFrom(threeHeights).Draw(rt, "text")), "planned anew")
				if err != nil {
					b.fail("go on: %v", err)
				}
				b.say("plan: notices %v", o.Opening.Notices)
				refused := len(o.Opening.Notices) > 0
				planned = planned || !refused
				b.start(o, nil)
				now := b.state()
				if now.safe != was.safe {
					b.fail("plan: safe was %s now %s", was.safe, now.safe)
				}
				if refused && now != was {
					b.fail("plan refused: was %+v now %+v", was, now)
				}
			case "adopt":
				if !adopt || planned {
					continue
				}
				was := b.state()
				b.d.Close()
				b.r.files["mat.toml"] = rapid.SampledFrom(threeHeights).Draw(rt, "file")
				b.d = b.r.desk()
				o, err := b.reopen()
				if err != nil {
					b.fail("open: %v", err)
				}
				if o.Change != nil && o.Change.Holds && !o.Change.Same() {
					o, err = b.d.Adopt(o)
					b.say("adopt")
				}
				b.start(o, err)
				now := b.state()
				if now.safe != was.safe || now.at != was.at {
					b.fail("adopt: was %+v\n now %+v", was, now)
				}
			case "restart":
				b.restart(undo)
			}
		}
		b.restart(undo)
		b.d.Close()
	})
}

func TestARestartChangesNothing(t *testing.T) { worked(t, false, false, true) }

func TestAPlanKeepsWhatLiesInTheFabric(t *testing.T) { worked(t, true, false, false) }

func TestATakenOverFileKeepsWhatLiesInTheFabric(t *testing.T) { worked(t, false, true, false) }

func (b *hand) reopen() (*tui.Opened, error) {
	all, err := save.List(b.d.Env, b.d.Root)
	if err != nil || len(all) != 1 {
		b.fail("list: %v %d", err, len(all))
	}
	return b.d.Open(all[0].ID)
}
