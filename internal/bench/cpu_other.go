//go:build !unix

package main

import "time"

var begun = time.Now()

// used is the time on the clock, where the processor's is not available.
func used() time.Duration { return time.Since(begun) }
