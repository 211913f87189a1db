package main

import (
	"fmt"
	"io"
	"strings"
)

// progress is one line that counts the files of a build. It stays silent unless it goes to a terminal.
type progress struct {
	w           io.Writer // nil: silent
	room        int       // characters that the line may have
	done, total int
}

func newProgress(w io.Writer, total int) *progress {
	p := &progress{total: total}
	if c, ok := w.(*console); ok && c.terminal {
		p.w, p.room = c.File, width(c)-1
	}
	return p
}

func (p *progress) step(name string) {
	p.done++
	if p.w == nil {
		return
	}
	const width = 24 // of the bar
	n := width * p.done / p.total
	line := fmt.Sprintf("%d of %d  %s", p.done, p.total, name)
	if p.room >= width+24 {
		line = strings.Repeat("=", n) + strings.Repeat(".", width-n) + " " + line
	}
	if r := []rune(line); len(r) > p.room {
		line = string(r[:p.room])
	}
	fmt.Fprint(p.w, "\r\x1b[K"+line)
}

func (p *progress) clear() {
	if p.w != nil {
		fmt.Fprint(p.w, "\r\x1b[K")
	}
}
