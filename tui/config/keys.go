package config

import (
	"fmt"
	"slices"

	"bypeg/pattern/file"
	"bypeg/tui/look"
)

// given is an action with the keys that the file gives it.
type given struct {
	action string
	keys   []givenKey
}

// givenKey is a key and where it stands.
type givenKey struct {
	name string
	at   file.Range
}

// readKeys reads the table of one screen's keys. A key that has another meaning on this
// screen already is a fault; an action that no right key is left for keeps its own.
func (l *loader) readKeys(table file.Node, sc screen) {
	if table.Is != file.Table {
		hint := "write [" + sc.table + "] as a header, and below it peg = \"space\" or the like"
		l.fault(table.Stands, hint, "%s takes a table; this is %s", sc.table, table.Describe())
		return
	}
	var all []given
	for _, n := range table.Nodes {
		if !slices.ContainsFunc(sc.named, func(k look.NamedKey) bool { return k.Name == n.Key }) {
			l.unknownAction(n, sc)
			continue
		}
		if keys := l.keysOf(n); len(keys) > 0 {
			all = append(all, given{n.Key, keys})
		}
	}
	for again := true; again; {
		again = l.dropTaken(all, sc.named)
	}
	for _, k := range sc.named {
		for _, g := range all {
			if g.action == k.Name && len(g.keys) > 0 {
				k.Give(names(g.keys)...)
				l.loaded.FromFile[sc.table+"."+k.Name] = true
			}
		}
	}
}

func names(keys []givenKey) []string {
	all := make([]string, len(keys))
	for i, k := range keys {
		all[i] = k.name
	}
	return all
}

// keysOf are the right ones of the keys that the file gives an action.
func (l *loader) keysOf(n file.Node) []givenKey {
	elements := []file.Node{n}
	if n.Is == file.List {
		elements = n.Nodes
	}
	if len(elements) == 0 {
		l.fault(n.Stands, "leave the line out to keep the keys as they come", "%s has an empty list of keys", n.Key)
	}
	var keys []givenKey
	for _, e := range elements {
		word, ok := e.Value.(string)
		if !ok {
			l.fault(e.Stands, fmt.Sprintf(`write it like %s = "x" or %s = ["x", "ctrl+n"]`, n.Key, n.Key),
				"%s takes a key in quotes or a list of such; this is %s", n.Key, e.Describe())
			continue
		}
		name, why, instead := parseKey(word)
		switch {
		case why != "":
			l.fault(e.Stands, instead, "%s", why)
		case name == always && n.Key != "leave":
			l.fault(e.Stands, "write another key", "%s always leaves the program", always)
		case slices.ContainsFunc(keys, func(k givenKey) bool { return k.name == name }):
			l.fault(e.Stands, "keep one of the two", "%s is written twice", quote(word))
		default:
			keys = append(keys, givenKey{name, e.Stands})
		}
	}
	return keys
}

// always is the key that leaves whatever the file says.
const always = "ctrl+c"

// dropTaken takes keys away that another action of the screen has, and tells so. It says
// whether it took any: then another action may have its own keys back, and those may be
// taken now.
func (l *loader) dropTaken(all []given, named []look.NamedKey) bool {
	holder := map[string]string{}
	for _, k := range named {
		if !slices.ContainsFunc(all, func(g given) bool { return g.action == k.Name && len(g.keys) > 0 }) {
			for _, key := range k.Key.Keys() {
				holder[key] = k.Name
			}
		}
	}
	dropped := false
	for i, g := range all {
		all[i].keys = slices.DeleteFunc(g.keys, func(k givenKey) bool {
			other, taken := holder[k.name]
			if !taken {
				holder[k.name] = g.action
				return false
			}
			dropped = true
			l.fault(k.at, fmt.Sprintf("write another key, or give %s another one too", other),
				"%s is the key of %s already", quote(keyWord(k.name)), other)
			return true
		})
	}
	return dropped
}

func (l *loader) unknownAction(n file.Node, sc screen) {
	var known []string
	for _, k := range sc.named {
		known = append(known, k.Name)
	}
	l.fault(n.KeyAt, l.hint(n.Key, known), "there is no key %s in [%s]", quote(n.Key), sc.table)
}

// home says where a name belongs, for one that strayed; "" where it belongs nowhere.
func (l *loader) home(name string) string {
	if _, ok := settingNamed(name); ok {
		return name + " belongs at the top of the file, before the first header"
	}
	for _, sc := range l.loaded.Settings.screens() {
		if slices.ContainsFunc(sc.named, func(k look.NamedKey) bool { return k.Name == name }) {
			return name + " belongs in [" + sc.table + "]: write it below that header"
		}
	}
	return ""
}
