package hang

import (
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
)

// Piece is a work on the stock list.
type Piece struct {
	ID      booth.ID   `json:"id"`
	Title   string     `json:"title"`
	Size    string     `json:"size"` // height x width, as catalogues write it, and over the frame
	Picture string     `json:"-"`    // the size without the frame
	Medium  string     `json:"medium"`
	Edition string     `json:"edition"`
	Year    string     `json:"year"`
	Price   unit.Money `json:"price_hundredths"` // 0: not stated
	Amount  string     `json:"price"`            // as people write it, or sold, on hold, …; empty if not stated
	Where   string     `json:"where"`
	Sold    bool       `json:"sold"`
	Waits   bool       `json:"waits"` // it hangs nowhere, for the time being
}

// stock is every work in the order of the scene, those that wait last.
func stock(p *booth.Plan) []Piece {
	out := []Piece{}
	for i := range p.Parts {
		part := &p.Parts[i]
		w := part.Work
		if w == nil {
			continue
		}
		s := piece(p, part.ID, w)
		if on := p.Part(part.Parent); on != nil {
			s.Where = on.Name
		}
		out = append(out, s)
	}
	for i := range p.Waiting {
		s := piece(p, p.Waiting[i].ID, &p.Waiting[i].Work)
		s.Where = waits
		out = append(out, s)
	}
	return out
}

// waits is where a work is that hangs nowhere.
const waits = "waiting"

func piece(p *booth.Plan, id booth.ID, w *booth.Work) Piece {
	return Piece{
		ID: id, Title: w.Title, Medium: w.Medium, Edition: w.Edition, Year: w.Year, Price: w.Price,
		Size: w.Size(p.Units), Picture: w.Sizes(p.Units)[0], Amount: w.Amount(p.Currency), Sold: w.Sold, Waits: w.Hung == nil && len(w.Face) == 0,
	}
}
