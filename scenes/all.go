//go:build !js

package scenes

import "embed"

// FS holds every scene of this folder and the art that they show; in a page, the demo's alone.
//
//go:embed *.yaml art/*.jpg
var FS embed.FS
