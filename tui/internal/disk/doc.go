// Package disk is a simulated disk for tests of the store: a file system in memory
// that knows what a power cut would leave of it.
//
// Every change of a file is first in memory only. Sync brings a file's bytes to the
// disk and SyncDir a folder's names; neither brings the other. Images gives every
// disk that a cut could leave at this moment: each name that is not yet on disk there
// or not, independently of the others, and each stretch of bytes lost, kept, torn at
// any byte, or with zeros or junk where bytes should be. A failed Sync is as bad as
// systems make it: the bytes can still be read, they may never reach the disk, and no
// later Sync brings them there.
//
// Before is asked ahead of every call and may make it fail, so that a test can stop,
// cut or disturb the store at each of its calls in turn. It is a model of what POSIX
// promises, not of any one file system, and knows appending only, as the store does.
package disk
