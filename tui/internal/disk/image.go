package disk

import (
	"fmt"
	"iter"
	"math/rand/v2"
	"slices"
)

// # What a power cut leaves
//
// Two things are undecided at any moment: the moves of names that no SyncDir has
// brought to the disk, and the stretches of bytes that no Sync has. Moves are few, so
// that every choice among them is made. Of a stretch a disk may have kept nothing, all,
// or the bytes up to any one; with it the new length of the file may have been kept,
// and zeros or what lay there before stand for the rest; or its later bytes are there
// and its earlier ones are not. Where a later stretch is kept, zeros stand for what is
// lost before it.

// Cut tells what became of the undecided when the power went, for messages.
type Cut struct {
	Moves []bool // of the moves of names, those that are on disk
	Parts []Left // of each undecided stretch
}

// Whole tells whether no stretch of bytes is damaged: each is lost or kept.
func (c Cut) Whole() bool {
	return !slices.ContainsFunc(c.Parts, func(l Left) bool { return l.Kind != Lost && l.Kind != Kept })
}

func (c Cut) String() string { return fmt.Sprintf("names %v, bytes %v", c.Moves, c.Parts) }

// Left is what is left of a stretch of bytes.
type Left struct {
	Kind Remains
	At   int // the byte that divides what is there from what is not
}

func (l Left) String() string { return fmt.Sprintf("%s %d", remains[l.Kind], l.At) }

// Remains is a way in which a stretch of bytes can be left.
type Remains uint8

// The ways.
const (
	Lost   Remains = iota // nothing
	Kept                  // all
	Torn                  // the bytes before At
	Zeroed                // the bytes before At, and zeros for the others
	Holed                 // zeros for the bytes before At, and the others
	Junk                  // the bytes before At, and junk for the others
)

var remains = [...]string{"lost", "kept", "torn at", "zeros from", "zeros up to", "junk from"}

const (
	maxMoves = 6 // of which every choice is made; of more, few choices
	maxParts = 4
)

// Images gives every disk that a power cut could leave now, each once by its choices,
// and made when it is asked for. The disk must not be changed meanwhile.
func (d *Disk) Images() iter.Seq2[Cut, func() *Disk] {
	return func(yield func(Cut, func() *Disk) bool) {
		for moves := range choices(d.undecidedMoves(), maxMoves) {
			named := d.withNames(moves)
			parts := named.undecidedParts()
			for left := range lefts(parts) {
				if !yield(Cut{moves, left}, func() *Disk { return named.withBytes(parts, left) }) {
					return
				}
			}
		}
	}
}

func (d *Disk) undecidedMoves() int {
	n := 0
	for _, node := range d.nodes {
		n += len(node.moves)
	}
	return n
}

// choices gives all ways to choose among n things, or, where they are more than most,
// none, all, each alone, and all but each.
func choices(n, most int) iter.Seq[[]bool] {
	return func(yield func([]bool) bool) {
		if n <= most {
			for bits := range 1 << n {
				chosen := make([]bool, n)
				for i := range chosen {
					chosen[i] = bits>>i&1 == 1
				}
				if !yield(chosen) {
					return
				}
			}
			return
		}
		for _, others := range []bool{false, true} {
			for i := range n + 1 {
				chosen := slices.Repeat([]bool{others}, n)
				if i < n {
					chosen[i] = !others
				}
				if !yield(chosen) {
					return
				}
			}
		}
	}
}

// withNames is the disk with those moves on it, and no others undecided.
func (d *Disk) withNames(chosen []bool) *Disk {
	c := &Disk{nodes: slices.Clone(d.nodes)}
	at := 0
	for i := range c.nodes {
		n := &c.nodes[i]
		names := n.kept
		for _, m := range n.moves {
			if chosen[at] {
				names = m.apply(names)
			}
			at++
		}
		n.names, n.kept, n.moves = names, names, nil
	}
	return c
}

// where is a stretch of bytes: the i-th part of a node.
type where struct{ node, part, size int }

// undecidedParts are the stretches of the files that have a name.
func (d *Disk) undecidedParts() []where {
	var found []where
	var visit func(at int)
	visit = func(at int) {
		for i, p := range d.nodes[at].parts {
			if p.fate != sure {
				found = append(found, where{at, i, p.size})
			}
		}
		for _, e := range d.nodes[at].names {
			visit(e.node)
		}
	}
	visit(0)
	return found
}

// lefts gives what may be left of the stretches: each lost or kept, independently; and
// each one damaged in every way, with the others lost or kept.
func lefts(parts []where) iter.Seq[[]Left] {
	return func(yield func([]Left) bool) {
		whole := func(kept []bool) []Left {
			left := make([]Left, len(kept))
			for i := range kept {
				if kept[i] {
					left[i].Kind = Kept
				}
			}
			return left
		}
		for kept := range choices(len(parts), maxParts) {
			if !yield(whole(kept)) {
				return
			}
			for i, p := range parts {
				if kept[i] {
					continue // that the others are thus comes again with this one lost
				}
				for l := range damages(p.size) {
					left := whole(kept)
					left[i] = l
					if !yield(left) {
						return
					}
				}
			}
		}
	}
}

// damages gives every way in which a stretch of a size may be neither lost nor kept.
func damages(size int) iter.Seq[Left] {
	return func(yield func(Left) bool) {
		for at := range size {
			if at > 0 && (!yield(Left{Torn, at}) || !yield(Left{Holed, at})) {
				return
			}
			if !yield(Left{Zeroed, at}) || !yield(Left{Junk, at}) {
				return
			}
		}
	}
}

// withBytes is the disk with those remains, as a program finds it when the power is
// back.
func (d *Disk) withBytes(parts []where, left []Left) *Disk {
	c := &Disk{nodes: slices.Clone(d.nodes), locks: map[string]bool{}}
	for from := 0; from < len(parts); {
		to := from
		for to < len(parts) && parts[to].node == parts[from].node {
			to++
		}
		n := &c.nodes[parts[from].node]
		n.data = n.remaining(parts[from:to], left[from:to])
		n.parts = nil
		n.grow(len(n.data), sure)
		from = to
	}
	for i := range c.nodes { // the two disks must not write to the same memory
		n := &c.nodes[i]
		n.data, n.parts = slices.Clip(n.data), slices.Clone(n.parts)
	}
	return c
}

// remaining is what a file has when of its undecided parts that much is left.
func (n *node) remaining(parts []where, left []Left) []byte {
	data := make([]byte, 0, len(n.data))
	from, end := 0, 0 // end is behind the last byte that is there
	for i, p := range n.parts {
		whole := n.data[from : from+p.size]
		from += p.size
		l := Left{Kind: Kept}
		if len(parts) > 0 && parts[0].part == i {
			l = left[0]
			parts, left = parts[1:], left[1:]
		}
		bytes, there := l.of(whole)
		data = append(data, bytes...)
		if there > 0 {
			end = from - p.size + there
		}
	}
	return data[:end]
}

// of is what is left of a stretch, filled up with zeros, and how much of it counts.
func (l Left) of(whole []byte) (bytes []byte, there int) {
	bytes = make([]byte, len(whole))
	switch l.Kind {
	case Kept:
		return whole, len(whole)
	case Torn:
		copy(bytes, whole[:l.At])
		return bytes, l.At
	case Zeroed:
		copy(bytes, whole[:l.At])
	case Holed:
		copy(bytes[l.At:], whole[l.At:])
	case Junk:
		copy(bytes, whole[:l.At])
		chance := rand.New(rand.NewPCG(uint64(len(whole)), uint64(l.At)))
		for i := l.At; i < len(bytes); i++ {
			bytes[i] = byte(chance.UintN(256))
		}
	default:
		return bytes, 0
	}
	return bytes, len(whole)
}
