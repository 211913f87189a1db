// Package page writes a booth as one self-contained .html file, for people who have neither this program nor a network:
// a walk in three dimensions, pictures, the hang sheet, the set-up, lists and findings. It only shows what it is given
// and works nothing out about the booth.
//
// The file asks for nothing: a content security policy forbids every request, and lets run only the scripts and styles
// that it holds, named by their hashes. Without script or WebGL 2 everything but the walk is there all the same.
package page

import (
	"bytes"
	"embed"
	"fmt"
	"html/template"
	"io"
	"strings"
	"sync"

	"boothmock/internal/find/check"
	"boothmock/internal/find/hang"
	"boothmock/internal/find/order"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
	"boothmock/internal/view/picture"
)

// Limit is how many bytes a page may have, so that it can go by mail and message.
const Limit = 6_000_000

// Most is how many bytes a page of hundreds of works may have: a phone still opens it at once, and a messenger still carries it.
const Most = 12_000_000

// Values are what a page is made of. Places and lengths are metres in the booth's own coordinates.
type Values struct {
	Plan   *booth.Plan
	Report finding.Report
	Checks check.Result
	Sheet  hang.Sheet
	Lists  []order.Rehearsal // of steps: first the set-up, then what else is done

	Preview  string                   // name of the picture beside the page that messages show
	Model    []byte                   // the booth as glb.WritePlain writes it; nil for a page without a walk
	Behind   picture.Behind           // what stands behind everything
	Pictures []Picture                // of every view, and drawings
	Day      Day                      // the sun hour by hour; without hours it is not shown
	Works    map[booth.ID][]byte      // small JPEGs of the works
	Sales    []Sale                   // what takes the place of each work that hangs when it sells
	Steps    map[order.Which][][]byte // JPEG for each step of a list, nil where there is none
}

// Sale is a work that hangs, and the spares that can take its place when it sells, the best first.
type Sale struct {
	ID    booth.ID `json:"id"`
	Title string   `json:"title"`
	Heirs []Heir   `json:"heirs"`
}

// Heir is a spare, and how it hangs in a place.
type Heir struct {
	ID    booth.ID `json:"id"`
	Title string   `json:"title"`
	How   string   `json:"how"`
}

// Picture is a picture from a view, or a drawing, as JPEG.
type Picture struct {
	Name, Doc string
	View      bool // it is from the view of that name
	JPEG      []byte
}

// Day is a day with the sun, in small pictures.
type Day struct {
	Title string
	Hours []Hour
}

// Hour is the booth at a time of day, and what is to be said of it.
type Hour struct {
	Time, Words string
	JPEG        []byte
}

// Last is the number of the last hour.
func (d Day) Last() int { return len(d.Hours) - 1 }

//go:embed parts styles scripts/*.js
var files embed.FS

// styled are styles one after the other.
func styled(names ...string) string {
	var b strings.Builder
	for _, n := range names {
		text, err := files.ReadFile("styles/" + n + ".css")
		if err != nil {
			panic(err) // the file is inside the program
		}
		b.Write(text)
	}
	return b.String()
}

// Made when a page first is: what makes none starts the sooner.
var (
	style  = sync.OnceValue(func() string { return styled("paper", "walk", "hang", "setup", "print") })
	script = sync.OnceValue(func() string { return Scripts().Join("handout/page/scripts/tabs.js") })
	parts  = sync.OnceValue(func() *template.Template {
		return template.Must(template.New("page.html").Funcs(words).ParseFS(files, "parts/*.html"))
	})
)

// policy is the content security policy: nothing may be fetched, and nothing runs but this script.
func policy() string {
	return fmt.Sprintf("default-src 'none'; script-src %s; style-src %s; img-src data: blob:; base-uri 'none'; form-action 'none'", Hashed(script()), Hashed(style()))
}

// Write writes the page. The same values give the same bytes.
func Write(w io.Writer, v Values) error {
	m := newModel(v)
	var b bytes.Buffer
	if err := parts().Execute(&b, m); err != nil {
		return fmt.Errorf("the page cannot be made: %w", err)
	}
	_, err := b.WriteTo(w)
	return err
}
