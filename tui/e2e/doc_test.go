// Package e2e_test holds the tests of the whole program from outside: the built
// binary on a pseudo-terminal, seen as a person at the pegs sees it. A test types
// keys, looks at the screen, sends signals, and starts the program again. It calls no
// code of the program's, and touches its files only as a sick disk, another program or
// a person with an editor would. What a single package promises is tested there; here
// stands what only holds when all of them work together.
package e2e_test
