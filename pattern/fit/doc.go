// Package fit answers before a stitch is cast on whether a design will fit: its size, the
// yarn it takes, whether loom and yarn go together, which edges may roll, and the counts of
// pegs and rows it can have on another loom, in another gauge or at another size. While a
// piece is worked it tells how far the yarn that is left still reaches.
//
// Numbers go in and numbers come out; what is an estimate is said to be one. The
// arithmetic is the trade's: testdata/facts.tsv has its facts, each with its source. The
// package reads no file: it is handed their text.
//
// Where to look: gauge.go and size.go (what a stitch and a row measure), yarn.go (the
// geometry of the loop), class.go and loom.go (what is usual), edges.go (the index of
// rolling), left.go (the yarn that is left), count.go (counts without a pattern),
// resize*.go (a design carried over), replan.go (a piece under way).
package fit
