package scenes

import "embed"

// FS holds the demo and the art that it shows: a page goes by post.
//
//go:embed demo.yaml art/alder.jpg art/bunting.jpg art/dahlias.jpg art/heron.jpg art/moths.jpg art/orchard.jpg art/pears.jpg art/quince.jpg art/saltings.jpg art/thistle.jpg art/tideline.jpg art/weir.jpg
var FS embed.FS
