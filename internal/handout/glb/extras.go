package glb

import (
	"fmt"
	"path/filepath"

	"boothmock/internal/basis/fault"
	"boothmock/internal/plan/booth"
)

// What a viewer can show about a node (glTF "extras"). Names end in _m for metres; every other size is as people write it.

type boothExtras struct {
	Event  string `json:"event,omitempty"`
	Artist string `json:"artist,omitempty"`
	Units  string `json:"units"` // of the sizes that are text; the model itself is in metres
}

type partExtras struct {
	Name    string   `json:"name"`
	Kind    string   `json:"kind"`
	At      string   `json:"at,omitempty"` // file:line of the scene
	Title   string   `json:"title,omitempty"`
	Size    string   `json:"size,omitempty"` // height x width, as catalogues write it
	Medium  string   `json:"medium,omitempty"`
	Edition string   `json:"edition,omitempty"`
	Price   string   `json:"price,omitempty"`
	Wall    booth.ID `json:"wall,omitempty"`
	Centre  *float64 `json:"centre_m,omitempty"` // height of the work's middle above the ground
}

type viewExtras struct {
	Doc    string  `json:"doc,omitempty"`
	Eye    string  `json:"eye"` // whose eye it is
	Height float64 `json:"eye_m"`
}

func aboutBooth(p *booth.Plan) boothExtras {
	return boothExtras{p.Event, p.Artist, p.Units.String()}
}

func aboutPart(p *booth.Plan, part *booth.Part) partExtras {
	e := partExtras{Name: part.Name, Kind: part.Kind, At: place(part.At)}
	if w := part.Work; w != nil {
		e.Title, e.Medium, e.Edition = w.Title, w.Medium, w.Edition
		e.Size = w.Size(p.Units)
		if price := w.Itself().Price; price != 0 {
			e.Price = price.Format(p.Currency)
		}
		if h := w.Hung; h != nil {
			c := round(h.Centre())
			e.Wall, e.Centre = h.Wall, &c
		}
	}
	return e
}

func aboutView(v booth.View, e booth.Eye) viewExtras {
	return viewExtras{v.Doc, e.Name, round(v.From(e).Y)}
}

// place is where the scene speaks of something, without the folder: the file goes to other people.
func place(p fault.Place) string {
	if p.File == "" {
		return ""
	}
	s := filepath.Base(p.File)
	if p.Line > 0 {
		s += fmt.Sprintf(":%d", p.Line)
	}
	return s
}
