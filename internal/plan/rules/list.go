package rules

import "boothmock/internal/basis/unit"

const (
	practice = "common practice, no source"
	ada      = "2010 ADA Standards, written for fixed buildings; good practice for a booth, no proof of compliance"
	ansur    = "ANSUR II (2012 US Army survey, Natick/TR-15/007), standing eye height, barefoot"
)

// The house rules. A new rule is one value here and one line in All.
var (
	HangingCentre = Length{"hanging centre", 58 * unit.Inch, "height of a row's centre above the ground", practice}
	CentreSlack   = Length{"centre tolerance", 2 * unit.Inch, "how far a work's centre may be from the hanging centre before it is mentioned", practice}
	LevelSlack    = Length{"level tolerance", unit.Inch / 8, "how far a work may hang from its height before a tie loop makes up the rest", practice}
	Gap           = Length{"gap between works", 2 * unit.Inch, "least clear space between neighbours on a wall", practice}
	WallMargin    = Length{"margin at wall ends", 2 * unit.Inch, "least clear space from a work to the end of its wall", practice}

	RouteWidth    = Length{"route width", 36 * unit.Inch, "clear width of the way in and to every work", ada + "; 403.5.1"}
	PinchWidth    = Length{"pinch width", 32 * unit.Inch, "clear width allowed at a short narrow place", ada + "; 403.5.1 exception"}
	PinchLength   = Length{"pinch length", 24 * unit.Inch, "how long a narrow place may be", ada + "; 403.5.1 exception"}
	TurningCircle = Length{"turning circle", 60 * unit.Inch, "diameter of the clear circle to turn a wheelchair in", ada + "; 304.3.1"}
	Headroom      = Length{"headroom", 80 * unit.Inch, "least height of anything overhead where people walk", ada + "; 307.4"}
	Protrusion    = Length{"sticking out", 4 * unit.Inch, "how far a thing on a wall may stand out into the way between cane height and headroom", ada + "; 307.2"}
	CaneHeight    = Length{"cane height", 27 * unit.Inch, "a thing whose lower edge is higher is not found by a cane", ada + "; 307.2"}
	TopLow        = Length{"table top low", 28 * unit.Inch, "lowest height of a top that people write or are served at", ada + "; 902.3"}
	TopHigh       = Length{"table top high", 34 * unit.Inch, "greatest height of a top that people write or are served at", ada + "; 902.3"}

	StandBack = Length{"viewing distance", 60 * unit.Inch, "how far back people go, at most, to look at a work: the place to stand is sought up to here", practice}

	AdultEye      = Length{"adult eye", 62.2 * unit.Inch, "eye height of the usual visitor", ansur + ": mean of men's and women's means"}
	TallEye       = Length{"tall eye", 69 * unit.Inch, "eye height of a tall visitor", ansur + ": men, 95th percentile"}
	ShortEye      = Length{"short eye", 56 * unit.Inch, "eye height of a short visitor", ansur + ": women, 5th percentile"}
	WheelchairEye = Length{"wheelchair eye", 47 * unit.Inch, "eye height of a visitor in a wheelchair", "1991 ADAAG figure A3 gives 43 to 51 in; the middle of it"}
	ChildEye      = Length{"child eye", 41 * unit.Inch, "eye height of a child of six", "CDC 2000 growth charts, median stature at 72.5 months 45.4 in, less 4.3 in (assumed)"}
	SeatEye       = Length{"seated eye", 29.4 * unit.Inch, "eye height above the seat of somebody who sits", "ANSUR II (2012), eye height sitting, women's mean 747.7 mm"}

	ReadingDistance = Length{"reading distance", 24 * unit.Inch, "how far off somebody stands who reads a price tag", practice}
	ScanDistance    = Length{"scanning distance", 24 * unit.Inch, "how far off somebody holds a telephone to a square code", practice}

	SunOnWork = Minutes{"sun on a work", 15, "how long a day a work may stand in direct sun", practice}
	SunInEye  = Angle{"sun in the eye", 30, "how far the sun must at least be from the line of sight", practice}

	WorkLux   = Number{"lux on a work", 100, 0, 20_000, "lx", "least light on a work in a hall or after dark", practice + "; museums show what light hardly fades in up to 200 lx (CIE 157:2004, from memory)"}
	EvenLight = Share{"even light", 0.3, "least light on a work as a part of the most on it", practice}
	Mirrored  = Share{"mirrored", 0.1, "how much of a pane before a work may mirror what its dark parts do not read past", practice}
	Power     = Number{"power", 500, 0, 20_000, "W", "what all that you plug in may draw", "an indoor fair often gives 500 W with a pitch: " + practice}

	DarkWorks = Share{"light on works", 0.1, "least part of the light in the aisle that a work gets", "IES Lighting Handbook: at most 10 to 1 between what is looked at and what is around (from memory)"}

	VisibleShare = Share{"visible share", 0.9, "least part of a work that must be seen from the entrance", practice}
	TurnedAway   = Angle{"turned away", 45, "least angle between the line of sight and the face of a work for it to read", "NUREG-0700 rev. 3, 11.2.1.1-5, written for displays"}
	ShapeSlack   = Share{"shape tolerance", 0.02, "how far an image's shape may differ from the stated size", practice}

	FrameTime  = Minutes{"frame time", 4, "to carry a folded frame to its corners, or to unfold it, or to raise it", practice}
	WeightTime = Minutes{"weight time", 1, "to fasten the weight of one leg", practice}
	ClothTime  = Minutes{"cloth time", 5, "to hang the cloth of one side: a drape, a tent wall, a rain curtain", practice}
	PanelTime  = Minutes{"panel time", 8, "to stand up and tie the mesh, the panels or the rail of one side", practice}
	HookTime   = Minutes{"hook time", 1, "to measure and set one hook", practice}
	WorkTime   = Minutes{"work time", 2, "to unwrap, hang and level one work", practice}
	TagTime    = Minutes{"tag time", 1, "to write, pin and straighten one tag", practice}
	TableTime  = Minutes{"table time", 4, "to set up one table, bin or pedestal, with its cloth", practice}
	ThingTime  = Minutes{"thing time", 1, "to set out one thing: a rack, a sign, a chair", practice}
	BannerTime = Minutes{"banner time", 6, "to tie a banner and straighten it", practice}
)

// All is every rule, in the order in which people read about them.
var All = []Rule{
	HangingCentre, CentreSlack, LevelSlack, Gap, WallMargin,
	RouteWidth, PinchWidth, PinchLength, TurningCircle, Headroom, Protrusion, CaneHeight, TopLow, TopHigh,
	StandBack, AdultEye, TallEye, ShortEye, WheelchairEye, ChildEye, SeatEye,
	ReadingDistance, ScanDistance,
	SunOnWork, SunInEye, DarkWorks, WorkLux, EvenLight, Mirrored, Power,
	VisibleShare, TurnedAway, ShapeSlack,
	FrameTime, WeightTime, ClothTime, PanelTime, HookTime, WorkTime, TagTime, TableTime, ThingTime, BannerTime,
}
