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

// Opening is when the fair is open on one day; both times are in the fair's own time zone.
type Opening struct{ From, To time.Time }
