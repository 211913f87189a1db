package hook

import (
	"testing"

	"boothmock/internal/plan/booth"
)

// Wires are counted by hand: of a mesh of 5 cm from 10 cm to 210 cm the topmost is at 210, the seventh from the top at 180;
// of a chain of links of 4 cm from 200 cm down the third is at 192.
func TestWiresFromTheTop(t *testing.T) {
	mesh := booth.Wall{Hold: booth.Mesh, Bottom: 0.1, Top: 2.1, Spacing: 0.05}
	cut := booth.Wall{Hold: booth.Mesh, Bottom: 0.1, Top: 2.12, Spacing: 0.05} // a wall cut between two wires
	chain := booth.Wall{Hold: booth.Chains, Bottom: 0.3, Top: 2, Link: 0.04}
	for _, c := range []struct {
		wall booth.Wall
		at   float64
		want string
	}{
		{mesh, 2.1, "wire 1"}, {mesh, 1.8, "wire 7"}, {mesh, 0.1, "wire 41"}, {cut, 1.8, "wire 7"},
		{chain, 2, "link 1"}, {chain, 1.92, "link 3"}, {booth.Wall{Hold: booth.Panel, Top: 2}, 1.5, ""},
	} {
		if got := FromTop(&c.wall, c.at); got != c.want {
			t.Errorf("at %v of %+v: %q, want %q", c.at, c.wall, got, c.want)
		}
	}
}
