package config_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"bypeg/tui/config"
)

// words are keys of all sorts, right ones and wrong ones.
var words = []string{"a", "b", "l", "u", "U", "?", "é", "space", "enter", "pgdown", "ctrl+n", "f5", "ctrl+c", "ctrl+i", "alt+x", "nokey"}

func TestNoKeyEverHasTwoMeanings(t *testing.T) {
	checkKeys(t, config.Default())
	var actions []string
	for _, v := range config.Default().Values() {
		if action, ok := strings.CutPrefix(v.Name, "keys."); ok {
			actions = append(actions, action)
		}
	}
	rapid.Check(t, func(rt *rapid.T) {
		var text strings.Builder
		text.WriteString("[keys]\n")
		for _, action := range rapid.SliceOfNDistinct(rapid.SampledFrom(actions), 0, 12, rapid.ID).Draw(rt, "actions") {
			fmt.Fprintf(&text, "%s = [", action)
			for _, w := range rapid.SliceOfN(rapid.SampledFrom(words), 1, 3).Draw(rt, "words") {
				fmt.Fprintf(&text, "%q, ", w)
			}
			text.WriteString("]\n")
		}
		got := config.Load("c", []byte(text.String()))
		checkKeys(t, got.Settings)
	})
}

func TestWhatIsToldCanBeWritten(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := config.Default()
		ms := rapid.OneOf(rapid.Int64Range(0, 60_000), rapid.SampledFrom([]int64{0, 1, 1000, 1500, 60_000})).Draw(rt, "double press")
		minutes := rapid.Int64Range(0, 24*60).Draw(rt, "pause")
		s.DoublePress, s.Pause = time.Duration(ms)*time.Millisecond, time.Duration(minutes)*time.Minute
		s.Lead = rapid.IntRange(0, 100).Draw(rt, "lead")
		s.Bell, s.Mouse, s.ASCII = rapid.Bool().Draw(rt, "bell"), rapid.Bool().Draw(rt, "mouse"), rapid.Bool().Draw(rt, "ascii")
		s.WrapAhead = rapid.Bool().Draw(rt, "wrap ahead")
		again := config.Load("c", []byte(written(s)))
		assert.Empty(rt, again.Faults)
		assert.Equal(rt, s.Values(), again.Settings.Values())
	})
}

// written is a config file that says all that can be said.
func written(s config.Settings) string {
	var text strings.Builder
	table := ""
	for _, v := range s.Values() {
		name := v.Name
		if in, action, ok := strings.Cut(v.Name, "."); ok {
			if in != table {
				fmt.Fprintf(&text, "[%s]\n", in)
			}
			table, name = in, action
		}
		switch value := v.Value.(type) {
		case nil:
		case []string:
			quoted := make([]string, len(value))
			for i, w := range value {
				quoted[i] = fmt.Sprintf("%q", w)
			}
			fmt.Fprintf(&text, "%s = [%s]\n", name, strings.Join(quoted, ", "))
		default:
			fmt.Fprintf(&text, "%s = %#v\n", name, value)
		}
	}
	return text.String()
}

func TestTimesAreWrittenAsPeopleDo(t *testing.T) {
	for words, want := range map[string]time.Duration{
		"0 s": 0, "0 min": 0, "1 s": time.Second, "0.5 s": time.Second / 2, "1s": time.Second, "1 min": time.Minute, ".5 min": 30 * time.Second,
	} {
		s := config.Default()
		assert.NoError(t, s.Set("double_press", words), words)
		assert.Equal(t, want, s.DoublePress, words)
	}
	for words, told := range map[string]string{"0 min": "0 s", "60 s": "1 min", "90 min": "90 min", "60 min": "1 h", "1.5 min": "90 s"} {
		s := config.Default()
		assert.NoError(t, s.Set("pause", words), words)
		assert.Contains(t, s.Values(), config.Value{Name: "pause", Value: told}, words)
	}
	for _, words := range []string{"", "s", "1", "-1 s", "+1 s", "1e1 s", "0x1 s", "nan s", "inf s", "1 m", "1 minute", "1 s ", "1,5 s", "61 s", "2 min"} {
		s := config.Default()
		assert.Error(t, s.Set("double_press", words), words)
		assert.Equal(t, config.Default().DoublePress, s.DoublePress)
	}
}
