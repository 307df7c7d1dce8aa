package file

import (
	"cmp"
	"fmt"
	"iter"
	"slices"
	"strings"

	"bypeg/pattern/measure"
	"bypeg/pattern/safetext"
)

// entry is a key's value and where it stands.
type entry struct {
	value  any
	at     *spot
	copied bool // from the zone that this one is like
}

// table is keys of the file that are read one by one. Each reader says what is wrong
// with its key and then counts it as not written.
type table struct {
	rep     *report
	at      span // its header
	entries map[string]entry
	like    *likeness // of a zone that copies another, and of its strips
	failed  bool
}

// likeness is what a zone takes from another.
type likeness struct {
	at     span   // where it says so
	name   string // the other zone
	origin *table
}

// entriesOf joins what the decoder read with where it stands.
func entriesOf(values map[string]any, at *spot) map[string]entry {
	entries := make(map[string]entry, len(values))
	for key, v := range values {
		s := at.keys[key]
		if s == nil {
			s = &spot{name: at.name, value: at.value}
		}
		entries[key] = entry{value: v, at: s}
	}
	return entries
}

// fail tells what is wrong with an entry. What a zone copied is wrong in the other
// zone, if it is wrong there too; otherwise it does not fit where it says "like".
func (t *table) fail(e entry, at span, hint, format string, args ...any) {
	t.failed = true
	if !e.copied {
		t.rep.errorf(at, hint, format, args...)
		return
	}
	t.rep.failed = true
	if !t.like.origin.failed {
		t.rep.errorf(t.like.at, hint, "zone %s does not fit here: %s", shown(t.like.name), fmt.Sprintf(format, args...))
	}
}

// failKey is fail for a key that may not have been written: then it points at the
// table's header.
func (t *table) failKey(key, hint, format string, args ...any) {
	e := t.entries[key]
	if e.at == nil {
		e.at = &spot{value: t.at}
	}
	t.fail(e, e.at.value, hint, format, args...)
}

// allow refuses all keys but those of the section.
func (t *table) allow(s section) {
	for _, key := range t.sortedKeys() {
		e := t.entries[key]
		if slices.Contains(s.keys, key) {
			continue
		}
		hint := "its keys are " + strings.Join(s.keys, ", ")
		if near := safetext.Nearest(key, s.keys); near != "" {
			hint = "did you mean " + near + "?"
		} else if home := homeOf(key); home != "" {
			hint = fmt.Sprintf("%s belongs %s", key, home)
		}
		t.fail(e, e.at.name, hint, "there is no key %s %s", shown(key), s.where)
	}
}

// sortedKeys are the table's keys in the order of the file.
func (t *table) sortedKeys() []string {
	keys := make([]string, 0, len(t.entries))
	for key := range t.entries {
		keys = append(keys, key)
	}
	slices.SortFunc(keys, func(a, b string) int {
		return cmp.Or(cmp.Compare(t.entries[a].at.name.start, t.entries[b].at.name.start), cmp.Compare(a, b))
	})
	return keys
}

func (t *table) has(key string) bool {
	_, ok := t.entries[key]
	return ok
}

// place is where a key's value stands, or the table's header.
func (t *table) place(key string) span {
	if e, ok := t.entries[key]; ok && !e.copied {
		return e.at.value
	}
	if t.like != nil {
		return t.like.at
	}
	return t.at
}

// wrongKind says that a value is of another kind than its key takes.
func (t *table) wrongKind(key string, e entry, want, example string) {
	hint := "write it like " + example
	if s, ok := e.value.(string); ok && example != "" && isDigit(example[len(example)-1]) && s != "" && isDigit(s[0]) {
		hint = "leave out the quotes"
	}
	t.fail(e, e.at.value, hint, "%s takes %s; this is %s", key, want, kindOf(e.value))
}

func kindOf(v any) string {
	switch v.(type) {
	case string:
		return "text"
	case int64:
		return "a whole number"
	case float64:
		return "a number with decimals"
	case bool:
		return "true or false"
	case map[string]any, []map[string]any:
		return "a table"
	case []any:
		return "a list"
	}
	return "a date" // the one kind that is left
}

// raw is a text as written, not cleaned.
func (t *table) raw(key, example string) (string, bool) {
	e, ok := t.entries[key]
	if !ok {
		return "", false
	}
	s, ok := e.value.(string)
	if !ok {
		t.wrongKind(key, e, "text in quotes", key+` = "`+example+`"`)
	}
	return s, ok
}

// line is a text of one line, cleaned.
func (t *table) line(key, example string) (string, bool) {
	s, ok := t.raw(key, example)
	if ok && safetext.TooLong(s, maxName) {
		e := t.entries[key]
		t.fail(e, e.at.value, "", "%s has more than %d characters", key, maxName)
		return "", false
	}
	return safetext.Clean(s), ok
}

// choice is one of a few words. It returns which.
func (t *table) choice(key string, words []string) (int, bool) {
	s, ok := t.line(key, words[0])
	if !ok {
		return 0, false
	}
	if i := slices.Index(words, s); i >= 0 {
		return i, true
	}
	hint := ""
	if near := safetext.Nearest(s, words); near != "" {
		hint = fmt.Sprintf("did you mean %q?", near)
	}
	e := t.entries[key]
	t.fail(e, e.at.value, hint, "%s is %s; %s is none of them", key, oneOf(words), shown(s))
	return 0, false
}

// oneOf lists words in quotes: `"left" or "right"`.
func oneOf(words []string) string {
	quoted := make([]string, len(words))
	for i, w := range words {
		quoted[i] = `"` + w + `"`
	}
	if len(quoted) < 2 {
		return strings.Join(quoted, "")
	}
	return strings.Join(quoted[:len(quoted)-1], ", ") + " or " + quoted[len(quoted)-1]
}

// whole is a whole number from low to high.
func (t *table) whole(key string, low, high int) (int, bool) {
	e, ok := t.entries[key]
	if !ok {
		return 0, false
	}
	return t.wholeIn(key, e, low, high)
}

func (t *table) wholeIn(key string, e entry, low, high int) (int, bool) {
	n, ok := e.value.(int64)
	if !ok {
		t.wrongKind(key, e, "a whole number", fmt.Sprintf("%s = %d", key, max(low, 1)))
		return 0, false
	}
	if n < int64(low) || n > int64(high) {
		t.fail(e, e.at.value, "", "%s is a number from %d to %d; this is %d", key, low, high, n)
		return 0, false
	}
	return int(n), true
}

// maxFigure is larger than anything measured in knitting.
const maxFigure = 1e6

// figure is a measured number above 0, or 0 where none is written.
func (t *table) figure(key string) float64 {
	e, ok := t.entries[key]
	if !ok {
		return 0
	}
	var x float64
	switch v := e.value.(type) {
	case int64:
		x = float64(v)
	case float64:
		x = v
	default:
		t.wrongKind(key, e, "a number", key+" = 15")
		return 0
	}
	if !(x > 0 && x <= maxFigure) { // not a number fails this too
		t.fail(e, e.at.value, "leave the key out where the figure is not known", "%s is a number above 0 and not above a million", key)
		return 0
	}
	return x
}

// flag is true or false; false where it is not written.
func (t *table) flag(key string) bool {
	e, ok := t.entries[key]
	if !ok {
		return false
	}
	b, ok := e.value.(bool)
	if !ok {
		t.wrongKind(key, e, "true or false", key+" = true")
	}
	return b
}

// length is a length with its unit.
func (t *table) length(key, example string) (measure.Length, bool) {
	s, ok := t.line(key, example)
	if !ok {
		return 0, false
	}
	l, err := measure.ParseLength(s)
	if err != nil {
		e := t.entries[key]
		t.fail(e, e.at.value, "", "%s: %v", key, err)
		return 0, false
	}
	return l, true
}

// list is the elements of a list.
func (t *table) list(key, example string) ([]entry, bool) {
	e, ok := t.entries[key]
	if !ok {
		return nil, false
	}
	values, ok := e.value.([]any)
	if !ok {
		t.wrongKind(key, e, "a list", key+" = "+example)
		return nil, false
	}
	if len(values) == 0 {
		t.fail(e, e.at.value, "write it like "+key+" = "+example, "%s is an empty list", key)
		return nil, false
	}
	elements := make([]entry, len(values))
	for i, v := range values {
		elements[i] = entry{value: v, at: e.at, copied: e.copied}
		if i < len(e.at.items) {
			elements[i].at = e.at.items[i]
		}
	}
	return elements, true
}

// table is the table under a key: empty where it is not written.
func (t *table) table(key string) *table {
	e, ok := t.entries[key]
	if !ok {
		return &table{rep: t.rep, at: t.at}
	}
	return t.tableIn(key, e)
}

func (t *table) tableIn(key string, e entry) *table {
	sub := &table{rep: t.rep, at: e.at.name, like: t.like}
	values, ok := e.value.(map[string]any)
	if _, several := e.value.([]map[string]any); several {
		t.fail(e, e.at.name, "write ["+key+"] in single brackets", "there is one %s, and this is a list of them", shown(key))
		return sub
	}
	if !ok {
		t.wrongKind(key, e, "a table", "["+key+"]")
		return sub
	}
	sub.entries = entriesOf(values, e.at)
	if e.copied {
		for k, v := range sub.entries {
			v.copied = true
			sub.entries[k] = v
		}
	}
	return sub
}

// named are the tables of a table by their cleaned names, in the order of the file.
func (t *table) named(section string) iter.Seq2[string, *table] {
	return func(yield func(string, *table) bool) {
		for _, key := range t.sortedKeys() {
			name := safetext.Clean(key)
			if strings.TrimSpace(name) == "" {
				t.fail(t.entries[key], t.entries[key].at.name, "", "a name in [%s] has nothing to be seen", section)
				continue
			}
			if !yield(name, t.tableIn(section+"."+name, t.entries[key])) {
				return
			}
		}
	}
}

// tables are the tables of a list, written with double brackets or in braces.
func (t *table) tables(key, header string) []*table {
	e, ok := t.entries[key]
	if !ok {
		return nil
	}
	var elements []any
	switch v := e.value.(type) {
	case []map[string]any:
		for _, m := range v {
			elements = append(elements, m)
		}
	case []any:
		elements = v
	case map[string]any:
		if _, strip := v["strip"]; strip && !e.at.defined {
			t.fail(e, e.at.value, "write "+header+" and its name above the strip", "this strip stands in no zone")
			return nil
		}
		t.fail(e, e.at.value, bracketsHint(header), singleBrackets, key)
		elements = []any{v} // what else is wrong with it is told too
	default:
		t.wrongKind(key, e, "a list of tables", header)
	}
	var subs []*table
	for i, v := range elements {
		item := entry{value: v, at: e.at, copied: e.copied}
		if i < len(e.at.items) {
			item.at = e.at.items[i]
		}
		if sub := t.tableIn(key, item); sub.entries != nil {
			subs = append(subs, sub)
		}
	}
	return subs
}

// singleBrackets is what is wrong with a header that should have double ones.
const singleBrackets = "%s stands in single brackets, as if there could be only one"

func bracketsHint(header string) string {
	return "write " + header + ", here and wherever another begins"
}
