package hang

import (
	"encoding/csv"
	"io"
	"regexp"
	"strconv"
	"strings"

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
	for _, l := range p.Catalogue() {
		s := piece(p, l)
		if on := p.Part(l.On); on != nil {
			s.Where = on.Name
		}
		out = append(out, s)
	}
	return out
}

var editionText = regexp.MustCompile(`^ *(\d{1,5}) */ *(\d{1,5}) *$`)

// left is how many of an edition come after this one, in words; empty where it has no number.
func (p Piece) left() string {
	m := editionText.FindStringSubmatch(p.Edition)
	if m == nil {
		return ""
	}
	number, _ := strconv.Atoi(m[1])
	of, _ := strconv.Atoi(m[2])
	if number > of {
		return ""
	}
	return strconv.Itoa(of - number)
}

// WriteStock writes the stock as CSV, with empty columns for what is noted at the fair. A text that a spreadsheet program would
// take for a formula gets the mark of a text.
func (s Sheet) WriteStock(w io.Writer) error {
	c := csv.NewWriter(w)
	c.Write([]string{"number", "title", "size, height x width", "medium", "year", "edition", "left of the edition", "price", "where", "packed", "sold", "sold to", "deposit"})
	for k, p := range s.Stock {
		sold := ""
		if p.Sold {
			sold = "yes"
		}
		row := []string{strconv.Itoa(k + 1), p.Title, p.Size, p.Medium, p.Year, p.Edition, p.left(), p.Amount, p.Where, "", sold, "", ""}
		for i, text := range row {
			if text != "" && strings.ContainsRune("=+-@\t\r", rune(text[0])) {
				row[i] = "'" + text
			}
		}
		c.Write(row)
	}
	c.Flush()
	return c.Error()
}

// waits is where a work is that hangs nowhere.
const waits = "waiting"

func piece(p *booth.Plan, l booth.Listed) Piece {
	w, where := l.Work, ""
	if l.On == "" {
		where = waits
	}
	said := func(size string) string { return unit.AsIn(p.Currency, size) }
	return Piece{
		ID: l.ID, Where: where, Title: w.Title, Medium: w.Medium, Edition: w.Edition, Year: w.Year, Price: w.Price,
		Size: said(w.Size(p.Units)), Picture: said(w.Sizes(p.Units)[0]), Amount: w.Amount(p.Currency), Sold: w.Sold, Waits: l.On == "",
	}
}
