// Package measure is lengths, gauge, and how many rows a height takes.
//
// It is arithmetic only: it knows no pattern, reads no file, and never guesses a unit
// that was left out. What fits whom, how much yarn it takes and which loom is right
// are other packages' business.
package measure
