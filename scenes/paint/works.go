package main

// Work is one picture of the demo: its file name without extension, its title and its
// real size in inches, height before width as catalogues write it.
type Work struct {
	Name, Title       string
	HeightIn, WidthIn int
	paint             func(Work) *canvas
}

// Works lists every picture in catalogue order.
var Works = []Work{
	{"heron", "Heron at the weir", 24, 36, oil(heron)},
	{"weir", "The weir, first frost", 30, 40, oil(weir)},
	{"alder", "Alder carr", 36, 24, oil(alder)},
	{"saltings", "Saltings at slack water", 30, 48, oil(saltings)},
	{"quince", "Quinces on a blue cloth", 16, 20, oil(quince)},
	{"jug", "Jug with cow parsley", 20, 16, oil(jug)},
	{"pears", "Three pears", 12, 12, oil(pears)},
	{"tideline", "Tideline", 24, 24, oil(tideline)},
	{"field", "Field after rain", 20, 30, oil(field)},
	{"orchard", "Orchard, evening", 24, 30, oil(orchard)},
	{"ferry", "Night ferry", 18, 24, oil(ferry)},
	{"moths", "Moths", 14, 11, lino(moths)},
	{"thistle", "Thistle", 14, 11, lino(thistle)},
	{"bunting", "Reed bunting", 11, 14, lino(bunting)},
	{"stones", "Grey stones", 30, 30, oil(stones)},
	{"barn", "Red barn", 16, 20, oil(barn)},
	{"hill", "Hill with larches", 20, 24, oil(hill)},
	{"lemons", "Lamp and lemons", 24, 18, oil(lemons)},
	{"shore", "Long shore", 12, 36, oil(shore)},
	{"dahlias", "Dahlias", 20, 16, oil(dahlias)},
}

// pixels gives the image size of a work: the long side is 1200 px from 24 in up, else
// 800 px, and the short side keeps the true aspect to the nearest pixel.
func (w Work) pixels() (width, height int) {
	long, in := 800, max(w.HeightIn, w.WidthIn)
	if in >= 24 {
		long = 1200
	}
	side := func(n int) int { return (2*n*long + in) / (2 * in) }
	return side(w.WidthIn), side(w.HeightIn)
}

// seed is fixed by the name, so reordering the list changes no picture.
func (w Work) seed() uint64 {
	h := uint64(14695981039346656037) // FNV-1a offset basis
	for _, c := range []byte(w.Name) {
		h = (h ^ uint64(c)) * 1099511628211
	}
	return h
}
