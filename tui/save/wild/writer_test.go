//go:build unix

package wild_test

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"strings"
	"syscall"
	"time"

	"bypeg/pattern"
	"bypeg/tui/save"
)

// ways says what a writer is to do.
type ways struct {
	Root, ID string
	Begin    bool // the piece, instead of opening it
	Files    files
	Limited  bool // no file may grow past fileLimit, until the first word from outside
	Masked   bool // the umask is Umask
	Umask    int

	From  int           // the step before the first; 0: go on from the place
	Steps int           // how many to work before it quits; 0: it goes on until it is killed
	Ahead int           // how many may wait to be saved; 0: one
	Pace  time.Duration // between two steps
	Rest  int           // after so many are saved, it waits for a word from outside
	Wait  bool          // it waits for one before the first step, too

	Patient bool // when a step cannot be saved for the first time, it waits for a word from outside
	Tries   int  // otherwise how often it tries again, before it quits
	Leave   bool // when the file was changed by something else, it quits
	Hasty   bool // calls a step saved as soon as it is put: the control
}

const fileLimit = 4096

const patternText = "pattern = 1\ntitle = \"Weir Side Panel\"\npegs = 26\n"

// The codes with which a writer ends.
const (
	endedWell    = 0
	notOpened    = 1
	leftUnsaved  = 3
	wrongHistory = 4
)

// A writer says, one line each: "open N", where the work stands; "put N" before a
// step is worked; "ack N row done" after it was said to be saved; "unsaved N reason";
// "rest N" when it waits for a word; and what else becomes of it.
func say(format string, args ...any) { fmt.Fprintf(os.Stdout, format+"\n", args...) }

// writer is a run of the program as far as the store goes.
type writer struct {
	ways
	piece   *save.Piece
	queue   *save.Writer
	words   *bufio.Reader
	base    int // the step that the queue began after
	first   int // the step that the run began after
	put     int
	saved   int
	rest    int // the step after which it waits for a word
	failed  int
	longest time.Duration // that putting a step took
}

// write works a piece and returns the code to end with.
func write(o ways) int {
	if o.Masked {
		syscall.Umask(o.Umask)
	}
	if o.Limited {
		limit(true)
	}
	w := &writer{ways: o, words: bufio.NewReader(os.Stdin)}
	w.Ahead = max(w.Ahead, 1)
	at, code := w.open()
	if code != endedWell {
		return code
	}
	if w.From > 0 {
		at = w.From
	}
	w.first, w.rest = at, at+w.Rest
	w.start(at)
	if w.Wait && !w.word() {
		return w.leave()
	}
	for w.Steps == 0 || w.saved < w.first+w.Steps {
		if !w.turn() {
			break
		}
	}
	return w.leave()
}

// limit keeps files from growing, or lets them grow again.
func limit(on bool) {
	var r syscall.Rlimit
	if err := syscall.Getrlimit(syscall.RLIMIT_FSIZE, &r); err != nil {
		say("limit: %v", err)
	}
	r.Cur = r.Max
	if on {
		r.Cur = fileLimit
	}
	if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &r); err != nil {
		say("limit: %v", err)
	}
}

// open opens or begins the piece, and waits for it where somebody else has it.
func (w *writer) open() (at, code int) {
	env := save.System(fmt.Sprintf("pid %d", os.Getpid()))
	env.FS = w.Files.open()
	env.NewID = func() string { return w.ID }
	var o save.Opening
	var err error
	if w.Begin {
		w.piece, err = save.Begin(env, w.Root, save.New{
			Title: "Weir Side Panel", Source: "weir side.toml", PatternText: []byte(patternText),
			Way: pattern.DefaultWay(pattern.RightHand), Of: pegs,
		})
	} else {
		w.piece, o, err = save.Open(env, w.Root, w.ID)
	}
	for held := false; err == nil && o.Held; held = true {
		if !held {
			say("held %s", o.LookOnly)
		}
		time.Sleep(5 * time.Millisecond)
		o, _, err = w.piece.TryTakeOver()
	}
	if err != nil {
		say("failed %v", err)
		return 0, notOpened
	}
	if o, err = w.settled(o); err != nil {
		return 0, notOpened
	}
	if !w.Begin {
		if _, err := audit(o); err != nil {
			say("wrong %v", err)
			return 0, wrongHistory
		}
	}
	say("open %d", stepOf(o.Place))
	return stepOf(o.Place), endedWell
}

// settled answers the question of an opening with the surest place.
func (w *writer) settled(o save.Opening) (save.Opening, error) {
	for _, words := range o.Notices {
		say("notice %s", words)
	}
	if o.LookOnly != "" {
		say("look only at %d: %s", stepOf(o.Place), o.LookOnly)
		return o, save.ErrLookOnly
	}
	if o.Question == nil {
		return o, nil
	}
	say("asked %s", o.Question)
	o, err := w.piece.Settle(o.Question.Choices[0])
	if err != nil {
		say("failed %v", err)
	}
	return o, err
}

// start begins to save what comes after a step.
func (w *writer) start(at int) {
	w.base, w.put, w.saved = at, at, at
	w.queue = save.NewWriter(w.piece)
}

// turn works a step or hears what became of one, and tells whether to go on.
func (w *writer) turn() bool {
	var next <-chan time.Time
	if w.put-w.saved < w.Ahead && (w.Rest == 0 || w.put < w.rest) && (w.Steps == 0 || w.put < w.first+w.Steps) {
		next = time.After(w.Pace)
	}
	select {
	case a := <-w.queue.Acks():
		return w.heard(a)
	case <-next:
		w.step()
	}
	return true
}

func (w *writer) step() {
	w.put++
	say("put %d", w.put)
	before := time.Now()
	w.queue.Put(save.Step{Kind: save.Forward, Place: placeOf(w.put), Of: pegs})
	w.longest = max(w.longest, time.Since(before))
	if w.Hasty {
		say("ack %d", w.put)
	}
}

func (w *writer) heard(a save.Ack) bool {
	w.ack(w.base + int(a.Through))
	if a.Notice != "" {
		say("notice %s", a.Notice)
	}
	if a.Err != nil {
		return w.cannotSave(a.Err)
	}
	if w.Rest > 0 && w.saved == w.rest {
		say("rest %d", w.saved)
		w.rest += w.Rest
		return w.word()
	}
	return true
}

func (w *writer) ack(step int) {
	if step > w.saved {
		w.saved = step
		at := placeOf(step)
		say("ack %d %d %d", step, at.Row, at.Done)
	}
}

// word waits for a line from outside; false where nobody is there any more.
func (w *writer) word() bool {
	line, err := w.words.ReadString('\n')
	return err == nil && strings.TrimSpace(line) != "quit"
}

func (w *writer) cannotSave(err error) bool {
	if errors.Is(err, save.ErrChangedUnderneath) {
		return w.reread()
	}
	w.complain(err)
	if w.Patient {
		if !w.word() {
			return false
		}
		limit(false)
		w.Patient = false
	} else {
		if w.failed++; w.failed > w.Tries {
			return false
		}
		time.Sleep(time.Millisecond)
	}
	w.queue.Retry()
	return true
}

func (w *writer) complain(err error) {
	reason := err.Error()
	if not := (*save.NotSavedError)(nil); errors.As(err, &not) {
		reason = not.Reason()
	}
	say("unsaved %d %s", w.put-w.saved, reason)
}

// reread goes on with what the file has come to be, as the program does: what still
// waited is to be worked again.
func (w *writer) reread() bool {
	say("changed")
	if w.Leave {
		return false
	}
	w.queue.Drain(time.Second)
	o, err := w.piece.Reread()
	if err != nil {
		say("failed %v", err)
		return false
	}
	if o, err = w.settled(o); err != nil {
		return false
	}
	w.start(stepOf(o.Place))
	return true
}

func (w *writer) leave() int {
	_, unsaved, err := w.queue.Drain(10 * time.Second)
	w.ack(w.put - unsaved)
	if err != nil {
		w.complain(err)
	}
	if err := w.piece.Close(); err != nil {
		say("notice %v", err)
	}
	say("longest %d", w.longest.Microseconds())
	say("end %d", w.saved)
	if unsaved > 0 {
		return leftUnsaved
	}
	return endedWell
}
