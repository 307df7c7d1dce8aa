package file

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"bypeg/pattern/safetext"
)

// Read is the bytes of a pattern file, as Kind.Read tells.
func Read(path string) ([]byte, error) { return patterns.Read(path) }

// Read is the bytes of a file of this kind. What is no ordinary file is refused before it
// is read: a pipe would wait for ever. The error names the path, cleaned, and says
// what to do; errors.Is finds the cause.
func (k Kind) Read(path string) ([]byte, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, unreadable(path, err)
	}
	if err := k.checkOrdinary(path, info); err != nil {
		return nil, err
	}
	f, err := openQuick(path)
	if err != nil {
		return nil, unreadable(path, err)
	}
	defer f.Close()
	if info, err = f.Stat(); err != nil { // it may have been replaced in between
		return nil, unreadable(path, err)
	}
	if err := k.checkOrdinary(path, info); err != nil {
		return nil, err
	}
	text, err := io.ReadAll(io.LimitReader(f, int64(k.Bytes)+1))
	if err != nil {
		return nil, unreadable(path, err)
	}
	if len(text) > k.Bytes {
		return nil, fmt.Errorf("%s is larger than %s: check that it is a %s file", named(path), k.most(), k.Noun)
	}
	return text, nil
}

func (k Kind) checkOrdinary(path string, info fs.FileInfo) error {
	switch {
	case info.IsDir():
		return fmt.Errorf("%s is a folder: name a %s file in it", named(path), k.Noun)
	case !info.Mode().IsRegular():
		return fmt.Errorf("%s is no ordinary file: save the %s as a file and name that", named(path), k.Noun)
	}
	return nil
}

// named is a path as messages show it: cleaned, in quotes, in full.
func named(path string) string { return `"` + safetext.Clean(path) + `"` }

// unreadable keeps the cause and leaves out the path that it quotes uncleaned.
func unreadable(path string, err error) error {
	var pe *fs.PathError
	if errors.As(err, &pe) {
		err = pe.Err
	}
	path = named(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("there is no file %s: check the name and the folder (%w)", path, err)
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("%s may not be read: ask its owner, or copy it to a folder of yours (%w)", path, err)
	}
	return fmt.Errorf("%s could not be read: try again, or copy it to another place (%w)", path, err)
}
