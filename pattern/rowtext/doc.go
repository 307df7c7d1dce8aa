// Package rowtext reads written rows ("k3, *p2, k2; rep from * to last 3, k3") into
// runs of equal stitches, one row alone or a whole text of them, and writes runs as
// text.
//
// A text is read in these steps: it is cut into statements (layout.go) by what they
// begin with, a header (header.go, everyrow.go, beside.go, numbers.go), a repeat of rows (refs.go,
// until.go), a declaration or a directive (declare.go, named.go); lines without a header
// are joined to the row above or are rows themselves (join.go); every row gets its
// number and where its instructions stand, in the text or in another row (numbering.go,
// again.go, declared.go, content.go); and the rows are laid one on the other, each on
// the loops that the one below leaves (flow.go, read.go).
//
// A row is read in five steps: the lexer cuts the text into tokens (lex.go, words.go),
// the parser makes a small tree whose nodes know where they stand in the text (ast.go,
// parse.go; stitches and counts in item.go, stitchname.go, cross.go, phrase.go; brackets,
// stars and repeats without a star in bracket.go, repeat.go, starless.go; pegs by number
// and "knit the knits" in pegs.go, echo.go), the checker computes widths and solves the
// one open part (width.go, solve.go, misfit.go), and only a row that fits is expanded
// (expand.go); body.go holds it together. Errors carry byte offsets and say what would
// fit (error.go).
//
// The other way round, a row is told at its shortest (shorten.go, refrain.go, repeats.go)
// in the words asked for (wording.go, terms.go), and a fabric as a sheet of rows with
// equal ones told once (lines.go, fold.go), for a loom or for needles (swap.go).
//
// Text is in the order of work and stays so: nothing here reverses a row or swaps its
// stitches. It never guesses: a reading that could be another is taken with a warning
// where the count of pegs or common use decides, else refused with the readings named.
// What is no cell of a fabric ("work in garter st for 6 rows") is kept as a directive.
package rowtext
