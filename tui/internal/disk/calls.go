package disk

import (
	"io"
	"io/fs"
	"path/filepath"
	"strconv"
	"syscall"

	"bypeg/tui/save"
)

// Call is one of the calls of save.FS and save.File.
type Call uint8

// The calls.
const (
	Mkdir Call = iota
	ReadDir
	Stat
	Open
	Append
	Create
	Rename
	Remove
	SyncDir
	Lock
	Read
	Write
	Close
	Sync
	FStat
)

var callNames = [...]string{
	"mkdir", "readdir", "stat", "open", "append", "create", "rename", "remove",
	"syncdir", "lock", "read", "write", "close", "sync", "fstat",
}

func (c Call) String() string {
	if int(c) >= len(callNames) {
		return "call " + strconv.Itoa(int(c))
	}
	return callNames[c]
}

// Changes tells whether the call can change what a power cut leaves.
func (c Call) Changes() bool {
	switch c {
	case Mkdir, Create, Rename, Remove, SyncDir, Lock, Write, Sync:
		return true
	}
	return false
}

// Op is one call that is about to be made.
type Op struct {
	N     int // counted from 0
	Call  Call
	Path  string
	Bytes int // of a Write
}

func (o Op) String() string {
	return "call " + strconv.Itoa(o.N) + ", " + o.Call.String() + " " + filepath.Base(o.Path)
}

// Fault is how a call goes wrong.
type Fault struct {
	Err   error
	Taken int  // of a Write: bytes that the file takes all the same
	Said  int  // of a Write: bytes that it says it took; without an Err too
	Done  bool // of other calls: it is done, and the error comes all the same
}

// before counts a call and asks how it goes wrong.
func (d *Disk) before(c Call, path string, bytes int) *Fault {
	d.mu.Lock()
	op := Op{N: d.calls, Call: c, Path: path, Bytes: bytes}
	d.calls++
	ask := d.Before
	d.mu.Unlock()
	if ask == nil {
		return nil
	}
	return ask(op)
}

// call makes a call that is one change or one look.
func (d *Disk) call(c Call, path string, do func() error) error {
	fault := d.before(c, path, 0)
	if fault != nil && !fault.Done {
		return &fs.PathError{Op: c.String(), Path: path, Err: fault.Err}
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	err := do()
	if fault != nil {
		err = fault.Err
	}
	if err != nil {
		return &fs.PathError{Op: c.String(), Path: path, Err: err}
	}
	return nil
}

// Mkdir implements save.FS.
func (d *Disk) Mkdir(dir string) error {
	return d.call(Mkdir, dir, func() error { return d.make(dir, node{folder: true}) })
}

// make puts a new file or folder under a name that must be free.
func (d *Disk) make(path string, n node) error {
	folder, name, err := d.parent(path)
	if err != nil {
		return err
	}
	if _, taken := find(folder.names, name); taken {
		return fs.ErrExist
	}
	folder.change(move{to: name, node: len(d.nodes)})
	d.add(n)
	return nil
}

// ReadDir implements save.FS.
func (d *Disk) ReadDir(dir string) (names []string, err error) {
	err = d.call(ReadDir, dir, func() error {
		at, err := d.walk(dir)
		if err != nil {
			return err
		}
		if !d.nodes[at].folder {
			return syscall.ENOTDIR
		}
		for _, e := range d.nodes[at].names {
			names = append(names, e.name)
		}
		return nil
	})
	return names, err
}

// Stat implements save.FS.
func (d *Disk) Stat(path string) (i fs.FileInfo, err error) {
	err = d.call(Stat, path, func() error {
		at, err := d.walk(path)
		if err == nil {
			i = d.info(path, at)
		}
		return err
	})
	return i, err
}

func (d *Disk) info(path string, at int) info {
	return info{filepath.Base(path), at, len(d.nodes[at].data), d.nodes[at].folder}
}

// SameFile implements save.FS.
func (d *Disk) SameFile(a, b fs.FileInfo) bool {
	i, ok := a.(info)
	j, ok2 := b.(info)
	return ok && ok2 && i.node == j.node
}

// Open implements save.FS.
func (d *Disk) Open(path string) (save.File, error) { return d.handle(Open, path) }

// Append implements save.FS.
func (d *Disk) Append(path string) (save.File, error) { return d.handle(Append, path) }

func (d *Disk) handle(c Call, path string) (save.File, error) {
	f := &file{d: d, path: path}
	err := d.call(c, path, func() (err error) {
		f.node, err = d.walk(path)
		return err
	})
	if err != nil {
		return nil, err
	}
	return f, nil
}

// Create implements save.FS.
func (d *Disk) Create(path string) (save.File, error) {
	f := &file{d: d, path: path}
	err := d.call(Create, path, func() error {
		f.node = len(d.nodes)
		return d.make(path, node{})
	})
	if err != nil {
		return nil, err
	}
	return f, nil
}

// Rename implements save.FS.
func (d *Disk) Rename(from, to string) error {
	return d.call(Rename, from, func() error {
		folder, name, err := d.parent(from)
		if err != nil {
			return err
		}
		at, ok := find(folder.names, name)
		if !ok {
			return fs.ErrNotExist
		}
		folder.change(move{from: name, to: filepath.Base(to), node: at})
		return nil
	})
}

// Remove implements save.FS.
func (d *Disk) Remove(path string) error {
	return d.call(Remove, path, func() error {
		folder, name, err := d.parent(path)
		if err != nil {
			return err
		}
		at, ok := find(folder.names, name)
		switch {
		case !ok:
			return fs.ErrNotExist
		case len(d.nodes[at].names) > 0:
			return syscall.ENOTEMPTY
		}
		folder.change(move{from: name})
		return nil
	})
}

// SyncDir implements save.FS.
func (d *Disk) SyncDir(dir string) error {
	return d.call(SyncDir, dir, func() error {
		at, err := d.walk(dir)
		if err != nil {
			return err
		}
		n := &d.nodes[at]
		n.kept, n.moves = n.names, nil
		return nil
	})
}

// Lock implements save.FS.
func (d *Disk) Lock(path, _ string) (io.Closer, error) {
	err := d.call(Lock, path, func() error {
		if d.locks[path] {
			return &save.HeldError{Holder: "another"}
		}
		if _, err := d.walk(path); err != nil {
			if err := d.make(path, node{}); err != nil {
				return err
			}
		}
		d.locks[path] = true
		return nil
	})
	if err != nil {
		return nil, err
	}
	return unlock{d, path}, nil
}
