package hang

import (
	"boothmock/internal/booth"
	"boothmock/internal/unit"
)

// Piece is a work on the stock list.
type Piece struct {
	ID      booth.ID   `json:"id"`
	Title   string     `json:"title"`
	Size    string     `json:"size"` // height x width, as catalogues write it
	Medium  string     `json:"medium"`
	Edition string     `json:"edition"`
	Price   unit.Money `json:"price_hundredths"` // 0: not stated
	Amount  string     `json:"price"`            // as people write it; empty if not stated
	Where   string     `json:"where"`
}

// stock is every work in the order of the scene.
func stock(p *booth.Plan) []Piece {
	out := []Piece{}
	for i := range p.Parts {
		part := &p.Parts[i]
		w := part.Work
		if w == nil {
			continue
		}
		s := Piece{
			ID: part.ID, Title: w.Title, Medium: w.Medium, Edition: w.Edition, Price: w.Price,
			Size: w.Size(p.Units),
		}
		if w.Price != 0 {
			s.Amount = w.Price.Format(p.Currency)
		}
		if on := p.Part(part.Parent); on != nil {
			s.Where = on.Name
		}
		out = append(out, s)
	}
	return out
}
