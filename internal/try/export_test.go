package try

import (
	"maps"
	"slices"
)

// Deeds are what can be asked for, but for an end, and for proposals, which take seconds of the processor.
func Deeds() []string {
	names := slices.Sorted(maps.Keys(deeds))
	return slices.DeleteFunc(names, func(d string) bool { return d == "end" || d == "propose" })
}

// Text is that of the scene as it is shown.
func (s *Session) Text() []byte {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.past.text
}
