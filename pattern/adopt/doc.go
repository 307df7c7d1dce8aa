// Package adopt makes a pattern of rows that were written for a loom, for needles or in
// the round.
//
// What a text says is read by rowtext. Here the rows are laid on the fabric: seen from
// behind where needles turned it (side.go), with pegs out of use where the work grows
// narrow (shape.go), as a tube where they were flat and back (edges.go). The fabric is
// then called by its name (fabric.go), cut into zones (zones.go) and written as a
// pattern file (write.go). Nothing is guessed: what can't be told is refused, with the
// place in the text and what to do.
package adopt
