// Package save keeps a piece on disk: which pattern it is made from, where the work
// stands, and every step that led there.
//
// A piece is a folder of its own under a root that the caller names:
//
//	journal-0001.txt        the truth: one line a step, appended, never rewritten
//	place.toml              a second copy of the place, for people and against rot
//	pattern-1a2b3c4d.toml   the pattern text that the piece is being made with
//	lock                    held while the piece is worked, never deleted
//
// A step counts as saved when Append, or an Ack of a Writer, has said so: its line
// has then reached the disk. What has once been shown as saved is there after a kill
// and after a power cut; a test of every such moment goes through FS, the one seam
// to files. The clock and the making of ids come in by Env.
//
// The package knows nothing of pegs, screens or what a pattern means: it takes the
// pattern as bytes, and whoever opens a piece checks that a place fits the pattern.
// It is no store for settings, and it never deletes a piece that has been begun.
package save
