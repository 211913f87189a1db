//go:build race

package main

// The race detector makes light ten times slower.
func init() { raced = true }
