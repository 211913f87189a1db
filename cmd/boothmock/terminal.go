package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"
)

// colourCodes are the orders to a terminal that this program itself gives.
var colourCodes = []string{text.FgRed.EscapeSeq(), text.FgGreen.EscapeSeq(), text.FgYellow.EscapeSeq(), text.FgCyan.EscapeSeq(), text.Reset.EscapeSeq()}

// painted gives the text a colour, one of colourCodes, when it goes to a terminal that wants colours.
func painted(w io.Writer, s string, c text.Color) string {
	if to, ok := w.(*console); !ok || !to.colours {
		return s
	}
	return c.EscapeSeq() + s + text.Reset.EscapeSeq()
}

// shown is a text as it will stand on the terminal, so that columns can be measured.
func shown(w io.Writer, s string) string {
	if c, ok := w.(*console); ok {
		return c.spelt(s)
	}
	return s
}

// printTable prints rows in columns, with headings if there are any; the last column is wrapped to the width that is left.
func printTable(w io.Writer, head []string, rows [][]string) {
	all := rows
	if head != nil {
		all = append([][]string{head}, rows...)
	}
	if len(all) == 0 {
		return
	}
	last := len(all[0]) - 1
	wide := make([]int, last+1)
	for _, r := range all {
		for i, c := range r {
			wide[i] = max(wide[i], text.StringWidthWithoutEscSequences(shown(w, c)))
		}
	}
	room := width(w)
	for i := range last {
		wide[i] = min(wide[i], max(12, width(w)*2/5))
		room -= wide[i] + 2
	}
	if room < min(wide[last], 20) {
		printStacked(w, head, rows)
		return
	}
	wide[last] = max(20, room-2)
	printGrid(w, all, wide)
}

// longWord is how many letters a word has at most that is kept whole in a narrow column.
const longWord = 12

// printColumns prints rows under their headings, each column as wide as its share of the line, if its words let it.
func printColumns(w io.Writer, head []string, rows [][]string, share []float64) {
	total := 0.0
	for _, c := range share {
		total += c
	}
	all := append([][]string{head}, rows...)
	wide, spare := make([]int, len(share)), make([]int, len(share)) // spare: what a column has beyond its longest word
	room := width(w)
	for i, c := range share {
		least := 4
		for _, row := range all {
			for _, word := range strings.Fields(row[i]) {
				if n := text.StringWidth(shown(w, word)); n <= longWord {
					least = max(least, n)
				}
			}
		}
		wide[i] = max(least, int(c/total*float64(width(w)))-2)
		spare[i] = wide[i] - least
		room -= wide[i] + 2
	}
	for ; room < 0; room++ {
		most := slices.Index(spare, slices.Max(spare))
		if spare[most] == 0 || width(w) < 80 {
			printStacked(w, head, rows)
			return
		}
		wide[most], spare[most] = wide[most]-1, spare[most]-1
	}
	printGrid(w, all, wide)
}

// printGrid prints a table without lines, whose columns are at most so wide and two blanks apart.
func printGrid(w io.Writer, rows [][]string, wide []int) {
	t := table.NewWriter()
	t.SetOutputMirror(w)
	t.SetStyle(table.Style{
		Box:     table.BoxStyle{PaddingRight: "  ", PageSeparator: "\n"},
		Options: table.Options{DoNotColorBordersAndSeparators: true},
	})
	var columns []table.ColumnConfig
	for i, n := range wide {
		columns = append(columns, table.ColumnConfig{Number: i + 1, WidthMax: n, WidthMaxEnforcer: text.WrapSoft})
	}
	t.SetColumnConfigs(columns)
	for _, r := range rows {
		row := make(table.Row, len(r))
		for i, c := range r {
			row[i] = shown(w, c)
		}
		t.AppendRow(row)
	}
	t.SuppressTrailingSpaces()
	t.Render()
}

// printStacked prints each row as a paragraph, for a terminal that is too narrow for columns.
func printStacked(w io.Writer, head []string, rows [][]string) {
	if head != nil && head[0] != "" {
		fmt.Fprintln(w, indented(w, head[0]+":", ""))
	}
	for _, r := range rows {
		first := slices.IndexFunc(r, func(c string) bool { return c != "" })
		for i, c := range r {
			switch {
			case i == first:
				fmt.Fprintln(w, indented(w, c, ""))
			case c != "" && head != nil && head[i] != "":
				fmt.Fprintln(w, hanging(w, "  ", head[i]+": "+c))
			case c != "":
				fmt.Fprintln(w, hanging(w, "  ", c))
			}
		}
	}
}

// indented wraps a text and sets it in from the left.
func indented(w io.Writer, s, margin string) string {
	lines := strings.Split(text.WrapSoft(shown(w, s), max(8, min(96, width(w))-len(margin))), "\n")
	for i, l := range lines {
		lines[i] = margin + strings.TrimRight(l, " ")
	}
	return strings.Join(lines, "\n")
}

// hanging is a text after a mark, its further lines set in below its first.
func hanging(w io.Writer, mark, s string) string {
	margin := strings.Repeat(" ", len(mark))
	return mark + strings.TrimPrefix(indented(w, s, margin), margin)
}
