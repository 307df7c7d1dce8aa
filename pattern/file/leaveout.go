package file

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
)

// LeaveOut takes zones, counted from 0, out of a pattern file, with the comments right
// above them, and leaves every other byte as it stands. The file must be one that loads,
// and so must the result: a zone that another one is like can't be left out.
func LeaveOut(text []byte, zones []int) ([]byte, error) {
	s, mark := strings.CutPrefix(string(text), "\ufeff")
	if _, found := Load("the file", text); found.Err() != nil {
		return nil, fmt.Errorf("the file must be right before it is changed: %w", found.Err())
	}
	root, _ := scan(s, patterns)
	values, _ := decode(s)
	w := &rewriter{text: s, root: root}
	all, _ := values["zone"].([]map[string]any)
	var left []map[string]any
	for i, zone := range all {
		if !slices.Contains(zones, i) {
			left = append(left, zone)
			continue
		}
		w.edits = append(w.edits, edit{w.section(root.keys["zone"].items[i]), ""})
	}
	if len(left) == 0 || len(all) != len(left)+len(zones) {
		return nil, fmt.Errorf("those zones can't be left out of the file: change it by hand")
	}
	values["zone"] = left
	changed := w.apply()
	if got, fault := decode(changed); fault != nil || !reflect.DeepEqual(got, values) {
		return nil, fmt.Errorf("the file is written in a way that can't be changed without touching the rest: change it by hand")
	}
	if mark {
		changed = "\ufeff" + changed
	}
	if _, found := Load("the changed file", []byte(changed)); found.Err() != nil {
		return nil, found.Err()
	}
	return []byte(changed), nil
}

// section is the lines of a table with its header, up to the next header that does not
// belong to it.
func (w *rewriter) section(t *spot) span {
	own := headers(t)
	end := len(w.text)
	for _, at := range headers(w.root) {
		if at > t.name.start && at < end && !slices.Contains(own, at) {
			end = at
		}
	}
	if end < len(w.text) {
		end = w.aboveHeader(end)
	}
	return span{w.aboveHeader(t.name.start), end}
}

// headers are where the names of all headers stand in a table and in what it holds, its
// own too.
func headers(t *spot) []int {
	var all []int
	if t.defined && !t.isPair() {
		all = append(all, t.name.start)
	}
	for _, key := range t.keys {
		all = append(all, headers(key)...)
	}
	for _, item := range t.items {
		all = append(all, headers(item)...)
	}
	return all
}
