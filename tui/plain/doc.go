// Package plain talks with a maker line by line: the work screen's twin for screen
// readers, for terminals that only print, for pipes and for scripts. It knows the same
// piece and the same steps; it moves no cursor, needs no colour and writes nothing but
// printable text and newlines.
//
// # How it talks
//
// A line in is a command: a word, or as many of its first letters as no other word has.
// An empty line is the next peg. What comes back begins with a word that says what kind
// of line it is: "saved:" what was done, "turn:", "now:" and "then:" what is to be done.
//
// A step is told only once it is on the disk: the answer to a command waits for the
// writer's word. Where the disk refuses, "NOT SAVED:" says so at once, the work may go
// on, and "saved:" follows when it is. So what was once said to be saved is.
//
// What a command leads to is told when it is new, and not again at every peg: a person
// listens to all of it. The words now and where tell it again in full.
//
// The package opens no files and knows no terminal. It is no parser of patterns: what is
// typed are commands, and the words of notes.
package plain
