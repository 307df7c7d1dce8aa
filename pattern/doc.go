// Package pattern is the fabric and the order in which it is worked.
//
// One idea holds it together: a Grid is the finished fabric seen from its right
// side, columns left to right as the eye sees them, row 1 at the bottom. All else
// is derived from it and never stored: peg numbers, the order of work, the runs,
// ridges, and where the yarn should be. The right side of loom knitting faces the
// worker on every row, so a row is worked as it looks, whichever way it runs; the
// worker's hand changes the instructions, never the picture.
//
// The package is pure: it reads no file, no clock and no terminal, and imports the
// standard library only. Pattern files are read by pattern/file, written rows by
// pattern/rowtext.
package pattern
