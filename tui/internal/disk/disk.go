package disk

import (
	"io"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"syscall"
	"time"

	"bypeg/tui/save"
)

// Disk is a file system in memory. It is a save.FS.
type Disk struct {
	// Before is asked ahead of each call, which it may make fail. It may look at the
	// disk by Clone, Images and ReadFile, but not through the calls of save.FS.
	Before func(Op) *Fault

	mu    sync.Mutex
	nodes []node // the first is the root folder; none is ever taken out
	calls int
	locks map[string]bool
}

var _ save.FS = (*Disk)(nil)

// node is a file or a folder.
type node struct {
	folder bool
	names  []entry // of a folder, as programs see it, sorted
	kept   []entry // as it is on disk
	moves  []move  // what has changed from kept to names, oldest first

	data  []byte // of a file, as programs see it
	parts []part // data in stretches, none of them empty
}

// entry is a name in a folder.
type entry struct {
	name string
	node int
}

// move is a change of names in a folder: from is taken away, then to is set. Either
// may be "".
type move struct {
	from, to string
	node     int
}

// part is a stretch of a file that shares one fate.
type part struct {
	size int
	fate fate
}

// fate is how sure it is that bytes are on disk.
type fate uint8

const (
	sure    fate = iota // on disk
	pending             // the next Sync brings them there
	adrift              // a Sync failed: no other brings them there
)

// New is an empty disk.
func New() *Disk {
	return &Disk{nodes: []node{{folder: true}}, locks: map[string]bool{}}
}

// Clone is a disk of its own in the same state, without locks and without Before: as
// another process finds it once the first has been killed.
func (d *Disk) Clone() *Disk {
	d.mu.Lock()
	defer d.mu.Unlock()
	c := &Disk{nodes: slices.Clone(d.nodes), locks: map[string]bool{}}
	for i := range c.nodes {
		n := &c.nodes[i]
		n.moves, n.data, n.parts = slices.Clip(n.moves), slices.Clip(n.data), slices.Clone(n.parts)
	}
	return c
}

// ReadFile is a file as programs see it. It is no call: Before does not hear of it.
func (d *Disk) ReadFile(path string) ([]byte, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	at, err := d.walk(path)
	if err != nil {
		return nil, &fs.PathError{Op: "read", Path: path, Err: err}
	}
	return slices.Clone(d.nodes[at].data), nil
}

// WriteFile puts a file on the disk, safely, as if it had always been there. Its
// folder must be there. It is no call, and the file is a new one each time.
func (d *Disk) WriteFile(path string, data []byte) {
	d.mu.Lock()
	defer d.mu.Unlock()
	folder, err := d.walk(filepath.Dir(path))
	if err != nil {
		panic(err)
	}
	at := d.add(node{data: slices.Clone(data)})
	d.nodes[at].grow(len(data), sure)
	m := move{to: filepath.Base(path), node: at}
	f := &d.nodes[folder]
	f.names, f.kept = m.apply(f.names), m.apply(f.kept)
}

// Calls is how many calls there have been.
func (d *Disk) Calls() int {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.calls
}

func (d *Disk) add(n node) int {
	d.nodes = append(d.nodes, n)
	return len(d.nodes) - 1
}

// walk finds the node of a path.
func (d *Disk) walk(path string) (int, error) {
	at := 0
	for name := range strings.FieldsFuncSeq(path, func(r rune) bool { return r == filepath.Separator }) {
		if !d.nodes[at].folder {
			return 0, syscall.ENOTDIR
		}
		next, ok := find(d.nodes[at].names, name)
		if !ok {
			return 0, fs.ErrNotExist
		}
		at = next
	}
	return at, nil
}

// parent finds the folder of a path.
func (d *Disk) parent(path string) (folder *node, name string, err error) {
	at, err := d.walk(filepath.Dir(path))
	if err != nil {
		return nil, "", err
	}
	if !d.nodes[at].folder {
		return nil, "", syscall.ENOTDIR
	}
	return &d.nodes[at], filepath.Base(path), nil
}

// change makes a change of names that is not on disk yet.
func (n *node) change(m move) {
	n.names = m.apply(n.names)
	n.moves = append(n.moves, m)
}

// grow adds bytes that are already in data to the parts.
func (n *node) grow(size int, f fate) {
	if size == 0 {
		return
	}
	if last := len(n.parts) - 1; last >= 0 && n.parts[last].fate == f {
		n.parts[last].size += size
		return
	}
	n.parts = append(n.parts, part{size, f})
}

// settle gives the bytes that are pending another fate.
func (n *node) settle(f fate) {
	parts := n.parts
	n.parts = make([]part, 0, len(parts))
	for _, p := range parts {
		if p.fate == pending {
			p.fate = f
		}
		n.grow(p.size, p.fate)
	}
}

// apply gives the names after the move, in memory of their own.
func (m move) apply(names []entry) []entry {
	names = slices.Clone(names)
	if m.from != "" {
		if at, ok := search(names, m.from); ok {
			names = slices.Delete(names, at, at+1)
		}
	}
	if m.to != "" {
		at, ok := search(names, m.to)
		if ok {
			names[at].node = m.node
		} else {
			names = slices.Insert(names, at, entry{m.to, m.node})
		}
	}
	return names
}

func search(names []entry, name string) (int, bool) {
	return slices.BinarySearchFunc(names, name, func(e entry, name string) int { return strings.Compare(e.name, name) })
}

func find(names []entry, name string) (int, bool) {
	at, ok := search(names, name)
	if !ok {
		return 0, false
	}
	return names[at].node, true
}

// info is what Stat tells.
type info struct {
	name   string
	node   int
	size   int
	folder bool
}

func (i info) Name() string { return i.name }
func (i info) Size() int64  { return int64(i.size) }
func (i info) IsDir() bool  { return i.folder }
func (i info) Sys() any     { return nil }

// ModTime goes with the size: a file here changes by growing only.
func (i info) ModTime() time.Time { return time.Unix(int64(i.size), 0) }

func (i info) Mode() fs.FileMode {
	if i.folder {
		return fs.ModeDir | 0o700
	}
	return 0o600
}

// unlock lets go of a lock.
type unlock struct {
	d    *Disk
	path string
}

func (u unlock) Close() error {
	u.d.mu.Lock()
	defer u.d.mu.Unlock()
	delete(u.d.locks, u.path)
	return nil
}

var _ io.Closer = unlock{}
