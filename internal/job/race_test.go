//go:build race

package job_test

// The race detector makes light ten times slower; what only measures pictures is measured without it.
func init() { raced = true }
