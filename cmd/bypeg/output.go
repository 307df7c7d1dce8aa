package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"bypeg/pattern/safetext"
	"bypeg/tui/save"
)

// standardOutput is what --output calls the standard output.
const standardOutput = "-"

// namesOutput refuses an --output that names nothing.
func namesOutput(c *cobra.Command, output string) error {
	if c.Flags().Changed("output") && output == "" {
		return usage("write --output mat.toml, or --output - for the standard output", "--output names no file")
	}
	return nil
}

// writeNew writes a file that is not there yet, or over one with force. One that can't be
// written whole is not there afterwards; one that was there before stays as it was.
func writeNew(path, text string, force bool) error {
	err := createNew(path, text)
	if errors.Is(err, fs.ErrExist) {
		if !force {
			return &failure{exitIO, fmt.Errorf("there is a file %q already", safetext.Clean(path)), "name another, or add --force to write over it"}
		}
		err = writeOver(path, text)
	}
	if err == nil {
		return nil
	}
	var pe *fs.PathError
	if errors.As(err, &pe) {
		err = pe.Err
	}
	return &failure{exitIO, fmt.Errorf("could not write %q: %w", safetext.Clean(path), err), ""}
}

func createNew(path, text string) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	if err := fill(f, text); err != nil {
		return errors.Join(err, os.Remove(path))
	}
	return nil
}

// fill writes a file and closes it when its bytes are on disk.
func fill(f *os.File, text string) error {
	_, err := io.WriteString(f, text)
	if err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}

// writeOver puts a new file in the place of one that is there: the new one is whole before
// the old one goes. It keeps the old one's permissions, and follows a link to it.
func writeOver(path, text string) error {
	f, err := os.OpenFile(path, os.O_WRONLY, 0) // one that may not be written is not replaced
	if err != nil {
		return err
	}
	info, err := f.Stat()
	if err == nil && !info.Mode().IsRegular() { // a device or a pipe holds nothing to lose
		_, err = io.WriteString(f, text)
		return errors.Join(err, f.Close())
	}
	if err = errors.Join(err, f.Close()); err != nil {
		return err
	}
	if path, err = filepath.EvalSymlinks(path); err != nil {
		return err
	}
	dir := filepath.Dir(path)
	temp, err := os.CreateTemp(dir, ".bypeg-*")
	if err != nil {
		return err
	}
	var disk save.OS
	err = fill(temp, text)
	if err == nil {
		err = os.Chmod(temp.Name(), info.Mode().Perm())
	}
	if err == nil {
		err = disk.Rename(temp.Name(), path)
	}
	if err != nil {
		return errors.Join(err, os.Remove(temp.Name()))
	}
	return disk.SyncDir(dir)
}
