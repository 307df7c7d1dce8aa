package plain

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"bypeg/pattern/safetext"
)

// Console is where lines come in and go out.
type Console struct {
	ctx    context.Context
	lines  chan line
	out    io.Writer
	to     Terminal
	asking bool // the prompt stands there and waits
	err    error
}

// Terminal is what lines need where somebody looks at them. The zero Terminal is a pipe.
type Terminal struct {
	Prompt string
	Width  func() int // longer lines are broken between words; nil breaks none
}

// line is a line as it was typed.
type line struct {
	text    string
	tooLong bool
}

// lineLimit is how many bytes a line may have.
const lineLimit = 16 << 10

// NewConsole reads lines until they end or the context does. The reading goroutine may
// outlive the context for as long as a read waits.
func NewConsole(ctx context.Context, in io.Reader, out io.Writer, to Terminal) *Console {
	c := &Console{ctx: ctx, lines: make(chan line), out: out, to: to}
	go c.listen(bufio.NewReaderSize(in, lineLimit))
	return c
}

// listen hands on line after line.
func (c *Console) listen(in *bufio.Reader) {
	defer close(c.lines)
	for {
		l, err := readLine(in)
		if err != nil {
			return
		}
		select {
		case c.lines <- l:
		case <-c.ctx.Done():
			return
		}
	}
}

// readLine reads a line. The last one may lack its end, as those of scripts do; but what
// stands before an error was cut off.
func readLine(in *bufio.Reader) (line, error) {
	text, err := in.ReadSlice('\n')
	if errors.Is(err, io.EOF) && len(text) > 0 {
		err = nil
	}
	if !errors.Is(err, bufio.ErrBufferFull) {
		return line{text: string(text)}, err
	}
	for errors.Is(err, bufio.ErrBufferFull) {
		_, err = in.ReadSlice('\n')
	}
	return line{tooLong: true}, err
}

// Say prints lines. They are cleaned, whoever their words come from.
func (c *Console) Say(lines ...string) {
	if c.asking {
		c.write("\n")
		c.asking = false
	}
	width := 0
	if c.to.Width != nil {
		width = c.to.Width()
	}
	for _, text := range lines {
		c.write(broken(safetext.Clean(text), width) + "\n")
	}
}

// leastWidth is the narrowest terminal for which lines are broken between words.
const leastWidth = 16

// broken is a line broken between words, each further one set in, so that the eye finds
// where the next begins. A word longer than a line is left to the terminal.
func broken(text string, width int) string {
	if width < leastWidth || safetext.Width(text) < width {
		return text
	}
	const setIn = "\n  "
	var b strings.Builder
	used := 0
	for i, word := range strings.Split(text, " ") {
		w := safetext.Width(word)
		switch {
		case i == 0:
		case used+1+w < width: // the last column stays free: some terminals break behind it
			b.WriteByte(' ')
			used++
		default:
			b.WriteString(setIn)
			used = len(setIn) - 1
		}
		b.WriteString(word)
		used += w
	}
	return b.String()
}

func (c *Console) write(text string) {
	if c.err == nil {
		_, c.err = io.WriteString(c.out, text)
	}
}

// Err is why lines could not be printed; nil while they can.
func (c *Console) Err() error {
	if c.err == nil {
		return nil
	}
	return fmt.Errorf("print: %w", c.err)
}

// showPrompt asks for a line.
func (c *Console) showPrompt() {
	if c.to.Prompt != "" {
		c.write(c.to.Prompt)
		c.asking = true
	}
}

// Choose says a question with its answers, numbered, and waits for a number. It returns
// the answer from 0, or false where the maker leaves without one.
func (c *Console) Choose(title string, lines, answers []string) (int, bool) {
	c.Say(title)
	c.Say(lines...)
	for i, a := range answers {
		c.Say(fmt.Sprintf("%d: %s", i+1, a))
	}
	which := "1"
	if len(answers) > 1 {
		which = fmt.Sprintf("1 to %d", len(answers))
	}
	c.Say(fmt.Sprintf("type the number, %s; quit leaves it unanswered", which))
	for c.err == nil {
		c.showPrompt()
		select {
		case <-c.ctx.Done():
			return 0, false
		case l, ok := <-c.lines:
			c.asking = c.asking && !ok
			if !ok {
				return 0, false
			}
			text := strings.TrimSpace(l.text)
			for i := range answers {
				if text == fmt.Sprint(i+1) {
					return i, true
				}
			}
			if e, err := entryFor(text); err == nil && e.verb == verbQuit {
				return 0, false
			}
			c.Say("this is asked first: type the number, " + which)
		}
	}
	return 0, false
}
