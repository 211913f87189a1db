package hang

import (
	"fmt"

	"boothmock/internal/booth"
)

// weatherNotes are what the wind figures leave out and who decides, then the published thresholds for tents. They
// differ from place to place: they say what to ask for, not what holds at this fair.
func weatherNotes(p *booth.Plan) []string {
	area := p.Pitch.Width * p.Pitch.Depth
	return []string{
		"Method: ASCE 7 velocity pressure (0.00256 Kz Kd V², pounds a square foot and mph) with Kd 0.85, a gust factor of 0.85 and 1.3 for windward and leeward walls together (the last from memory), plain statics for sliding and tipping about the leeward legs, and 0.6 of all dead weight counted, as in its 0.6 D + W. All tents are taken as tied together, with the ballast spread evenly over the legs.",
		"Left out: gusts that are turned or squeezed by buildings and neighbours, an open front that catches wind like a cup, uneven or soft ground, ropes and stakes (on grass, anchors that are screwed or driven in hold far better than weights; ask whether they are allowed), wet cloth, and the strength of frame, joints and canopy. Many light frames bend or break before they tip.",
		"A forecast or a Beaufort force is a mean wind; gusts are reckoned here at 1.5 times the mean (common practice, no source). Watch the gusts in the forecast, and the sky.",
		"A tent must be roped, braced and anchored against the weather and against collapse: International Fire Code 2018, 3103.9, which gives no number. Many fairs ask for 40 lb or more on each leg (common practice; no standard found). Ask what yours asks for.",
		fmt.Sprintf("Permits: your canopy covers %.0f ft² (%.0f m²). The International Fire Code 2018 asks for a permit above 400 ft² (3103.2; open on all sides: up to 700 ft²); tents closer than 12 ft count together, so a row of booths may need the organiser's permit. Cities set other limits, from 120 to 900 ft². The code also asks for 20 ft to buildings, cars and engines (3103.8.2).", squareFeet(area), area),
		"Fire: fairs ask for cloth that passes NFPA 701 (drapes and table skirts by its method 1 below 21 oz a square yard, tents and banners by method 2), with its label sewn in. Keep an extinguisher where the organiser wants one, and nothing hot under the canopy.",
		"The organiser, the local code and a licensed engineer or tent contractor decide. If any of them says less, or says take it down, do that.",
	}
}
