package plain

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestLinesAreReadAsCommands(t *testing.T) {
	cases := []struct {
		name, line string
		want       command
	}{
		{"an empty line is a peg", "", command{verb: verbPeg, n: 1}},
		{"blanks are an empty line", " \t ", command{verb: verbPeg, n: 1}},
		{"a word", "run", command{verb: verbRun, n: 1}},
		{"its first letters", "ru", command{verb: verbRun, n: 1}},
		{"in capitals", "RUN", command{verb: verbRun, n: 1}},
		{"p is the peg, though purpose begins with it too", "p", command{verb: verbPeg, n: 1}},
		{"nor does b mean the ball", "b 2", command{verb: verbBack, unit: verbPeg, n: 2}},
		{"or l the line", "l", command{verb: verbLeft, n: 1}},
		{"which is typed out", "li 18 out", command{verb: verbLine, text: "18 out"}},
		{"a piece off the loom is mended no more", "finish", command{verb: verbMend}},
		{"how often", "p 12", command{verb: verbPeg, n: 12}},
		{"back is pegs", "back 3", command{verb: verbBack, unit: verbPeg, n: 3}},
		{"or says of what", "back run", command{verb: verbBack, unit: verbRun, n: 1}},
		{"and how often", "b Rows 2", command{verb: verbBack, unit: verbRow, n: 2}},
		{"a round is a tube's row", "back round", command{verb: verbBack, unit: verbRow, n: 1}},
		{"alone too", "round 2", command{verb: verbRow, n: 2}},
		{"a row to go to", "go 18", command{verb: verbGoTo, n: 18}},
		{"in a sentence", "go to row 18", command{verb: verbGoTo, n: 18}},
		{"a note keeps its words", "note Blue  from here", command{verb: verbNote, text: "Blue  from here"}},
		{"what a terminal would obey is gone from it", "note a\x1b[31mb\u202ec", command{verb: verbNote, text: "a[31mbc"}},
		{"a line from elsewhere ends otherwise", "row 2\r", command{verb: verbRow, n: 2}},
		{"the chart of this row", "chart", command{verb: verbChart}},
		{"the chart of another", "chart 7", command{verb: verbChart, n: 7}},
		{"a question mark is help", "?", command{verb: verbHelp}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, err := parse(c.line)
			require.NoError(t, err)
			assert.Equal(t, c.want, got)
		})
	}
}

func TestWhatIsNoCommandIsAnsweredWithWhatToType(t *testing.T) {
	cases := []struct{ name, line, says string }{
		{"a letter of several words", "r", "r can be run, row, right or redo: type more of it"},
		{"of two", "no", "no can be note or now: type more of it"},
		{"a slip of the finger", "pge", "pge is no word here: did you mean peg?"},
		{"something else", "knit", "knit is no word here: help lists them"},
		{"a number alone", "18", "a number needs a word: peg 18 works 18 pegs, go 18 goes to row 18"},
		{"go and nothing", "go", "which row? go 18 goes to row 18"},
		{"go and words", "go home", "a row is a number: go 18"},
		{"no such row", "go 0", "a row is a number: go 18"},
		{"how often in words", "peg three", "how often is a number from 1 to 1000: peg 3"},
		{"less than once", "peg 0", "how often is a number from 1 to 1000: peg 3"},
		{"more than anybody means", "row 1001", "how often is a number from 1 to 1000: row 3"},
		{"two numbers", "peg 3 4", "how often is a number from 1 to 1000: peg 3"},
		{"more than a word takes", "quit now", "nothing stands behind quit: type it alone"},
		{"a note beyond its length", "note " + strings.Repeat("x", 501), "that is too long to keep: 500 letters at most"},
		{"what a terminal would obey", "\x1b[2Jpge", "[2Jpge is no word here: help lists them"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := parse(c.line)
			assert.EqualError(t, err, c.says)
		})
	}
}

func TestEveryBeginningOfAWordIsThatWordOrAskedAbout(t *testing.T) {
	alone := map[string]bool{}
	for _, e := range entries {
		for n := 1; n <= len(e.word); n++ {
			typed, meant := e.word[:n], 0
			for _, other := range entries {
				if strings.HasPrefix(other.word, typed) {
					meant++
				}
			}
			got, err := entryFor(typed)
			switch {
			case strings.Contains("pbls", typed):
				assert.Equal(t, map[string]verb{"p": verbPeg, "b": verbBack, "l": verbLeft, "s": verbSave}[typed], got.verb)
				alone[entries[got.verb].word] = true
			case meant == 1 || typed == e.word:
				require.NoError(t, err, typed)
				assert.Equal(t, e.verb, got.verb, typed)
				alone[e.word] = alone[e.word] || n == 1
			default:
				assert.ErrorContains(t, err, typed+" can be ", typed)
				assert.ErrorContains(t, err, e.word, typed)
			}
		}
	}
	for _, word := range []string{"peg", "back", "left", "mend", "undo", "go", "forget", "where", "chart", "save", "help", "quit"} {
		assert.True(t, alone[word], "one letter does for %s", word)
	}
}

func TestEveryVerbIsInItsOwnLine(t *testing.T) {
	for i, e := range entries {
		assert.Equal(t, verb(i), e.verb, e.word)
		assert.NotEmpty(t, e.does)
	}
	assert.Len(t, entries, int(verbQuit)+1)
}

func FuzzParse(f *testing.F) {
	for _, seed := range []string{"", "peg 3", "back rows 2", "go to row 18", "note \x1b[31m", "r", "?", "\xff\xfe", "9999999999999999999999"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		c, err := parse(text)
		if err != nil {
			assert.NotEmpty(t, err.Error())
			assert.Less(t, len(err.Error()), 300, "said briefly")
			return
		}
		assert.LessOrEqual(t, int(c.verb), int(verbQuit))
		assert.GreaterOrEqual(t, c.n, 0)
		assert.False(t, strings.ContainsFunc(c.text, func(r rune) bool { return r < ' ' || r == 0x7f }), "%q", c.text)
	})
}
