package order

import (
	"bytes"
	"errors"
	"math"
	"slices"
	"testing"

	"boothmock/internal/basis/fault"
)

// Whatever the log holds: times that can be, which are read again as they are written, or faults inside the file.
func FuzzReadTimes(f *testing.F) {
	for _, s := range []string{
		"practice,step,minutes\n1,frame,4.5\n", "\ufeffpractice,step,minutes\r\n1,\"works/back, \"\"a\"\"\",12\r\n2,frame,3\r\n", "", "practice,step\n",
		"practice,step,minutes\n0,frame,4\n1,frame,NaN\n1,frame,-1\n1,,1\n1,a\n", "practice,step,minutes\n1,\"a", "practice,step,minutes\n1,frame,0x1p-3\n", "\n\n",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		log, err := ReadTimes(text, "x.csv")
		if err != nil {
			var list fault.List
			if !errors.As(err, &list) || len(list) == 0 {
				t.Fatalf("%v is no list of faults", err)
			}
			for _, x := range list {
				if x.Text == "" || x.At.Line < 1 || x.At.Line > 1+bytes.Count(text, []byte("\n")) {
					t.Errorf("%#v is no fault inside the file", x)
				}
			}
			return
		}
		for _, k := range log {
			if k.Run < 1 || k.Step == "" || !(k.Minutes > 0 && k.Minutes <= 24*60) {
				t.Errorf("read %+v", k)
			}
			if m, v, n := log.of(k.Step); n < 1 || !(m > 0) || !(v >= 0) || math.IsInf(v, 0) {
				t.Errorf("%s: mean %g, variance %g of %d", k.Step, m, v, n)
			}
		}
		var b bytes.Buffer
		if err := log.Write(&b); err != nil {
			t.Fatal(err)
		}
		if again, err := ReadTimes(b.Bytes(), "x.csv"); err != nil || !slices.Equal(again, log) {
			t.Errorf("%v is written %q and read %v (%v)", log, b.Bytes(), again, err)
		}
	})
}
