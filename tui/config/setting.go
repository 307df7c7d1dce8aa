package config

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"bypeg/chart"
	"bypeg/pattern"
	"bypeg/pattern/safetext"
	"bypeg/tui/look"
)

// form is how a value stands in the file.
type form uint8

const (
	words  form = iota // text in quotes
	yesNo              // true or false
	number             // a whole number
)

func (f form) String() string {
	return [...]string{words: "text in quotes", yesNo: "true or false", number: "a whole number"}[f]
}

// setting is one of the keys at the top of the file.
type setting struct {
	name    string
	form    form
	choices []string // where it is one of a few
	takes   string   // otherwise
	set     func(s *Settings, value string) bool
	value   func(s Settings) any // string, bool, int; nil where it is left to the pattern
}

// example is the key with a value that it may have.
func (x setting) example() string {
	v := x.value(Default())
	if len(x.choices) > 0 {
		v = x.choices[0]
	}
	if x.form == words {
		return fmt.Sprintf("%s = %q", x.name, v)
	}
	return fmt.Sprintf("%s = %v", x.name, v)
}

// may is all that the setting may be.
func (x setting) may() string {
	if x.takes != "" {
		return x.takes
	}
	quoted := make([]string, len(x.choices))
	for i, c := range x.choices {
		if quoted[i] = c; x.form == words {
			quoted[i] = strconv.Quote(c)
		}
	}
	last := len(quoted) - 1
	return strings.Join(quoted[:last], ", ") + " or " + quoted[last]
}

const maxLead = pattern.MaxPegs

// maxDoublePress is long beyond any slip of the hand.
const maxDoublePress = time.Minute

// settings are all of them, in the order in which they are told.
var settings = []setting{
	{
		name: "hand", choices: wordsOf(pattern.RightHand, pattern.LeftHand),
		set:   func(s *Settings, v string) bool { return pick(&s.Hand, v, pattern.RightHand, pattern.LeftHand) },
		value: func(s Settings) any { return s.Hand.String() },
	}, {
		name: "peg_1", choices: wordsOf(pattern.Left, pattern.Right),
		set:   func(s *Settings, v string) bool { return pickNew(&s.Peg1, v, pattern.Left, pattern.Right) },
		value: func(s Settings) any { return told(s.Peg1) },
	}, {
		name: "row_1", choices: wordsOf(pattern.ToLeft, pattern.ToRight),
		set:   func(s *Settings, v string) bool { return pickNew(&s.Row1, v, pattern.ToLeft, pattern.ToRight) },
		value: func(s Settings) any { return told(s.Row1) },
	}, {
		name: "symbols", choices: chart.SetNames(),
		set:   func(s *Settings, v string) bool { return keep(&s.Symbols)(chart.ParseSet(v)) },
		value: func(s Settings) any { return s.Symbols.String() },
	}, {
		name: "ascii", form: yesNo, choices: yesOrNo,
		set:   func(s *Settings, v string) bool { return pickBool(&s.ASCII, v) },
		value: func(s Settings) any { return s.ASCII },
	}, {
		name: "theme", choices: look.ThemeNames(),
		set:   func(s *Settings, v string) bool { return keep(&s.Theme)(look.ParseTheme(v)) },
		value: func(s Settings) any { return s.Theme.String() },
	}, {
		name: "lead", form: number, takes: fmt.Sprintf("a number of pegs from 0 to %d", maxLead),
		set: func(s *Settings, v string) bool {
			n, err := strconv.Atoi(v)
			return keep(&s.Lead)(n, err == nil && n >= 0 && n <= maxLead)
		},
		value: func(s Settings) any { return s.Lead },
	}, {
		name: "bell", form: yesNo, choices: yesOrNo,
		set:   func(s *Settings, v string) bool { return pickBool(&s.Bell, v) },
		value: func(s Settings) any { return s.Bell },
	}, {
		name: "mouse", form: yesNo, choices: yesOrNo,
		set:   func(s *Settings, v string) bool { return pickBool(&s.Mouse, v) },
		value: func(s Settings) any { return s.Mouse },
	}, {
		name: "wrap_ahead", form: yesNo, choices: yesOrNo,
		set:   func(s *Settings, v string) bool { return pickBool(&s.WrapAhead, v) },
		value: func(s Settings) any { return s.WrapAhead },
	}, {
		name: "double_press", takes: `a time such as "1 s", a minute at most, or "0 s" for no question`,
		set: func(s *Settings, v string) bool {
			d, ok := parseTime(v)
			return keep(&s.DoublePress)(d, ok && d <= maxDoublePress)
		},
		value: func(s Settings) any { return sayTime(s.DoublePress) },
	}, {
		name: "pause", takes: `a time such as "45 min", from a minute to a day, or "0 min" for none`,
		set: func(s *Settings, v string) bool {
			d, ok := parseTime(v)
			return keep(&s.Pause)(d, ok && (d == 0 || d >= time.Minute))
		},
		value: func(s Settings) any { return sayTime(s.Pause) },
	},
}

// keep puts a value where it belongs if there is one.
func keep[T any](at *T) func(T, bool) bool {
	return func(v T, ok bool) bool {
		if ok {
			*at = v
		}
		return ok
	}
}

func wordsOf[T fmt.Stringer](values ...T) []string {
	names := make([]string, len(values))
	for i, v := range values {
		names[i] = v.String()
	}
	return names
}

// pick takes the value that is called so.
func pick[T fmt.Stringer](at *T, name string, values ...T) bool {
	for _, v := range values {
		if v.String() == name {
			*at = v
			return true
		}
	}
	return false
}

func pickNew[T fmt.Stringer](at **T, name string, values ...T) bool {
	var v T
	ok := pick(&v, name, values...)
	return keep(at)(&v, ok)
}

func told[T fmt.Stringer](v *T) any {
	if v == nil {
		return nil
	}
	return (*v).String()
}

var yesOrNo = []string{"true", "false"}

func pickBool(at *bool, v string) bool { return keep(at)(v == "true", v == "true" || v == "false") }

// WrongValue says that a setting cannot be what it was set to.
type WrongValue struct {
	Name, Value string
	Takes       string // what it can be
	Quoted      bool   // such values are words
}

// Error names the setting and the value.
func (w *WrongValue) Error() string { return w.Name + " cannot be " + w.Shown() }

// Shown is the value as messages quote it: cleaned, and in quotes where it is a word.
func (w *WrongValue) Shown() string {
	if w.Quoted {
		return quote(w.Value)
	}
	return safetext.Clean(w.Value)
}

// Set sets one setting by its name, from words as they are typed. A setting that does not
// exist is a bug of the caller; a value that it cannot have is a *WrongValue.
func (s *Settings) Set(name, value string) error {
	x, ok := settingNamed(name)
	if !ok {
		panic("there is no setting " + name)
	}
	if !x.set(s, value) {
		return &WrongValue{Name: name, Value: value, Takes: x.may(), Quoted: x.form == words}
	}
	return nil
}

func settingNamed(name string) (setting, bool) {
	for _, x := range settings {
		if x.name == name {
			return x, true
		}
	}
	return setting{}, false
}

// Value is a setting as it is told.
type Value struct {
	Name  string // "hand", or "keys.peg" for a key
	Value any    // string, bool, int, []string for keys; nil where it is left to the pattern
}

// Values are all settings, keys last.
func (s Settings) Values() []Value {
	var all []Value
	for _, x := range settings {
		all = append(all, Value{x.name, x.value(s)})
	}
	for _, sc := range s.screens() {
		for _, n := range sc.named {
			var keys []string
			for _, k := range n.Key.Keys() {
				keys = append(keys, keyWord(k))
			}
			all = append(all, Value{sc.table + "." + n.Name, keys})
		}
	}
	return all
}
