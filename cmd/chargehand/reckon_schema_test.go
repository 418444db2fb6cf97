package main

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"
)

// conforms says why a JSON value breaks a schema; "" when it does not. It
// knows the words our schemas use (JSON Schema draft 2020-12) and objects to
// any other, so that a new word is not passed over.
func conforms(schema map[string]any, v any, path string) string {
	for word, arg := range schema {
		if why := obeys(schema, word, arg, v, path); why != "" {
			return path + ": " + why
		}
	}
	return ""
}

func obeys(schema map[string]any, word string, arg, v any, path string) string {
	number, isNumber := v.(float64)
	object, isObject := v.(map[string]any)
	list, isList := v.([]any)
	switch word {
	case "$schema", "title", "description", "examples", "$defs": // no assertion
	case "type":
		ok := map[string]bool{"number": isNumber, "integer": isNumber && number == math.Trunc(number), "object": isObject, "array": isList}
		_, ok["string"] = v.(string)
		_, ok["boolean"] = v.(bool)
		if !ok[arg.(string)] {
			return fmt.Sprintf("%v is no %s", v, arg)
		}
	case "minimum":
		if isNumber && number < arg.(float64) {
			return fmt.Sprintf("%v below %v", v, arg)
		}
	case "maximum":
		if isNumber && number > arg.(float64) {
			return fmt.Sprintf("%v above %v", v, arg)
		}
	case "enum":
		if !slices.Contains(arg.([]any), v) {
			return fmt.Sprintf("%v is none of %v", v, arg)
		}
	case "items":
		for i, e := range list {
			if why := conforms(arg.(map[string]any), e, fmt.Sprintf("%s[%d]", path, i)); why != "" {
				return why
			}
		}
	case "required":
		for _, key := range arg.([]any) {
			if _, has := object[key.(string)]; isObject && !has {
				return fmt.Sprintf("%s is missing", key)
			}
		}
	case "properties":
		for key, s := range arg.(map[string]any) {
			if e, has := object[key]; has {
				if why := conforms(s.(map[string]any), e, path+"."+key); why != "" {
					return why
				}
			}
		}
	case "additionalProperties":
		known, _ := schema["properties"].(map[string]any)
		for key, e := range object {
			if _, is := known[key]; is {
				continue
			}
			s, isSchema := arg.(map[string]any)
			if !isSchema {
				return key + " is not known"
			}
			if why := conforms(s, e, path+"."+key); why != "" {
				return why
			}
		}
	default:
		return "the test does not know the word " + word
	}
	return ""
}

// schemas are those of a topic as another program reads them.
func schemas(t reckonTopic) (in, out, no map[string]any) {
	s := allSchemas()[t.name]
	defs := s["$defs"].(map[string]any)
	return s, defs["out"].(map[string]any), defs["error"].(map[string]any)
}

var allSchemas = sync.OnceValue(func() map[string]map[string]any {
	all := map[string]map[string]any{}
	for _, t := range reckonTopics() {
		all[t.name] = schemaRead(t)
	}
	return all
})

func schemaRead(t reckonTopic) (read map[string]any) {
	raw, err := marshal(t.schema())
	if err != nil {
		panic(err)
	}
	if err := json.Unmarshal(raw, &read); err != nil {
		panic(err)
	}
	return read
}

// find walks a schema along a path such as "stock[0].length_mm", "rows[][]" or
// "utilisation{}"; nil when there is no such key.
func find(schema map[string]any, path string) map[string]any {
	for _, part := range strings.Split(path, ".") {
		key := part[:strings.IndexAny(part+"[", "[{")]
		known, _ := schema["properties"].(map[string]any)
		next, ok := known[key].(map[string]any)
		if !ok {
			return nil
		}
		schema = next
		for rest := part[len(key):]; rest != ""; {
			switch {
			case rest == "{}" && schema["type"] == "object":
				rest = ""
			case rest[0] == '[' && schema["type"] == "array":
				schema = schema["items"].(map[string]any)
				rest = rest[strings.IndexByte(rest, ']')+1:]
			default:
				return nil
			}
		}
	}
	return schema
}
