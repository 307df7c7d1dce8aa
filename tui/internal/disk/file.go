package disk

import (
	"io"
	"io/fs"

	"bypeg/tui/save"
)

// file is an open file.
type file struct {
	d    *Disk
	path string
	node int
	at   int64 // of Read
}

var _ save.File = (*file)(nil)

func (f *file) Read(b []byte) (n int, err error) {
	n, err = f.ReadAt(b, f.at)
	f.at += int64(n)
	if n > 0 {
		err = nil
	}
	return n, err
}

func (f *file) ReadAt(b []byte, off int64) (n int, err error) {
	if fault := f.d.before(Read, f.path, 0); fault != nil {
		return 0, &fs.PathError{Op: "read", Path: f.path, Err: fault.Err}
	}
	f.d.mu.Lock()
	defer f.d.mu.Unlock()
	data := f.d.nodes[f.node].data
	if off < int64(len(data)) {
		n = copy(b, data[off:])
	}
	if n < len(b) {
		return n, io.EOF
	}
	return n, nil
}

func (f *file) Write(b []byte) (int, error) {
	taken, said := len(b), len(b)
	var err error
	if fault := f.d.before(Write, f.path, len(b)); fault != nil {
		taken, said = min(fault.Taken, len(b)), min(fault.Said, len(b))
		if fault.Err != nil {
			err = &fs.PathError{Op: "write", Path: f.path, Err: fault.Err}
		}
	}
	f.d.mu.Lock()
	defer f.d.mu.Unlock()
	n := &f.d.nodes[f.node]
	n.data = append(n.data, b[:taken]...)
	n.grow(taken, pending)
	return said, err
}

func (f *file) Sync() error {
	fault := f.d.before(Sync, f.path, 0)
	f.d.mu.Lock()
	defer f.d.mu.Unlock()
	n := &f.d.nodes[f.node]
	if fault != nil {
		n.settle(adrift)
		return &fs.PathError{Op: "sync", Path: f.path, Err: fault.Err}
	}
	n.settle(sure)
	return nil
}

func (f *file) Close() error {
	return f.d.call(Close, f.path, func() error { return nil })
}

func (f *file) Stat() (i fs.FileInfo, err error) {
	err = f.d.call(FStat, f.path, func() error {
		i = f.d.info(f.path, f.node)
		return nil
	})
	return i, err
}
