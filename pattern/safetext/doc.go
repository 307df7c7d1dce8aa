// Package safetext makes foreign text safe for a terminal, measures it in cells, and
// points at places in it.
//
// Foreign is all that this program did not write itself: pattern files, file names,
// notes, messages of the system that quote them. It is cleaned once, when it is
// loaded, and never parsed for escape sequences: a filter that follows a terminal's
// grammar can be led astray, one that lets no control character through cannot.
//
// The package is no layout engine and knows nothing of colours or of pattern files.
// It holds the one ruler of the program: no other width of text is right.
package safetext
