package order

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"unicode/utf8"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
)

// TimesLog is the log of practice runs: what steps really took.
type TimesLog []Took

// Took is one step of one practice run.
type Took struct {
	Run     int // 1 for the first practice
	Step    booth.ID
	Minutes float64
}

// mostFaults is how many faults of a log are told: enough for anybody to mend at a time.
const mostFaults = 100

// mostRuns is the highest number of a practice: more than anybody sets up.
const mostRuns = 10_000

var logHead = []string{"practice", "step", "minutes"}

// ReadTimes reads a log. The error is a fault.List with what is wrong, at its place in the file of that name.
func ReadTimes(text []byte, file string) (TimesLog, error) {
	text = bytes.TrimPrefix(text, []byte("\ufeff"))
	lines := bytes.Split(text, []byte("\n"))
	r := csv.NewReader(bytes.NewReader(text))
	r.FieldsPerRecord = -1
	var out TimesLog
	var faults fault.List
	wrong := func(line, col int, format string, args ...any) { // col in bytes
		at := lines[line-1]
		at = at[:min(max(col-1, 0), len(at))]
		faults.Add(fault.Place{File: file, Line: line, Col: utf8.RuneCount(at) + 1}, "mend the line, or move the file away and go on without it; it is left as it is", format, args...)
	}
	for first := true; len(faults) < mostFaults; first = false {
		row, err := r.Read()
		if err == io.EOF {
			break
		}
		var e *csv.ParseError
		if errors.As(err, &e) {
			wrong(e.Line, e.Column, "this is not a log of practice times: %s", e.Err)
			break
		}
		line, col := r.FieldPos(0)
		if first {
			if !slices.Equal(row, logHead) {
				wrong(line, col, "this is not a log of practice times: it should begin with practice,step,minutes")
				break
			}
			continue
		}
		if len(row) != len(logHead) {
			wrong(line, col, "want three values, a practice, a step and minutes, and there are %d", len(row))
			continue
		}
		run, err1 := strconv.Atoi(row[0])
		m, err2 := strconv.ParseFloat(row[2], 64)
		good := []bool{err1 == nil && run >= 1 && run <= mostRuns, row[1] != "", err2 == nil && m > 0 && m <= 24*60}
		if i := slices.Index(good, false); i >= 0 {
			line, col := r.FieldPos(i)
			wrong(line, col, "%s is no %s", unit.Quote(row[i]), []string{"number of a practice from 1 to 10000", "step", "time in minutes, up to a day"}[i])
			continue
		}
		out = append(out, Took{run, booth.ID(row[1]), m})
	}
	if len(faults) == 0 && len(out) == 0 && len(text) == 0 {
		wrong(1, 1, "the log is empty")
	}
	if err := faults.Err(); err != nil {
		return nil, err
	}
	return out, nil
}

// With is the log with the practices of another one after its own. A practice that it holds already, as of a message that is
// read in twice, is left out.
func (l TimesLog) With(more TimesLog) TimesLog {
	out, had, next := slices.Clip(l), l.practices(), l.Runs()+1
	for _, p := range more.practices() {
		if slices.ContainsFunc(had, p.same) {
			continue
		}
		for _, t := range p {
			out = append(out, Took{next, t.Step, t.Minutes})
		}
		next++
	}
	return out
}

// practices are the log's runs, one after the other.
func (l TimesLog) practices() (out []TimesLog) {
	rows := slices.Clone(l)
	slices.SortStableFunc(rows, func(a, b Took) int { return a.Run - b.Run })
	for i, t := range rows {
		if i == 0 || t.Run != rows[i-1].Run {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], t)
	}
	return out
}

// same says whether two practices measured the same, whatever their numbers are.
func (l TimesLog) same(other TimesLog) bool {
	return len(l) == len(other) && !slices.ContainsFunc(l, func(t Took) bool {
		return !slices.ContainsFunc(other, func(o Took) bool { return o.Step == t.Step && o.Minutes == t.Minutes })
	})
}

// Write writes the log so that ReadTimes reads it.
func (l TimesLog) Write(w io.Writer) error {
	c := csv.NewWriter(w)
	c.Write(logHead)
	for _, t := range l {
		c.Write([]string{strconv.Itoa(t.Run), string(t.Step), strconv.FormatFloat(t.Minutes, 'f', -1, 64)})
	}
	c.Flush()
	return c.Error()
}

// Runs is how many practice runs the log holds.
func (l TimesLog) Runs() int {
	n := 0
	for _, t := range l {
		n = max(n, t.Run)
	}
	return n
}

// of is the mean of what a step took and its variance, and how often it was measured.
func (l TimesLog) of(step booth.ID) (mean, variance float64, n int) {
	for _, t := range l {
		if t.Step == step {
			mean, n = mean+t.Minutes, n+1
		}
	}
	if n == 0 {
		return 0, 0, 0
	}
	mean /= float64(n)
	for _, t := range l {
		if t.Step == step {
			variance += float64((t.Minutes - mean) * (t.Minutes - mean))
		}
	}
	if n > 1 {
		return mean, variance / float64(n-1), n
	}
	return mean, math.Pow(unsure*mean/2, 2), n // measured once: half as unsure as a guess
}

// Learnt is what practice says about a step.
type Learnt struct {
	Step    booth.ID `json:"step"`
	Name    string   `json:"name"`
	Planned int      `json:"planned_minutes"`
	Took    float64  `json:"took_minutes"` // on the mean
	Times   int      `json:"times"`
}

// Say is it in words.
func (l Learnt) Say() string {
	often := "once"
	if l.Times > 1 {
		often = fmt.Sprintf("on the mean of %d runs", l.Times)
	}
	return fmt.Sprintf("%s: took %s min %s, planned %d", l.Step, strconv.FormatFloat(math.Round(l.Took*10)/10, 'f', -1, 64), often, l.Planned)
}
