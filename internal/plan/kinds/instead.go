package kinds

import (
	"fmt"
	"slices"
	"strings"

	"boothmock/internal/plan/scene"
)

// otherWords are what people call things at a fair, by the key under which a scene holds them.
var otherWords = map[string]string{
	"pitch":      "space stall plot site floor ground spot",
	"tent":       "canopy gazebo marquee booth pop-up popup shelter roof",
	"drapes":     "curtains cloths fabric backdrop pipe-and-drape draping",
	"walls":      "panels mesh gridwall grids screens boards displays partitions",
	"tables":     "desks counters trestles",
	"pedestals":  "plinths stands columns podiums",
	"bins":       "browsers cradles print-bins portfolios",
	"chair":      "stools seats seating",
	"works":      "paintings prints art artworks pictures pieces canvases photographs drawings",
	"rows":       "layout hanging arrangement lines",
	"tags":       "labels prices captions cards",
	"signs":      "posters notices",
	"visitors":   "people persons customers guests figures",
	"kit":        "packing extras tools bring equipment luggage car",
	"weather":    "wind rain forecast gusts",
	"set-up":     "setup helpers crew team time",
	"tasks":      "steps jobs chores todo",
	"things":     "easels crates boxes rugs mats carpets plants flowers umbrellas parasols benches coolers spinners a-boards objects",
	"hooks":      "hangers wires s-hooks",
	"event":      "show name title market",
	"artist":     "painter exhibitor printmaker maker",
	"units":      "unit measure",
	"rules":      "limits house-rules",
	"sheet":      "list stock inventory stocklist",
	"whole list": "all everything complete",
	"currency":   "money",
	"rule sheet": "rulebook regulations",
}

// insteadOf says what a scene could hold in place of a key that is not known.
func insteadOf(known []string) func(key string) string {
	return func(key string) string {
		word := strings.ReplaceAll(key, " ", "-")
		for _, k := range known {
			if k == key+"s" || k+"s" == key {
				return fmt.Sprintf("write %s:", k)
			}
			for _, w := range strings.Fields(otherWords[k]) {
				if w == word || w == word+"s" || w+"s" == word {
					return fmt.Sprintf("write %s:", k)
				}
			}
		}
		if hint := under(key); hint != "" {
			return hint
		}
		last := "what you only bring, and is not drawn, goes under kit:"
		if slices.Contains(known, "things") {
			last = "anything else that is to be drawn goes under things:, what you only bring under kit:"
		}
		return "known here: " + strings.Join(known, ", ") + "; " + last
	}
}

// under says under which keys of a scene another key goes, where that is one or two.
func under(key string) string {
	var owners []string
	for _, k := range All {
		if slices.ContainsFunc(scene.Fields(k.Fields), func(f scene.Field) bool { return f.Key == key }) {
			owners = append(owners, k.Key+":")
		}
	}
	if len(owners) == 0 || len(owners) > 2 {
		return ""
	}
	return key + " goes under " + strings.Join(owners, " or ")
}
