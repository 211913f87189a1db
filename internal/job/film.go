package job

import (
	"image"
	"io"

	"boothmock/internal/plan/booth"
	"boothmock/internal/view/film"
)

// Film is the walk into the booth, picture by picture.
func Film(m *Mockup) []*image.NRGBA {
	return film.Shoot(m.Stage(), film.Walk(m.Plan, m.Checks().Way), func(v booth.View) [3]float32 { return m.brighter(v, booth.Eye{}) })
}

// WriteFilm writes the walk into the booth as an animated picture.
func WriteFilm(m *Mockup, w io.Writer) error { return film.Write(w, Film(m)) }
