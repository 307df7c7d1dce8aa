package plain

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"bypeg/pattern/safetext"
)

// verb is what a command does.
type verb uint8

const (
	verbPeg verb = iota
	verbRun
	verbRow
	verbBack
	verbLeft
	verbRight
	verbUndo
	verbRedo
	verbGoTo
	verbNote
	verbForget
	verbPurpose
	verbAsk
	verbMend
	verbLine
	verbBall
	verbSize
	verbPlan
	verbNowAgain
	verbWhere
	verbChart
	verbSave
	verbHelp
	verbQuit
)

// taking is what may stand behind a command's word.
type taking uint8

const (
	nothing taking = iota
	times          // how often
	rowNumber
	words
)

// entry is a command as it is typed and as help tells it.
type entry struct {
	verb  verb
	word  string
	takes taking
	shown string // what stands behind the word, as help shows it
	does  string
}

// entries are all commands, in the order in which help lists them.
var entries = [...]entry{
	{verbPeg, "peg", times, "[3]", "the next peg, or 3 pegs; an empty line is one peg too"},
	{verbRun, "run", times, "[3]", "to the end of the run"},
	{verbRow, "row", times, "[3]", "to the end of the row"},
	{verbBack, "back", times, "[3]", "one peg back; back run and back row go to the start of those"},
	{verbLeft, "left", times, "[3]", "along the row to the left: on or back, as the row runs"},
	{verbRight, "right", times, "[3]", "along the row to the right"},
	{verbUndo, "undo", times, "[3]", "take the last change back"},
	{verbRedo, "redo", times, "[3]", "bring it again"},
	{verbGoTo, "go", rowNumber, "18", "go to the start of row 18"},
	{verbNote, "note", words, "[words]", "note words on this row; alone: say the note"},
	{verbForget, "forget", nothing, "", "take the note off this row"},
	{verbPurpose, "purpose", words, "[words]", "write down a change made on purpose; alone: say them"},
	{verbAsk, "ask", nothing, "", "find the place again from the fabric, by questions"},
	{verbMend, "mend", words, "[6 from 31]", "ways to put peg 6 right from row 31 on; alone: go on with a repair, finish a piece off the loom, or say what else there is"},
	{verbLine, "line", words, "[18] [out]", "a lifeline lies in the last row done, or in row 18; out: not any more"},
	{verbBall, "ball", words, "[18] [out]", "a new ball was joined at the end of the last row done, or of row 18"},
	{verbSize, "size", words, "[21.5 x 30 cm, 62 g]", "put down what the finished piece measures and weighs, or only what you know of it; alone: say it"},
	{verbPlan, "plan", words, "[left 18 g]", "ways to go on; plan wide 22 cm, high 14 cm, left 18 g tell what is; plan 2 goes on the second way"},
	{verbNowAgain, "now", nothing, "", "say again what is to be done"},
	{verbWhere, "where", nothing, "", "how far the work is"},
	{verbChart, "chart", rowNumber, "[18]", "this row and the one below in words, or row 18"},
	{verbSave, "save", nothing, "", "try again to save what could not be saved"},
	{verbHelp, "help", words, "[mend]", "these words; the first letters will do where no other word has them; help mend: all of that word"},
	{verbQuit, "quit", nothing, "", "leave; so does the end of what is typed"},
}

// favourites have a letter that is the beginning of other words too to themselves.
var favourites = map[string]verb{"p": verbPeg, "b": verbBack, "l": verbLeft, "s": verbSave}

// command is a line that was understood.
type command struct {
	verb verb
	unit verb // of back: peg, run or row
	n    int  // how often, or the row; 0 where none was typed
	text string
}

// The most that one command does, and the most words that a note may have.
const (
	mostTimes = 1000
	noteLimit = 500
)

// parse reads a line. The error says what to type instead.
func parse(line string) (command, error) {
	line = strings.TrimSpace(safetext.Clean(line))
	if line == "" {
		return command{verb: verbPeg, n: 1}, nil
	}
	word, rest, _ := strings.Cut(line, " ")
	rest = strings.TrimSpace(rest)
	e, err := entryFor(word)
	if err != nil {
		return command{}, err
	}
	c := command{verb: e.verb}
	switch e.takes {
	case times:
		return c.often(e, rest)
	case rowNumber:
		return c.row(e, rest)
	case words:
		if safetext.TooLong(rest, noteLimit) {
			return c, fmt.Errorf("that is too long to keep: %d letters at most", noteLimit)
		}
		c.text = rest
		return c, nil
	}
	if rest != "" {
		return c, fmt.Errorf("nothing stands behind %s: type it alone", e.word)
	}
	return c, nil
}

// entryFor is the command that a word, or its first letters, means.
func entryFor(typed string) (entry, error) {
	word := strings.ToLower(typed)
	switch word {
	case "?":
		word = entries[verbHelp].word
	case "round": // which is what a row of a tube is called
		word = entries[verbRow].word
	case "finish":
		word = entries[verbMend].word
	}
	if v, ok := favourites[word]; ok {
		return entries[v], nil
	}
	var may []entry
	for _, e := range entries {
		if e.word == word {
			return e, nil
		}
		if strings.HasPrefix(e.word, word) {
			may = append(may, e)
		}
	}
	switch len(may) {
	case 1:
		return may[0], nil
	case 0:
		return entry{}, unknown(typed)
	}
	return entry{}, fmt.Errorf("%s can be %s: type more of it", word, either(may))
}

// either lists commands: "run, row or redo".
func either(of []entry) string {
	says := of[0].word
	for i, e := range of[1:] {
		link := ", "
		if i == len(of)-2 {
			link = " or "
		}
		says += link + e.word
	}
	return says
}

// unknown says that there is no such word, and which may have been meant.
func unknown(typed string) error {
	if n, err := strconv.Atoi(typed); err == nil {
		return fmt.Errorf("a number needs a word: peg %d works %d pegs, go %d goes to row %d", n, n, n, n)
	}
	all := make([]string, len(entries))
	for i, e := range entries {
		all[i] = e.word
	}
	if near := safetext.Nearest(typed, all); near != "" {
		return fmt.Errorf("%s is no word here: did you mean %s?", short(typed), near)
	}
	return fmt.Errorf("%s is no word here: help lists them", short(typed))
}

// short is what was typed, as it may be said again.
func short(typed string) string { return safetext.Cut(typed, 40) }

// often reads how often, and of back what.
func (c command) often(e entry, rest string) (command, error) {
	fields := strings.Fields(rest)
	if c.verb == verbBack {
		c.unit = verbPeg
		if len(fields) > 0 {
			for _, unit := range []verb{verbPeg, verbRun, verbRow} {
				name, typed := entries[unit].word, strings.TrimSuffix(strings.ToLower(fields[0]), "s")
				if typed == name || unit == verbRow && typed == "round" {
					c.unit, fields = unit, fields[1:]
					break
				}
			}
		}
	}
	c.n = 1
	if len(fields) == 0 {
		return c, nil
	}
	n, err := strconv.Atoi(fields[0])
	if err != nil || len(fields) > 1 || n < 1 || n > mostTimes {
		return c, fmt.Errorf("how often is a number from 1 to %d: %s 3", mostTimes, e.word)
	}
	c.n = n
	return c, nil
}

var errWhichRow = errors.New("which row? go 18 goes to row 18")

// row reads a row's number; "go to row 18" is understood too.
func (c command) row(e entry, rest string) (command, error) {
	fields := slices.DeleteFunc(strings.Fields(strings.ToLower(rest)), func(f string) bool {
		return f == "to" || f == "row" || f == "round"
	})
	switch len(fields) {
	case 0:
		if c.verb == verbGoTo {
			return c, errWhichRow
		}
		return c, nil
	case 1:
		if n, err := strconv.Atoi(fields[0]); err == nil && n > 0 {
			c.n = n
			return c, nil
		}
	}
	return c, fmt.Errorf("a row is a number: %s 18", e.word)
}
