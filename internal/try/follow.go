package try

import (
	"bytes"
	"slices"
	"strings"
)

// changed takes a text that somebody else put into the scene's file. It is shown if nothing here is unsaved; else both changes
// are joined if they are of different lines; else somebody must choose.
func (s *Session) changed(text []byte) {
	here := s.past.text
	switch {
	case bytes.Equal(text, s.saved) && s.theirs == nil && s.trouble == "":
		return
	case bytes.Equal(text, s.saved) || bytes.Equal(text, here):
		s.saved, s.theirs, s.trouble = text, nil, ""
		s.noted()
	case bytes.Equal(here, s.saved):
		s.follow(text, text, "changed in the file")
	default:
		both, ok := join(s.saved, here, text)
		if !ok || s.follow(both, text, "joined with what was changed in the file") != nil {
			s.theirs, s.trouble = text, ""
			s.noted()
		}
	}
}

// follow shows a text, as the file says another or the same.
func (s *Session) follow(text, file []byte, words string) error {
	f, m, err := s.read(text)
	if err != nil {
		s.trouble = sentence("the file was changed and cannot be shown as it is now: " + why(err))
		s.noted()
		return err
	}
	s.saved, s.theirs, s.trouble = file, nil, ""
	s.past.add(text, words)
	s.take(f, m)
	s.autosave()
	return nil
}

// join is a text with the changes of two others, line by line; ok is false where both changed the same lines, or neighbouring
// ones (three-way merge, after Khanna, Kunal and Pierce, "A formal investigation of diff3", 2007).
func join(base, mine, theirs []byte) (both []byte, ok bool) {
	b, m, t := lines(base), lines(mine), lines(theirs)
	inMine, ok1 := kin(b, m)
	inTheirs, ok2 := kin(b, t)
	if !ok1 || !ok2 {
		return nil, false
	}
	var out []string
	i, j, k := 0, 0, 0
	part := func(to, toMine, toTheirs int) bool {
		was, a, c := b[i:to], m[j:toMine], t[k:toTheirs]
		switch {
		case slices.Equal(a, was):
			out = append(out, c...)
		case slices.Equal(c, was), slices.Equal(a, c):
			out = append(out, a...)
		default:
			return false
		}
		return true
	}
	for n := range b {
		if inMine[n] < 0 || inTheirs[n] < 0 {
			continue
		}
		if !part(n, inMine[n], inTheirs[n]) {
			return nil, false
		}
		out = append(out, b[n])
		i, j, k = n+1, inMine[n]+1, inTheirs[n]+1
	}
	if !part(len(b), len(m), len(t)) {
		return nil, false
	}
	return []byte(strings.Join(out, "")), true
}

func lines(text []byte) []string { return strings.SplitAfter(string(text), "\n") }

// kin is, for each line, the number of the line in another text that it is the same as, -1 for none: a longest common
// subsequence. ok is false for texts that differ in more lines than are compared each with each.
func kin(a, b []string) (out []int, ok bool) {
	const most = 2000
	out = make([]int, len(a))
	for i := range out {
		out[i] = -1
	}
	head := 0
	for head < len(a) && head < len(b) && a[head] == b[head] {
		out[head] = head
		head++
	}
	tail := 0
	for tail < len(a)-head && tail < len(b)-head && a[len(a)-1-tail] == b[len(b)-1-tail] {
		out[len(a)-1-tail] = len(b) - 1 - tail
		tail++
	}
	x, y := a[head:len(a)-tail], b[head:len(b)-tail]
	if len(x) > most || len(y) > most {
		return nil, false
	}
	long := make([][]int, len(x)+1) // of the rests from i and j on
	for i := range long {
		long[i] = make([]int, len(y)+1)
	}
	for i := len(x) - 1; i >= 0; i-- {
		for j := len(y) - 1; j >= 0; j-- {
			if x[i] == y[j] {
				long[i][j] = long[i+1][j+1] + 1
			} else {
				long[i][j] = max(long[i+1][j], long[i][j+1])
			}
		}
	}
	for i, j := 0, 0; i < len(x) && j < len(y); {
		switch {
		case x[i] == y[j]:
			out[head+i] = head + j
			i, j = i+1, j+1
		case long[i+1][j] >= long[i][j+1]:
			i++
		default:
			j++
		}
	}
	return out, true
}
