package file

import (
	"fmt"
	"slices"
	"strings"
)

// add puts a new key behind the one it goes with.
func (w *rewriter) add(t target, c Change, written string) error {
	inBraces := t.braces || t.at.inBraces(w.text)
	next := w.neighbour(t.at, c)
	if next == nil {
		if inBraces || !t.at.defined || t.at.name.start == 0 {
			return fmt.Errorf("there is no key in %s that %s could stand beside: write it by hand", c.In, c.Key)
		}
		end := w.lineEnd(t.at.name.end)
		w.insert(end, w.lineBreak(end)+c.Key+" = "+written)
		return nil
	}
	if inBraces {
		w.insert(next.value.end, ", "+c.Key+" = "+written)
		return nil
	}
	start := strings.LastIndexByte(w.text[:next.name.start], '\n') + 1
	before, after, _ := strings.Cut(w.text[next.name.end:next.value.start], "=")
	pad := len(before)
	if pad > 1 { // the signs of several keys stand below each other
		pad = max(1, next.name.end-next.name.start+pad-len(c.Key))
	}
	end := w.lineEnd(next.value.end)
	w.insert(end, w.lineBreak(end)+w.text[start:next.name.start]+c.Key+strings.Repeat(" ", pad)+"="+after+written)
	return nil
}

// neighbour is the key in a table that a new one goes behind: the nearest before it in
// the order in which keys are told, or else the first of the others.
func (w *rewriter) neighbour(t *spot, c Change) *spot {
	order := c.section().keys
	i := slices.Index(order, c.Key)
	if i < 0 {
		return nil
	}
	for _, key := range slices.Backward(order[:i]) {
		if s := t.keys[key]; s != nil && s.isPair() {
			return s
		}
	}
	for _, key := range order[i:] {
		if s := t.keys[key]; s != nil && s.isPair() {
			return s
		}
	}
	return nil
}

// section is the part of the file that a change is made in.
func (c Change) section() section {
	if len(c.In.path) == 0 {
		return topSection
	}
	switch last := c.In.path[len(c.In.path)-1]; {
	case last.item >= 0 && last.key == "zone":
		return zoneSection
	case last.item >= 0:
		return stripSection
	}
	switch c.In.path[0].key {
	case "gauge", "gauges":
		return gaugeSection
	case "swatch":
		return swatchSection
	case "loom":
		return loomSection
	case "yarn", "yarns":
		return yarnSection
	case "motif":
		return motifSection
	}
	return section{}
}

// addHeader writes a table that the file does not have, above the first zone or at the
// end. Further keys of it go below.
func (w *rewriter) addHeader(c Change, written string) {
	name := c.In.path[0].key
	key := c.Key + " = " + written
	if i, ok := w.added[name]; ok {
		head, rest, _ := strings.Cut(w.edits[i].to, "\x00")
		w.edits[i].to = head + w.lineBreak(0) + key + "\x00" + rest
		return
	}
	br := w.lineBreak(0)
	at, text := w.aboveZones(), "["+name+"]"+br+key+"\x00"+br+br
	if at < 0 {
		at, text = len(w.text), br+"["+name+"]"+br+key+"\x00"+br
		if !strings.HasSuffix(w.text, "\n") {
			text = br + text
		}
	}
	w.added[name] = len(w.edits)
	w.insert(at, text)
}

// aboveZones is the start of the line of the first zone's header, or of the comments
// right above it; -1 where zones have no headers.
func (w *rewriter) aboveZones() int {
	zones := w.root.keys["zone"]
	if zones == nil || len(zones.items) == 0 || zones.items[0].inBraces(w.text) {
		return -1
	}
	return w.aboveHeader(zones.items[0].name.start)
}

// aboveHeader is the start of a header's line, or of the comments right above it.
func (w *rewriter) aboveHeader(name int) int {
	lineStart := func(pos int) int { return strings.LastIndexByte(w.text[:pos], '\n') + 1 }
	at := lineStart(name)
	for at > 0 {
		above := lineStart(at - 1)
		if !strings.HasPrefix(strings.TrimLeft(w.text[above:at], " \t"), "#") {
			break
		}
		at = above
	}
	return at
}

// lineEnd is where the line of a byte ends, in front of its line break.
func (w *rewriter) lineEnd(pos int) int {
	end := len(w.text)
	if i := strings.IndexByte(w.text[pos:], '\n'); i >= 0 {
		end = pos + i
	}
	if end > pos && w.text[end-1] == '\r' {
		end--
	}
	return end
}

// lineBreak is how lines end from a byte on, or else how the file's first line does.
func (w *rewriter) lineBreak(pos int) string {
	i := strings.IndexByte(w.text[pos:], '\n')
	if i < 0 {
		pos, i = 0, strings.IndexByte(w.text, '\n')
	}
	if i > 0 && w.text[pos+i-1] == '\r' {
		return "\r\n"
	}
	return "\n"
}
