// Package term is the terminal that tests look at and type into.
//
// A Screen is an emulated terminal whose cells, cursor and modes can be asked for
// at any time. A Program runs a model in-process between a pipe and a Screen; a
// Session runs a built binary on a pseudo-terminal with a Screen as its emulator.
// All waiting is for a condition on the screen, under a deadline, never for time.
//
// The package is for tests only: no part of the program imports it, and it knows
// nothing of patterns or of the program's screens.
package term
