//go:build !js

package try

import (
	"io"

	"github.com/pkg/browser"
)

// Show opens the page in the person's own browser.
func (v *Server) Show() error {
	browser.Stdout, browser.Stderr = io.Discard, io.Discard // what a browser prints is nobody's concern here
	return browser.OpenURL(v.Address)
}
