package main

import (
	"encoding/json"
	"reflect"
)

// schema is the JSON Schema (draft 2020-12) of a topic: the document itself is
// that of what goes in, $defs/out of what comes out, $defs/error of what comes
// out instead.
func (t reckonTopic) schema() ordered {
	s := ordered{
		{"$schema", "https://json-schema.org/draft/2020-12/schema"},
		{"title", t.name},
		{"description", t.says},
	}
	s = append(s, schemaOf(t.in, reckonKey{}, true)...)
	s.add("examples", []any{json.RawMessage(t.exampleJSON())})
	s.add("$defs", ordered{
		{"out", schemaOf(t.out, reckonKey{}, false)},
		{"error", schemaOf(reflect.TypeFor[struct {
			Error refusal `json:"error" doc:"instead of an answer, with exit code 2"`
		}](), reckonKey{}, true)},
	})
	return s
}

// schemaOf is the schema of one type; k holds the limits its key declares.
// Closed objects refuse keys they do not know; what comes out may gain keys.
func schemaOf(t reflect.Type, k reckonKey, closed bool) ordered {
	var s ordered
	switch t.Kind() {
	case reflect.Pointer:
		return schemaOf(t.Elem(), k, closed)
	case reflect.Float64, reflect.Int, reflect.Int64:
		s.add("type", "number")
		if t.Kind() != reflect.Float64 {
			s[0].value = "integer"
		}
		if k.min != nil {
			s.add("minimum", *k.min)
		}
		if k.max != nil {
			s.add("maximum", *k.max)
		}
	case reflect.String:
		s.add("type", "string")
		if k.enum != nil {
			s.add("enum", k.enum)
		}
	case reflect.Bool:
		s.add("type", "boolean")
	case reflect.Slice:
		s.add("type", "array")
		s.add("items", schemaOf(t.Elem(), k, closed))
	case reflect.Map:
		s.add("type", "object")
		s.add("additionalProperties", schemaOf(t.Elem(), k, closed))
	case reflect.Struct:
		properties, required := ordered{}, []string{}
		for _, f := range reckonKeys(t) {
			p := schemaOf(f.typ, f, closed)
			if f.doc != "" {
				p = append(ordered{{"description", f.doc}}, p...)
			}
			properties.add(f.name, p)
			if f.required {
				required = append(required, f.name)
			}
		}
		s.add("type", "object")
		s.add("properties", properties)
		s.add("required", required)
		if closed {
			s.add("additionalProperties", false)
		}
	case reflect.Interface: // any value
	default:
		panic("reckon: no schema for " + t.String())
	}
	return s
}
