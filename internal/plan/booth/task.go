package booth

import (
	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
)

// SetUp is what there is to do at the fair, and who is there to do it.
type SetUp struct {
	At      fault.Place
	People  int
	Names   []string     // of the people, as far as the scene gives them
	Time    unit.Minutes // from arriving to the gates; 0: not stated
	Trolley unit.Weight  // what the trolley carries
	Trip    unit.Minutes // for one trip from the car to the pitch and back; 0: the car stands at the pitch

	TripsAfter []ID // tasks that must be done before the first trip
	Roof       []ID // tasks of the set-up after which there is a dry place to put things down

	Tasks  []Task // setting up
	Strike []Task // taking down at the end of the fair
	Night  []Task // leaving the booth for the night between two days
}

// Trips, in Task.After, stands for every trip from the car to the pitch.
const Trips ID = "trips"

// Task is a piece of work for some hands. Of tasks that may be done in any order, people do the earlier one in the
// list first.
type Task struct {
	ID       ID           // what a scene calls it by: "canopy", "works/back"
	Name     string       // what to do, as an order in words
	At       fault.Place  // where the scene speaks of it
	Stated   bool         // the scene's own tasks speak of it
	After    []ID         // tasks that must be done before it; the ID of a part means the task that makes it stand
	NotAfter []ID         // tasks that it need not wait for, whatever else says so
	AtOnce   bool         // it begins the minute that the tasks before it end
	Crew     int          // people that it takes, all of them all the time
	Minutes  unit.Minutes // that it takes
	Least    unit.Minutes // when all goes well; 0: not stated
	Most     unit.Minutes // when it goes badly; 0: not stated
	Steps    []string     // how it is done, where its name does not say it all
	Tender   bool         // its cargo must not get wet or squeezed: it travels by itself, and only when the roof stands
	Fetch    []Cargo      // what must have been carried to the pitch before; in a strike, what is ready to be carried away after
	Check    string       // what to look at before going on
	Caution  string       // what can hurt somebody
	Windy    bool         // whoever does it must know what wind the booth stands

	Place ID   // the part at which it is done: a wall, a table, the tent; empty for what is done nowhere in particular
	Hooks []ID // works whose hooks are set with it

	Parts []ID    // parts that stand when it is done; in a strike or for the night, parts that are gone
	About []ID    // parts that it is about, and that stay
	Low   float64 // metres that its parts stand lower than in the end, until another task has them in its Parts too

	Reach    []geom.Polygon // ground on which somebody must stand to do it
	Deed     Deed           // what is seen of it besides its parts
	InTheWay bool           // its parts stand on such ground: whoever needs it comes first
}

// Deed is what a task does that no part of the booth shows.
type Deed int

const (
	Nothing Deed = iota
	Weighs       // it puts the weights on the legs of a tent, or takes them off
	Covers       // it lays a cloth over what it is about
	Closes       // it closes the open sides of the tents
	Pockets      // it puts the money away
)

// Goods are something to carry that no task fetches.
type Goods struct {
	Cargo
	First string // the steps that need it first, by the beginning of their IDs
}

// Cargo is something to carry.
type Cargo struct {
	What    string
	Count   int
	Weight  unit.Weight // of one
	Assumed bool        // the scene does not state the weight: it is a usual one
}
