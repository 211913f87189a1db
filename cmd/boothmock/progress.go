package main

import (
	"fmt"
	"io"
	"os"
	"strings"

	"golang.org/x/term"
)

// progress is one line that counts the files of a build. It stays silent unless it goes to a terminal.
type progress struct {
	w           io.Writer // nil: silent
	done, total int
}

func newProgress(w io.Writer, total int) *progress {
	p := &progress{total: total}
	if f, ok := w.(*os.File); ok && term.IsTerminal(int(f.Fd())) {
		p.w = w
	}
	return p
}

func (p *progress) step(name string) {
	p.done++
	if p.w == nil {
		return
	}
	const width = 24
	n := width * p.done / p.total
	fmt.Fprintf(p.w, "\r\x1b[K%s%s %d of %d  %s", strings.Repeat("=", n), strings.Repeat(".", width-n), p.done, p.total, name)
}

func (p *progress) clear() {
	if p.w != nil {
		fmt.Fprint(p.w, "\r\x1b[K")
	}
}
