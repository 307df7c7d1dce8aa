//go:build !linux

package save

// inMemoryOnly cannot be told here; the time that a sync takes tells it later.
func inMemoryOnly(string) bool { return false }
