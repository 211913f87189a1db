package main

import (
	"os"
	"strings"
	"testing"
	"time"
)

func TestFileKeepsFigures(t *testing.T) {
	text, err := os.ReadFile("../../" + file)
	if err != nil {
		t.Fatal(err)
	}
	figures, err := read(string(text))
	if err != nil {
		t.Fatal(err)
	}
	for _, b := range benches() {
		if f := figures[b.name]; f.ratio <= 0 || f.budget <= 0 || f.date == "" {
			t.Errorf("%s: recorded as %+v", b.name, f)
		}
	}
	if len(figures) != len(benches()) {
		t.Errorf("%d figures for %d benchmarks", len(figures), len(benches()))
	}
	if again := write(figures); again != string(text) {
		t.Errorf("written again it is\n%s", again)
	}
	for _, wrong := range []string{"a\t1\t2", "a\t1\tmuch\t2026-01-01"} {
		if _, err := read(wrong); err == nil {
			t.Errorf("%q is read", wrong)
		}
	}
}

func TestRow(t *testing.T) {
	took := span{time.Second, time.Second}
	for _, c := range []struct {
		now, was figure
		want     string
	}{
		{figure{ratio: 10}, figure{}, ""},
		{figure{ratio: 10}, figure{ratio: 9.5, budget: 11}, ""},
		{figure{ratio: 13}, figure{ratio: 10, budget: 20, date: "2026-01-02"}, "slower than on 2026-01-02 by 30 %"},
		{figure{ratio: 7}, figure{ratio: 10, budget: 20, date: "2026-01-02"}, "quicker than on 2026-01-02 by 30 %"},
		{figure{ratio: 20}, figure{ratio: 20, budget: 19}, "over budget"},
	} {
		got := row("x", took, c.now, c.was)
		if !strings.HasSuffix(got, c.want) || c.want == "" && (strings.Contains(got, "than") || strings.Contains(got, "over")) {
			t.Errorf("%v after %v: %q", c.now, c.was, got)
		}
	}
}
