package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"reflect"
	"strings"
	"unicode/utf8"

	"chargehand/calc"
)

// refusal is why a topic was not reckoned: the key, what was given for it and
// what it takes. Its JSON form is a contract. Field is a key with its path
// ("stock[0].length_mm"), or "" when the input as a whole can't be read; got is
// null when a key is missing.
type refusal struct {
	Field  string `json:"field"`
	Got    any    `json:"got"`
	Wanted string `json:"wanted"`

	topic   string
	example string
}

// Error is a refusal for people: heard, wanted, example.
func (r *refusal) Error() string {
	var b strings.Builder
	b.WriteString("reckon")
	for _, part := range []string{r.topic, r.Field} {
		if part != "" {
			b.WriteString(" " + part)
		}
	}
	heard := "nothing"
	if r.Got != nil {
		heard = fmt.Sprint(shown(r.Got))
	}
	fmt.Fprintf(&b, "\n  heard:   %s\n  wanted:  %s", heard, r.Wanted)
	if r.example != "" {
		fmt.Fprintf(&b, "\n  example: %s", r.example)
	}
	return b.String()
}

// json is the one line that stands on stdout instead of an answer.
func (r *refusal) json() []byte {
	told := *r
	told.Field, told.Got = shorten(r.Field, 200), shown(r.Got)
	line, err := marshal(map[string]any{"error": told})
	if err != nil {
		panic(err) // shown lets through only what has a JSON form
	}
	return line
}

// marshal is a line of JSON that keeps <, > and & as they are.
func marshal(v any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	err := e.Encode(v)
	return b.Bytes(), err
}

// shown is what was given, as something short that has a JSON form.
func shown(got any) any {
	const most = 80 // bytes: enough to recognise it by
	switch v := got.(type) {
	case nil, bool:
		return v
	case json.Number:
		if f, err := v.Float64(); err != nil || len(v) > most || math.IsInf(f, 0) {
			return shorten(string(v), most)
		}
		return v
	case string:
		return shorten(v, most)
	case []any:
		return fmt.Sprintf("a list of %d", len(v))
	case object:
		return fmt.Sprintf("an object of %d keys", len(v))
	}
	switch v := reflect.ValueOf(got); v.Kind() {
	case reflect.Float64:
		if f := v.Float(); !math.IsNaN(f) && !math.IsInf(f, 0) {
			return f
		}
	case reflect.Int, reflect.Int64:
		return v.Int()
	case reflect.Bool:
		return v.Bool()
	}
	return shorten(fmt.Sprint(got), most)
}

// shorten cuts s to at most n bytes and makes it UTF-8.
func shorten(s string, n int) string {
	if len(s) > n {
		for n > 0 && !utf8.RuneStart(s[n]) {
			n--
		}
		s = s[:n] + "…"
	}
	return strings.ToValidUTF8(s, "�")
}

// refusalOf turns what a topic returns into a refusal; nil when the error is
// not about the input.
func refusalOf(err error) *refusal {
	var r *refusal
	if errors.As(err, &r) {
		return r
	}
	var d *calc.DomainError
	if errors.As(err, &d) {
		return &refusal{Field: d.Field, Got: d.Got, Wanted: d.Wanted}
	}
	return nil
}
