package try

import (
	"embed"
	"fmt"
	"strings"

	"boothmock/internal/handout/page"
)

//go:embed parts styles scripts
var files embed.FS

// The order of styles and scripts in the page, after those of the walk and the channel.
var (
	styleNames  = []string{"sheets"}
	scriptNames = []string{"words", "hold", "walls", "plan", "card", "told", "add", "variants", "desk"}
)

func joined(folder, end string, names []string) string {
	var b strings.Builder
	for _, n := range names {
		b.WriteString(read(folder + "/" + n + end))
	}
	return b.String()
}

func read(name string) string {
	text, err := files.ReadFile(name)
	if err != nil {
		panic(err) // the file is inside the program
	}
	return string(text)
}

// Page is what of the page is not the same wherever the program is.
type Page struct {
	Channel string // the script that reaches the program
	Script  string // one more, after all others
	Style   string
	Link    string // HTML of one more part of the page, and of the link to it
	Part    string
	Foot    string // HTML before the script
	// Head is more HTML of its head, such as a policy by the hashes of script and style; nil: whoever sends the page states one.
	Head func(script, style string) string
}

// Document is the page, and the hashes of its script and style.
func (p Page) Document() (html, script, style string) {
	style = page.WalkStyle + joined("styles", ".css", styleNames) + p.Style
	script = "'use strict';\n(() => {\n" + read("scripts/first.js") + page.WalkScript + p.Channel + joined("scripts", ".js", scriptNames) + p.Script + "})();\n"
	head := ""
	if p.Head != nil {
		head = p.Head(page.Hashed(script), page.Hashed(style))
	}
	html = strings.NewReplacer("{{head}}", head, "{{style}}", style, "{{script}}", script, "{{moves}}", page.WalkMoves,
		"{{link}}", p.Link, "{{part}}", p.Part, "{{foot}}", p.Foot).Replace(read("parts/page.html"))
	return html, page.Hashed(script), page.Hashed(style)
}

// document is the page that the server sends, and policy says that only its own script and styles run, and that it speaks with
// nobody else.
var document, policy = func() ([]byte, string) {
	html, script, style := Page{Channel: read("scripts/channel.js")}.Document()
	return []byte(html), fmt.Sprintf("default-src 'none'; script-src %s; style-src %s; img-src 'self' blob:; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'", script, style)
}()
