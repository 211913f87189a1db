//go:build race

package light

// The race detector makes light ten times slower: one move is enough for it.
func init() { raced = true }
