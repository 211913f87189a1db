//go:build !js

package whole_test

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"boothmock/internal/handout/page"
	"boothmock/internal/plan/booth"
	"boothmock/internal/try"
	"boothmock/internal/whole/within"
)

// The pages' scripts are held to their types by TypeScript, strictly: what they say of each other in JSDoc, what Go sends them
// (written down here from Go's own types), and which elements there are in the pages' HTML.
func TestScriptsKeepToTheirTypes(t *testing.T) {
	tsc, err := filepath.Abs("../../.ci/node_modules/.bin/tsc")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(tsc); err != nil {
		if os.Getenv("REQUIRE_TOOLS") != "" {
			t.Fatal(err)
		}
		t.Skip(err)
	}
	folder := os.Getenv("TYPES_IN") // for whoever wants to read them
	if folder == "" {
		folder = t.TempDir()
	}
	files := []string{filepath.Join(folder, "go.d.ts"), filepath.Join(folder, "ids.d.ts")}
	for name, text := range map[string]string{files[0]: messages(t), files[1]: elements(t)} {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for _, pkg := range []string{"../handout/page", "../try", "."} {
		found, err := filepath.Glob(filepath.Join(pkg, "scripts/*.js"))
		if err != nil || len(found) == 0 {
			t.Fatal(pkg, err)
		}
		for _, name := range found {
			if name, err = filepath.Abs(name); err != nil {
				t.Fatal(err)
			}
			files = append(files, name)
		}
	}
	config, err := json.Marshal(map[string]any{"files": files, "compilerOptions": map[string]any{
		"allowJs": true, "checkJs": true, "noEmit": true, "strict": true, "noUnusedLocals": true, "noUnusedParameters": true, "noFallthroughCasesInSwitch": true,
		"target": "es2023", "module": "esnext", "moduleResolution": "bundler", "lib": []string{"es2023", "dom", "dom.iterable", "dom.asynciterable"}, "types": []string{},
	}})
	if err != nil {
		t.Fatal(err)
	}
	project := filepath.Join(folder, "tsconfig.json")
	if err := os.WriteFile(project, config, 0o644); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command(tsc, "--pretty", "false", "--project", project).CombinedOutput(); err != nil {
		t.Errorf("%v\n%s", err, out)
	}
}

// elements are the elements of the pages by their ids, as a TypeScript interface.
func elements(t *testing.T) string {
	opened := regexp.MustCompile(`<(\w+)[^>]*?\sid="([\w-]+)"`)
	kinds := map[string]string{}
	for _, pkg := range []string{"../handout/page", "../try", "."} {
		names, err := filepath.Glob(filepath.Join(pkg, "parts/*.html"))
		if err != nil || len(names) == 0 {
			t.Fatal(pkg, err)
		}
		for _, name := range names {
			text, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			for _, m := range opened.FindAllStringSubmatch(string(text), -1) {
				kind := fmt.Sprintf("HTMLElementTagNameMap[%q]", m[1])
				if m[1] == "svg" {
					kind = "SVGSVGElement"
				}
				if was, ok := kinds[m[2]]; ok && was != kind {
					kind = was + " | " + kind // another element in another page
				}
				kinds[m[2]] = kind
			}
		}
	}
	kinds["program"], kinds["worker"], kinds["facts"], kinds["model"] = "HTMLScriptElement", "HTMLScriptElement", "HTMLScriptElement", "HTMLScriptElement"
	var b strings.Builder
	b.WriteString("interface Ids {\n")
	for _, id := range sorted(kinds) {
		fmt.Fprintf(&b, "\t%q: %s;\n", id, kinds[id])
	}
	b.WriteString("}\n")
	return b.String()
}

func sorted(m map[string]string) []string {
	var out []string
	for k := range m {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}

// messages are what Go sends the pages and gets from them, as TypeScript interfaces.
func messages(t *testing.T) string {
	w := typed{t: t, names: map[reflect.Type]string{}, texts: map[string]string{}}
	w.names[reflect.TypeFor[within.Ask]()] = "ProgramAsk"
	w.names[reflect.TypeFor[within.Reply]()] = "ProgramReply"
	for _, v := range []any{page.Facts(page.Values{Plan: &booth.Plan{}}), try.Ask{}, try.Answer{}, within.Ask{}, within.Reply{}} {
		w.of(reflect.TypeOf(v))
	}
	var b strings.Builder
	b.WriteString("declare namespace Go {\n")
	for _, name := range sorted(w.texts) {
		b.WriteString(w.texts[name])
	}
	b.WriteString("}\n")
	return b.String()
}

type typed struct {
	t     *testing.T
	names map[reflect.Type]string
	texts map[string]string
}

// of is how TypeScript calls what encoding/json makes of a Go type.
func (w *typed) of(g reflect.Type) string {
	switch g.Kind() {
	case reflect.Bool:
		return "boolean"
	case reflect.String:
		return "string"
	case reflect.Int, reflect.Float32, reflect.Float64:
		return "number"
	case reflect.Interface:
		return "unknown"
	case reflect.Pointer:
		return w.of(g.Elem()) + " | null"
	case reflect.Map:
		return "{[key: string]: " + w.of(g.Elem()) + "}"
	case reflect.Array:
		return "[" + strings.TrimSuffix(strings.Repeat(w.of(g.Elem())+", ", g.Len()), ", ") + "]"
	case reflect.Slice:
		if g.Elem().Kind() == reflect.Uint8 {
			return "string" // in base64
		}
		return "(" + w.of(g.Elem()) + ")[]"
	case reflect.Struct:
		return w.structure(g)
	}
	w.t.Fatalf("what is %v for the page?", g)
	return ""
}

func (w *typed) structure(g reflect.Type) string {
	name, named := w.names[g]
	if !named {
		name = strings.ToUpper(g.Name()[:1]) + g.Name()[1:]
		w.names[g] = name
	}
	if text, ok := w.texts[name]; ok {
		if !strings.HasPrefix(text, "// "+g.PkgPath()) {
			w.t.Fatalf("there are two types %s", name)
		}
		return name
	}
	head := fmt.Sprintf("// %s\ninterface %s {\n", g.PkgPath(), name)
	w.texts[name] = head // it may hold itself
	w.texts[name] = head + w.fields(g) + "}\n"
	return name
}

func (w *typed) fields(g reflect.Type) string {
	var b strings.Builder
	for i := range g.NumField() {
		f := g.Field(i)
		key, more, _ := strings.Cut(f.Tag.Get("json"), ",")
		switch {
		case f.Anonymous:
			b.WriteString(w.fields(f.Type))
		case key == "" || key == "-":
		case more == "omitempty":
			fmt.Fprintf(&b, "\t%s?: %s;\n", key, w.of(f.Type))
		default:
			fmt.Fprintf(&b, "\t%s: %s;\n", key, w.of(f.Type))
		}
	}
	return b.String()
}
