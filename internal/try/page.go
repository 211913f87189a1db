package try

import (
	"embed"
	"fmt"
	"strings"

	"boothmock/internal/handout/page"
)

//go:embed parts styles scripts
var files embed.FS

// The order of styles and scripts in the page, after those of the walk.
var (
	styleNames  = []string{"sheets"}
	scriptNames = []string{"channel", "words", "hold", "walls", "plan", "card", "told", "add", "variants", "desk"}
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

// document is the page, and policy says that only its own script and styles run, and that it speaks with nobody else.
var document, policy = func() ([]byte, string) {
	style := page.WalkStyle + joined("styles", ".css", styleNames)
	script := "'use strict';\n(() => {\n" + read("scripts/first.js") + page.WalkScript + joined("scripts", ".js", scriptNames) + "})();\n"
	html := strings.NewReplacer("{{style}}", style, "{{script}}", script, "{{moves}}", page.WalkMoves).Replace(read("parts/page.html"))
	return []byte(html), fmt.Sprintf("default-src 'none'; script-src %s; style-src %s; img-src 'self' blob:; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
		page.Hashed(script), page.Hashed(style))
}()
