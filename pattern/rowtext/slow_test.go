package rowtext

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"bypeg/pattern"
)

// A second reader, for what this package prints: it works a row step by step as a person
// would, and knows nothing of the tree, the widths and the solver of the first.

// slowNames are the steps by what is printed for one of them.
var slowNames = func() map[string]Stitch {
	names := map[string]Stitch{
		"e-wrap": EWrap, "u-wrap": UWrap, "flat knit": FlatKnit, "true knit": TrueKnit, "no stitch": NoStitch,
		"knit": Knit, "purl": Purl, "slip": Slip, "yarn over": YarnOver, "knit 2 together": KnitTwo, "purl 2 together": PurlTwo,
	}
	for _, s := range append(Stitches(), crosses...) {
		names[s.Name()] = s
	}
	return names
}()

var slowManners = map[string]map[Stitch]Stitch{
	"wyib": {Slip: SlipBack}, "with yarn in back": {Slip: SlipBack},
	"wyif": {Slip: SlipFront}, "with yarn in front": {Slip: SlipFront},
	"tbl": {Knit: KnitTBL, Purl: PurlTBL}, "through the back loop": {Knit: KnitTBL, Purl: PurlTBL},
}

// crosses are a few of the crosses there are.
var crosses = []Stitch{
	CrossStitch(pattern.Cross{Front: 2, Back: 2}),
	CrossStitch(pattern.Cross{Front: 3, Back: 3, Lean: pattern.Right}),
	CrossStitch(pattern.Cross{Front: 2, Back: 1, PurlBack: true}),
	CrossStitch(pattern.Cross{Front: 1, Back: 2, Lean: pattern.Right, PurlBack: true}),
}

var (
	slowStep = regexp.MustCompile(`^([a-z][a-z -]*?) ?(\d+)(?: (.+))?$`)
	slowMany = regexp.MustCompile(`^[(\[](.*)[)\]] (\d+) times$`)
	slowFill = regexp.MustCompile(`^(.*) to (?:the )?(?:(end)|last(?: (\d+))?(?: (?:peg|st|stitch)(?:e?s)?)?)$`)
	slowStar = regexp.MustCompile(`^(?:(.*), )?\*(.*); (?:rep|repeat) from \* (to (?:the )?(?:end|last[^,]*))(?:, (.*))?$`)
)

// slowRow is the steps of a printed row on so many loops.
func slowRow(t require.TestingT, text string, loops int) []Run {
	if m := slowStar.FindStringSubmatch(text); m != nil {
		runs := slowList(t, m[1], loops)
		unit, stop := slowList(t, m[2], loops), loops-slowLast(t, slowFill.FindStringSubmatch("x "+m[3]))
		require.Positive(t, In(unit), text)
		require.Less(t, In(runs), stop, text)
		for In(runs) < stop {
			for _, r := range unit {
				runs = push(runs, r)
			}
		}
		require.Equal(t, stop, In(runs), "the repeat is finished: %s", text)
		require.True(t, stop < loops || m[4] == "", "behind the end stands nothing: %s", text)
		for _, r := range slowList(t, m[4], loops) {
			runs = push(runs, r)
		}
		return runs
	}
	if s, ok := slowNames[text]; ok && s.In() == 1 {
		return []Run{{s, loops}}
	}
	return slowList(t, text, loops)
}

// slowLast is how many loops are left where an open part stops.
func slowLast(t require.TestingT, m []string) int {
	require.NotNil(t, m)
	switch {
	case m[2] == "end":
		return 0
	case m[3] == "":
		return 1
	}
	n, err := strconv.Atoi(m[3])
	require.NoError(t, err)
	return n
}

// slowList is the steps of a list.
func slowList(t require.TestingT, text string, loops int) []Run {
	var runs []Run
	for _, item := range slowItems(text) {
		if m := slowFill.FindStringSubmatch(item); m != nil && slowMany.FindStringSubmatch(item) == nil {
			s, ok := slowNames[m[1]]
			require.True(t, ok, "%q in %q", m[1], text)
			n := loops - slowLast(t, m) - In(runs)
			require.Positive(t, n, text)
			runs = push(runs, Run{s, n})
			continue
		}
		for _, r := range slowItem(t, item, loops) {
			runs = push(runs, r)
		}
	}
	return runs
}

func slowItem(t require.TestingT, item string, loops int) []Run {
	if m := slowMany.FindStringSubmatch(item); m != nil {
		n, err := strconv.Atoi(m[2])
		require.NoError(t, err)
		var runs []Run
		unit := slowList(t, m[1], loops)
		for range n {
			for _, r := range unit {
				runs = push(runs, r)
			}
		}
		return runs
	}
	if s, ok := slowNames[item]; ok {
		require.False(t, s.In() == 1 && s.Out() == 1, "a letter alone in a list: %q", item)
		return []Run{{s, 1}}
	}
	m := slowStep.FindStringSubmatch(item)
	require.NotNil(t, m, "%q", item)
	s, ok := slowNames[m[1]]
	require.True(t, ok, "%q", item)
	n, err := strconv.Atoi(m[2])
	require.NoError(t, err)
	if m[3] != "" {
		s, ok = slowManners[m[3]][s]
		require.True(t, ok, "%q", item)
	}
	return []Run{{s, n}}
}

// slowItems cuts a list at its commas, brackets left whole.
func slowItems(text string) []string {
	var items []string
	depth, start := 0, 0
	for i, c := range text {
		switch c {
		case '(', '[':
			depth++
		case ')', ']':
			depth--
		case ',':
			if depth == 0 {
				items = append(items, text[start:i])
				start = i + 2
			}
		}
	}
	if text[start:] != "" {
		items = append(items, text[start:])
	}
	return items
}

var (
	slowHead = regexp.MustCompile(`^(?:Row|Rnd|Round)s? ([0-9, and-]+?)(?: \((?:RS|WS|right to left|left to right)\))?: (.*)$`)
	slowRep  = regexp.MustCompile(`^(?:rep|repeat) (?:rows|rnds|rounds) (\d+)-(\d+)(?: (\d+) times)?$`)
	slowHalf = regexp.MustCompile(`^(?:Row|Rnd|Round) ([12]) and all (?:odd|even) (?:rows|rnds|rounds)(?: \([^)]*\))?: (.*)$`)
	slowWith = regexp.MustCompile(`^with ([A-Z]), (.*)$`)
)

// slowText is the rows of a printed text by their numbers. Loops tells how many a row is
// worked into.
func slowText(t require.TestingT, lines []string, loops func(row int) int) map[int]Line {
	said := map[int]string{}
	last := 0
	say := func(row int, text string) {
		_, twice := said[row]
		require.False(t, twice, "row %d is told twice", row)
		said[row] = text
		last = max(last, row)
	}
	for _, line := range lines {
		if slowHalf.MatchString(line) {
			continue
		}
		m := slowHead.FindStringSubmatch(line)
		require.NotNil(t, m, line)
		rows := slowNumbers(t, m[1])
		rep := slowRep.FindStringSubmatch(m[2])
		if rep == nil {
			for _, row := range rows {
				say(row, m[2])
			}
			continue
		}
		block := slowNumbers(t, rep[1]+"-"+rep[2])
		times := 1
		if rep[3] != "" {
			times, _ = strconv.Atoi(rep[3])
		}
		require.Len(t, rows, len(block)*times, line)
		for i, row := range rows {
			say(row, said[block[i%len(block)]])
		}
	}
	for _, line := range lines {
		if m := slowHalf.FindStringSubmatch(line); m != nil {
			first, _ := strconv.Atoi(m[1])
			for row := first; row <= last+first-1; row += 2 {
				say(row, m[2])
			}
		}
	}
	all := map[int]Line{}
	read := map[string][]Run{}
	for row, text := range said {
		l := Line{}
		if m := slowWith.FindStringSubmatch(text); m != nil {
			l.Yarn, text = pattern.Yarn(m[1][0]-'A'), m[2]
		}
		key := fmt.Sprint(loops(row), text)
		if read[key] == nil {
			read[key] = slowRow(t, text, loops(row))
		}
		l.Runs = read[key]
		all[row] = l
	}
	return all
}

// slowNumbers are the numbers of a head: "1-4, 7", "1 and 3".
func slowNumbers(t require.TestingT, head string) []int {
	var rows []int
	for _, item := range strings.Split(strings.ReplaceAll(head, " and ", ", "), ", ") {
		from, to := 0, 0
		if n, _ := fmt.Sscanf(item, "%d-%d", &from, &to); n < 2 {
			to = from
		}
		require.True(t, 0 < from && from <= to, head)
		for row := from; row <= to; row++ {
			rows = append(rows, row)
		}
	}
	return rows
}

// plainRuns reads the plainest notation there is: "k3 p2 k2tog:1".
func plainRuns(t testing.TB, text string) []Run {
	t.Helper()
	var runs []Run
	for _, word := range strings.Fields(text) {
		name, count, ok := strings.Cut(word, ":")
		if !ok {
			name, count = word[:1], word[1:]
		}
		n, err := strconv.Atoi(count)
		require.NoError(t, err)
		s, ok := slowNames[name]
		require.True(t, ok, word)
		runs = append(runs, Run{s, n})
	}
	return runs
}
