// Package try is a booth that is moved about while one looks: works, table, walls, furniture. A page in the person's own
// browser shows it and asks for changes; this package makes them in the scene's text and answers with what they did.
//
// Page and program speak through one channel: an Ask goes in, an Answer comes out (Session.Say), and whoever watches hears of
// every new State. The server only carries them, so a page with the program inside can speak with a Session without it.
// Measures are metres and degrees; x, z are the booth's own, left and up are along a wall from its left end and above the ground.
package try

import (
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
)

// Version of the messages. A page of another version is told to load itself anew.
const Version = 1

// Ask is what the page asks for.
type Ask struct {
	Version int      `json:"version"`
	Do      string   `json:"do"`   // one of deeds
	Item    booth.ID `json:"item"` // what it is done with
	With    booth.ID `json:"with"` // the wall that a work goes to, or the work that it changes places with
	Row     *int     `json:"row"`  // the row that it goes into, by its number; null for none
	Place   int      `json:"place"`
	X       float64  `json:"x"`
	Y       float64  `json:"y"`
	Z       float64  `json:"z"`
	Turn    float64  `json:"turn"`
	Field   string   `json:"field"` // that a text was typed into
	Text    string   `json:"text"`
	Title   string   `json:"title"`
	Name    string   `json:"name"` // of a file, or a variant
	File    []byte   `json:"file"` // a photograph; it may be carried beside the message, and is not needed for one that is loose
}

// Answer is what came of it.
type Answer struct {
	Version int      `json:"version"`
	Refused string   `json:"refused"` // why nothing was changed, in a sentence; empty if it was done
	Said    string   `json:"said"`    // what was done, in a sentence
	Added   booth.ID `json:"added"`   // the thing that is new in the booth by this
	Beside  *Beside  `json:"beside"`  // two booths side by side, if that was asked for
	State   *State   `json:"state"`   // nil with a floor
	Floor   *Floor   `json:"floor"`   // the way in while something is held in another place
}

// Beside is the booth as it is and another, side by side. Their pictures are asked for by the number (Session.Side).
type Beside struct {
	Number int       `json:"number"`
	Names  [2]string `json:"names"`
	Lines  [2]string `json:"lines"`  // verdicts
	Things []string  `json:"things"` // how the second differs, in sentences
	Gone   []Found   `json:"gone"`   // findings of the first only
	New    []Found   `json:"new"`    // and of the second
	Totals []Total   `json:"totals"`
	Views  []Place   `json:"views"`
}

// Total is what two booths come to in one regard, in words.
type Total struct {
	What string    `json:"what"`
	Are  [2]string `json:"are"`
}

// Place is where somebody looks from.
type Place struct {
	Name  string `json:"name"`
	Title string `json:"title"`
}

// Proposals are ways to hang the works of the booth as it is.
type Proposals struct {
	Seeking bool   `json:"seeking"`
	Ways    []Way  `json:"ways"`
	None    string `json:"none"` // why there is none
}

// Way is one of them.
type Way struct {
	Name string `json:"name"`
	Doc  string `json:"doc"`
}

// Variant is a scene of the same booth, in a file beside it.
type Variant struct {
	File string `json:"file"`
	Name string `json:"name"`
	Here bool   `json:"here"` // it is the one that is shown
}

// State is the booth as the page shows it.
type State struct {
	At      int     `json:"at"` // grows with every change
	Title   string  `json:"title"`
	Event   string  `json:"event"`  // what the fair is called
	Artist  string  `json:"artist"` // whose booth it is
	File    string  `json:"file"`
	Units   string  `json:"units"`
	Step    float64 `json:"step"`  // metres that an arrow key moves a thing
	Saved   bool    `json:"saved"` // the file says the same
	Undo    string  `json:"undo"`  // what would be undone, in words; empty for nothing
	Redo    string  `json:"redo"`
	History []Past  `json:"history"`
	Asks    string  `json:"asks"` // a question that must be answered before saving: see questions; empty for none
	Trouble string  `json:"trouble"`

	Verdict  finding.Verdict `json:"verdict"`
	Line     string          `json:"line"`
	Findings []Found         `json:"findings"`
	Mended   []Found         `json:"mended"` // gone since the change before
	report   []finding.Finding

	Hanging   float64   `json:"hanging"` // the usual height of middles
	Walls     []Wall    `json:"walls"`
	Works     []Work    `json:"works"`
	Rows      []Row     `json:"rows"`
	Ground    Ground    `json:"ground"`
	Sums      []Sum     `json:"sums"`
	Goods     []Good    `json:"goods"`
	Variants  []Variant `json:"variants"`
	Loose     []Loose   `json:"loose"`
	Proposals Proposals `json:"proposals"`
}

// Good is a thing that can be added, in usual sizes.
type Good struct {
	Name  string   `json:"name"`
	Label string   `json:"label"`
	Sizes []string `json:"sizes"`
}

// Past is a state that can be gone back to.
type Past struct {
	Number int    `json:"number"`
	Words  string `json:"words"`
	Here   bool   `json:"here"`
}

// Found is a finding.
type Found struct {
	Level finding.Level `json:"level"`
	Text  string        `json:"text"`
	Item  booth.ID      `json:"item"`
	View  string        `json:"view"`
	New   bool          `json:"new"` // since the change before
}

// Wall is a wall as somebody facing it sees it.
type Wall struct {
	ID      booth.ID `json:"id"`
	Name    string   `json:"name"`
	Wide    float64  `json:"wide"`
	Low     float64  `json:"low"` // between these heights something holds a hook
	High    float64  `json:"high"`
	Hold    string   `json:"hold"`
	Spacing float64  `json:"spacing"`

	Origin [2]float64 `json:"origin"` // x and z of its left end
	Along  [2]float64 `json:"along"`  // and the direction from there to its right end
}

// Work is an artwork, wherever it is.
type Work struct {
	ID     booth.ID `json:"id"`
	Title  string   `json:"title"`
	Size   string   `json:"size"`
	Image  string   `json:"image"` // its address; empty without one
	Wide   float64  `json:"wide"`  // with its frame
	High   float64  `json:"high"`
	Border float64  `json:"border"` // of frame and mat
	Frame  string   `json:"frame"`  // colour of the frame; empty without one
	Where  string   `json:"where"`  // in words
	Wall   booth.ID `json:"wall"`   // empty where it does not hang
	Left   float64  `json:"left"`   // of its left edge and its middle, where hooks hold it
	Centre float64  `json:"centre"`
	Row    int      `json:"row"` // -1: in none
	Place  int      `json:"place"`
	Under  string   `json:"under"` // title of the work that it hangs under
	On     string   `json:"on"`    // what it stands on
	Waits  bool     `json:"waits"`
	Hooks  []Hook   `json:"hooks"`
	Hang   string   `json:"hang"` // measures of its hooks, in words
	Seen   float64  `json:"seen"` // share that the usual visitor sees of it from the entrance; negative: it was not looked at
	Was    float64  `json:"was"`  // before the last change
	Typed  []Typed  `json:"typed"`
}

// Hook is where a hook carries.
type Hook struct {
	X float64 `json:"x"`
	Y float64 `json:"y"`
}

// Typed is a number that can be typed.
type Typed struct {
	Field string `json:"field"`
	Label string `json:"label"`
	Text  string `json:"text"`
}

// Row is works side by side.
type Row struct {
	Number int        `json:"number"`
	Wall   booth.ID   `json:"wall"`
	Works  []booth.ID `json:"works"`
	Centre float64    `json:"centre"`
	Typed  []Typed    `json:"typed"`
}

// Ground is the plan from above.
type Ground struct {
	Wide   float64  `json:"wide"`
	Deep   float64  `json:"deep"`
	Aisle  float64  `json:"aisle"`
	Open   []string `json:"open"`
	Things []Thing  `json:"things"`
	Floor
}

// Floor is the way in.
type Floor struct {
	Way    [][2]float64 `json:"way"`   // its line
	Words  string       `json:"words"` // how wide it is
	Narrow *Narrow      `json:"narrow"`
	Circle *Circle      `json:"circle"`
}

// Narrow is where the way in is narrowest.
type Narrow struct {
	From  [2]float64 `json:"from"`
	To    [2]float64 `json:"to"`
	Words string     `json:"words"`
}

// Circle is the largest clear circle that the way in leads to.
type Circle struct {
	X     float64 `json:"x"`
	Z     float64 `json:"z"`
	R     float64 `json:"r"`
	Words string  `json:"words"`
}

// Thing is what is seen from above.
type Thing struct {
	ID      booth.ID       `json:"id"`
	Name    string         `json:"name"`
	Kind    string         `json:"kind"`
	Outline [][][2]float64 `json:"outline"` // of each of its pieces
	X       float64        `json:"x"`       // of its own origin
	Z       float64        `json:"z"`
	Moves   bool           `json:"moves"`
	Goes    bool           `json:"goes"` // it can be taken out
	Turn    float64        `json:"turn"`
	Where   string         `json:"where"`
	Typed   []Typed        `json:"typed"`
}

// Sum is a figure for the whole booth, in words, and what it was before the last change.
type Sum struct {
	What string `json:"what"`
	Is   string `json:"is"`
	Was  string `json:"was"`
}
