package module

import (
	"os"
	"os/exec"
	"strings"
	"testing"
	"testing/fstest"
)

// What node prints for modules joined is what it prints for the same modules as files.
func TestJoinedIsTheSame(t *testing.T) {
	set := Set{
		"a/scripts/main.js":  "// The entry.\n/**\n * @typedef {{a: number}} A\n */\nimport {twice, Box} from './sums.js';\nimport {name} from '../../b/scripts/names.js';\n\n/** @type {Box} */\nconst told = /** @type {Box} */ (new Box(twice(21)));\n/** @type {any} */ (console).log(name(told.held), typeof hidden);\n",
		"a/scripts/sums.js":  "import {name} from '../../b/scripts/names.js';\nconst hidden = 2;\nexport const twice = (x) => hidden * x;\nexport class Box {\n\tconstructor(held) { this.held = name(held); }\n}\n",
		"b/scripts/names.js": "let hidden = 0;\nexport function name(x) { return `${++hidden} is ${x}`; }\nconsole.log('once');\n",
	}
	want := "once\n2 is 1 is 42 undefined\n"
	if joined := set.Join("a/scripts/main.js"); strings.Count(joined, "/**") != 2 || strings.Contains(joined, "typedef") {
		t.Errorf("types are handed on:\n%s", joined)
	}
	node, err := exec.LookPath("node")
	if err != nil {
		if os.Getenv("REQUIRE_TOOLS") != "" {
			t.Fatal(err)
		}
		t.Skip(err)
	}
	if out, err := exec.Command(node, "-e", set.Join("a/scripts/main.js")).CombinedOutput(); err != nil || string(out) != want {
		t.Errorf("joined: %v\n%s", err, out)
	}
	folder := t.TempDir()
	if err := os.CopyFS(folder, files(set)); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command(node, folder+"/a/scripts/main.js").CombinedOutput(); err != nil || string(out) != want {
		t.Errorf("as files: %v\n%s", err, out)
	}
}

func files(set Set) fstest.MapFS {
	out := fstest.MapFS{"package.json": {Data: []byte(`{"type": "module"}`)}}
	for name, text := range set {
		out[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return out
}

func TestRefused(t *testing.T) {
	for text, want := range map[string]string{
		"import {no} from './b.js';\n":                        "a.js imports no, which b.js does not export",
		"import {yes} from './c.js';\n":                       "there is no module c.js",
		"import {a} from './ring.js';\nexport const a = 1;\n": "a.js imports itself, by others",
		"import * as b from './b.js';\n":                      `cannot be joined`,
		"import {yes as no} from './b.js';\n":                 `which b.js does not export`,
		"import {yes} from './b.js'; yes();\n":                `cannot be joined`,
		"export default 1;\n":                                 `cannot be joined`,
		"export let x = 1;\n":                                 `cannot be joined`,
		"export {x};\n":                                       `cannot be joined`,
	} {
		said := ""
		func() {
			defer func() { said, _ = recover().(string) }()
			Set{"a.js": text, "b.js": "export const yes = 1;\n", "ring.js": "import {a} from './a.js';\n"}.Join("a.js")
		}()
		if !strings.Contains(said, want) {
			t.Errorf("%q: said %q, want %q", text, said, want)
		}
	}
}

func TestReadWith(t *testing.T) {
	a := Read("one/a", fstest.MapFS{"scripts/x.js": {Data: []byte("1")}, "scripts/x.test.mjs": {}, "styles/y.css": {}})
	b := Read("b", fstest.MapFS{"scripts/x.js": {Data: []byte("2")}})
	both := a.With(b)
	if len(a) != 1 || len(both) != 2 || both["one/a/scripts/x.js"] != "1" || both["b/scripts/x.js"] != "2" {
		t.Errorf("%v and %v", a, both)
	}
}
