package config_test

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/chart"
	"bypeg/pattern"
	"bypeg/tui/config"
	"bypeg/tui/look"
)

const everySetting = `# as I like it
config = 1
hand = "left"
peg_1 = "left"
row_1 = "left to right"
symbols = "letters"
ascii = true
theme = "contrast"
lead = 4
bell = true
wrap_ahead = true
mouse = true
double_press = "0.5 s"
pause = "0 min"

[keys]
peg = ["x", "ctrl+n"]
note = "F5"
undo = "page up"
run-back = "u"

[list_keys]
choose = "space"
`

func TestEverySettingIsRead(t *testing.T) {
	got := config.Load("config.toml", []byte(everySetting))
	require.Empty(t, got.Faults)
	s := got.Settings
	peg1, row1 := pattern.Left, pattern.ToRight
	want := config.Settings{
		Hand: pattern.LeftHand, Peg1: &peg1, Row1: &row1, Symbols: chart.Letters, ASCII: true, Theme: look.Contrast,
		Lead: 4, Bell: true, Mouse: true, WrapAhead: true, DoublePress: 500 * time.Millisecond, Pause: 0, Keys: s.Keys, Lists: s.Lists, Shelf: s.Shelf, Chart: s.Chart, Ways: s.Ways,
	}
	assert.Equal(t, want, s)
	assert.Equal(t, []string{"x", "ctrl+n"}, s.Keys.Peg.Keys())
	assert.Equal(t, []string{"f5"}, s.Keys.Note.Keys())
	assert.Equal(t, []string{"pgup"}, s.Keys.Undo.Keys())
	assert.Equal(t, []string{"u"}, s.Keys.RunBack.Keys())
	assert.Equal(t, []string{" "}, s.Lists.Choose.Keys())
	assert.Equal(t, look.NewWorkKeys().Row, s.Keys.Row, "what the file leaves out stays as it comes")
	for _, v := range s.Values() {
		isKey := strings.Contains(v.Name, ".")
		set := map[string]bool{"keys.peg": true, "keys.note": true, "keys.undo": true, "keys.run-back": true, "list_keys.choose": true}
		assert.Equal(t, !isKey || set[v.Name], got.FromFile[v.Name], v.Name)
	}
}

func TestScreensCallAKeyAsTheFileGivesIt(t *testing.T) {
	s := config.Load("c", []byte("[keys]\npeg = [\"down\", \"space\"]\nrow-back = \"pgdown\"\nrun = \"ctrl+@\"\n")).Settings
	assert.Equal(t, [2]string{"↓", "one peg (space too)"}, [2]string{s.Keys.Peg.Help().Key, s.Keys.Peg.Help().Desc})
	assert.Equal(t, [2]string{"page down", "to the row's start"}, [2]string{s.Keys.RowBack.Help().Key, s.Keys.RowBack.Help().Desc})
	assert.Equal(t, [2]string{"ctrl+space", "the run"}, [2]string{s.Keys.Run.Help().Key, s.Keys.Run.Help().Desc})
}

func TestAnEmptyFileChangesNothing(t *testing.T) {
	for _, text := range []string{"", "\ufeff", "# nothing yet\n", "config = 1", "[keys]\n[list_keys]\n"} {
		got := config.Load("c", []byte(text))
		assert.Empty(t, got.Faults)
		assert.Empty(t, got.FromFile)
		assert.Equal(t, config.Default().Values(), got.Settings.Values())
	}
}

func TestWhatIsWrongIsToldWhereItStands(t *testing.T) {
	for _, c := range []struct{ name, text, fault, hint string }{
		{"an unknown setting", "leed = 2", `1:1: there is no setting "leed"`, "did you mean lead?"},
		{"one that is like no other", "zzzzzz = 2", `1:1: there is no setting "zzzzzz"`, "bypeg config lists all names"},
		{"an action outside its table", "config = 1\npeg = \"x\"", `2:1: there is no setting "peg"`, "peg belongs in [keys]: write it below that header"},
		{"a setting below a header", "[keys]\nlead = 2", `2:1: there is no key "lead" in [keys]`, "lead belongs at the top of the file, before the first header"},
		{"an action of another screen", "[keys]\nchoose = \"x\"", `2:1: there is no key "choose" in [keys]`, "choose belongs in [shelf_keys]: write it below that header"},
		{"an unknown action", "[keys]\npeg_back = \"x\"", `2:1: there is no key "peg_back" in [keys]`, "did you mean peg-back?"},
		{"a wrong word", "hand = \"lefft\"", `1:8: hand cannot be "lefft"`, `did you mean "left"?`},
		{"a word like no other", "theme = \"purplish\"", `1:9: theme cannot be "purplish"`, `theme can be "auto", "dark", "light", "contrast" or "none"`},
		{"a number for a word", "hand = 2", "1:8: hand takes text in quotes; this is a whole number", `write it like hand = "right"`},
		{"a word for a number", "lead = \"2\"", "1:8: lead takes a whole number; this is text", "write it like lead = 2"},
		{"a word for true", "bell = \"yes\"", "1:8: bell takes true or false; this is text", "write it like bell = true"},
		{"too far ahead", "lead = -1", "1:8: lead cannot be -1", "lead can be a number of pegs from 0 to 4000"},
		{"a time without a unit", "pause = \"45\"", `1:9: pause cannot be "45"`, `pause can be a time such as "45 min", from a minute to a day, or "0 min" for none`},
		{"half a minute of work", "pause = \"30 s\"", `1:9: pause cannot be "30 s"`, `pause can be a time such as "45 min", from a minute to a day, or "0 min" for none`},
		{"a slip of the hand of an hour", "double_press = \"1 h\"", `1:16: double_press cannot be "1 h"`, `double_press can be a time such as "1 s", a minute at most, or "0 s" for no question`},
		{"a list", "pause = []", "1:9: pause takes text in quotes; this is a list", `write it like pause = "45 min"`},
		{"a newer file", "config = 2", "1:10: this program reads config = 1 and no other", "write config = 1, or look for a newer version of this program"},
		{"a table that is none", "keys = 3", "1:8: keys takes a table; this is a whole number", `write [keys] as a header, and below it peg = "space" or the like`},
		{"several of a table", "[[keys]]\npeg = \"x\"", "1:3: keys takes a table; this is a list of tables", `write [keys] as a header, and below it peg = "space" or the like`},
		{"a key that is a number", "[keys]\npeg = 5", "2:7: peg takes a key in quotes or a list of such; this is a whole number", `write it like peg = "x" or peg = ["x", "ctrl+n"]`},
		{"no key at all", "[keys]\npeg = []", "2:7: peg has an empty list of keys", "leave the line out to keep the keys as they come"},
		{"the key of another action", "[keys]\nundo = \"l\"", `2:8: "l" is the key of large already`, "write another key, or give large another one too"},
		{"a key that always leaves", "[keys]\npeg = \"ctrl+c\"", "2:7: ctrl+c always leaves the program", "write another key"},
		{"a key misspelt", "[keys]\npeg = \"spcae\"", `2:7: there is no key "spcae"`, `did you mean "space"?`},
		{"a key that no terminal sends", "[keys]\npeg = \"ctrl+1\"", `2:7: no terminal sends "ctrl+1"`, `write a letter, or a name such as "space", "enter", "up", "pgdown", "ctrl+n", "f5"`},
		{"a key that is another one", "[keys]\npeg = \"ctrl+i\"", "2:7: ctrl+i is the same as tab to a terminal", `write "tab"`},
		{"a letter with shift", "[keys]\npeg = \"shift+u\"", `2:7: "shift+u" is written as the letter alone`, `write "U"`},
		{"no TOML", "lead 2", "1:6: there should be an equals sign here", "write a key, an equals sign and a value, such as lead = 2"},
		{"quotes not closed", "hand = \"left", "1:8: the quotes are not closed on this line", "close it with the same quote; for several lines use three quotes"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := config.Load("c", []byte(c.text))
			require.Len(t, got.Faults, 1)
			assert.Equal(t, "c:"+c.fault, got.Faults[0].Error())
			assert.Equal(t, c.hint, got.Faults[0].Hint)
			assert.Empty(t, got.FromFile)
			assert.Equal(t, config.Default().Values(), got.Settings.Values(), "a wrong value changes nothing")
		})
	}
}

func TestAllFaultsAreToldAndAllElseIsUsed(t *testing.T) {
	const text = `hand = "left"
leed = 3
lead 5
theme = "dark
bell = true
[list_keys]
choose = "ctrl+2"
leave = "x"
[keys
peg = "y"
[keys]
peg = ["ctrl+2", "x"]
`
	got := config.Load("c", []byte(text))
	var told []string
	for _, f := range got.Faults {
		told = append(told, fmt.Sprintf("%d:%d", f.Line, f.Col))
	}
	assert.Equal(t, []string{"2:1", "3:6", "4:9", "7:10", "9:6", "12:8"}, told)
	s := got.Settings
	assert.Equal(t, pattern.LeftHand, s.Hand)
	assert.True(t, s.Bell)
	assert.Equal(t, config.Default().Theme, s.Theme)
	assert.Equal(t, []string{"x"}, s.Lists.Leave.Keys())
	assert.Equal(t, []string{"x"}, s.Keys.Peg.Keys())
}

func TestAKeyThatCannotMoveKeepsItsOwn(t *testing.T) {
	// large keeps l, so undo has u back, so note cannot have it.
	got := config.Load("c", []byte("[keys]\nundo = \"l\"\nnote = \"u\"\n"))
	require.Len(t, got.Faults, 2)
	assert.Equal(t, `c:2:8: "l" is the key of large already`, got.Faults[0].Error())
	assert.Equal(t, `c:3:8: "u" is the key of undo already`, got.Faults[1].Error())
	assert.Equal(t, config.Default().Values(), got.Settings.Values())
}

func TestOfTwoTheFirstIsUsed(t *testing.T) {
	got := config.Load("c", []byte("[keys]\nundo = \"x\"\nredo = \"x\"\nnote = [\"y\", \"y\"]\n"))
	require.Len(t, got.Faults, 2)
	assert.Equal(t, `c:3:8: "x" is the key of undo already`, got.Faults[0].Error())
	assert.Equal(t, `c:4:14: "y" is written twice`, got.Faults[1].Error())
	assert.Equal(t, map[string]bool{"keys.undo": true, "keys.note": true}, got.FromFile)
	assert.Equal(t, []string{"U"}, got.Settings.Keys.Redo.Keys())
}

func TestTwoKeysChangePlaces(t *testing.T) {
	got := config.Load("c", []byte("[keys]\nundo = \"l\"\nlarge = \"u\"\n"))
	require.Empty(t, got.Faults)
	assert.Equal(t, []string{"l"}, got.Settings.Keys.Undo.Keys())
	assert.Equal(t, []string{"u"}, got.Settings.Keys.Large.Keys())
}

func TestForeignTextReachesNoTerminalRaw(t *testing.T) {
	got := config.Load("\x1b[2Jc", []byte("hand = \"\u009b31m\"\n\"\u202e\" = 2\n[keys]\npeg = \"\u0085\"\n\"\u200b\" = \"x\"\n"))
	require.NotEmpty(t, got.Faults)
	for _, f := range got.Faults {
		says := f.Error() + f.Picture() + f.Hint
		for _, bad := range []string{"\x1b", "\u009b", "\u202e", "\u0085"} {
			assert.NotContains(t, says, bad)
		}
	}
}

func TestALargeFileIsRefused(t *testing.T) {
	got := config.Load("c", []byte("hand = \"left\"\n#"+strings.Repeat("x", 64<<10)))
	require.Len(t, got.Faults, 1)
	assert.Contains(t, got.Faults[0].Message, "the file is larger than the 64 KiB a config may have")
	assert.Equal(t, pattern.RightHand, got.Settings.Hand)
}

func TestManyFaultsAreTooManyToTell(t *testing.T) {
	got := config.Load("c", []byte(strings.Repeat("x\n", 10_000)))
	assert.Len(t, got.Faults, 50)
}

func TestOnlyOrdinaryFilesOfSomeSizeAreRead(t *testing.T) {
	dir := t.TempDir()
	_, err := config.Read(dir)
	assert.ErrorContains(t, err, "is a folder: name a config file in it")
	_, err = config.Read(filepath.Join(dir, "none"))
	assert.True(t, errors.Is(err, fs.ErrNotExist))
	large := filepath.Join(dir, "large")
	require.NoError(t, os.WriteFile(large, make([]byte, 64<<10+1), 0o600))
	_, err = config.Read(large)
	assert.ErrorContains(t, err, "is larger than the 64 KiB a config may have")
}

func FuzzLoad(f *testing.F) {
	for _, text := range []string{everySetting, "hand = \"lefft\"\nlead 2\n", "[keys]\npeg = [\"x\", \"ctrl+1\"]\nundo = \"l\"\n", "[[keys]]\n[keys.peg]\n", "keys.peg = \"x\"\r\npause = '''\n"} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		got := config.Load("c", text)
		lines := 1 + strings.Count(string(text), "\n")
		for _, d := range got.Faults {
			if d.Line < 1 || d.Line > lines || d.Col < 1 || d.EndCol <= d.Col || d.Message == "" {
				t.Fatalf("a fault outside the file of %d lines: %+v", lines, d)
			}
		}
		checkKeys(t, got.Settings)
	})
}

// checkKeys sees to it that no key has two meanings on one screen, and that every action
// has one.
func checkKeys(t testing.TB, s config.Settings) {
	t.Helper()
	seen := map[string]string{}
	for _, v := range s.Values() {
		keys, ok := v.Value.([]string)
		if !ok {
			continue
		}
		if len(keys) == 0 {
			t.Fatalf("%s has no key", v.Name)
		}
		table, _, _ := strings.Cut(v.Name, ".")
		for _, k := range keys {
			if other := seen[table+k]; other != "" {
				t.Fatalf("%s is the key of %s and of %s", k, other, v.Name)
			}
			seen[table+k] = v.Name
		}
	}
}
