package unit

import "testing"

func TestUnbroken(t *testing.T) {
	for in, want := range map[string]string{
		"17 1/4 in from the left, 60 cm up": "17\u00a01/4\u00a0in from the left, 60\u00a0cm up",
		"4 lb 8 oz in 12 min":               "4\u00a0lb 8\u00a0oz in 12\u00a0min",
		"step 4 into 5 hands, 3 mm":         "step 4 into 5 hands, 3\u00a0mm",
		"20 1/2 x 17 1/2 in":                "20\u00a01/2 x\u00a017\u00a01/2\u00a0in",
	} {
		if got := Unbroken(in); got != want {
			t.Errorf("%q: %q, want %q", in, got, want)
		}
	}
}
