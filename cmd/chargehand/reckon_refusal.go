package main

import (
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
}

func (r *refusal) Error() string {
	return fmt.Sprintf("%s: got %v, wanted %s", r.Field, r.Got, r.Wanted)
}

// explained is a refusal for people: heard, wanted, example.
type explained struct {
	*refusal
	topic   string
	example string
}

func (e explained) Error() string {
	heard := "nothing"
	if e.Got != nil {
		heard = fmt.Sprint(shown(e.Got))
	}
	about := strings.Join(strings.Fields("reckon "+e.topic+" "+e.Field), " ")
	return fmt.Sprintf("%s\n  heard    %s\n  wanted   %s\n  example  %s", about, heard, e.Wanted, e.example)
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
