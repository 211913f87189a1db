package job_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"encoding/xml"
	"fmt"
	"image"
	"image/png"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"boothmock/internal/job"
	"boothmock/internal/plan/start"
)

// putAll puts files into a folder.
func putAll(t *testing.T, dir string, files map[string]string) {
	t.Helper()
	for name, text := range files {
		file := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

func aPNG(t *testing.T) string {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewGray(image.Rect(0, 0, 36, 24))); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// Whatever a scene names that lies outside its folder is not read: not by a path, not by a link. What lies there could be
// used, so a way out would show.
func TestASceneReadsNothingOutsideItsFolder(t *testing.T) {
	top := t.TempDir()
	dir, out := filepath.Join(top, "scene"), filepath.Join(top, "out")
	putAll(t, top, map[string]string{
		"out/p.png": aPNG(t), "out/list.csv": "Name,Height,Width\na,24in,36in\n", "out/rules.yaml": "units: in\nhanging centre: 41\n",
		"out/times.csv": "practice,step,minutes\n1,frame,7\n",
		"scene/p.png":   aPNG(t), "scene/list.csv": "Name,Height,Width\na,24in,36in\n", "scene/rules.yaml": "units: in\nhanging centre: 41\n",
	})
	for name, to := range map[string]string{"link": out, "link.png": out + "/p.png", "link.csv": out + "/list.csv", "link.yaml": out + "/rules.yaml", "up": "../out"} {
		if err := os.Symlink(to, filepath.Join(dir, name)); err != nil {
			t.Skip(err)
		}
	}
	load := func(image, sheet, rules string) error {
		text := tiny
		if image != "" {
			text = strings.Replace(text, "wall: back}", fmt.Sprintf("wall: back, image: %q}", image), 1)
		}
		if sheet != "" {
			text += fmt.Sprintf("sheet: %q\n", sheet)
		}
		if rules != "" {
			text += fmt.Sprintf("rule sheet: %q\n", rules)
		}
		putAll(t, dir, map[string]string{"booth.yaml": text})
		_, err := job.Load(filepath.Join(dir, "booth.yaml"), job.Settings{})
		return err
	}
	if err := load("p.png", "list.csv", "rules.yaml"); err != nil {
		t.Fatalf("what lies in the folder: %v", err)
	}
	for _, where := range []string{"../out/%s", `..\out\%s`, "x/../../out/%s", out + "/%s", "file://" + out + "/%s", "link/%s", "up/%s", "LINK"} {
		name := func(file string) string {
			if where == "LINK" {
				return "link" + path.Ext(file)
			}
			return fmt.Sprintf(where, file)
		}
		for what, err := range map[string]error{
			"image": load(name("p.png"), "", ""), "sheet": load("", name("list.csv"), ""), "rule sheet": load("", "", name("rules.yaml")),
		} {
			if err == nil {
				t.Errorf("the %s was read by %q", what, where)
			}
		}
	}
	// The scene itself, and the log of practice times, which nobody names.
	putAll(t, top, map[string]string{"out/booth.yaml": tiny})
	for name, to := range map[string]string{"lent.yaml": "booth.yaml", "mine.times.csv": "times.csv"} {
		if err := os.Symlink(filepath.Join(out, to), filepath.Join(dir, name)); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := job.Load(filepath.Join(dir, "lent.yaml"), job.Settings{}); err == nil || !strings.Contains(err.Error(), "a link leads out of the folder") {
		t.Errorf("a scene that is a link: %v", err)
	}
	putAll(t, dir, map[string]string{"mine.yaml": tiny})
	p, err := job.Load(filepath.Join(dir, "mine.yaml"), job.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	if log, err := job.ReadTimes(p); err == nil || len(log) > 0 {
		t.Errorf("the log of times was read: %v", log)
	}
	// start goes through a whole folder, and finds nothing by the links.
	os.Remove(filepath.Join(dir, "booth.yaml"))
	os.Remove(filepath.Join(dir, "list.csv"))
	d, _, err := job.Start(dir, start.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if text := fmt.Sprint(d.List, d.Lonely); strings.Contains(text, "link") || !strings.Contains(text, "p.png") || len(d.Unusable) != 2 {
		t.Errorf("start speaks of %q, and not of %q", text, d.Unusable)
	}
}

// hostile is what somebody might write who wants a program to run on somebody else's machine.
var hostile = []string{
	`<script>alert(1)</script>`, `"><img src=x onerror=alert(1)>`, `</script><svg onload=alert(1)>`, `](javascript:alert(1))`,
	`') /OpenAction << /S /JavaScript /JS (app.alert(1)) >> (`, `\) >> endobj 9 0 obj << /Launch`, `=HYPERLINK("http://evil.example","x")`,
	`{{.Plan}}`, `javascript:alert(1)`, `]]><!--`, `../../x`, `C:\x`, `con`, strings.Repeat("long ", 48),
}

func hostileScene() string {
	var b strings.Builder
	q := func(s string) string { return "'" + strings.ReplaceAll(s, "'", "''") + "'" }
	say := func(k int) string { return q(hostile[k%len(hostile)]) }
	fmt.Fprintf(&b, "units: in\nevent: %s\nartist: %s\ncurrency: '<b>'\n", say(0), say(4))
	b.WriteString("pitch: {width: 20ft, depth: 6ft, aisle: 10ft, neighbours: none}\nset-up: {people: 2}\n")
	b.WriteString("tables: [{name: desk, size: 30 x 60, against: left, from front: 4}]\nworks:\n")
	for k, h := range hostile {
		fmt.Fprintf(&b, "  - {name: %s, title: %s, medium: %s, edition: %s, size: 12 x 12, wall: %s, left: %d, price: 3}\n",
			q(h), q(h), say(k+1), say(k+2), q("../../x"), 8+14*k)
	}
	fmt.Fprintf(&b, "walls: [{name: %s, side: back, hang on: panel, top: 82}, {name: %s, side: left, hang on: panel, top: 82}, {name: %s, side: right, hang on: panel, top: 82}]\n",
		q("../../x"), q("a.b"+strings.Repeat("é", 200)), q("a-b"+strings.Repeat("é", 200)))
	b.WriteString("tags: {}\nsigns:\n")
	for k, h := range hostile[:4] {
		fmt.Fprintf(&b, "  - {name: %s, text: [%s, %s], on: desk, address: %s}\n", q(h), say(k), say(k+1), q("https://example.org/"+h))
	}
	b.WriteString("tasks:\n")
	for k, h := range hostile {
		fmt.Fprintf(&b, "  - {do: %s, name: %s, minutes: 3, caution: %s, check: %s}\n", q(h), q(h), say(k+1), say(k+2))
	}
	return b.String()
}

// A scene full of attacks is built like any other; nothing of it comes alive in what is handed on.
func TestNothingOfASceneComesAlive(t *testing.T) {
	if raced {
		t.Skip("a whole build takes a minute with the race detector")
	}
	dir := t.TempDir()
	putAll(t, dir, map[string]string{"hostile.yaml": hostileScene()})
	p, err := job.Load(filepath.Join(dir, "hostile.yaml"), job.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	m, err := job.New(p)
	if err != nil {
		t.Fatal(err)
	}
	looked := 0
	seen := map[string]bool{}
	for _, o := range job.Outputs(m) {
		// A name that every system takes, once, in the folder or in set-up/ below it.
		if !regexp.MustCompile(`^(set-up/)?[\p{L}\p{N}][\p{L}\p{N}_ -]*\.(png|gif|webp|glb|json|pdf|svg|html|jpg)$`).MatchString(o.Name) ||
			!fs.ValidPath(o.Name) || len(path.Base(o.Name)) > 220 || seen[strings.ToLower(o.Name)] {
			t.Errorf("a file is called %q", o.Name)
		}
		seen[strings.ToLower(o.Name)] = true
		quiet := map[string]func(*testing.T, []byte){".html": quietPage, ".svg": quietXML, ".pdf": quietPDF, ".glb": quietGLB}[path.Ext(o.Name)]
		if quiet == nil {
			continue
		}
		looked++
		var b bytes.Buffer
		if err := o.Write(m, &b); err != nil {
			t.Fatalf("%s: %v", o.Name, err)
		}
		t.Run(o.Name, func(t *testing.T) { quiet(t, b.Bytes()) })
	}
	if looked != 7 {
		t.Errorf("%d files were looked at", looked)
	}
}

func quietGLB(t *testing.T, file []byte) {
	if !bytes.HasPrefix(file, []byte("glTF")) || bytes.Contains(file, []byte(`"uri"`)) {
		t.Error("the .glb points to something outside itself")
	}
}

// quietPage holds that a page has its one script and its one style, which its policy names by their sums (Content Security
// Policy, level 3), and nothing else that could run or fetch.
func quietPage(t *testing.T, page []byte) {
	doc, err := html.Parse(bytes.NewReader(page))
	if err != nil {
		t.Fatal(err)
	}
	policy, shown := "", false
	var texts []string
	for n := range doc.Descendants() {
		if n.Type == html.TextNode && strings.Contains(n.Data, hostile[0]) && n.Parent.Data != "script" && n.Parent.Data != "style" {
			shown = true
		}
		if n.Type != html.ElementNode {
			continue
		}
		kind := attribute(n, "type")
		switch {
		case n.Data == "script" && (kind == "application/json" || kind == "text/plain"): // data, which no browser runs
		case n.Data == "script", n.Data == "style":
			texts = append(texts, n.FirstChild.Data)
		case n.Data == "meta" && attribute(n, "http-equiv") != "":
			policy += attribute(n, "content")
		case n.Data == "iframe", n.Data == "object", n.Data == "embed", n.Data == "base", n.Data == "link", n.Data == "form":
			t.Errorf("there is a <%s>", n.Data)
		}
		for _, a := range n.Attr {
			v := strings.ToLower(strings.TrimSpace(a.Val))
			switch {
			case strings.HasPrefix(a.Key, "on"), a.Key == "srcdoc":
				t.Errorf("<%s %s=%q>", n.Data, a.Key, a.Val)
			case a.Key == "href" || a.Key == "xlink:href" || a.Key == "action" || a.Key == "formaction":
				if !strings.HasPrefix(v, "#") && !strings.HasPrefix(v, "data:image/") {
					t.Errorf("<%s %s=%q>", n.Data, a.Key, a.Val)
				}
			case a.Key == "src" && !strings.HasPrefix(v, "data:image/"):
				t.Errorf("<%s src=%.80q>", n.Data, a.Val)
			}
		}
	}
	if len(texts) != 2 {
		t.Errorf("there are %d scripts and styles", len(texts))
	}
	for _, s := range texts {
		sum := sha256.Sum256([]byte(s))
		if !strings.Contains(policy, "'sha256-"+base64.StdEncoding.EncodeToString(sum[:])+"'") {
			t.Errorf("the policy does not name the script %.60q", s)
		}
	}
	if !strings.HasPrefix(policy, "default-src 'none'; ") || strings.Contains(policy, "unsafe") || strings.Count(policy, "'sha256-") != 2 {
		t.Errorf("the policy lets more through than the page's own script and style: %s", policy)
	}
	if !shown {
		t.Error("the title is not on the page as text")
	}
}

func attribute(n *html.Node, key string) string {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	return ""
}

func quietXML(t *testing.T, file []byte) {
	d := xml.NewDecoder(bytes.NewReader(file))
	elements := 0
	for {
		tok, err := d.Token()
		if tok == nil {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		if e, ok := tok.(xml.StartElement); ok {
			elements++
			if n := e.Name.Local; !slices.Contains([]string{"svg", "defs", "pattern", "rect", "path", "text"}, n) {
				t.Errorf("there is a <%s>", n)
			}
			for _, a := range e.Attr {
				if strings.HasPrefix(a.Name.Local, "on") || a.Name.Local == "href" {
					t.Errorf("<%s %s=%q>", e.Name.Local, a.Name.Local, a.Value)
				}
			}
		}
	}
	if elements < 20 {
		t.Errorf("the drawing has only %d elements", elements)
	}
}

// quietPDF holds that no dictionary of a PDF starts anything (ISO 32000-1, 12.6.4). Streams and texts are passed over: what
// stands in them is drawn.
func quietPDF(t *testing.T, file []byte) {
	file = regexp.MustCompile(`(?s)\bstream\r?\n.*?\nendstream`).ReplaceAll(file, nil)
	var rest []byte
	texts, depth := 0, 0
	for i := 0; i < len(file); i++ {
		switch c := file[i]; {
		case depth > 0 && c == '\\':
			i++
		case c == '(':
			depth, texts = depth+1, texts+1
		case depth > 0 && c == ')':
			depth--
		case depth == 0:
			rest = append(rest, c)
		}
	}
	if depth != 0 || texts < 3 || !bytes.HasPrefix(file, []byte("%PDF-")) {
		t.Fatalf("the file cannot be followed: %d texts, %d open", texts, depth)
	}
	if m := regexp.MustCompile(`/(JS|JavaScript|Launch|OpenAction|AA|URI|SubmitForm|ImportData|GoToR|EF|Filespec|RichMedia|Rendition|Movie|AcroForm|XFA)\b`).Find(rest); m != nil {
		t.Errorf("there is a %s", m)
	}
}

// Addresses in codes do nothing on a visitor's phone but open a page, a letter or a call.
func TestAddressesOfSigns(t *testing.T) {
	dir := t.TempDir()
	for address, good := range map[string]bool{
		"https://example.org/a": true, "example.org/a:b": true, "mailto:a@example.org": true, "TEL:+44": true, "example.org:8080/": true,
		"javascript:alert(1)": false, "JavaScript:alert(1)": false, "data:text/html,x": false, "file:///etc/passwd": false, "intent:x": false,
	} {
		putAll(t, dir, map[string]string{"a.yaml": tiny + fmt.Sprintf("signs: [{text: [x], wall: back, address: %q}]\n", address)})
		if _, err := job.Load(filepath.Join(dir, "a.yaml"), job.Settings{}); (err == nil) != good {
			t.Errorf("%s: %v", address, err)
		}
	}
}

// A photograph may be called like a formula; in the list that start writes it is none, and the list still names it.
func TestNoFormulasInTheList(t *testing.T) {
	dir := t.TempDir()
	names := []string{`=HYPERLINK("x").png`, "+1.png", "-2.png", "@sum.png", "plain.png", "a,b.png"}
	for _, n := range names {
		putAll(t, dir, map[string]string{n: aPNG(t)})
	}
	d, _, err := job.Start(dir, start.Options{})
	if err != nil {
		t.Fatal(err)
	}
	list := filepath.Join(dir, start.SheetFile)
	text, err := os.ReadFile(list)
	if err != nil || string(text) != d.List {
		t.Fatal(err)
	}
	if m := regexp.MustCompile(`(?m)(^|,)"?[=+@-].*`).Find(text); m != nil {
		t.Errorf("a cell is a formula: %s", m)
	}
	if err := os.WriteFile(list, bytes.ReplaceAll(text, []byte(",,,in"), []byte(",24,36,in")), 0o644); err != nil {
		t.Fatal(err)
	}
	d, _, err = job.Start(dir, start.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if len(d.Pairs) != len(names) {
		t.Errorf("of %d photographs %d were found again: %v", len(names), len(d.Pairs), d.Pairs)
	}
}
