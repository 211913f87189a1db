// Command bench measures what takes time, all in one go, and compares it with the last recorded run:
//
//	go run ./internal/bench            a table
//	go run ./internal/bench -record    the same, and the figures are kept in testdata/bench.tsv
//	go run ./internal/bench -only film those alone whose name contains it
//
// Machines differ, so a figure is compared as the ratio of its processor time to that of a reference loop, which runs just
// before and after it. Time on the clock is shown too: less where work runs on several processors, more where other
// programs take them. It says what became slower and fails for nothing. Run it from the top of the source.
package main

import (
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"runtime"
	"strconv"
	"strings"
	"time"
)

const file = "testdata/bench.tsv"

func main() {
	record := flag.Bool("record", false, "keep the figures in "+file)
	only := flag.String("only", "", "measure those alone whose name contains it")
	flag.Parse()
	if err := run(os.Stdout, *record, *only); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run(w io.Writer, record bool, only string) error {
	text, err := os.ReadFile(file)
	if err != nil {
		return fmt.Errorf("run it from the top of the source: %w", err)
	}
	last, err := read(string(text))
	if err != nil {
		return err
	}
	fmt.Fprintf(w, "%d processors; the reference loop takes %v\n\n", runtime.GOMAXPROCS(0), quickest(loop).cpu.Round(100*time.Microsecond))
	fmt.Fprintf(w, "%-30s %10s %10s %10s %10s %10s\n", "", "clock", "processor", "ratio", "last", "budget")
	for _, b := range benches() {
		if !strings.Contains(b.name, only) {
			continue
		}
		measure, err := b.ready()
		if err != nil {
			return fmt.Errorf("%s: %w", b.name, err)
		}
		before := quickest(loop)
		took := quickest(measure)
		reference := (before.cpu + quickest(loop).cpu) / 2
		took.clock, took.cpu = took.clock/time.Duration(b.times), took.cpu/time.Duration(b.times)
		was := last[b.name]
		now := figure{took.cpu.Seconds() / reference.Seconds(), was.budget, time.Now().Format(time.DateOnly)}
		fmt.Fprintln(w, row(b.name, took, now, was))
		last[b.name] = now
	}
	if !record {
		return nil
	}
	return os.WriteFile(file, []byte(write(last)), 0o644)
}

// figure is what is known of one benchmark: times as ratios to the reference loop. A budget of 0 is none.
type figure struct {
	ratio, budget float64
	date          string
}

// row is a line of the table.
func row(name string, took span, now, was figure) string {
	number := func(v float64) string {
		if v == 0 {
			return "-"
		}
		return strconv.FormatFloat(v, 'g', 3, 64)
	}
	unit := time.Millisecond
	if took.cpu < time.Millisecond {
		unit = 10 * time.Nanosecond
	}
	line := fmt.Sprintf("%-30s %10v %10v %10s %10s %10s", name, took.clock.Round(unit), took.cpu.Round(unit), number(now.ratio), number(was.ratio), number(was.budget))
	if was.ratio > 0 {
		const noise = 0.25 // two runs of the same program differ by less, where other programs share the processor
		switch change := now.ratio/was.ratio - 1; {
		case change > noise:
			line += fmt.Sprintf("  slower than on %s by %.0f %%", was.date, 100*change)
		case change < -noise:
			line += fmt.Sprintf("  quicker than on %s by %.0f %%", was.date, -100*change)
		}
	}
	if was.budget > 0 && now.ratio > was.budget {
		line += "  over budget"
	}
	return line
}

const head = "# Times as ratios to the reference loop of internal/bench. go run ./internal/bench -record writes ratio and date anew.\n" +
	"# name\tratio\tbudget\tdate\n"

// write is the file's text, in the order of the benchmarks.
func write(figures map[string]figure) string {
	out := head
	for _, b := range benches() {
		f := figures[b.name]
		out += fmt.Sprintf("%s\t%.4g\t%.4g\t%s\n", b.name, f.ratio, f.budget, f.date)
	}
	return out
}

func read(text string) (map[string]figure, error) {
	out := map[string]figure{}
	for n, line := range strings.Split(text, "\n") {
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		cells := strings.Split(line, "\t")
		if len(cells) != 4 {
			return nil, fmt.Errorf("%s:%d: %d columns instead of 4", file, n+1, len(cells))
		}
		var f figure
		var err error
		for i, to := range []*float64{&f.ratio, &f.budget} {
			if *to, err = strconv.ParseFloat(cells[1+i], 64); err != nil {
				return nil, fmt.Errorf("%s:%d: %w", file, n+1, err)
			}
		}
		f.date = cells[3]
		out[cells[0]] = f
	}
	return out, nil
}

// span is what a run takes.
type span struct{ clock, cpu time.Duration }

// quickest is the quickest of several runs, by processor time: what disturbs a run can only make it longer.
func quickest(run func()) span {
	const enough, few = time.Second, 4
	best := span{cpu: math.MaxInt64}
	for n, begun := 0, time.Now(); n < few || time.Since(begun) < enough; n++ {
		at, cpu := time.Now(), used()
		run()
		if s := (span{time.Since(at), used() - cpu}); s.cpu < best.cpu {
			best = s
		}
	}
	return best
}

// loop is the reference: whole numbers, floating point and look-ups in a table that the nearest cache holds, about as our
// own work has them. It must never change, or figures before and after cannot be compared.
func loop() {
	var table [4096]float64
	for i := range table {
		table[i] = math.Sqrt(float64(i))
	}
	x, sum := uint64(88172645463325252), 0.0
	for range 10_000_000 {
		x ^= x << 13
		x ^= x >> 7
		x ^= x << 17
		v := table[x%4096]
		if x&64 != 0 {
			v = -v
		}
		sum = sum*0.999 + v/(1+sum*sum)
	}
	runtime.KeepAlive(sum) // so that it is worked out
}
