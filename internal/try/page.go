package try

import (
	"embed"
	"fmt"
	"strings"
	"sync"

	"boothmock/internal/basis/module"
	"boothmock/internal/handout/page"
)

//go:embed parts styles scripts/*.js
var files embed.FS

// Scripts are those of the page: startDesk of scripts/desk.js begins it with a channel to the program.
func Scripts() module.Set { return page.Scripts().With(module.Read("try", files)) }

func read(name string) string {
	text, err := files.ReadFile(name)
	if err != nil {
		panic(err) // the file is inside the program
	}
	return string(text)
}

// Page is what of the page is not the same wherever the program is.
type Page struct {
	Script string // with the channel that reaches the program
	Style  string // one more, after all others
	Link   string // HTML of one more part of the page, and of the link to it
	Part   string
	Foot   string // HTML before the script
	// Head is more HTML of its head, such as a policy by the hashes of script and style; nil: whoever sends the page states one.
	Head func(script, style string) string
}

// Document is the page, and the hashes of its script and style.
func (p Page) Document() (html, script, style string) {
	style = page.WalkStyle() + read("styles/sheets.css") + p.Style
	head := ""
	if p.Head != nil {
		head = p.Head(page.Hashed(p.Script), page.Hashed(style))
	}
	html = strings.NewReplacer("{{head}}", head, "{{style}}", style, "{{script}}", p.Script, "{{moves}}", page.WalkMoves(),
		"{{link}}", p.Link, "{{part}}", p.Part, "{{foot}}", p.Foot).Replace(read("parts/page.html"))
	return html, page.Hashed(p.Script), page.Hashed(style)
}

// document is the page that the server sends, and a policy that says that only its own script and styles run, and that it speaks with
// nobody else.
var document = sync.OnceValues(func() (html []byte, policy string) {
	text, script, style := Page{Script: Scripts().Join("try/scripts/channel.js")}.Document()
	return []byte(text), fmt.Sprintf("default-src 'none'; script-src %s; style-src %s; img-src 'self' blob:; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'", script, style)
})
