// Package rowtext reads one written row ("k3, *p2, k2; rep from * to last 3, k3")
// into runs of equal stitches, and writes runs as text.
//
// A row is read in five steps, a file each: the lexer cuts the text into tokens
// (lex.go, words.go), the parser makes a small tree whose nodes know where they
// stand in the text (ast.go, parse.go, phrase.go), the checker computes widths and
// solves the one open part (width.go, solve.go, misfit.go), and only a row that fits
// is expanded (expand.go). Errors carry byte offsets and say what would fit
// (error.go).
//
// Text is in the order of work and stays so: nothing here reverses a row, or knows
// which way it runs. The package reads single rows; row numbers, references to other
// rows and files are not its business. It never guesses: a row that can be read in
// two ways is refused with the readings named.
package rowtext
