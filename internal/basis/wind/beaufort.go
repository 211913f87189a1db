package wind

import "fmt"

// force is one step of the Beaufort scale: the least mean wind in m/s that belongs to it, its name, and what is seen
// on land.
type force struct {
	from       float64
	name, seen string
}

// beaufort is the scale in m/s, as weather services print it (primary source WMO-No. 306; the words on what is seen are
// shortened from common tables, from memory). A wind between two printed classes belongs to the lower one.
var beaufort = [...]force{
	{0, "calm", "smoke rises straight up"},
	{0.3, "light air", "smoke drifts"},
	{1.6, "light breeze", "felt on the face, leaves rustle"},
	{3.4, "gentle breeze", "leaves and twigs move all the time, light flags stand out"},
	{5.5, "moderate breeze", "dust and loose paper rise, small branches move"},
	{8.0, "fresh breeze", "small trees in leaf sway"},
	{10.8, "strong breeze", "large branches move, umbrellas are hard to hold"},
	{13.9, "near gale", "whole trees move, walking against it is hard"},
	{17.2, "gale", "twigs break off"},
	{20.8, "strong gale", "slates and branches come down"},
	{24.5, "storm", "trees are uprooted"},
	{28.5, "violent storm", "widespread damage"},
	{32.7, "hurricane", "devastation"},
}

// Strongest is the highest force of the scale.
const Strongest = len(beaufort) - 1

// Top is the mean wind in m/s at the upper end of a Beaufort force, where the next one begins. The strongest force has
// no upper end; its lower one is returned.
func Top(n int) float64 { return beaufort[min(n+1, Strongest)].from }

// Describe is a Beaufort force as people say it: "force 5, fresh breeze: small trees in leaf sway".
func Describe(n int) string {
	f := beaufort[n]
	return fmt.Sprintf("force %d, %s: %s", n, f.name, f.seen)
}
