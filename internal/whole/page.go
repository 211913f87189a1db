// Package whole is one .html file that is the whole program: the page of package try, with the program as WebAssembly in a worker
// in the place of a server. It is opened from a folder, a stick or any address, and asks nobody for anything.
//
// The WebAssembly is made by .ci/release, which builds the programs that carry it with the tag whole; see Carried.
package whole

import (
	"embed"
	"fmt"
	"html"
	"io"
	"strings"

	"boothmock/internal/basis/imprint"
	"boothmock/internal/basis/module"
	"boothmock/internal/try"
)

//go:embed parts scripts/*.js styles
var files embed.FS

func read(name string) string {
	text, err := files.ReadFile(name)
	if err != nil {
		panic(err) // the file is inside the program
	}
	return string(text)
}

// Parts are what the page is made of that is not in the source: made by .ci/release.
type Parts struct {
	Engine []byte // internal/whole/engine as WebAssembly, packed by gzip
	Exec   string // Go's own wasm_exec.js, of the version that built it
	Terms  string // the terms of everything that is inside
}

// Write writes the page.
func Write(w io.Writer, p Parts, version string) error {
	scripts := try.Scripts().With(module.Read("whole", files))
	worker := scripts.Join("whole/scripts/worker.js") + p.Exec
	if strings.Contains(strings.ToLower(worker), "</script") || strings.Contains(worker, "<!--") {
		return fmt.Errorf("the worker's script cannot stand in a page")
	}
	text, _, _ := try.Page{
		Script: scripts.Join("whole/scripts/files.js"),
		Style:  read("styles/take.css"),
		Link:   "<li><a href=\"#take\">Begin, and take along</a></li>\n",
		Part:   strings.NewReplacer("{{version}}", html.EscapeString(version), "{{terms}}", html.EscapeString(p.Terms)).Replace(read("parts/take.html")),
		Foot:   "<script type=\"text/plain\" id=\"worker\">" + worker + "</script>\n<script type=\"text/plain\" id=\"program\">" + packed(p.Engine) + "</script>\n",
		Head: func(script, style string) string {
			return fmt.Sprintf(imprint.HTML+"\n<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; script-src %s 'wasm-unsafe-eval'; style-src %s; img-src blob:; worker-src blob:; base-uri 'none'; form-action 'none'\">\n", script, style)
		},
	}.Document()
	_, err := io.WriteString(w, text)
	return err
}

// packed are bytes as a text that may stand in a script of HTML as UTF-8, seven bits a character, the first in the highest: 16 %
// more than the bytes, where base64 is 33 %. What HTML changes (NUL, CR) or could end at (a ! or / after <) stands 256 further up,
// in two bytes.
func packed(p []byte) string {
	var b strings.Builder
	b.Grow(len(p) * 6 / 5)
	held, bits, before := 0, 0, 0
	add := func(c int) {
		if c == 0 || c == '\r' || before == '<' && (c == '!' || c == '/') {
			c += 256
		}
		b.WriteRune(rune(c))
		before = c
	}
	for _, x := range p {
		held, bits = held<<8|int(x), bits+8
		for bits >= 7 {
			bits -= 7
			add(held >> bits)
			held &= 1<<bits - 1
		}
	}
	if bits > 0 {
		add(held << (7 - bits) & 127)
	}
	return b.String()
}
