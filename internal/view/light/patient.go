//go:build !js

package light

import "context"

// patient is a context for long work.
func patient(c context.Context) context.Context { return c }
