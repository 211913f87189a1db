package main

import (
	"io"
	"os"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"
	"golang.org/x/term"
)

// width is how many characters a line of the output may have.
func width(w io.Writer) int {
	const usual = 100 // for a pipe, or a very wide terminal: longer lines are hard to read
	if f, ok := w.(*os.File); ok {
		if n, _, err := term.GetSize(int(f.Fd())); err == nil && n > 0 {
			return max(24, min(n, usual))
		}
	}
	return usual
}

// painted gives the text a colour when it goes to a terminal that wants colours (no-color.org).
func painted(w io.Writer, s string, c text.Color) string {
	f, ok := w.(*os.File)
	if !ok || !term.IsTerminal(int(f.Fd())) || os.Getenv("NO_COLOR") != "" || os.Getenv("TERM") == "dumb" {
		return s
	}
	return c.EscapeSeq() + s + text.Reset.EscapeSeq()
}

// newTable is a table without lines, whose columns are two blanks apart.
func newTable(w io.Writer) table.Writer {
	t := table.NewWriter()
	t.SetOutputMirror(w)
	t.SetStyle(table.Style{
		Box:     table.BoxStyle{PaddingRight: "  ", PageSeparator: "\n"},
		Options: table.Options{DoNotColorBordersAndSeparators: true},
	})
	return t
}

// printTable prints rows in columns, the first row as headings; the last column is wrapped to the width that is left.
func printTable(w io.Writer, rows [][]string) {
	t := newTable(w)
	last := len(rows[0]) - 1
	room := width(w)
	for c := range last {
		widest := 0
		for _, r := range rows {
			widest = max(widest, text.StringWidthWithoutEscSequences(r[c]))
		}
		room -= widest + 2
	}
	t.SetColumnConfigs([]table.ColumnConfig{{Number: last + 1, WidthMax: max(20, room-2), WidthMaxEnforcer: text.WrapSoft}})
	for _, r := range rows {
		row := make(table.Row, len(r))
		for i, c := range r {
			row[i] = c
		}
		t.AppendRow(row)
	}
	t.SuppressTrailingSpaces()
	t.Render()
}

// indented wraps a text and sets it in from the left.
func indented(s, margin string) string {
	lines := strings.Split(text.WrapSoft(s, 96-len(margin)), "\n")
	for i, l := range lines {
		lines[i] = margin + strings.TrimRight(l, " ")
	}
	return strings.Join(lines, "\n")
}
