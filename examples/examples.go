// Package examples holds the patterns that ship with the program. They, their names
// and the places they speak of are invented for it.
package examples

import (
	"embed"
	"io/fs"
	"strings"
)

//go:embed *.toml
var files embed.FS

// Names are the names of the examples, sorted: "quay-mat".
func Names() []string {
	entries, err := fs.ReadDir(files, ".")
	if err != nil { // an embedded folder can always be read
		panic(err)
	}
	names := make([]string, len(entries))
	for i, e := range entries {
		names[i] = strings.TrimSuffix(e.Name(), ".toml")
	}
	return names
}

// Text is the pattern file of an example; false where none has that name.
func Text(name string) ([]byte, bool) {
	text, err := files.ReadFile(name + ".toml")
	return text, err == nil
}
