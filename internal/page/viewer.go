package page

// The walk, for another page that holds the elements of parts/walk.html: startWalk(facts, bytes) of its script takes Facts and
// a .glb, whose images may have addresses.
var (
	WalkStyle  = joined("styles", named([]string{"paper", "walk"}, ".css"))
	WalkScript = joined("scripts", named([]string{"model", "camera", "draw", "pick", "walk", "steer", "look"}, ".js"))
)

// Facts are what the walk reads, ready for JSON. Of v it needs Plan, Checks, Sheet and Behind.
func Facts(v Values) any { return newFacts(v, v.Checks.ByWork(), newEyes(v.Plan)) }
