package picture

import "math"

// Behind is what stands behind everything, for whoever draws the booth by other means: linear light, metres.
type Behind struct {
	Indoor bool       `json:"indoor"`
	Low    [3]float32 `json:"low"`    // the sky at the horizon, or the far walls at the height of the eye
	High   [3]float32 `json:"high"`   // straight above
	Rise   float64    `json:"rise"`   // Low becomes High as 1 - exp(-Rise × slope)
	Ground [3]float32 `json:"ground"` // beyond the part of the ground that is drawn
	Radius float64    `json:"radius"` // of that part
	Fades  float64    `json:"fades"`  // outdoors the ground becomes Low as 1 - exp(-(distance - Radius) / Fades)
	Ends   float64    `json:"ends"`   // indoors the floor ends here
}

// Behind is the background of the stage.
func (s *Stage) Behind() Behind {
	b := Behind{
		Indoor: s.plan.Pitch.Indoor, Low: skyLow.numbers(), High: skyHigh.numbers(), Rise: skyRise,
		Ground: s.ground.colour(Options{}.exposure()).numbers(), Radius: math.Round(100*s.ground.radius) / 100, Fades: clearAir, Ends: hallDepth,
	}
	if b.Indoor {
		b.Low, b.High, b.Rise = hallLow.numbers(), hallHigh.numbers(), hallRise
	}
	return b
}
