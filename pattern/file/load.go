package file

import (
	"errors"
	"fmt"
	"strings"

	"github.com/BurntSushi/toml"

	"bypeg/pattern"
	"bypeg/pattern/safetext"
)

// Load makes a pattern of a pattern file's text. The name is how diagnostics call the
// file. Where one of them is an error the pattern is nil; warnings and notes come
// with a pattern. It reads nothing else, and no text brings it down.
func Load(name string, text []byte) (*pattern.Pattern, safetext.Diagnostics) {
	return LoadFor(name, text, 0)
}

// LoadFor is Load for a maker who takes so many pegs in place of those that the file
// states: its rows are laid on them. 0 pegs are the file's own.
func LoadFor(name string, text []byte, pegs int) (*pattern.Pattern, safetext.Diagnostics) {
	s := strings.TrimPrefix(string(text), "\ufeff")
	if len(s) > MaxBytes {
		s = s[:MaxBytes+1] // enough to be refused
	}
	r := newReport(name, s)
	p := load(r, pegs)
	return p, r.sorted()
}

func load(r *report, pegs int) *pattern.Pattern {
	root, f := scan(r.text, patterns)
	var values map[string]any
	if f == nil {
		values, f = decode(r.text)
	}
	if f != nil {
		r.errorf(f.at, f.hint, "%s", f.msg)
		return nil
	}
	h := readHead(r, &table{rep: r, at: span{}, entries: entriesOf(values, root)}, pegs)
	zones := readZones(r, h)
	if r.failed {
		return nil
	}
	plan := h.plan
	for _, z := range zones {
		plan.Zones = append(plan.Zones, z.plan)
	}
	p, errs := pattern.Build(plan)
	for _, e := range errs {
		r.errorf(placeOf(e, zones, r.text), "", "%s", e.Msg)
	}
	if p != nil {
		warn(r, p, zones)
	}
	return p
}

// placeOf is where a fault of the plan stands in the file.
func placeOf(e *pattern.PlanError, zones []*zone, text string) span {
	if e.Zone < 0 || e.Zone >= len(zones) {
		return span{}
	}
	z := zones[e.Zone]
	if e.Strip < 0 || e.Strip >= len(z.lines) {
		return z.at
	}
	if lines := z.lines[e.Strip]; e.Line >= 0 && e.Line < len(lines) {
		return lines[e.Line].in(text)
	}
	return z.at
}

// decode reads TOML that the guard let pass. The decoder answers some faults with a
// panic of its own; that too is the file's fault, not the program's.
// longMessage is how much of the decoder's words is told.
const longMessage = 120

func decode(text string) (values map[string]any, f *fault) {
	defer func() {
		if e := recover(); e != nil {
			values, f = nil, &fault{span{}, "the file cannot be read as TOML", "look for escapes with a backslash, and use single quotes there"}
		}
	}()
	_, err := toml.Decode(text, &values)
	if err == nil {
		return values, nil
	}
	var pe toml.ParseError
	if !errors.As(err, &pe) {
		return nil, &fault{span{}, fmt.Sprintf("the file cannot be read as TOML: %v", err), ""}
	}
	start := min(max(0, pe.Position.Start), len(text))
	msg := strings.TrimSuffix(pe.Message, ".")
	if len(msg) > longMessage { // the decoder quotes a value in full, be it a million digits
		msg = safetext.Cut(safetext.Clean(msg[:longMessage]), longMessage) + "..."
	}
	return nil, &fault{span{start, min(start+max(1, pe.Position.Len), len(text))}, "this is not TOML: " + msg, ""}
}
