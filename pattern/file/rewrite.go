package file

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"bypeg/pattern/safetext"
)

// Header names a table of a pattern file. The zero value is the top of it.
type Header struct{ path []step }

// step leads from a table into one of its tables.
type step struct {
	key  string
	item int // of a header in double brackets, from 0; -1 for one in single brackets
}

// Under is the table of a header in single brackets: Under("loom"), Under("gauges", "seed").
func Under(names ...string) Header {
	var t Header
	for _, name := range names {
		t.path = append(t.path, step{name, -1})
	}
	return t
}

// InZone is a zone's table; the first is 0.
func InZone(zone int) Header { return Header{[]step{{"zone", zone}}} }

// InStrip is the table of a zone's strip; the first of each is 0.
func InStrip(zone, strip int) Header { return Header{[]step{{"zone", zone}, {"strip", strip}}} }

// String is the table as messages call it.
func (t Header) String() string {
	var names []string
	for _, s := range t.path {
		if s.item >= 0 {
			names = append(names, fmt.Sprintf("%s %d", s.key, s.item+1))
		} else {
			names = append(names, safetext.Clean(s.key))
		}
	}
	if len(names) == 0 {
		return "the top of the file"
	}
	return strings.Join(names, ", ")
}

// Change is a key of a file and the value it is to have.
type Change struct {
	In    Header
	Key   string
	Value any // an int, float64, string or []int
}

// Rewrite gives keys of a pattern file other values and leaves every other byte as it
// stands: comments, blanks, order, line ends. A key that is not there is put on a line
// of its own behind one that it goes with. The file must be one that loads, and so must
// the result, with just the values that were asked for: otherwise there is an error.
func Rewrite(text []byte, changes []Change) ([]byte, error) {
	s, mark := strings.CutPrefix(string(text), "\ufeff")
	if _, found := Load("the file", text); found.Err() != nil {
		return nil, fmt.Errorf("the file must be right before it is changed: %w", found.Err())
	}
	root, _ := scan(s, patterns)
	values, _ := decode(s)
	w := &rewriter{text: s, root: root, seen: map[span]bool{}, added: map[string]int{}}
	for _, c := range changes {
		if err := w.change(c, values); err != nil {
			return nil, err
		}
	}
	changed := w.apply()
	if mark {
		changed = "\ufeff" + changed
	}
	if _, found := Load("the changed file", []byte(changed)); found.Err() != nil {
		return nil, found.Err()
	}
	if got, fault := decode(strings.TrimPrefix(changed, "\ufeff")); fault != nil || !reflect.DeepEqual(got, values) {
		return nil, fmt.Errorf("the file is written in a way that can't be changed without touching the rest: change it by hand")
	}
	return []byte(changed), nil
}

// rewriter collects the pieces of a file that are to read otherwise.
type rewriter struct {
	text  string
	root  *spot
	edits []edit
	seen  map[span]bool  // the values that are changed
	added map[string]int // the headers that had to be added: their edit
}

// edit puts a text in place of a piece.
type edit struct {
	at span
	to string
}

func (w *rewriter) change(c Change, values map[string]any) error {
	written, value, err := literal(c.Value)
	if err != nil {
		return fmt.Errorf("%s in %s: %w", c.Key, c.In, err)
	}
	t := target{at: w.root, values: values}
	for _, s := range c.In.path {
		if t.at != nil && t.at.inBraces(w.text) {
			t.braces = true
		}
		if !t.enter(s) {
			if s.item >= 0 || len(c.In.path) > 1 {
				return fmt.Errorf("there is no %s in the file", c.In)
			}
			t.at, t.values = nil, t.under(s.key)
		}
	}
	was := t.values[c.Key]
	t.values[c.Key] = value
	if t.at == nil {
		w.addHeader(c, written)
		return nil
	}
	key := t.at.keys[c.Key]
	if key == nil {
		return w.add(t, c, written)
	}
	if !key.isPair() || w.seen[key.value] {
		return fmt.Errorf("%s in %s can't be given one value: change it by hand", c.Key, c.In)
	}
	w.seen[key.value] = true
	if same(was, value) { // 11.0 may stay what it is
		t.values[c.Key] = was
		return nil
	}
	w.edits = append(w.edits, edit{key.value, key.requoted(written)})
	return nil
}

// target is a table on the way to a change: where it stands and what it holds.
type target struct {
	at     *spot // nil where it is not in the file
	values map[string]any
	braces bool // one around it is in braces
}

// enter goes into a table of the target, and tells whether there is one.
func (t *target) enter(s step) bool {
	if t.at == nil {
		return false
	}
	key := s.key
	if _, ok := t.values[key]; !ok { // names are known cleaned
		for _, k := range slices.Sorted(maps.Keys(t.values)) {
			if safetext.Clean(k) == key {
				key = k
				break
			}
		}
	}
	at := t.at.keys[key]
	switch v := t.values[key].(type) {
	case map[string]any:
		if s.item >= 0 {
			return false
		}
		t.values = v
	case []map[string]any:
		if s.item < 0 || s.item >= len(v) {
			return false
		}
		t.values, at = v[s.item], at.items[s.item]
	case []any:
		if s.item < 0 || s.item >= len(v) {
			return false
		}
		inner, ok := v[s.item].(map[string]any)
		if !ok {
			return false
		}
		t.values, at = inner, at.items[s.item]
	default:
		return false
	}
	t.at = at
	return true
}

// under makes room for a table that is not in the file.
func (t *target) under(key string) map[string]any {
	if inner, ok := t.values[key].(map[string]any); ok {
		return inner
	}
	inner := map[string]any{}
	t.values[key] = inner
	return inner
}

// isPair tells whether the spot is a key with its value, no header and no part of a
// name with dots.
func (s *spot) isPair() bool { return s.defined && s.value.start >= s.name.end && s.value != s.name }

// inBraces tells whether a table is written as {...}.
func (s *spot) inBraces(text string) bool {
	return s.value.start < s.value.end && text[s.value.start] == '{'
}

// same tells whether a value that was read says what another does.
func same(was, value any) bool {
	figure := func(v any) any {
		if n, ok := v.(int64); ok {
			return float64(n)
		}
		return v
	}
	return reflect.DeepEqual(figure(was), figure(value))
}

// literal is a value as a file writes it and as the decoder reads it.
func literal(value any) (written string, read any, err error) {
	switch v := value.(type) {
	case int:
		return strconv.Itoa(v), int64(v), nil
	case float64:
		switch {
		case math.IsNaN(v) || math.IsInf(v, 0):
			return "", nil, fmt.Errorf("%v is no number that could be written", v)
		case v == math.Trunc(v) && math.Abs(v) < 1e15:
			return strconv.FormatFloat(v, 'f', -1, 64), int64(v), nil
		}
		return strconv.FormatFloat(v, 'f', -1, 64), v, nil
	case string:
		if safetext.CleanLines(v) != v || strings.Contains(v, "\n") {
			return "", nil, fmt.Errorf("the text has signs that can't be seen")
		}
		return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(v) + `"`, v, nil
	case []int:
		list, read := make([]string, len(v)), make([]any, len(v))
		for i, n := range v {
			list[i], read[i] = strconv.Itoa(n), int64(n)
		}
		return "[" + strings.Join(list, ", ") + "]", read, nil
	}
	return "", nil, fmt.Errorf("a %T is no value of a key that could be changed", value)
}

// requoted is a text in the quotes that the spot has, where it can stand in them.
func (s *spot) requoted(written string) string {
	if s.quoted == raw && strings.HasPrefix(written, `"`) && !strings.ContainsAny(written, `'\`) {
		return "'" + strings.Trim(written, `"`) + "'"
	}
	return written
}

func (w *rewriter) insert(at int, text string) {
	w.edits = append(w.edits, edit{span{at, at}, text})
}

// apply is the text with all pieces exchanged. What is put at one place stands there in
// the order of the changes.
func (w *rewriter) apply() string {
	slices.SortStableFunc(w.edits, func(a, b edit) int { return cmp.Compare(a.at.start, b.at.start) })
	var b strings.Builder
	from := 0
	for _, e := range w.edits {
		b.WriteString(w.text[from:e.at.start])
		b.WriteString(strings.ReplaceAll(e.to, "\x00", ""))
		from = e.at.end
	}
	b.WriteString(w.text[from:])
	return b.String()
}
