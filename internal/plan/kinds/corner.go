package kinds

import (
	"fmt"
	"strconv"
	"strings"
)

// Corner is a place in a photograph, in pixels from its upper left corner, as people write it: "1830 140".
type Corner struct{ X, Y float64 }

// UnmarshalText reads two numbers with a blank between them.
func (c *Corner) UnmarshalText(text []byte) error {
	parts := strings.Fields(string(text))
	if len(parts) == 2 {
		x, errX := strconv.ParseFloat(parts[0], 64)
		y, errY := strconv.ParseFloat(parts[1], 64)
		if errX == nil && errY == nil && max(x, y) < 1e6 && min(x, y) > -1e6 {
			*c = Corner{x, y}
			return nil
		}
	}
	return fmt.Errorf("%q is not a corner; write two numbers with a blank between, pixels across and down: 1830 140", text)
}

// MarshalText writes the corner as it is read.
func (c Corner) MarshalText() ([]byte, error) { return fmt.Appendf(nil, "%g %g", c.X, c.Y), nil }
