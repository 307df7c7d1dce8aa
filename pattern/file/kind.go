package file

import (
	"path/filepath"
	"strings"
)

// Kind is a kind of TOML file that people write. Other files than patterns are read
// through the same guard.
type Kind struct {
	Noun    string // "pattern"
	Example string // of a key and its value
	Bytes   int    // how large such a file may be
	Size    string // the same, as people say it
}

// patterns are pattern files.
var patterns = Kind{Noun: "pattern", Example: "pegs = 26", Bytes: MaxBytes, Size: "4 MiB"}

func (k Kind) check() string { return "check that this is a " + k.Noun + " file" }

func (k Kind) most() string { return "the " + k.Size + " a " + k.Noun + " may have" }

// Node is a key of a file, or an element of a list.
type Node struct {
	Key    string // as written, not cleaned; "" for an element
	Value  any    // string, int64, float64, bool or time.Time; nil for tables and lists
	Nodes  []Node // of a table, in the order of the file, or of a list; none of several tables
	Is     Shape
	KeyAt  Range // the last part of the name; an element's value
	Stands Range // the value with its quotes; a header's name
}

// Shape is what a value is made of.
type Shape uint8

// The shapes.
const (
	Single Shape = iota
	List
	Table
	Tables // a list of tables, written with double brackets
)

// Range is bytes of a file, from Start up to but not including End.
type Range struct{ Start, End int }

// Fault is why a file cannot be read on, and where.
type Fault struct {
	At        Range
	Msg, Hint string
}

// Nodes are the keys at the top of a file of this kind, in its order, or the first fault
// that keeps it from being read at all. No text brings it down.
func (k Kind) Nodes(text string) ([]Node, *Fault) {
	root, f := scan(text, k)
	var values map[string]any
	if f == nil {
		values, f = decode(text)
	}
	if f != nil {
		return nil, &Fault{Range{f.at.start, f.at.end}, f.msg, f.hint}
	}
	return nodesOf(entriesOf(values, root)), nil
}

func nodesOf(entries map[string]entry) []Node {
	t := &table{entries: entries}
	nodes := make([]Node, 0, len(entries))
	for _, key := range t.sortedKeys() {
		n := nodeOf(entries[key])
		n.Key = key
		nodes = append(nodes, n)
	}
	return nodes
}

func nodeOf(e entry) Node {
	n := Node{KeyAt: Range{e.at.name.start, e.at.name.end}, Stands: Range{e.at.value.start, e.at.value.end}}
	switch v := e.value.(type) {
	case map[string]any:
		n.Is, n.Nodes = Table, nodesOf(entriesOf(v, e.at))
	case []map[string]any:
		n.Is = Tables
	case []any:
		n.Is = List
		for i, element := range v {
			item := entry{value: element, at: e.at}
			if i < len(e.at.items) {
				item.at = e.at.items[i]
			}
			n.Nodes = append(n.Nodes, nodeOf(item))
		}
	default:
		n.Value = v
	}
	return n
}

// Describe says what a node's value is: "text", "a list".
func (n Node) Describe() string {
	switch n.Is {
	case List:
		return "a list"
	case Table:
		return "a table"
	case Tables:
		return "a list of tables"
	}
	return kindOf(n.Value)
}

// IsPattern tells a pattern file, be it a broken one, from a text of written rows: its
// name says so, or it sets the key that every pattern has, or opens a zone. No row is
// written like either.
func IsPattern(name string, text []byte) bool {
	if strings.EqualFold(filepath.Ext(name), ".toml") {
		return true
	}
	for line := range strings.Lines(strings.TrimPrefix(string(text), "\ufeff")) {
		line = strings.TrimSpace(line)
		if key, _, ok := strings.Cut(line, "="); ok && strings.Trim(key, " \t\"'") == "pattern" {
			return true
		}
		if strings.HasPrefix(line, "[[zone") {
			return true
		}
	}
	return false
}
