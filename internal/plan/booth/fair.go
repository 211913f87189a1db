package booth

import (
	"time"

	"boothmock/internal/basis/fault"
)

// Fair is when and where the fair is, which way the booth faces there, and how cloudy it is: what the sun's course follows from.
type Fair struct {
	At                  fault.Place
	Days                []Opening
	Latitude, Longitude float64 // radians; north and east are positive
	Faces               float64 // of the entrance: radians clockwise from north
	Sky                 string  // clear, mixed or overcast
}

// Opening is when the fair is open on one day, both times in the fair's own time zone, and the forecast as far as the scene
// states one.
type Opening struct {
	From, To time.Time
	Day      Forecast // while it is open
	Night    Forecast // of the night after it
}

// Forecast is the weather that is expected.
type Forecast struct {
	Gust float64 // m/s; 0: not stated
	Rain bool
}
