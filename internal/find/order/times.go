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

var logHead = []string{"practice", "step", "minutes"}

// ReadTimes reads a log. The error is a fault.List with what is wrong, at its place in the file of that name.
func ReadTimes(text []byte, file string) (TimesLog, error) {
	r := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(text, []byte("\ufeff"))))
	r.FieldsPerRecord = -1
	var out TimesLog
	var faults fault.List
	wrong := func(line int, format string, args ...any) {
		faults.Add(fault.Place{File: file, Line: line, Col: 1}, "mend the line, or move the file away to start a new one; it is left as it is", format, args...)
	}
	for first := true; len(faults) < mostFaults; first = false {
		row, err := r.Read()
		if err == io.EOF {
			break
		}
		var e *csv.ParseError
		if errors.As(err, &e) {
			wrong(e.Line, "this is not a log of practice times: %s", e.Err)
			break
		}
		line, _ := r.FieldPos(0)
		if first {
			if !slices.Equal(row, logHead) {
				wrong(line, "this is not a log of practice times: it should begin with practice,step,minutes")
				break
			}
			continue
		}
		if len(row) != len(logHead) {
			wrong(line, "want three values, a practice, a step and minutes, and there are %d", len(row))
			continue
		}
		run, err1 := strconv.Atoi(row[0])
		m, err2 := strconv.ParseFloat(row[2], 64)
		if err1 != nil || err2 != nil || run < 1 || row[1] == "" || !(m > 0 && m <= 24*60) {
			wrong(line, "%s, %s, %s is no practice number, step and minutes", unit.Quote(row[0]), unit.Quote(row[1]), unit.Quote(row[2]))
			continue
		}
		out = append(out, Took{run, booth.ID(row[1]), m})
	}
	if len(faults) == 0 && len(out) == 0 && len(text) == 0 {
		wrong(1, "the log is empty")
	}
	return out, faults.Err()
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
