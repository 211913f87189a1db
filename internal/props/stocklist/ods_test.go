package stocklist

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"boothmock/internal/basis/unit"
)

// odsContent is content.xml as OpenDocument 1.3 (OASIS 2021, part 3) writes it: a hidden table, one of costs, and the list, whose cells
// and rows repeat, are merged, and have notes and several paragraphs.
const odsContent = `<?xml version="1.0" encoding="UTF-8"?>
<office:document-content xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0" xmlns:style="urn:oasis:names:tc:opendocument:xmlns:style:1.0" office:version="1.3">
<office:automatic-styles><style:style style:name="ta2" style:family="table"><style:table-properties table:display="false"/></style:style></office:automatic-styles>
<office:body><office:spreadsheet>
<table:table table:name="old" table:style-name="ta2"><table:table-row><table:table-cell><text:p>Title</text:p></table:table-cell><table:table-cell><text:p>Size</text:p></table:table-cell></table:table-row><table:table-row table:number-rows-repeated="2"><table:table-cell><text:p>Old</text:p></table:table-cell><table:table-cell><text:p>1 x 1 in</text:p></table:table-cell></table:table-row></table:table>
<table:table table:name="costs"><table:table-row><table:table-cell><text:p>Date</text:p></table:table-cell><table:table-cell><text:p>What</text:p></table:table-cell></table:table-row></table:table>
<table:table table:name="Works">
<table:table-column table:number-columns-repeated="6"/>
<table:table-header-rows><table:table-row>
<table:table-cell office:value-type="string"><text:p>Title</text:p></table:table-cell><table:table-cell office:value-type="string"><text:p>Height (in)</text:p></table:table-cell><table:table-cell office:value-type="string"><text:p>Width (in)</text:p></table:table-cell><table:table-cell office:value-type="string"><text:p>Medium</text:p></table:table-cell><table:table-cell office:value-type="string"><text:p>Price</text:p></table:table-cell><table:table-cell office:value-type="string"><text:p>Year</text:p></table:table-cell><table:table-cell table:number-columns-repeated="16378"/>
</table:table-row></table:table-header-rows>
<table:table-row table:number-rows-repeated="3"><table:table-cell table:number-columns-repeated="16384"/></table:table-row>
<table:table-row>
<table:table-cell office:value-type="string"><office:annotation><text:p>ask Wren</text:p></office:annotation><text:p>Heron,<text:s/><text:span>at the <text:a>weir</text:a></text:span></text:p><text:p>again</text:p></table:table-cell>
<table:table-cell table:number-columns-repeated="2" office:value-type="float" office:value="24.199999999999999"><text:p>24</text:p></table:table-cell>
<table:table-cell office:value-type="string" table:number-rows-spanned="2"><text:p>oil</text:p></table:table-cell>
<table:table-cell office:value-type="currency" office:currency="GBP" office:value="480"><text:p>£480.00</text:p></table:table-cell>
<table:table-cell office:value-type="float" office:value="2024"><text:p>2024</text:p></table:table-cell>
</table:table-row>
<table:table-row table:number-rows-repeated="2">
<table:table-cell office:value-type="string"><text:p>Weir</text:p></table:table-cell><table:table-cell office:value-type="float" office:value="14"><text:p>14</text:p></table:table-cell><table:table-cell office:value-type="date" office:date-value="2026-05-11"><text:p>11/05/26</text:p></table:table-cell><table:covered-table-cell/>
</table:table-row>
<table:table-row table:number-rows-repeated="1048569"><table:table-cell table:number-columns-repeated="16384"/></table:table-row>
</table:table>
</office:spreadsheet></office:body></office:document-content>`

func TestODS(t *testing.T) {
	file := zipped(t, map[string]string{"content.xml": odsContent})
	s, err := Read(fstest.MapFS{"a.ods": {Data: file}}, "a.ods", unit.Inches, false)
	if err != nil {
		t.Fatal(err)
	}
	if fmt.Sprint(s.Tabs) != "[Works]" || len(s.Rows) != 1 || len(s.Unread) != 2 {
		t.Fatalf("%+v", s)
	}
	r := s.Rows[0]
	if r.Number != 5 || r.Title != "Heron, at the weir again" || r.Size.Format(unit.Centimetres) != "61.5 x 61.5 cm" || r.Medium != "oil" || r.Price != 48000 || s.Currency != "£" || r.Year != "2024" {
		t.Errorf("%+v of %+v", r, s)
	}
	if u := s.Unread[1]; u.Number != 7 || u.What != "Weir" || !strings.Contains(u.Why, "has made a date of") {
		t.Errorf("%+v", s.Unread)
	}
	if s, err := Read(fstest.MapFS{"a.ods": {Data: file}}, "a.ods/costs", unit.Inches, false); err == nil {
		t.Errorf("%+v", s)
	}
	locked := zipped(t, map[string]string{"content.xml": "\x01\x02", "META-INF/manifest.xml": `<m:manifest xmlns:m="m"><m:file-entry><m:encryption-data/></m:file-entry></m:manifest>`})
	for name, file := range map[string][]byte{"1.2": locked, "1.4": zipped(t, map[string]string{"encrypted-package": "\x01"})} {
		if _, err := Read(fstest.MapFS{"a.ods": {Data: file}}, "a.ods", unit.Inches, false); err == nil || !strings.Contains(err.Error(), "it is locked with a password (open it in the spreadsheet program, take the password away") {
			t.Errorf("locked as of OpenDocument %s: %v", name, err)
		}
	}
}

// A row that stands there a million times ends at as many works as a list may have.
func TestODSRepeats(t *testing.T) {
	many := strings.Replace(odsContent, `<table:table-row table:number-rows-repeated="2">
<table:table-cell office:value-type="string"><text:p>Weir`, `<table:table-row table:number-rows-repeated="1000000">
<table:table-cell office:value-type="string"><text:p>Weir`, 1)
	_, err := Read(fstest.MapFS{"a.ods": {Data: zipped(t, map[string]string{"content.xml": many})}}, "a.ods", unit.Inches, false)
	if err == nil || !strings.Contains(err.Error(), "the list has more than 5000 works") {
		t.Error(err)
	}
}
