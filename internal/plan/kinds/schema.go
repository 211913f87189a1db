package kinds

import (
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/rules"
	"boothmock/internal/plan/scene"
)

// SchemaFile is the name under which a new scene has its schema beside it.
const SchemaFile = "booth.schema.json"

// Schema is the JSON Schema of a scene, made from the same structs that read it.
func Schema() map[string]any {
	properties := map[string]any{}
	for _, k := range Plain {
		properties[k.Key] = map[string]any{"type": []string{"string", "number", "boolean"}, "description": k.Doc}
	}
	house := map[string]any{}
	for _, l := range (rules.Book{}).Explain(unit.Inches) {
		house[l.Name] = map[string]any{"type": []string{"string", "number"}, "description": l.Doc + ". Usually " + l.Value + " (" + l.Source + ")"}
	}
	properties["rules"] = map[string]any{"type": "object", "properties": house, "additionalProperties": false, "description": "house rules of your own"}
	for _, k := range All {
		entry := scene.Schema(scene.Fields(k.Fields))
		if k.Many { // a single entry is a list of one
			entry = map[string]any{"anyOf": []any{map[string]any{"type": "array", "items": entry, "maxItems": k.Most}, entry}}
		}
		entry["description"] = k.Doc
		properties[k.Key] = entry
	}
	return map[string]any{
		"$schema": "https://json-schema.org/draft/2020-12/schema", "title": "boothmock scene",
		"type": "object", "properties": properties, "additionalProperties": false,
	}
}
