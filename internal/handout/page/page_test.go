package page_test

import (
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"html"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	xhtml "golang.org/x/net/html"
)

// nodes are the elements of a page, in order, as a parser of the HTML standard sees them.
func nodes(t *testing.T, text string) []*xhtml.Node {
	t.Helper()
	root, err := xhtml.Parse(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	var out []*xhtml.Node
	for n := range root.Descendants() {
		if n.Type == xhtml.ElementNode {
			out = append(out, n)
		}
	}
	return out
}

func attribute(n *xhtml.Node, name string) string {
	for _, a := range n.Attr {
		if a.Key == name {
			return a.Val
		}
	}
	return ""
}

func textOf(n *xhtml.Node) string {
	var b strings.Builder
	for c := range n.Descendants() {
		if c.Type == xhtml.TextNode {
			b.WriteString(c.Data)
		}
	}
	return b.String()
}

func TestTheSameValuesGiveTheSameBytes(t *testing.T) {
	if first, second := write(t, hung(t)), write(t, hung(t)); first != second {
		t.Error("two pages of the same values differ")
	}
}

// Content Security Policy Level 3 (W3C), sections 6.7.3.3 and 8.4: what runs is what the policy names by its hash.
func TestThePolicyNamesJustWhatThePageHolds(t *testing.T) {
	var policy string
	var hashes []string
	for _, n := range nodes(t, write(t, hung(t))) {
		switch {
		case n.Data == "meta" && attribute(n, "http-equiv") == "Content-Security-Policy":
			policy = attribute(n, "content")
		case n.Data == "style", n.Data == "script" && attribute(n, "type") == "":
			h := sha256.Sum256([]byte(textOf(n)))
			hashes = append(hashes, "'sha256-"+base64.StdEncoding.EncodeToString(h[:])+"'")
		}
		for _, a := range n.Attr {
			if strings.HasPrefix(a.Key, "on") || a.Key == "style" {
				t.Errorf("<%s %s=%q>: the policy forbids it", n.Data, a.Key, a.Val)
			}
		}
	}
	if len(hashes) != 2 {
		t.Fatalf("%d scripts and styles, want one of each", len(hashes))
	}
	want := "default-src 'none'; script-src " + hashes[1] + "; style-src " + hashes[0] + "; img-src data: blob:; base-uri 'none'; form-action 'none'"
	if policy != want {
		t.Errorf("policy\n%s\nwant\n%s", policy, want)
	}
}

func TestNothingOnThePageIsElsewhere(t *testing.T) {
	text := write(t, hung(t))
	for _, n := range nodes(t, text) {
		for _, name := range []string{"src", "href", "srcset", "action", "poster", "data"} {
			if v := attribute(n, name); v != "" && !strings.HasPrefix(v, "#") && !strings.HasPrefix(v, "data:image/jpeg;base64,") {
				t.Errorf("<%s %s=%q> is outside of the page", n.Data, name, v[:min(60, len(v))])
			}
		}
	}
	for _, bad := range regexp.MustCompile(`(https?:)?//[a-z0-9-]+\.[a-z]+[^\s"']*|@import|url\(`).FindAllString(text, -1) {
		t.Errorf("the page holds %q", bad)
	}
}

func TestTitlesAreOnlyText(t *testing.T) {
	text := write(t, hung(t))
	scripts, titles := 0, []string{}
	for _, n := range nodes(t, text) {
		switch {
		case n.Data == "script":
			scripts++
		case n.Data == "cite":
			titles = append(titles, textOf(n))
		case n.Data == "b" && strings.Contains(textOf(n), "lamp"):
			t.Error("a title made an element")
		}
	}
	if scripts != 3 {
		t.Errorf("%d scripts, want facts, model and the page's own", scripts)
	}
	for _, want := range []string{hostile, emoji} {
		if n := slices.Index(titles, want); n < 0 {
			t.Errorf("no title reads %q; there are %q", want, titles)
		}
	}
	if strings.Contains(html.UnescapeString(text), "{{.}}") != strings.Contains(text, "{{.}}") {
		t.Error("a title was read as a template")
	}
}

// Messages look for the picture beside the page by the name that it has there (Open Graph protocol, og:image).
func TestThePreviewHasItsRightName(t *testing.T) {
	v := hung(t)
	v.Preview = "our fair & more.jpg"
	for _, n := range nodes(t, write(t, v)) {
		if attribute(n, "property") == "og:image" {
			if got := attribute(n, "content"); got != "our%20fair%20&%20more.jpg" {
				t.Errorf("the picture is looked for at %q", got)
			}
			return
		}
	}
	t.Error("the page names no picture")
}

// The anchors that links lead to exist, and no two things have the same one.
func TestLinksLeadSomewhere(t *testing.T) {
	ids := map[string]int{}
	all := nodes(t, write(t, hung(t)))
	for _, n := range all {
		if id := attribute(n, "id"); id != "" {
			ids[id]++
		}
	}
	for id, n := range ids {
		if n > 1 {
			t.Errorf("%d elements have the id %q", n, id)
		}
	}
	links := 0
	for _, n := range all {
		for _, name := range []string{"href", "aria-labelledby", "aria-describedby", "for"} {
			if v := strings.TrimPrefix(attribute(n, name), "#"); v != "" && !strings.HasPrefix(v, "data:") {
				links++
				if ids[v] == 0 {
					t.Errorf("<%s %s> leads to %q, which is not there", n.Data, name, v)
				}
			}
		}
	}
	if links < 15 {
		t.Errorf("only %d links", links)
	}
}

// What a helper needs is in the HTML itself: titles, hooks, steps, cautions, lists.
func TestEverythingIsThereWithoutScript(t *testing.T) {
	v := hung(t)
	var read strings.Builder
	for _, n := range nodes(t, write(t, v)) {
		if n.Data == "main" {
			read.WriteString(textOf(n))
		}
	}
	text := read.String()
	want := []string{"Put up the wall", "Hang the works", "Mind your fingers", "from 0:10", "5 min", v.Sheet.Cautions[0], v.Lists[0].Cautions[0]}
	for _, w := range v.Sheet.Walls {
		for _, work := range w.Works {
			for _, h := range work.Hooks {
				want = append(want, strings.TrimSpace(inches(h.X)), strings.TrimSpace(inches(h.Y)))
			}
		}
	}
	for _, h := range v.Day.Hours {
		want = append(want, h.Time, h.Words)
	}
	for _, i := range append(v.Sheet.Kit, v.Sheet.Hardware...) {
		want = append(want, i.What)
	}
	for _, f := range v.Report.Findings {
		want = append(want, f.Message)
	}
	if len(v.Report.Findings) == 0 || len(want) < 20 {
		t.Fatalf("the fixture tells too little: %d findings, %d texts", len(v.Report.Findings), len(want))
	}
	for _, w := range want {
		if !strings.Contains(text, w) {
			t.Errorf("nothing reads %q", w)
		}
	}
}

// facts are read back as the scripts read them.
func TestFactsAreJSON(t *testing.T) {
	for _, n := range nodes(t, write(t, hung(t))) {
		if attribute(n, "id") != "facts" {
			continue
		}
		var f struct {
			Key   string
			Works []struct {
				Title string
				Face  [][3]float64
				Seen  map[string]struct{ Share, Why string }
			}
			Views []struct{ Half float64 }
		}
		if err := json.Unmarshal([]byte(textOf(n)), &f); err != nil {
			t.Fatal(err)
		}
		if len(f.Works) != 2 || f.Works[0].Title != hostile || f.Works[1].Title != emoji || len(f.Works[0].Face) != 4 {
			t.Errorf("works are %+v", f.Works)
		}
		if got := f.Works[0].Seen["entrance/adult"].Share; got != "100%" {
			t.Errorf("a work with nothing before it is seen to %q", got)
		}
		if len(f.Key) != 16 || len(f.Views) != 1 || f.Views[0].Half < 0.842 || f.Views[0].Half > 0.843 { // tan 0.7
			t.Errorf("key %q, views %+v", f.Key, f.Views)
		}
		return
	}
	t.Error("the page has no facts")
}

// Another booth has other ticks.
func TestTheKeyFollowsTheBooth(t *testing.T) {
	key := regexp.MustCompile(`"key":"[0-9a-f]+"`)
	one, v := key.FindString(write(t, hung(t))), hung(t)
	v.Plan.SetUp.Tasks[0].Minutes = 12
	v.Lists[0].Steps[0].End += 2
	if two := key.FindString(write(t, v)); one == "" || one == two {
		t.Errorf("keys %q and %q", one, two)
	}
}

// Every size of letters, every white space and every width of a line on the page is of the scale, which is named once.
func TestStylesAreOfTheScale(t *testing.T) {
	named := regexp.MustCompile(`--(small|text|large|big|near|apart|far|part|hair|edge): [^;]+;`)
	comment := regexp.MustCompile(`(?s)/\*.*?\*/`)
	declared := regexp.MustCompile(`[{;\s](font|font-size|margin|padding|border|outline|gap|row-gap|column-gap)(-top|-right|-bottom|-left)?: ([^;{}]+)`)
	length := regexp.MustCompile(`(?:^|[\s(])-?[\d.]+(?:rem|px|pt|mm|em)\b`)
	bare := map[string]bool{ // what is left free for the bar of the parts' names, which lies over the page
		"padding-bottom: 5rem": true, "padding-bottom: min(env(safe-area-inset-bottom), 10vh - 53px)": true, "margin: 13mm": true, "margin: -1px": true,
	}
	files, _ := filepath.Glob("styles/*.css")
	var style []byte
	for _, f := range files {
		text, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		style = append(style, text...)
	}
	seen := 0
	for _, m := range declared.FindAllStringSubmatch(named.ReplaceAllString(comment.ReplaceAllString(string(style), ""), ""), -1) {
		seen++
		if said := m[1] + m[2] + ": " + strings.TrimSpace(m[3]); length.MatchString(m[3]) && !bare[said] {
			t.Errorf("not of the scale: %s", said)
		}
	}
	if seen < 200 {
		t.Errorf("only %d declarations are looked at", seen)
	}
}
