package drawing

import (
	"image"
	"image/draw"

	"boothmock/internal/props/lettering"
)

// Cell is a small picture and the words under it.
type Cell struct {
	Picture *image.NRGBA
	Words   string
}

// Contact is a contact sheet: small pictures of one size side by side, three in a row, each with its words under it, below a title.
func Contact(cells []Cell, title string) *image.NRGBA {
	const across, gap, under = 3, 12, 30 // pixels
	if len(cells) == 0 {
		return blank(Options{Width: 64, Height: 64}).NRGBA
	}
	size := cells[0].Picture.Rect.Size()
	rows := (len(cells) + across - 1) / across
	p := blank(Options{Width: across*(size.X+gap) + gap, Height: under + gap + rows*(size.Y+under+gap)})
	p.em = 15
	p.write(lettering.Bold, ink, 1.2, spot{gap, under - 4}, title)
	for i, c := range cells {
		at := image.Pt(gap+i%across*(size.X+gap), under+gap+i/across*(size.Y+under+gap))
		draw.Draw(p, image.Rectangle{at, at.Add(size)}, c.Picture, image.Point{}, draw.Src)
		p.write(lettering.Regular, ink, 1, spot{float64(at.X), float64(at.Y + size.Y + 20)}, c.Words)
	}
	return p.NRGBA
}
