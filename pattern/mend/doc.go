// Package mend says how a piece in danger is put right, and how it is begun and ended peg
// by peg: a column let down and formed again, rows taken back, which repair costs least,
// where the fabric differs from the pattern, both borders, the cast-on, the bind-off, and
// what is done off the loom.
//
// Nothing here changes a piece. Every answer is a list of steps that are plain values, with
// the words for each apart, so that a printed page, a screen that goes step by step and a
// program read the same. All rests on one law of the loom: the right side faces the worker
// on every row, so what is formed again is formed as it looks, whichever way its row ran.
package mend

// Steps are what is done one after another. Words says one of them, counted from 0, in a
// line of plain text.
type Steps interface {
	Len() int
	Words(i int) string
}
