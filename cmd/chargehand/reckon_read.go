package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"reflect"
	"slices"
	"strings"
	"unicode/utf8"
)

// maxReckon is the longest input of a topic. The longest real ones, a whole
// roof for the list or a cut list of many pieces, are a tenth of it.
const maxReckon = 64 << 10

// object is a JSON object in the order it was written.
type object []member

type member struct {
	key   string
	value any // nil, bool, json.Number, string, []any or object
}

// parseJSON reads exactly one JSON value, that of the key at path. Unlike the
// standard decoder it refuses a key given twice and bytes that are no UTF-8.
func parseJSON(raw []byte, path string) (any, *refusal) {
	if len(raw) > maxReckon {
		return nil, &refusal{Field: path, Got: fmt.Sprintf("%d bytes or more", len(raw)), Wanted: fmt.Sprintf("at most %d bytes", maxReckon)}
	}
	if !utf8.Valid(raw) {
		return nil, &refusal{Field: path, Got: "bytes that are not UTF-8", Wanted: "JSON in UTF-8"}
	}
	raw = bytes.TrimPrefix(raw, []byte("\ufeff")) // some editors put a byte order mark
	if len(bytes.TrimSpace(raw)) == 0 {
		return nil, &refusal{Field: path, Wanted: "one JSON object"}
	}
	var syntax *json.SyntaxError
	if err := json.Unmarshal(raw, new(json.RawMessage)); errors.As(err, &syntax) {
		at := int(syntax.Offset)
		return nil, &refusal{Field: path, Got: string(raw[max(0, at-20):at]), Wanted: fmt.Sprintf("one JSON value; byte %d: %v", at, err)}
	}
	d := json.NewDecoder(bytes.NewReader(raw))
	d.UseNumber()
	return parseValue(d, path)
}

// parseValue reads the next value of text that is known to be valid JSON.
func parseValue(d *json.Decoder, path string) (any, *refusal) {
	token := next(d)
	open, ok := token.(json.Delim)
	if !ok {
		return token, nil
	}
	if open == '[' {
		list := []any{}
		for d.More() {
			v, r := parseValue(d, fmt.Sprintf("%s[%d]", path, len(list)))
			if r != nil {
				return nil, r
			}
			list = append(list, v)
		}
		next(d)
		return list, nil
	}
	o, seen := object{}, map[string]bool{}
	for d.More() {
		key := next(d).(string)
		v, r := parseValue(d, under(path, key))
		if r != nil {
			return nil, r
		}
		if seen[key] {
			return nil, &refusal{Field: under(path, key), Got: v, Wanted: "each key once"}
		}
		seen[key] = true
		o = append(o, member{key, v})
	}
	next(d)
	return o, nil
}

func next(d *json.Decoder) json.Token {
	t, err := d.Token()
	if err != nil {
		panic(err) // json.Unmarshal has read the same bytes
	}
	return t
}

// under is the path of a key inside the object at path.
func under(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

// fill puts an object into a topic's struct, key by key.
func fill(into reflect.Value, o object, path string) *refusal {
	keys := reckonKeys(into.Type())
	for _, m := range o {
		i := slices.IndexFunc(keys, func(k reckonKey) bool { return k.name == m.key })
		if i < 0 {
			var names []string
			for _, k := range keys {
				names = append(names, k.name)
			}
			return &refusal{Field: under(path, m.key), Got: m.value, Wanted: "a key among " + strings.Join(names, ", ")}
		}
		if r := put(into.Field(keys[i].index), keys[i], m.value, under(path, m.key)); r != nil {
			return r
		}
	}
	for _, k := range keys {
		if k.required && !slices.ContainsFunc(o, func(m member) bool { return m.key == k.name }) {
			return &refusal{Field: under(path, k.name), Wanted: k.wanted() + ": " + k.doc}
		}
	}
	return nil
}

// put puts one value into a field of the type that k declares.
func put(into reflect.Value, k reckonKey, value any, path string) *refusal {
	no := &refusal{Field: path, Got: value, Wanted: k.wantedOf(elem(into.Type()))}
	switch into.Kind() {
	case reflect.Pointer:
		p := reflect.New(into.Type().Elem())
		if r := put(p.Elem(), k, value, path); r != nil {
			return r
		}
		into.Set(p)
	case reflect.Float64, reflect.Int:
		n, ok := value.(json.Number)
		if !ok {
			return no
		}
		v, err := n.Float64()
		if err != nil || !k.inRange(v) {
			return no
		}
		if into.Kind() == reflect.Float64 {
			into.SetFloat(v)
			break
		}
		if v != math.Trunc(v) || math.Abs(v) > 1<<53 {
			return no
		}
		into.SetInt(int64(v))
	case reflect.String:
		s, ok := value.(string)
		if !ok || k.enum != nil && !slices.Contains(k.enum, s) {
			return no
		}
		into.SetString(s)
	case reflect.Bool:
		b, ok := value.(bool)
		if !ok {
			return no
		}
		into.SetBool(b)
	case reflect.Slice:
		list, ok := value.([]any)
		if !ok {
			return no
		}
		into.Set(reflect.MakeSlice(into.Type(), len(list), len(list)))
		for i, v := range list {
			if r := put(into.Index(i), k, v, fmt.Sprintf("%s[%d]", path, i)); r != nil {
				return r
			}
		}
	case reflect.Struct:
		o, ok := value.(object)
		if !ok {
			return no
		}
		return fill(into, o, path)
	}
	return nil
}

func elem(t reflect.Type) reflect.Type {
	if t.Kind() == reflect.Pointer {
		return t.Elem()
	}
	return t
}

// readJSON reads the one object of --json.
func readJSON(r io.Reader) (object, error) {
	raw, err := io.ReadAll(io.LimitReader(r, maxReckon+1))
	if err != nil {
		return nil, err
	}
	value, no := parseJSON(raw, "")
	if no != nil {
		return nil, no
	}
	o, ok := value.(object)
	if !ok {
		return nil, &refusal{Got: value, Wanted: "one JSON object"}
	}
	return o, nil
}
