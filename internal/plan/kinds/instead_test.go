package kinds

import (
	"slices"
	"strings"
	"testing"
)

// Every other word for a thing stands once, is no key itself, and leads to a key that exists.
func TestOtherWords(t *testing.T) {
	known := []string{"units"}
	for _, k := range Plain {
		known = append(known, k.Key)
	}
	for _, k := range All {
		known = append(known, k.Key)
	}
	seen := map[string]string{}
	for key, words := range otherWords {
		if !slices.Contains(known, key) {
			t.Errorf("%s is no key", key)
		}
		for _, w := range strings.Fields(words) {
			if before, twice := seen[w]; twice || slices.Contains(known, w) {
				t.Errorf("%q leads to %s, and to %q", w, key, before)
			}
			seen[w] = key
			if got, want := insteadOf(known)(w), "write "+key+":"; got != want {
				t.Errorf("%s: got %q, want %q", w, got, want)
			}
		}
	}
	if got := insteadOf(known)("accordion"); !strings.Contains(got, "kit:") {
		t.Errorf("nothing said of what is not drawn: %q", got)
	}
}

// What people call a key inside an entry leads to one that exists.
func TestWordsInsideAnEntry(t *testing.T) {
	for text, want := range map[string]string{
		"tent: {pegs: 40lb}": "write stakes hold:", "tent: {stakes: 40lb}": "write stakes hold:", "tent: {sandbags: 40lb}": "write ballast:", "weather: {gusts: 20 mph}": "write wind:",
	} {
		if _, err := plan(t, text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v", text, err)
		}
	}
}

// A key that stands in the wrong place is sent where it belongs.
func TestUnder(t *testing.T) {
	for key, want := range map[string]string{"ballast": "ballast goes under tent:", "wind": "wind goes under weather:", "fullness": "fullness goes under drapes:", "size": "", "accordion": ""} {
		if got := under(key); got != want {
			t.Errorf("%s: %q, not %q", key, got, want)
		}
	}
}
