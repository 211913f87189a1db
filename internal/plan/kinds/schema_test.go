package kinds

import (
	"bytes"
	"encoding/json"
	"io/fs"
	"strings"
	"testing"
	"time"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"go.yaml.in/yaml/v3"

	"boothmock/scenes"
)

// compiled is the schema as a program of another project reads it.
func compiled(t *testing.T) *jsonschema.Schema {
	b, err := json.Marshal(Schema())
	if err != nil {
		t.Fatal(err)
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(b))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource(SchemaFile, doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile(SchemaFile)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// plainYAML is a scene as an editor's checker sees it.
func plainYAML(t *testing.T, text []byte) any {
	var v any
	if err := yaml.Unmarshal(text, &v); err != nil {
		t.Fatal(err)
	}
	var walk func(v any) any
	walk = func(v any) any {
		switch v := v.(type) {
		case map[string]any:
			for k := range v {
				v[k] = walk(v[k])
			}
		case []any:
			for i := range v {
				v[i] = walk(v[i])
			}
		case time.Time:
			return v.Format(time.DateOnly)
		}
		return v
	}
	return walk(v)
}

func TestSchemaTakesEveryScene(t *testing.T) {
	s := compiled(t)
	names, err := fs.Glob(scenes.FS, "*.yaml")
	if err != nil || len(names) < 3 {
		t.Fatal(names, err)
	}
	for _, name := range names {
		text, err := fs.ReadFile(scenes.FS, name)
		if err != nil {
			t.Fatal(err)
		}
		if err := s.Validate(plainYAML(t, text)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestSchemaRefuses(t *testing.T) {
	s := compiled(t)
	for text, want := range map[string]string{
		"tabels: []": "tabels", "tent: {eaves: 82}": "eaves", "works: [{size: 24 x 36}]": "name", "walls: [{side: top}]": "side",
		"works: [{name: a, size: wide}]": "size", "pitch: [10, 10]": "object", "rules: {hanging center: 60}": "hanging center",
		"works: [{name: a, size: 1 x 1, frame: {mat color: red}}]": "mat color", "kit: [{name: a, count: two}]": "count",
		"works: [{name: a, pinned: maybe}]": "pinned", "works: [{name: a, corners: [1 2, 3 4, 5 6]}]": "corners", "works: [{name: a, corners: [1 2, 3 4, 5 6, seven]}]": "corners", "rows: [{wall: back, works: a}]": "array",
	} {
		err := s.Validate(plainYAML(t, []byte(text)))
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v", text, err)
		}
	}
	for _, text := range []string{
		"works: {name: 7, size: 24 x 36, price: \"1,250\", edition: 2026-03-20, depth: 1.5, pinned: yes}", "tags: {}",
		"works: [{name: a, corners: [120 95, 1830 140, 1795 1320, 150 1290], hooks: 2}]",
	} {
		if err := s.Validate(plainYAML(t, []byte(text))); err != nil {
			t.Errorf("%s: %v", text, err)
		}
	}
}
