package pattern_test

import (
	"fmt"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A wall says what the Go files of one room, tests apart, may import: which rooms
// of this module, which modules of others ("any" for all), and what in no case,
// be it the standard library's. Names are separated by blanks; "x/..." is x and
// all below it.
type wall struct {
	room, rooms, outside, never string
}

const (
	// pure rooms get time, files and the network's answers as parameters.
	pure   = "os/... time/... net/..."
	charm  = "github.com/charmbracelet/bubbletea/... github.com/charmbracelet/bubbles/... github.com/charmbracelet/huh/..."
	fabric = "pattern pattern/measure pattern/safetext pattern/rowtext pattern/file pattern/adopt pattern/fit pattern/find pattern/mend"
	charts = "chart chart/sheet"
	screen = "tui/track tui/save tui/look " + charts + " " + fabric
)

// layout is the rooms of the module and the walls between them: imports run
// cmd -> tui -> chart -> pattern, and a screen knows neither the router nor
// another screen. Examples and test helpers are imported by nobody not named here.
var layout = []wall{
	{room: "pattern", never: pure},
	{room: "pattern/measure", never: pure},
	{room: "pattern/safetext", outside: "github.com/clipperhouse/displaywidth", never: pure},
	{room: "pattern/rowtext", rooms: "pattern", never: pure},
	{room: "pattern/file", rooms: "pattern pattern/measure pattern/safetext pattern/rowtext", outside: "github.com/BurntSushi/toml", never: "time/... net/..."},
	{room: "pattern/adopt", rooms: "pattern pattern/safetext pattern/rowtext", never: pure},
	{room: "pattern/fit", rooms: "pattern pattern/measure pattern/safetext pattern/rowtext pattern/file", never: pure},
	{room: "pattern/find", rooms: "pattern pattern/measure pattern/safetext pattern/rowtext", never: pure},
	{room: "pattern/mend", rooms: "pattern pattern/fit pattern/measure pattern/safetext pattern/rowtext", never: pure},
	{room: "pattern/patterntest", rooms: "pattern", outside: "any"},

	{room: "chart", rooms: fabric, outside: "any", never: charm + " " + pure},
	{room: "chart/sheet", rooms: "chart " + fabric, outside: "any", never: charm + " " + pure},

	{room: "tui", rooms: "tui/plain tui/work tui/shelf tui/browse tui/ask tui/ways tui/mending tui/where tui/fitted tui/plan tui/report " + screen, outside: "any"},
	{room: "tui/track", rooms: fabric, never: pure},
	{room: "tui/plan", rooms: "tui/report tui/track " + fabric, never: pure},
	{room: "tui/report", rooms: "tui/track " + fabric, never: pure},
	{room: "tui/save", rooms: "tui/track " + fabric, outside: "any", never: charm},
	{room: "tui/look", rooms: "tui/track " + charts + " " + fabric, outside: "any"},
	{room: "tui/work", rooms: screen, outside: "any"},
	{room: "tui/plain", rooms: "tui/track tui/save tui/plan pattern pattern/safetext pattern/find pattern/fit pattern/mend", never: charm},
	{room: "tui/shelf", rooms: screen, outside: "any"},
	{room: "tui/browse", rooms: screen, outside: "any"},
	{room: "tui/ask", rooms: screen, outside: "any"},
	{room: "tui/fitted", rooms: "tui/report " + screen, outside: "any"},
	{room: "tui/mending", rooms: screen, outside: "any"},
	{room: "tui/where", rooms: screen, outside: "any"},
	{room: "tui/ways", rooms: "tui/plan " + screen, outside: "any"},
	{room: "tui/config", rooms: "tui/track tui/look " + charts + " " + fabric, outside: "any", never: "os/... net/..."},
	{room: "tui/darkbg", outside: "github.com/charmbracelet/lipgloss"},
	{room: "tui/internal/...", rooms: "tui/save pattern/safetext", outside: "any"},

	{room: "cmd/bypeg", rooms: "tui tui/plain tui/work tui/shelf tui/browse tui/ask tui/plan tui/report tui/config tui/darkbg examples " + screen, outside: "any"},
	{room: "examples", never: pure},
}

// reserved are modules with one importer in the whole program.
var reserved = map[string]string{
	"github.com/BurntSushi/toml": "pattern/file",
}

func TestImportsRunOneWay(t *testing.T) {
	found, err := breaches(os.DirFS(".."))
	require.NoError(t, err, "the walls can't be held without the sources")
	for _, b := range found {
		t.Error(b)
	}
}

// breaches lists the imports in the module at src that break through a wall. It
// is an error when the sources can't be read, or are not there.
func breaches(src fs.FS) ([]string, error) {
	module, err := moduleName(src)
	if err != nil {
		return nil, err
	}
	var found []string
	seen := map[string]bool{}
	err = fs.WalkDir(src, ".", func(name string, d fs.DirEntry, err error) error {
		base := path.Base(name)
		switch {
		case err != nil:
			return err
		case d.IsDir() && name != "." && (base == "testdata" || strings.HasPrefix(base, ".")):
			return fs.SkipDir
		case d.IsDir() || !strings.HasSuffix(base, ".go") || strings.HasSuffix(base, "_test.go"):
			return nil
		}
		seen[path.Dir(name)] = true
		more, err := fileBreaches(src, name, module)
		found = append(found, more...)
		return err
	})
	if err == nil && !seen["pattern"] {
		err = fmt.Errorf("no Go files in pattern: this is not the module's folder")
	}
	return found, err
}

func moduleName(src fs.FS) (string, error) {
	text, err := fs.ReadFile(src, "go.mod")
	if err != nil {
		return "", err
	}
	first, _, _ := strings.Cut(string(text), "\n")
	name, ok := strings.CutPrefix(strings.TrimSpace(first), "module ")
	if !ok {
		return "", fmt.Errorf("go.mod begins with %q and not with the module's name", first)
	}
	return name, nil
}

func fileBreaches(src fs.FS, name, module string) ([]string, error) {
	text, err := fs.ReadFile(src, name)
	if err != nil {
		return nil, err
	}
	fset := token.NewFileSet()
	file, err := parser.ParseFile(fset, name, text, parser.ImportsOnly)
	if err != nil {
		return nil, err
	}
	room := path.Dir(name)
	i := slices.IndexFunc(layout, func(w wall) bool { return matches(w.room, room) })
	if i < 0 {
		return []string{fmt.Sprintf("%s: the room %q is not in the layout: give it a wall", name, room)}, nil
	}
	var found []string
	for _, imp := range file.Imports {
		target, err := strconv.Unquote(imp.Path.Value)
		if err != nil {
			return nil, err
		}
		if !allowed(layout[i], room, target, module) {
			found = append(found, fmt.Sprintf("%s: %s may not import %s", fset.Position(imp.Pos()), room, target))
		}
	}
	return found, nil
}

func allowed(w wall, room, target, module string) bool {
	if matches(w.never, target) {
		return false
	}
	for only, importer := range reserved {
		if matches(only+"/...", target) && room != importer {
			return false
		}
	}
	first, _, _ := strings.Cut(target, "/")
	switch {
	case first == module:
		return matches(w.rooms, strings.TrimPrefix(target, module+"/"))
	case strings.Contains(first, "."):
		return w.outside == "any" || matches(w.outside, target)
	default:
		return true // the standard library
	}
}

// matches tells whether name is one of names, or below one that ends in "/...".
func matches(names, name string) bool {
	return slices.ContainsFunc(strings.Fields(names), func(n string) bool {
		root, below := strings.CutSuffix(n, "/...")
		return name == root || below && strings.HasPrefix(name, root+"/")
	})
}

func TestWallsHoldAgainstMadeUpSources(t *testing.T) {
	const tea, gloss, toml = "github.com/charmbracelet/bubbletea", "github.com/charmbracelet/lipgloss", "github.com/BurntSushi/toml"
	for _, c := range []struct {
		name, file, imports string
		stands              bool
	}{
		{"the core uses the standard library", "pattern/x.go", "strings", true},
		{"the core reads no file", "pattern/x.go", "os", false},
		{"nor anything below os", "pattern/x.go", "os/exec", false},
		{"nor the clock", "pattern/x.go", "time", false},
		{"nor the network", "pattern/x.go", "net/http", false},
		{"the core uses nobody else's module", "pattern/x.go", "example.org/x", false},
		{"the core imports nothing above it", "pattern/x.go", "bypeg/chart", false},
		{"nor a room below it", "pattern/x.go", "bypeg/pattern/measure", false},
		{"a test may", "pattern/x_test.go", "os", true},
		{"test data may", "pattern/testdata/x.go", "os", true},
		{"measure is a leaf", "pattern/measure/x.go", "bypeg/pattern", false},
		{"safetext is a leaf", "pattern/safetext/x.go", "bypeg/pattern", false},
		{"written rows know the core", "pattern/rowtext/x.go", "bypeg/pattern", true},
		{"but not the file", "pattern/rowtext/x.go", "bypeg/pattern/file", false},
		{"the file knows written rows", "pattern/file/x.go", "bypeg/pattern/rowtext", true},
		{"the file opens files", "pattern/file/x.go", "os", true},
		{"the file decodes toml", "pattern/file/x.go", toml, true},
		{"saving does not", "tui/save/x.go", toml, false},
		{"nor does the command", "cmd/bypeg/x.go", toml, false},
		{"the chart knows patterns", "chart/x.go", "bypeg/pattern", true},
		{"the chart knows no screen", "chart/x.go", "bypeg/tui/look", false},
		{"the chart knows no program", "chart/x.go", tea, false},
		{"the chart may measure text", "chart/x.go", "example.org/width", true},
		{"a module whose name only begins like it is another", "chart/x.go", tea + "er", true},
		{"nobody uses the tests' patterns", "chart/x.go", "bypeg/pattern/patterntest", false},
		{"the router knows the screens", "tui/x.go", "bypeg/tui/work", true},
		{"nobody but tests uses the terminal for tests", "tui/x.go", "bypeg/tui/internal/term", false},
		{"a screen does not know the router", "tui/work/x.go", "bypeg/tui", false},
		{"nor another screen", "tui/work/x.go", "bypeg/tui/shelf", false},
		{"a talk knows no screen", "tui/plain/x.go", "bypeg/tui/work", false},
		{"nor how one looks", "tui/plain/x.go", "bypeg/tui/look", false},
		{"a screen knows the tracker", "tui/ask/x.go", "bypeg/tui/track", true},
		{"the tracker knows patterns", "tui/track/x.go", "bypeg/pattern", true},
		{"the tracker draws nothing", "tui/track/x.go", gloss, false},
		{"the tracker runs nothing", "tui/track/x.go", tea, false},
		{"the tracker has no clock", "tui/track/x.go", "time", false},
		{"the tracker has no files", "tui/track/x.go", "os", false},
		{"saving draws nothing", "tui/save/x.go", tea, false},
		{"the early answer knows its recipient only", "tui/darkbg/x.go", tea, false},
		{"the command knows the router", "cmd/bypeg/x.go", "bypeg/tui", true},
		{"the command knows the examples", "cmd/bypeg/x.go", "bypeg/examples", true},
		{"screens are handed the examples", "tui/shelf/x.go", "bypeg/examples", false},
		{"settings are read through the file's guard", "tui/config/x.go", "bypeg/pattern/file", true},
		{"and decoded nowhere else", "tui/config/x.go", toml, false},
		{"screens are handed the settings", "tui/work/x.go", "bypeg/tui/config", false},
		{"so is the router", "tui/x.go", "bypeg/tui/config", false},
		{"nobody imports the command", "tui/x.go", "bypeg/cmd/bypeg", false},
		{"a room without a wall is refused", "tools/x.go", "strings", false},
		{"so is Go code at the top", "x.go", "strings", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			src := madeUp()
			src[c.file] = &fstest.MapFile{Data: fmt.Appendf(nil, "package x\n\nimport _ %q\n", c.imports)}
			found, err := breaches(src)
			require.NoError(t, err)
			if c.stands {
				assert.Empty(t, found)
				return
			}
			require.Len(t, found, 1)
			assert.Contains(t, found[0], c.file)
		})
	}
}

func TestABreachIsShownWhereItIs(t *testing.T) {
	src := madeUp()
	src["chart/x.go"] = &fstest.MapFile{Data: []byte("package chart\n\nimport (\n\t\"fmt\"\n\n\t\"bypeg/tui\"\n)\n")}
	found, err := breaches(src)
	require.NoError(t, err)
	assert.Equal(t, []string{"chart/x.go:6:2: chart may not import bypeg/tui"}, found)
}

func TestWallsFailWhenTheSourcesCannotBeRead(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(fstest.MapFS)
		want   string
	}{
		{"no go.mod", func(m fstest.MapFS) { delete(m, "go.mod") }, "go.mod"},
		{"a strange go.mod", func(m fstest.MapFS) { m["go.mod"].Data = []byte("go 1.26\n") }, "not with the module's name"},
		{"no sources", func(m fstest.MapFS) { delete(m, "pattern/doc.go") }, "no Go files in pattern"},
		{"only tests", func(m fstest.MapFS) {
			m["pattern/a_test.go"] = m["pattern/doc.go"]
			delete(m, "pattern/doc.go")
		}, "no Go files in pattern"},
		{"a file that is no Go", func(m fstest.MapFS) { m["chart/x.go"] = &fstest.MapFile{Data: []byte("import import")} }, "chart/x.go:1:1"},
	} {
		t.Run(c.name, func(t *testing.T) {
			src := madeUp()
			c.change(src)
			_, err := breaches(src)
			assert.ErrorContains(t, err, c.want)
		})
	}
	_, err := breaches(os.DirFS("nowhere"))
	assert.ErrorIs(t, err, fs.ErrNotExist)
}

// madeUp is the smallest module that keeps to the walls.
func madeUp() fstest.MapFS {
	return fstest.MapFS{
		"go.mod":         {Data: []byte("module bypeg\n\ngo 1.26\n")},
		"pattern/doc.go": {Data: []byte("package pattern\n")},
	}
}
