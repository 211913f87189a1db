package job

import (
	"image"
	"io"

	"boothmock/internal/plan/booth"
	"boothmock/internal/view/film"
)

func (m *Mockup) walkIn() []*image.NRGBA {
	return film.Shoot(m.Stage(), film.Walk(m.Plan, m.Checks().Way), func(v booth.View) [3]float32 { return m.brighter(v, booth.Eye{}) })
}

// WriteGIF writes the walk into the booth for mail programs.
func WriteGIF(m *Mockup, w io.Writer) error { return film.WriteGIF(w, m.Film()) }

// WriteWebP writes the walk into the booth for messages and browsers.
func WriteWebP(m *Mockup, w io.Writer) error { return film.WriteWebP(w, m.Film()) }
