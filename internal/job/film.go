package job

import (
	"image"
	"io"

	"boothmock/internal/check"
	"boothmock/internal/film"
)

// Film is the walk into the booth, picture by picture.
func Film(m *Made) []*image.NRGBA {
	return film.Shoot(m.Stage, film.Walk(m.Plan, check.WayIn(m.Plan)))
}

// WriteFilm writes the walk into the booth as an animated picture.
func WriteFilm(m *Made, w io.Writer) error { return film.Write(w, Film(m)) }
