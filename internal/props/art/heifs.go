//go:build !js

package art

import (
	"github.com/gen2brain/avif"
	"github.com/gen2brain/heic"
)

var decodeHEIC, decodeAVIF = mended(heic.Decode), mended(avif.Decode)
