package stocklist

// Example is a list as it can be read: its headings, then its works.
var Example = [][]string{
	{"No", "Title", "Size (h x w, in)", "Medium", "Year", "Price", "Framed?", "Status", "Photo", "Weight (lb)"},
	{"1", "Heron at the weir", "24 x 36", "oil on canvas", "2025", "$1,250", "no", "", "heron.jpg", "9"},
	{"2", "Alder carr", "14 x 11", "linocut 3/20", "2024", "$180", "oak", "on hold", "alder.jpg", "4"},
	{"3", "Red barn", "20 x 16", "oil on panel", "2023", "NFS", "black 1 1/2 in", "", "barn.jpg", "6"},
	{"4", "Winter reeds", "14 x 11", "linocut 1/20", "2024", "$180", "yes", "at home", "reeds.jpg", "4"},
}

// Manner is how something in a list is read: the sentence that most need, and more of it.
type Manner struct{ Short, More string }

// Manners are how the cells of a list are read.
var Manners = []Manner{
	{"Units: a cell may state its own (24 x 36 in, 61 x 91 cm, 24\" x 36\"); else a column Unit, else the heading: Size (cm), or that of another measure: Height (cm), Width.", "If none does, start asks for --units."},
	{"Sizes are height x width, without the frame, as catalogues write them.", "“Size (w x h)” over the column, a line such as “all sizes w x h in cm” beside the table, or 36in w x 24in h in a cell, says otherwise; depth may come first. 12-16 is 12 x 16. Length beside a height is the width. A third measure is the depth. 24h x 36w, H: 24 W: 36, 12 in square, 16 in diameter and A3 are read too, and canvases as the French trade numbers them: 30F, 12 P, 15 marine. The photograph shows which way up these hang, unless “landscape” or “upright” stands beside it. 2 x (12 x 12 in), 12 x 12 in each beside a column Parts or “diptych” in the title are parts that hang side by side, 2 in apart; else the size over all counts: 16 x 48 in overall (three 16 x 16). One size of a diptych that says neither is asked about. Of several sizes in a cell the first counts, and is told. 9 x 7 x 22 is a sculpture, unless the row speaks of parts."},
	{"Frames: yes, a colour, a width, or several of these.", "“Framed size” beside a size makes the frame as wide as it must be: what is wider than 2 in is mostly mat. A framed size alone is that of the frame, and the picture is smaller. It may stand in one cell with the other: 24 x 36 in framed 28 x 40; or behind the frame: oak, 28 x 40 in."},
	{"Prices: $1,250.50, 1.250,50 €, 1 250, CHF 480.-, 480 incl. frame, 250 (framed 310), was 400 now 350, 1.2k, 40 each.", "Of 80-120 the least counts, as from 80, and is told. From $35, 35+ and ab 35 € stay so on tags. A price without tax, or one that cannot be read, is left out and reported: a tag says what visitors pay. Of a price with and one without a frame, in two columns or as 60 unframed / 95 framed, the one that suits the work counts. All prices are in one currency; one in another is left out and reported."},
	{"Cost never reaches a tag. Of two prices the one counts that says Retail price or Prezzo al pubblico, and of an image size and a paper size the image.", "Other columns that can both be the price, the title or the size and that differ are refused by name: write “not used” behind the heading that does not count."},
	{"Titles: numbers and years are taken out of them, where most are like 12 Heron (2023) and no column has these.", "Heron - SOLD is sold. A heading that is not known is read by what stands under it, if that can only be the title, the size, the price or a status that no other heading says; it is reported."},
	{"A work that is sold, at a gallery or on loan is left out.", "A spare, or what is at home, is in the scene and waits, and keeps what the list says of its price. Sculpture and cards stay off the wall; sculpture with three measures waits in the scene, and is on every list."},
	{"Photographs: several in one cell, or a column Photo 2: the first one counts.", "Rows may share one. Of a path on another computer (C:\\Users\\…) only the file counts. Without such a column photographs are found by title or number."},
	{"Passed over and reported: empty rows, totals, headings that come again, a line of text alone.", "A cell merged over several rows counts for each, but for a price. A heading may take two rows: Size, and under it H and W. Pictographs (🐦) are left out, as they cannot be printed; ✅ and ❌ are yes and no. A line beside the table may say what colours and words in it mean: red = sold. Where a cell says several things (oil on canvas, 24 x 36 in, 2023; or a label of several lines, the title first), it is taken apart. A sheet may have several tables, side by side with an empty column between, or below each other, each with its headings. Works may stand in columns, with what would be headings to the left; without any headings a row is read as a sentence: Weir, oil, 24 x 30 in, $780."},
	{"What a spreadsheet shows by its looks: a row struck through is sold, and so is one in a colour that a line beside the table calls sold; part of a cell that is struck through, such as an old price, is passed over.", "Hidden rows count. Typing slips in headings (Demensions) are read and told."},
	{"Of a file with several tabs all are read that are lists, if no work is in two of them, but those called old or archive; a tab called Sold has sold works.", "Where one work is in two, name the tab that counts: works.xlsx/2025."},
	{"Other spreadsheets are saved as XLSX or CSV first.", "CSV may be parted by commas, semicolons or tabs, in UTF-8, UTF-16 or as Windows writes it. Where semicolons part, a comma is the decimal mark."},
}
