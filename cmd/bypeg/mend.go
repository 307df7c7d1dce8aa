package main

import (
	"bufio"
	"fmt"

	"github.com/spf13/cobra"

	"bypeg/pattern"
	"bypeg/pattern/mend"
	"bypeg/tui/track"
)

// mending is what mend was asked for.
type mending struct {
	columnsOf         []string // pegs as they were written
	from, at, reached int
	back, backPeg     int
	lines, looks      []string
	fromTop           bool
	borders, ahead    bool
	castOn, finish    bool
	bindOff           string
	json              bool
	given             func(flag string) bool
}

func newMend(p *program) *cobra.Command {
	var ask mending
	c := &cobra.Command{
		Use:   "mend FILE",
		Short: "repair a column, take rows back, compare a column; cast on, bind off and finish peg by peg",
		Long: `mend says how a piece is put right, step by step. With --peg and --from it lets a
column down to below the row that went wrong and forms it again, rung by rung, as it
looks from the front, and says what other ways cost. With --back it takes rows back;
with --looks it says where a column as you counted it differs from the pattern.

The place is that of your piece; --at says it otherwise: so many rows are done, and
with --reached the next one is under way and has come to that peg.`,
		Example: `  bypeg mend sluice-cloth --peg 14 --from 31 --at 37
  bypeg mend sluice-cloth --peg 14,15 --from 31 --at 37 --line "line at row 24"
  bypeg mend sluice-cloth --back 24 --at 37
  bypeg mend sluice-cloth --back-peg 16 --at 32 --reached 21
  bypeg mend sluice-cloth --looks 2=vbvbbvb --at 8
  bypeg mend sluice-cloth --bind-off basic
  bypeg mend sluice-cloth --finish`,
		Args: oneFile("mend"),
		RunE: func(c *cobra.Command, args []string) error {
			ask.given = c.Flags().Changed
			return p.mend(args[0], &ask)
		},
	}
	f := c.Flags()
	f.StringSliceVar(&ask.columnsOf, "peg", nil, "the peg whose column went wrong; several as 14,15")
	f.IntVar(&ask.from, "from", 0, "with --peg: the lowest row that is wrong there")
	f.IntVar(&ask.at, "at", 0, "how many rows are done; else as your piece has it")
	f.IntVar(&ask.reached, "reached", 0, "with --at: the next row is under way, and this is the peg worked last")
	f.StringArrayVar(&ask.lines, "line", nil, `a safe row: "line at row 40", "new ball at row 22"; your piece's notes count too`)
	f.IntVar(&ask.back, "back", 0, "take rows back until so many are left")
	f.IntVar(&ask.backPeg, "back-peg", 0, "take the row under way back until this peg is next again; with --back in the row above those left")
	f.StringArrayVar(&ask.looks, "looks", nil, "a column as you counted it from the bottom, seen from the front: 14=vvbv, v for a V, b for a bump; .. behind it where you stopped")
	f.BoolVar(&ask.fromTop, "from-top", false, "with --looks: you counted down from the peg")
	f.BoolVar(&ask.borders, "borders", false, "say how the top border stands beside the bottom one")
	f.BoolVar(&ask.ahead, "ahead", false, "say which pegs may be wrapped ahead in an e-wrapped garter row")
	f.BoolVar(&ask.castOn, "cast-on", false, "the cast-on, peg by peg")
	f.StringVar(&ask.bindOff, "bind-off", "", "the bind-off, peg by peg: basic, or gathered for a tube")
	f.BoolVar(&ask.finish, "finish", false, "what to do once the piece is off the loom")
	f.BoolVar(&ask.json, "json", false, "print as JSON")
	return c
}

// mendTasks are the flags that ask for one thing each.
var mendTasks = []string{"peg", "back", "back-peg", "looks", "borders", "ahead", "cast-on", "bind-off", "finish"}

// task is the flag that says what is asked for.
func (ask *mending) task() (string, error) {
	var asked []string
	for _, flag := range mendTasks {
		if ask.given(flag) && (flag != "back-peg" || !ask.given("back")) {
			asked = append(asked, flag)
		}
	}
	switch {
	case len(asked) == 0:
		return "", usage("write --peg 14 --from 31 for a column, --back 24 to take rows back, --looks 14=vvbv to compare", "mend takes what went wrong")
	case len(asked) > 1:
		return "", usage("write one of them", "--%s and --%s ask for two things", asked[0], asked[1])
	case ask.given("from") != (asked[0] == "peg"):
		return "", usage("write --peg 14 --from 31", "--peg and --from go together")
	case len(ask.lines) > 0 && asked[0] != "peg" && asked[0] != "back":
		return "", usage("write --peg 14 --from 31 or --back 24 beside it", "--line is for a column that went wrong, or for rows taken back")
	case ask.fromTop && asked[0] != "looks":
		return "", usage("write --looks 14=vvbv beside it", "--from-top is for --looks")
	case ask.given("reached") && !ask.given("at"):
		return "", usage("write --at 37 beside it", "--reached is for --at")
	}
	return asked[0], nil
}

// mended is what mend tells: lines for people, and what programs get.
type mended struct {
	lines []string
	json  any
	wrong bool // the answer is no
}

// mend answers what was asked.
func (p *program) mend(name string, ask *mending) error {
	task, err := ask.task()
	if err != nil {
		return err
	}
	src, err := source(name)
	if err != nil {
		return err
	}
	p.tellTrouble()
	o, at, err := p.orderOf(src)
	if err != nil {
		return err
	}
	if ask.given("at") {
		if at, err = ask.place(o); err != nil {
			return err
		}
	} else if at == pattern.Start() && needsPlace(task) {
		return usage("write --at 24", "no piece of this pattern is on the loom with a row done: say how many rows are done")
	}
	told, err := p.mendTask(task, o, at, src.Name, ask)
	if err != nil {
		return err
	}
	out := bufio.NewWriter(p.out)
	if ask.json {
		writeIndented(out, told.json)
	} else {
		for _, line := range told.lines {
			fmt.Fprintln(out, line)
		}
	}
	if err := out.Flush(); err != nil {
		return written(err)
	}
	if told.wrong {
		return &failure{code: exitWrong}
	}
	return nil
}

// needsPlace tells whether a task is of a piece that is being worked.
func needsPlace(task string) bool {
	switch task {
	case "cast-on", "bind-off", "finish", "borders":
		return false
	}
	return true
}

func (p *program) mendTask(task string, o pattern.Order, at pattern.Place, source string, ask *mending) (mended, error) {
	switch task {
	case "peg", "back", "back-peg":
		safe, err := p.safeRows(source, o.Pattern, ask.lines)
		if err != nil {
			return mended{}, err
		}
		if task == "peg" {
			return ask.columns(o, at, safe)
		}
		return ask.takeBack(o, at, safe)
	case "looks":
		return ask.compare(o, at)
	case "borders":
		b, ok := mend.BordersAt(o, at)
		if !ok {
			return mended{}, &failure{exitWrong, mend.ErrNoBorders, ""}
		}
		return mended{lines: b.Lines(), json: jsonOfBorders(b)}, nil
	case "ahead":
		a := mend.WrapAhead(o, at)
		return mended{lines: []string{a.Words()}, json: jsonOfAhead(a)}, nil
	case "cast-on":
		c := mend.CastOnOf(o)
		lines := append(numbered(c), c.EndWords())
		return mended{lines: lines, json: jsonOfSteps(c, map[string]any{"loops": o.Pattern.CastOnLoops()})}, nil
	case "bind-off":
		return ask.bind(o)
	}
	f := mend.FinishOf(o.Pattern)
	return mended{lines: numbered(f), json: jsonOfSteps(f, nil)}, nil
}

// place is where --at and --reached say that the work stands.
func (ask *mending) place(o pattern.Order) (pattern.Place, error) {
	at, err := rowsDone(o.Pattern, ask.at, "at")
	if err != nil || !ask.given("reached") {
		return at, err
	}
	col, err := columnOf(o, ask.reached, "reached")
	if err != nil {
		return at, err
	}
	if at.Phase != pattern.Working || o.Pattern.Grid.Row(at.Row).Cells()[col].Stitch == pattern.NoStitch {
		return at, usage("", "--reached: peg %d is not worked then", ask.reached)
	}
	at.Done = o.DoneAt(at.Row, col)
	return o.Next(at), nil
}

// columnOf is the column of a peg that a flag names.
func columnOf(o pattern.Order, peg int, flag string) (int, error) {
	if peg < 1 || peg > o.Pattern.Pegs {
		return 0, usage(fmt.Sprintf("write --%s 1 to --%[1]s %d", flag, o.Pattern.Pegs), "there is no peg %d: the pattern has %d", peg, o.Pattern.Pegs)
	}
	return o.ColumnOfPeg(peg), nil
}

// safeRows are those that flags name and those of the piece.
func (p *program) safeRows(source string, on *pattern.Pattern, texts []string) ([]mend.Safe, error) {
	var safe []mend.Safe
	for _, text := range texts {
		s, ok := mend.ParseSafe(text)
		if !ok {
			return nil, usage(`write --line "line at row 40", --line "new ball at row 22" or --line 40`, "--line names no row")
		}
		if s.Row > on.Grid.Rows() {
			return nil, usage("", "--line: there is no %s %d, the last is %d", on.Form.RowWord(), s.Row, on.Grid.Rows())
		}
		safe = append(safe, s)
	}
	piece, found, err := p.underWay(source)
	if err != nil || !found { // that the piece can't be looked at has been told
		return safe, nil
	}
	return append(safe, piece.SafeRows()...), nil
}

// numbered are steps for a page.
func numbered(s mend.Steps) []string {
	lines := make([]string, s.Len())
	for i := range lines {
		lines[i] = fmt.Sprintf("%3d  %s", i+1, s.Words(i))
	}
	return lines
}

// bind is the bind-off that was asked for.
func (ask *mending) bind(o pattern.Order) (mended, error) {
	kind, ok := mend.BindOffNamed(ask.bindOff)
	if !ok {
		return mended{}, usage("write --bind-off basic or --bind-off gathered", "that bind-off is not known here")
	}
	b, err := mend.BindOffOf(o, kind)
	if err != nil {
		return mended{}, &failure{exitWrong, err, "write --bind-off basic"}
	}
	head := fmt.Sprintf("%s, %s to lift over", track.Plural(b.Loops, "loop"), track.Plural(b.Lifts(), "loop"))
	if kind == mend.GatheredBindOff {
		head = track.Plural(b.Loops, "loop")
	}
	lines := []string{head}
	if need := b.NeedWords(); need != "" {
		lines = append(lines, need)
	}
	return mended{
		lines: append(lines, numbered(b)...),
		json:  jsonOfSteps(b, map[string]any{"lift_overs": b.Lifts(), "loops": b.Loops, "yarn_m_high": orNull(b.Metres.High), "yarn_m_likely": orNull(b.Metres.Likely)}),
	}, nil
}
