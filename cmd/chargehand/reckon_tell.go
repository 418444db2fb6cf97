package main

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"text/tabwriter"
)

// tellPeople prints what was understood and, after an empty line, the answer:
// a line for each key with its value and unit, lists on one line.
func tellPeople(w io.Writer, in, out any) error {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	if v := reflect.ValueOf(in); !v.IsZero() {
		tellStruct(t, v, "")
		fmt.Fprintln(t)
	}
	tellStruct(t, reflect.ValueOf(out), "")
	return t.Flush()
}

func tellStruct(w io.Writer, v reflect.Value, prefix string) {
	for _, k := range reckonKeys(v.Type()) {
		if f := v.Field(k.index); k.given(f) {
			tellKey(w, prefix+k.name, f)
		}
	}
}

// given says whether there is anything to tell of a key. An empty list that
// was given is told: it means none.
func (k reckonKey) given(v reflect.Value) bool { return k.required || !v.IsZero() }

func tellKey(w io.Writer, key string, v reflect.Value) {
	switch v.Kind() {
	case reflect.Pointer:
		tellKey(w, key, v.Elem())
		return
	case reflect.Struct:
		tellStruct(w, v, key+".")
		return
	case reflect.Map:
		names := v.MapKeys()
		slices.SortFunc(names, func(a, b reflect.Value) int { return cmp.Compare(a.String(), b.String()) })
		for _, n := range names {
			tellKey(w, key+"."+n.String(), v.MapIndex(n))
		}
		return
	case reflect.Slice:
		if !scalar(v.Type().Elem()) && v.Len() > 0 {
			for i := range v.Len() {
				fmt.Fprintf(w, "%s\t%s\n", key, flat(key, v.Index(i)))
			}
			return
		}
	}
	text := flat(key, v)
	if u := unitOf(key); u != "" && text != none {
		text += " " + u
	}
	fmt.Fprintf(w, "%s\t%s\n", key, text)
}

func scalar(t reflect.Type) bool {
	return t.Kind() != reflect.Struct && t.Kind() != reflect.Slice && t.Kind() != reflect.Map
}

const none = "none"

// flat is a value on one line. Lists and objects inside it are bracketed.
func flat(key string, v reflect.Value) string {
	var parts []string
	switch v.Kind() {
	case reflect.Pointer:
		return flat(key, v.Elem())
	case reflect.Bool:
		if v.Bool() {
			return "yes"
		}
		return "no"
	case reflect.Float64:
		return rounded(v.Float(), unitOf(key))
	case reflect.Slice:
		for i := range v.Len() {
			parts = append(parts, bracketed(key, v.Index(i)))
		}
		if parts == nil {
			return none
		}
	case reflect.Struct:
		for _, k := range reckonKeys(v.Type()) {
			if f := v.Field(k.index); k.given(f) {
				parts = append(parts, k.name+" "+bracketed(k.name, f))
			}
		}
	default:
		return fmt.Sprint(v.Interface())
	}
	return strings.Join(parts, ", ")
}

func bracketed(key string, v reflect.Value) string {
	s := flat(key, v)
	switch {
	case v.Kind() == reflect.Slice && s != none:
		return "[" + s + "]"
	case v.Kind() == reflect.Struct:
		return "{" + s + "}"
	}
	return s
}

// rounded is a number for people: hundredths of a millimetre, as the longest
// span is given, else three decimals, or four figures when it is below one.
func rounded(v float64, unit string) string {
	decimals := 3
	switch a := math.Abs(v); {
	case unit == "mm":
		decimals = 2
	case a > 0 && a < 1:
		decimals = min(3-int(math.Floor(math.Log10(a))), 12)
	}
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}
