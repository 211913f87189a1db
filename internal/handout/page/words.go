package page

import (
	"encoding/base64"
	"fmt"
	"html/template"
	"math"
	"path/filepath"
	"strings"

	"boothmock/internal/basis/unit"
)

// words are the functions of the templates.
var words = template.FuncMap{
	"sentence": sentence,
	"capital":  unit.Capital,
	"src":      func(file []byte) template.HTMLAttr { return jpeg("src", file) },
	"href":     func(file []byte) template.HTMLAttr { return jpeg("href", file) },
	"plus":     func(a, b float64) float64 { return tenth(a + b) },
	"times":    func(a, b float64) float64 { return tenth(a * b) },
	"title":    viewTitle,
	"join":     func(s []string) string { return strings.Join(s, ", ") },
	"whole":    unit.Unbroken,
	"numbers":  func(n []int) string { return strings.Trim(fmt.Sprint(n), "[]") },
	"file":     filepath.Base,
	"tick":     func(kind string, a ...any) string { return kind + ":" + strings.TrimSpace(fmt.Sprintln(a...)) },
}

// jpeg is an attribute whose address holds a picture. It is whole, so that no sign of it is escaped: that took 3 % of a page.
func jpeg(attribute string, file []byte) template.HTMLAttr {
	return template.HTMLAttr(attribute + `="data:image/jpeg;base64,` + base64.StdEncoding.EncodeToString(file) + `"`)
}

// sentence makes the first letter large and ends with a full stop.
func sentence(s string) string {
	if s == "" || strings.ContainsAny(s[len(s)-1:], ".!?") {
		return unit.Capital(s)
	}
	return unit.Capital(s) + "."
}

// viewTitle is a view's name as a heading.
func viewTitle(name string) string { return unit.Capital(strings.ReplaceAll(name, "-", " ")) }

// tenth rounds to a tenth: for centimetres in drawings, whose numbers then stay short.
func tenth(x float64) float64 { return math.Round(x*10)/10 + 0 }

// milli rounds to a thousandth.
func milli(x float64) float64 { return math.Round(x*1000)/1000 + 0 }
