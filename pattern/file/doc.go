// Package file reads pattern files: TOML written by hand, or by a stranger.
//
// A file goes through four gates, and whatever is wrong is told with its line, its
// column and what to write instead, all that is wrong at once:
//
//	scan     the text is walked once; it is refused where it could harm the decoder,
//	         and the place of every key and value is noted (guard.go, scan.go,
//	         value.go, quote.go, spot.go)
//	decode   the TOML decoder reads it (load.go)
//	resolve  keys become a plan: words, lengths and rows become numbers and cells,
//	         within the limits of a pattern (table.go, head.go, zone.go, strip.go, fabric.go,
//	         picture.go, motif.go)
//	build    the plan becomes the fabric; what is doubtful in it is told (warn.go)
//
// Other TOML files that people write go through the first two gates, and come back as
// nodes: keys and values, each with its place (kind.go).
//
// A file is changed by giving keys other values, and every other byte stays (rewrite.go,
// rewriteadd.go).
//
// All text of the file is cleaned on its way. The package is the only importer of a
// TOML decoder. Load is pure; Read is the one function here that touches the disk.
package file
