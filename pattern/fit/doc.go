// Package fit answers before a stitch is cast on whether a design will fit: its size,
// and the counts of pegs and rows it can have on another loom, in another gauge or at
// another size.
//
// Numbers go in and numbers come out; what is an estimate is said to be one. The
// arithmetic is the trade's (see the tests for where each fact comes from). The package
// reads no file: it is handed their text.
package fit
