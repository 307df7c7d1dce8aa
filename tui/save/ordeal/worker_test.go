package ordeal_test

import (
	"errors"
	"fmt"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"

	"bypeg/pattern"
	"bypeg/tui/internal/disk"
	"bypeg/tui/save"
)

var (
	home = filepath.Join(string(filepath.Separator), "home")
	root = filepath.Join(home, "bypeg", "pieces")
)

// worker is the program at work on one piece, and what it has shown the person. No
// two of the places that it works are alike, so that a place tells how far it came.
type worker struct {
	disk  *disk.Disk
	env   save.Env
	ids   int
	piece *save.Piece
	id    string          // of the piece begun last, whether or not that has come to an end
	put   []pattern.Place // all that was to be saved, in order
	shown int             // how many of them were shown as saved: all of them, from the first
	texts []text          // the pattern texts, in order

	unsure bool // on opening it was said that what was saved last may not outlive a power cut
}

// text is a pattern text and the place at which the work goes on with it.
type text struct {
	at    pattern.Place
	words string
}

func newWorker() *worker {
	d := disk.New()
	must(d.Mkdir(home))
	must(d.SyncDir(filepath.Dir(home)))
	return newWorkerOn(d)
}

func newWorkerOn(d *disk.Disk) *worker {
	w := &worker{disk: d}
	seconds := 0
	w.env = save.Env{
		FS: d,
		Now: func() time.Time {
			seconds++
			return time.Date(2026, 1, 2, 19, 0, seconds, 0, time.UTC)
		},
		NewID: func() string {
			w.ids++
			w.id = fmt.Sprintf("k7q%d", w.ids)
			return w.id
		},
		Holder: "pid 4711",
	}
	return w
}

func must(err error) {
	if err != nil {
		panic(err)
	}
}

// killed is the worker as another process sees its work once it has been killed: the
// disk as it is, no locks, and nothing in memory but what the person remembers.
func (w *worker) killed() *worker { return w.on(w.disk.Clone()) }

// on is the worker as another process sees its work on another disk.
func (w *worker) on(d *disk.Disk) *worker {
	next := newWorkerOn(d)
	next.ids, next.id, next.put, next.shown, next.texts = w.ids, w.id, slices.Clip(w.put), w.shown, slices.Clip(w.texts)
	return next
}

// act is one thing that the program does with a piece. It remembers what it has tried
// to do, and is done once, by one worker.
type act struct {
	name string
	do   func(*worker) error
}

// try does an act, and again where it fails, as a person would who sees NOT SAVED. An
// error is of the last try.
func (w *worker) try(a act, times int) error {
	var err error
	for range times {
		if err = a.do(w); err == nil {
			return nil
		}
		if errors.As(err, new(broken)) {
			return err
		}
	}
	return fmt.Errorf("%s: %w", a.name, err)
}

// broken is an error of the store that no fault excuses.
type broken struct{ what string }

func (b broken) Error() string { return b.what }

func brokenf(format string, args ...any) error { return broken{fmt.Sprintf(format, args...)} }

// begin begins the piece. A person who is told that it failed begins another.
func begin(w *worker) error {
	const words = "pegs = 26\n"
	w.put, w.shown = []pattern.Place{pattern.Start()}, 0
	w.texts = []text{{pattern.Start(), words}}
	p, err := save.Begin(w.env, root, save.New{
		Title: "Sluice Lane Mat", Source: "mat.toml", PatternText: []byte(words), Of: 26,
		Way: pattern.DefaultWay(pattern.RightHand),
	})
	if err != nil {
		return err
	}
	w.piece, w.shown = p, 1
	return nil
}

// steps saves so many steps in one batch.
func steps(n int) act { return stepsOf(n, save.Step{Kind: save.Forward}) }

func stepsOf(n int, like save.Step) act {
	first := -1
	return act{fmt.Sprintf("%d of %s", n, like.Kind), func(w *worker) error {
		if first < 0 { // not the second try
			first = len(w.put)
			for range n {
				w.put = append(w.put, w.next())
			}
		}
		batch := make([]save.Step, n)
		for i := range batch {
			batch[i] = like
			batch[i].Place, batch[i].Of = w.put[first+i], 26
		}
		if err := w.piece.Append(batch); err != nil {
			return w.notSaved(err)
		}
		w.shown = first + n
		return nil
	}}
}

// next is a place that was not worked before.
func (w *worker) next() pattern.Place {
	last := w.put[len(w.put)-1]
	if last.Done < 7 && last.Row > 0 {
		return pattern.Place{Phase: pattern.Working, Row: last.Row, Done: last.Done + 1}
	}
	return pattern.Place{Phase: pattern.Working, Row: last.Row + 1, Done: 1}
}

// notSaved is what the program does when the file was changed by something else: it
// reads the piece anew. Of another failure it only tells.
func (w *worker) notSaved(err error) error {
	if !errors.Is(err, save.ErrChangedUnderneath) && !errors.Is(err, save.ErrLookOnly) && !errors.Is(err, save.ErrUnanswered) {
		return err
	}
	o, again := w.piece.Reread()
	if again != nil {
		return errors.Join(err, again)
	}
	if o.LookOnly != "" {
		return err
	}
	if again := w.see(w.piece, o); again != nil {
		return again
	}
	return err
}

// changePattern goes on with another text.
func changePattern(words string) act {
	var at pattern.Place
	return act{"another pattern", func(w *worker) error {
		if at == (pattern.Place{}) { // not the second try
			at = w.next()
			w.put = append(w.put, at)
			w.texts = append(w.texts, text{at, words})
		}
		if err := w.piece.ChangePattern([]byte(words), at, 26, ""); err != nil {
			return w.notSaved(err)
		}
		w.shown = len(w.put)
		return nil
	}}
}

// leave closes the piece and open opens it again, as a person does the next day.
var leave = act{"leave", func(w *worker) error {
	if err := w.piece.Close(); err != nil && !errors.Is(err, save.ErrCopyBehind) {
		return err
	}
	return nil
}}

var open = act{"open", func(w *worker) error {
	p, o, err := save.Open(w.env, root, w.id)
	if err != nil {
		return err
	}
	if o.LookOnly != "" {
		return errors.Join(errors.New(o.LookOnly), p.Close())
	}
	w.piece = p
	if err := w.see(p, o); err != nil {
		return errors.Join(err, p.Close())
	}
	w.put = w.put[:w.shown:w.shown] // what has not come through by now never will
	w.texts = slices.DeleteFunc(slices.Clone(w.texts), func(x text) bool { return !slices.Contains(w.put, x.at) })
	return nil
}}

// see is what the person sees when a piece is opened: that is then shown as saved.
func (w *worker) see(p *save.Piece, o save.Opening) error {
	w.unsure = slices.ContainsFunc(o.Notices, func(s string) bool { return strings.Contains(s, save.ErrNotSure.Error()) })
	if o.LookOnly == "" && o.Question != nil {
		if err := w.answer(p, &o); err != nil {
			return err
		}
	}
	at := slices.Index(w.put, o.Place)
	switch {
	case at < 0:
		return brokenf("WRONG: the place %v was never worked", o.Place)
	case at+1 < w.shown:
		return brokenf("LOST: the place is %v, and %v had been shown as saved", o.Place, w.put[w.shown-1])
	}
	sure := w.shown
	w.shown = at + 1
	if err := w.remembered(o, sure); err != nil {
		return err
	}
	return w.rightPattern(p, o)
}

// answer holds that a question is asked only where a line that was not yet saved is
// damaged, and takes the sure place; or where a write has lied, which this very program
// saw, and takes what has reached the disk.
func (w *worker) answer(p *save.Piece, o *save.Opening) error {
	q := o.Question
	if q.Kind != save.DamagedEnd && q.Choices[0].Origin != save.FromMemory {
		return brokenf("ASKED: %s", q)
	}
	was := o.Place
	settled, err := p.Settle(save.Choice{Place: was, Of: o.Of})
	switch {
	case err != nil:
		return err
	case settled.Place != was || settled.Question != nil:
		return brokenf("the answer %v became %v, asked %v", was, settled.Place, settled.Question)
	}
	*o = settled
	return nil
}

// remembered holds that the history is the work that was done, in order. Of what no
// one was shown, a step may be missing before one that is there, and a notice says so.
func (w *worker) remembered(o save.Opening, sure int) error {
	var have []pattern.Place
	for r := range o.History.All() {
		if r.Kind == save.Here { // an answer, of the place before it
			continue
		}
		if len(have) == 0 || have[len(have)-1] != r.Place {
			have = append(have, r.Place)
		}
	}
	want := w.put[:w.shown]
	if slices.Equal(have, want) {
		return nil
	}
	told := slices.ContainsFunc(o.Notices, func(s string) bool { return strings.Contains(s, "can't be read") })
	rest := have
	for i, p := range want {
		switch {
		case len(rest) > 0 && rest[0] == p:
			rest = rest[1:]
		case i < sure || !told:
			return brokenf("HISTORY: without %v; notices %q, sure to %v", p, o.Notices, want[max(0, sure-1)])
		}
	}
	if len(rest) > 0 {
		return brokenf("HISTORY: with %v, which is out of order", rest)
	}
	w.put = append(have, w.put[w.shown:]...)
	w.shown = len(have)
	return nil
}

// fair is what a person may be told after a cut: that lines which nobody was shown as
// saved are damaged; and with it, where a change of the pattern was cut short before it
// was told, that one of them may have been that.
var fair = regexp.MustCompile(`^(an interrupted line was skipped; .*|\d+ of \d+ lines can't be read\. Your place is not affected\.` +
	`( the pattern may have been changed in a line that can't be read: .*)?|)$`)

// rightPattern holds that the piece goes on with the text that its place is in, and that
// no more is said than is fair, unless a call is failing right now.
func (w *worker) rightPattern(p *save.Piece, o save.Opening) error {
	if said := strings.Join(o.Notices, " "); w.disk.Before == nil && !fair.MatchString(said) {
		return brokenf("NOTICE: %s", said)
	}
	for _, x := range slices.Backward(w.texts) {
		if slices.Contains(w.put[:w.shown], x.at) {
			if have := string(p.Pattern()); have != x.words {
				return brokenf("PATTERN: it is %q, and was %q", have, x.words)
			}
			return nil
		}
	}
	return brokenf("PATTERN: none was begun")
}
