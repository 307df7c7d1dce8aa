package config

import (
	"cmp"
	"fmt"
	"strings"

	"bypeg/pattern/file"
	"bypeg/pattern/safetext"
)

// kind is what a config file is for its reader.
var kind = file.Kind{Noun: "config", Example: "lead = 2", Bytes: 64 << 10, Size: "64 KiB"}

// version is the kind of config file this program reads.
const version = 1

// maxFaults is how many faults of one file are told.
const maxFaults = 50

// Read is the bytes of a config file. A folder, a pipe and what is too large are refused;
// errors.Is finds the cause.
func Read(path string) ([]byte, error) { return kind.Read(path) }

// Loaded is what a config file says.
type Loaded struct {
	Settings Settings             // what is right in it, and the rest as it comes
	FromFile map[string]bool      // the settings that it sets, by the names of Values
	Faults   safetext.Diagnostics // in the order of the file
}

// Load understands the text of a config file; its name is how faults call it. It reads
// nothing else, and no text brings it down.
func Load(name string, text []byte) Loaded {
	s := strings.TrimPrefix(string(text), "\ufeff")
	if len(s) > kind.Bytes {
		s = s[:kind.Bytes+1] // enough to be refused
	}
	l := &loader{src: safetext.NewSource(name, s), loaded: Loaded{Settings: Default(), FromFile: map[string]bool{}}}
	for _, n := range l.nodes(s) {
		l.readTop(n)
	}
	l.loaded.Faults.Sort()
	return l.loaded
}

// loader is a file being read.
type loader struct {
	src    *safetext.Source
	loaded Loaded
}

func (l *loader) fault(at file.Range, hint, format string, args ...any) {
	if len(l.loaded.Faults) < maxFaults {
		l.loaded.Faults = append(l.loaded.Faults, l.src.At(at.Start, at.End, safetext.Error, fmt.Sprintf(format, args...), hint))
	}
}

// nodes are the keys of the file. A line that is no TOML is told and left out, so that one
// slip of the pen does not cost all the rest.
func (l *loader) nodes(text string) []file.Node {
	for range maxFaults {
		nodes, f := kind.Nodes(text)
		if f == nil {
			return nodes
		}
		l.fault(f.At, f.Hint, "%s", f.Msg)
		rest := without(text, f.At.Start)
		if rest == text || len(text) > kind.Bytes {
			return nil
		}
		text = rest
	}
	return nil
}

// without is a text with blanks in place of the line that a byte stands in; all else stays
// where it is. With a header goes all that belongs to it.
func without(text string, at int) string {
	start := 1 + strings.LastIndexByte(text[:at], '\n')
	end := len(text)
	if n := strings.IndexByte(text[at:], '\n'); n >= 0 {
		end = at + n
	}
	if strings.HasPrefix(strings.TrimLeft(text[start:end], " \t"), "[") {
		if n := strings.Index(text[end:], "\n["); n >= 0 {
			end += n
		} else {
			end = len(text)
		}
	}
	blanks := []byte(text[start:end])
	for i, c := range blanks {
		if c != '\n' {
			blanks[i] = ' '
		}
	}
	return text[:start] + string(blanks) + text[end:]
}

// readTop reads one key at the top of the file, or one of its tables.
func (l *loader) readTop(n file.Node) {
	if n.Key == "config" {
		l.readVersion(n)
		return
	}
	if x, ok := settingNamed(n.Key); ok {
		l.readSetting(n, x)
		return
	}
	for _, sc := range l.loaded.Settings.screens() {
		if sc.table == n.Key {
			l.readKeys(n, sc)
			return
		}
	}
	l.unknown(n)
}

func (l *loader) readVersion(n file.Node) {
	if n.Value != int64(version) {
		l.fault(n.Stands, "write config = 1, or look for a newer version of this program", "this program reads config = %d and no other", version)
	}
}

func (l *loader) readSetting(n file.Node, x setting) {
	value, ok := asWritten(n.Value, x.form)
	if !ok {
		l.fault(n.Stands, "write it like "+x.example(), "%s takes %s; this is %s", x.name, x.form, n.Describe())
		return
	}
	if err := l.loaded.Settings.Set(x.name, value); err != nil {
		hint := x.name + " can be " + x.may()
		if near := safetext.Nearest(value, x.choices); near != "" {
			hint = fmt.Sprintf("did you mean %q?", near)
		}
		l.fault(n.Stands, hint, "%v", err)
		return
	}
	l.loaded.FromFile[x.name] = true
}

// asWritten is a value of the file in the words that Set takes, if it has that form.
func asWritten(v any, f form) (string, bool) {
	ok := false
	switch v.(type) {
	case string:
		ok = f == words
	case bool:
		ok = f == yesNo
	case int64:
		ok = f == number
	}
	return fmt.Sprint(v), ok
}

// hint is what a name that is none may have been meant for.
func (l *loader) hint(name string, known []string) string {
	hint := l.home(name)
	if near := safetext.Nearest(name, known); hint == "" && near != "" {
		hint = "did you mean " + near + "?"
	}
	return cmp.Or(hint, "bypeg config lists all names")
}

func (l *loader) unknown(n file.Node) {
	known := []string{"config"}
	for _, x := range settings {
		known = append(known, x.name)
	}
	for _, sc := range l.loaded.Settings.screens() {
		known = append(known, sc.table)
	}
	l.fault(n.KeyAt, l.hint(n.Key, known), "there is no setting %s", quote(n.Key))
}
