package order

import (
	"bytes"
	"math"
	"slices"
	"strings"
	"testing"

	"boothmock/internal/basis/fault"
)

// Published: flylib.com/books/en/3.287.1.117/1 (PERT). (a, m, b) of seven tasks, critical 1-3-5-7, expected 24, and 0.9633
// for 28 or less (with z rounded to 1.79). Means and variances are derived.
func TestPublishedEstimates(t *testing.T) {
	tasks := [][3]float64{{5, 8, 17}, {7, 10, 13}, {3, 5, 7}, {1, 3, 5}, {4, 6, 8}, {3, 3, 3}, {3, 4, 5}}
	means := []float64{9, 10, 5, 3, 6, 3, 4}
	variances := []float64{4, 1, 4.0 / 9, 4.0 / 9, 4.0 / 9, 0, 1.0 / 9}
	mean, variance := 0.0, 0.0
	for i, k := range tasks {
		m, v := Mean(k[0], k[1], k[2]), Variance(k[0], k[2])
		if math.Abs(m-means[i]) > 1e-12 || math.Abs(v-variances[i]) > 1e-12 {
			t.Errorf("task %d: %g and %g, want %g and %g", i+1, m, v, means[i], variances[i])
		}
		if i%2 == 0 {
			mean, variance = mean+m, variance+v
		}
	}
	if math.Abs(mean-24) > 1e-12 || math.Abs(variance-5) > 1e-12 {
		t.Errorf("the critical path: %g and %g, want 24 and 5", mean, variance)
	}
	if p := Chance(28, mean, variance); math.Abs(p-0.9633) > 2e-4 {
		t.Errorf("28 or less: %.4f, want 0.9633", p)
	}
	if Chance(24, 24, 5) != 0.5 || Chance(24, 24, 0) != 1 || Chance(23, 24, 0) != 0 {
		t.Error("the ends of the chance")
	}
}

func TestLogIsReadAsItWasWritten(t *testing.T) {
	log := TimesLog{{1, "frame", 4.5}, {1, `on/a, "b"`, 12}, {2, "frame", 3.1}}
	var b bytes.Buffer
	if err := log.Write(&b); err != nil {
		t.Fatal(err)
	}
	again, err := ReadTimes(b.Bytes(), "x.times.csv")
	if err != nil || !slices.Equal(again, log) || again.Runs() != 2 {
		t.Errorf("%v %v", again, err)
	}
	mean, variance, n := log.of("frame")
	if n != 2 || math.Abs(mean-3.8) > 1e-12 || math.Abs(variance-0.98) > 1e-12 { // (0.7² + 0.7²) / 1
		t.Errorf("mean %g, variance %g of %d", mean, variance, n)
	}
	if spreadsheet, err := ReadTimes([]byte("\ufeffpractice,step,minutes\r\n1,frame,4\r\n"), "x"); err != nil || len(spreadsheet) != 1 {
		t.Errorf("saved by a spreadsheet: %v %v", spreadsheet, err)
	}
}

func TestDamagedLogs(t *testing.T) {
	head := "practice,step,minutes\n"
	for text, want := range map[string]string{
		"":                        "x.csv:1:1: the log is empty",
		"hello\n":                 "x.csv:1:1: this is not a log of practice times",
		head + "1,frame\n":        "x.csv:2:1: want three values",
		head + "1,frame,four\n":   `x.csv:2:9: "four" is no time in minutes`,
		head + "0,frame,4\n":      `x.csv:2:1: "0" is no number of a practice`,
		head + "1,frame,-4\n":     "x.csv:2:9: ",
		head + "1,frame,NaN\n":    "x.csv:2:9: ",
		head + "1,,4\n":           "x.csv:2:3: ",
		head + "1,é,x\n":          "x.csv:2:5: ",
		head + "10001,frame,4\n":  "x.csv:2:1: ",
		head + "1,frame,4\n\x00":  "x.csv:3:1: ",
		head + "1,\"frame,4\n":    "x.csv:",
		head + "1,frame,4\n1,2\n": "x.csv:3:1: want three values",
	} {
		_, err := ReadTimes([]byte(text), "x.csv")
		if err == nil || !strings.HasPrefix(err.Error(), want) || !strings.Contains(err.Error(), "it is left as it is") {
			t.Errorf("%q: %v, want %s", text, err, want)
		}
	}
	if log, err := ReadTimes([]byte(head), "x.csv"); err != nil || len(log) != 0 {
		t.Errorf("a log without a line: %v %v", log, err)
	}
}

// Minutes that are sent become the next practice, once, however often they are read in.
func TestSentMinutesAreAdded(t *testing.T) {
	log := TimesLog{{1, "frame", 4}, {2, "frame", 5}}
	ours, theirs := TimesLog{{1, "frame", 6.5}, {1, "canopy", 3}}, TimesLog{{1, "canopy", 3.5}, {3, "canopy", 4}}
	want := append(slices.Clone(log), Took{3, "frame", 6.5}, Took{3, "canopy", 3}, Took{4, "canopy", 3.5}, Took{5, "canopy", 4})
	if got := log.With(ours).With(theirs); !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	if got := want.With(TimesLog{{7, "canopy", 3}, {7, "frame", 6.5}}).With(theirs).With(log); !slices.Equal(got, want) {
		t.Errorf("read in twice: %v", got)
	}
}

// A log of nothing but mistakes is reported by its first, each shortened.
func TestWorstLog(t *testing.T) {
	text := "practice,step,minutes\n" + strings.Repeat("x,"+strings.Repeat("y", 10_000)+",z\n", 2*mostFaults)
	_, err := ReadTimes([]byte(text), "log.csv")
	list, ok := err.(fault.List)
	if !ok || len(list) != mostFaults || len(err.Error()) > 300*mostFaults {
		t.Errorf("%d faults in %d letters", len(list), len(err.Error()))
	}
}
