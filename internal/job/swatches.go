package job

import (
	"image"

	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/kinds"
	"boothmock/internal/view/drawing"
)

// Swatches is a page of the trade's colours with their names.
func Swatches() *image.NRGBA {
	var list []drawing.Swatch
	for _, c := range kinds.TradeColours {
		list = append(list, drawing.Swatch{Name: c.Name, Colour: booth.Colour(c.Colour)})
	}
	return drawing.Swatches(list, drawing.Options{})
}
