package try

import "testing"

// Changes of different lines are joined, of the same or neighbouring ones not.
func TestJoin(t *testing.T) {
	for _, c := range []struct{ base, mine, theirs, want string }{
		{"a\nb\nc\nd\n", "A\nb\nc\nd\n", "a\nb\nc\nD\n", "A\nb\nc\nD\n"},
		{"a\nb\nc\nd\n", "a\nc\nd\n", "a\nb\nc\nd\ne\n", "a\nc\nd\ne\n"},
		{"a\nb\nc\n", "a\nB\nc\n", "a\nB\nc\n", "a\nB\nc\n"},
		{"a\nb\nc\n", "a\nB\nc\n", "a\nb\nc\n", "a\nB\nc\n"},
		{"a\nb\nc\n", "a\nB\nc\n", "a\nX\nc\n", "-"},
		{"a\nb\nc\n", "a\nB\nc\n", "a\nb\nC\n", "-"},
		{"a\n", "", "a\nb\n", "-"},
		{"", "a\n", "b\n", "-"},
		{"a\r\nb\r\nc", "a\r\nb\r\nc2", "a2\r\nb\r\nc", "a2\r\nb\r\nc2"},
	} {
		got, ok := join([]byte(c.base), []byte(c.mine), []byte(c.theirs))
		if ok != (c.want != "-") || ok && string(got) != c.want {
			t.Errorf("%q, %q, %q: %q %v, want %q", c.base, c.mine, c.theirs, got, ok, c.want)
		}
	}
}
