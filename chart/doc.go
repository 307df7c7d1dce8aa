// Package chart draws the grid of a pattern as lines for a terminal: rows of symbols
// with an overlay of where the work stands, rulers, markers, the whole printed chart
// and its key.
//
// It is pure: an order of work and plain values in, lines out, each of a known width
// in cells. It knows no tracker, no screen and no colours: how a piece is to look is
// told as a Tone, and the caller's Painter decides what that means. It is not for
// other forms of a chart, such as pages to print.
package chart
