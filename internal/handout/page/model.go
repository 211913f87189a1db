package page

import (
	"bytes"
	"cmp"
	"compress/gzip"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"fmt"
	"html/template"
	"math"
	"net/url"
	"strings"

	"boothmock/internal/basis/unit"
	"boothmock/internal/find/check"
	"boothmock/internal/find/hang"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
	"boothmock/internal/view/picture"
)

// model is what the templates read.
type model struct {
	Values
	Title     string
	Policy    string
	Style     template.CSS
	Script    template.JS
	Model     template.HTML // the .glb, packed (gzip), in base64, which has no character that HTML knows
	Facts     facts
	Walls     []elevation
	StepLists []list // those that have steps
	Found     []found
	Seen      []seenRow
	Way       string // the width of the way in, in words
	Eyes      []eye
}

func newModel(v Values) model {
	v.Preview = url.PathEscape(v.Preview)
	m := model{
		Values: v, Title: v.Plan.Title(), Policy: policy(), Style: template.CSS(style()), Script: template.JS(script()),
		Model: template.HTML(base64.StdEncoding.EncodeToString(packed(v.Model))), Way: v.Checks.WayInWords(v.Plan),
	}
	m.Eyes = newEyes(v.Plan)
	for i, w := range v.Sheet.Walls {
		if len(w.Works) > 0 {
			m.Walls = append(m.Walls, newElevation(v, i, w))
		}
	}
	for _, r := range v.Lists {
		if len(r.Steps) > 0 {
			m.StepLists = append(m.StepLists, m.newList(r))
		}
	}
	for i := range m.Walls {
		m.Walls[i].Steps = m.stepsAt(&m.Walls[i])
	}
	for _, f := range v.Report.Findings {
		m.Found = append(m.Found, found{f, cmp.Or(f.View, "entrance")})
	}
	lines := v.Checks.ByWork()
	m.Seen = newSeen(v, lines)
	m.Facts = newFacts(v, lines, m.Eyes)
	return m
}

// packed is a file as browsers unpack it; nothing if it is empty.
func packed(file []byte) []byte {
	if len(file) == 0 {
		return nil
	}
	var b bytes.Buffer
	w, _ := gzip.NewWriterLevel(&b, gzip.BestCompression)
	w.Write(file) // into memory: nothing fails
	w.Close()
	return b.Bytes()
}

// eye is a visitor to look as.
type eye struct {
	Name   string  `json:"name"`
	Words  string  `json:"-"`
	Height float64 `json:"height"`
}

func newEyes(p *booth.Plan) []eye {
	var out []eye
	for _, e := range p.Eyes {
		out = append(out, eye{e.Name, unit.Length(e.Height).Format(p.Units), milli(e.Height)})
	}
	return out
}

// found is a finding and the view in which it is to be seen.
type found struct {
	finding.Finding
	From string
}

// Word is how grave it is.
func (f found) Word() string {
	return map[finding.Level]string{finding.Fail: "To mend", finding.Caution: "Worth a change", finding.Note: "Good to know"}[f.Level]
}

// seenRow is how much of a work each view shows to the usual visitor.
type seenRow struct {
	Title  string
	Shares []string
}

func newSeen(v Values, lines map[booth.ID][]check.Sightline) []seenRow {
	var out []seenRow
	for _, p := range v.Plan.Parts {
		if p.Work == nil || len(v.Plan.Eyes) == 0 {
			continue
		}
		row := seenRow{Title: p.Work.Title}
		for _, view := range v.Plan.Views {
			share := "–"
			for _, l := range lines[p.ID] {
				if l.From == view.Name && (l.Eye == v.Plan.Eyes[0].Name || view.Height > 0) && l.Turned > 0 {
					share = unit.Share(l.Visible).Whole()
					break
				}
			}
			row.Shares = append(row.Shares, share)
		}
		out = append(out, row)
	}
	return out
}

// facts are what the scripts read.
type facts struct {
	Key    string         `json:"key"` // ticks of another booth are kept apart by it
	Eyes   []eye          `json:"eyes"`
	Views  []viewFact     `json:"views"`
	Behind picture.Behind `json:"behind"`
	Floor  [][][2]float64 `json:"floor"` // outlines, x and z, that nobody can walk through
	Way    [][2]float64   `json:"way"`   // the line of the way in; empty if there is none
	Works  []workFact     `json:"works"`
	Places []Sale         `json:"places"` // of works that hang, and what takes them when these sell
	Bare   []booth.ID     `json:"bare"`   // left out of views for a jury
}

type viewFact struct {
	Name   string     `json:"name"`
	Title  string     `json:"title"`
	Doc    string     `json:"doc"`
	Stand  [2]float64 `json:"stand"`
	Height float64    `json:"height"` // of its own eye; 0: the visitor's
	Look   [3]float64 `json:"look"`
	Half   float64    `json:"half"` // tangent of half the angle across
	Bare   bool       `json:"bare"`
}

type workFact struct {
	ID    booth.ID               `json:"id"`
	Title string                 `json:"title"`
	Lines []string               `json:"lines"` // size, price, where it hangs
	Face  [][3]float64           `json:"face"`
	Hang  string                 `json:"hang"` // anchor of its hooks; empty if it does not hang
	Seen  map[string]sightAnswer `json:"seen"` // by view and eye: "entrance/adult"
}

// sightAnswer is how much of a work is seen from a place, in words.
type sightAnswer struct {
	Share string `json:"share"`
	Why   string `json:"why"`
}

func newFacts(v Values, lines map[booth.ID][]check.Sightline, eyes []eye) facts {
	f := facts{Key: key(v), Eyes: eyes, Behind: v.Behind, Floor: [][][2]float64{}, Way: [][2]float64{}, Works: []workFact{}, Bare: []booth.ID{}, Places: append([]Sale{}, v.Sales...)}
	for _, o := range check.Closed(v.Plan) {
		var out [][2]float64
		for _, p := range o {
			out = append(out, [2]float64{milli(p.X), milli(p.Z)})
		}
		f.Floor = append(f.Floor, out)
	}
	for _, p := range v.Checks.Way {
		f.Way = append(f.Way, [2]float64{milli(p.X), milli(p.Z)})
	}
	for _, w := range v.Plan.Views {
		f.Views = append(f.Views, viewFact{
			w.Name, viewTitle(w.Name), w.Doc, [2]float64{w.Stand.X, w.Stand.Z}, w.Height, [3]float64{w.Look.X, w.Look.Y, w.Look.Z}, math.Tan(w.Across / 2), w.Bare,
		})
	}
	stock := map[booth.ID]hang.Piece{}
	for _, s := range v.Sheet.Stock {
		stock[s.ID] = s
	}
	anchors := map[booth.ID]string{}
	for i, w := range v.Sheet.Walls {
		for k, work := range w.Works {
			anchors[work.ID] = anchor(i, k)
		}
	}
	for i := range v.Plan.Parts {
		p := &v.Plan.Parts[i]
		if p.Dressing {
			f.Bare = append(f.Bare, p.ID)
		}
		if p.Work != nil {
			of := p.ID
			if p.Work.Whole != nil {
				of = p.Work.Whole.ID
			}
			f.Works = append(f.Works, newWork(v, p, stock[of], lines[p.ID], anchors[p.ID]))
		}
	}
	return f
}

func newWork(v Values, p *booth.Part, s hang.Piece, lines []check.Sightline, hang string) workFact {
	w := workFact{ID: p.ID, Title: p.Work.Title, Hang: hang, Lines: []string{}, Face: [][3]float64{}, Seen: map[string]sightAnswer{}}
	for _, line := range []string{unit.Capital(strings.Join(present(s.Medium, s.Edition, s.Size), ", ")), s.Amount, whereabouts(v, p, s), v.ifSold(p.ID)} {
		if line != "" {
			w.Lines = append(w.Lines, line)
		}
	}
	for _, c := range p.Work.Face {
		w.Face = append(w.Face, [3]float64{milli(c.X), milli(c.Y), milli(c.Z)})
	}
	for _, l := range lines {
		a := sightAnswer{Share: unit.Share(l.Visible).Whole()}
		if l.Turned <= 0 {
			a = sightAnswer{"nothing", "It faces away."}
		} else {
			var names []string
			for _, h := range l.HiddenBy {
				if o := v.Plan.Part(h.Item); o != nil && h.Share >= 0.005 {
					names = append(names, o.Name+" hides "+unit.Share(h.Share).Whole())
				}
			}
			if len(names) > 0 {
				a.Why = sentence(strings.Join(names, ", "))
			}
		}
		w.Seen[l.From+"/"+l.Eye] = a
	}
	return w
}

// ifSold is what takes a work's place when it sells, as a sentence; empty if nothing does.
func (v Values) ifSold(id booth.ID) string {
	for _, s := range v.Sales {
		if s.ID == id && len(s.Heirs) > 0 {
			return fmt.Sprintf("If this sells, hang %s: %s", s.Heirs[0].Title, s.Heirs[0].How)
		}
	}
	return ""
}

// whereabouts is where a work hangs or stands.
func whereabouts(v Values, p *booth.Part, s hang.Piece) string {
	if h := p.Work.Hung; h != nil && s.Where != "" {
		return fmt.Sprintf("On %s, its middle %s above the ground", s.Where, v.Plan.Measure(h.Centre()))
	}
	if s.Where != "" {
		return "On " + s.Where
	}
	return ""
}

func present(words ...string) []string {
	var out []string
	for _, w := range words {
		if w != "" {
			out = append(out, w)
		}
	}
	return out
}

// key is a name for the booth as it is: of its file and of everything that the helper may tick.
func key(v Values) string {
	h := sha256.New()
	h.Write(v.Model)
	fmt.Fprintln(h, v.Plan.File, v.Plan.Event, v.Plan.Artist)
	for _, r := range v.Lists {
		for _, s := range r.Steps {
			fmt.Fprintln(h, r.Which, s.ID, s.Start, s.End)
		}
	}
	for _, i := range append(v.Sheet.Kit[:len(v.Sheet.Kit):len(v.Sheet.Kit)], v.Sheet.Hardware...) {
		fmt.Fprintln(h, i.What, i.Need)
	}
	return hex.EncodeToString(h.Sum(nil)[:8])
}
