package kinds

import (
	"fmt"
	"strconv"
	"strings"

	"golang.org/x/image/colornames"

	"boothmock/internal/basis/fault"
	"boothmock/internal/plan/booth"
)

// Colour is a colour as people write it: a name of the SVG 1.1 list such as "linen", one of TradeColours such as "charcoal",
// or "#rrggbb".
type Colour booth.Colour

// UnmarshalText reads a name or six hexadecimal digits.
func (c *Colour) UnmarshalText(text []byte) error {
	s := strings.ToLower(strings.NewReplacer(" ", "", "-", "").Replace(strings.TrimSpace(string(text))))
	if hex, ok := strings.CutPrefix(s, "#"); ok {
		n, err := strconv.ParseUint(hex, 16, 32)
		if err != nil || len(hex) != 6 {
			return fmt.Errorf("%q is not a colour; write # and six digits, such as \"#8b8f94\", in quotes", text)
		}
		*c = Colour{uint8(n >> 16), uint8(n >> 8), uint8(n)}
		return nil
	}
	if rgba, ok := colornames.Map[s]; ok {
		*c = Colour{rgba.R, rgba.G, rgba.B}
		return nil
	}
	if c2, ok := tradeColour(s); ok {
		*c = c2
		return nil
	}
	if near, ok := fault.Nearest(string(text), colourNames()); ok {
		return fmt.Errorf("%q is not a colour; did you mean %s?", text, near)
	}
	return fmt.Errorf("%q is not a colour; write a name such as white, linen or charcoal (boothmock explain colours lists them), or \"#8b8f94\" in quotes", text)
}

// MarshalText writes the colour as #rrggbb.
func (c Colour) MarshalText() ([]byte, error) {
	return fmt.Appendf(nil, "#%02x%02x%02x", c[0], c[1], c[2]), nil
}
