package hear

import (
	"math"
	"slices"
	"testing"
	"unicode/utf8"
)

// checkWhole checks what holds for every answer to every question.
func checkWhole(t *testing.T, said string, w Want, h Heard) {
	t.Helper()
	bad := func(what string) { t.Errorf("%s: said %.80q, wanted %v, heard %s", what, said, w.Kind, brief(h)) }
	n := 0
	if h.Values != nil {
		n++
	}
	if h.Ask != nil {
		n++
	}
	if h.Refused != nil {
		n++
	}
	if n != 1 {
		bad("not exactly one of values, ask, refused")
		return
	}
	keys := Keys()
	value := func(v Value) {
		if math.IsNaN(v.Num) || math.IsInf(v.Num, 0) || math.IsNaN(v.When.After) || math.IsInf(v.When.After, 0) {
			bad("not finite")
		}
		if len(v.Words) > MaxKept || !utf8.ValidString(v.Words) || !utf8.ValidString(v.Text) {
			bad("words not kept well")
		}
		if v.Kind == Choice && v.Key == "" || v.Kind == YesNo && v.Key == "" {
			bad("no key")
		}
		if v.Unit != "" && v.Unit != w.Bare && !slices.Contains([]string{"ft in", "m cm", "m dm", "1/n"}, v.Unit) && measures[v.Unit].factor == 0 {
			bad("unit " + v.Unit)
		}
	}
	least, most := w.bounds()
	if w.Parts == nil && (w.Kind == Text || w.Kind == Time) {
		least, most = 1, 1
	}
	switch {
	case len(h.Values) == 1 && w.Unsure != "" && h.Values[0].Key == w.Unsure:
		value(h.Values[0]) // "don't know" answers the whole line
	case h.Values != nil && !h.Offered:
		if len(h.Values) < least || len(h.Values) > most {
			bad("number of values")
		}
		for i, v := range h.Values {
			value(v)
			if w.part(i).grade(v) == outside {
				bad("a value outside its range")
			}
		}
	case h.Ask != nil:
		if len(h.Ask.Options) < 1 || len(h.Ask.Options) > 4 || !slices.Contains(keys, h.Ask.Why) || h.Ask.Heard == "" {
			bad("ask")
		}
		for i, o := range h.Ask.Options {
			for _, v := range o.Values {
				value(v)
			}
			if len(o.Values) < least || len(o.Values) > most {
				bad("number of values in an option")
			}
			if i == 0 && o.Outside {
				bad("nothing to choose that would be taken")
			}
			for _, p := range h.Ask.Options[:i] {
				if slices.EqualFunc(o.Values, p.Values, same) {
					bad("the same option twice")
				}
			}
		}
	case h.Refused != nil:
		r := h.Refused
		if !slices.Contains(keys, r.Why) || !slices.Contains(keys, r.Example) {
			bad("key " + r.Why + " " + r.Example)
		}
		if len(r.Heard) > MaxKept || !utf8.ValidString(r.Heard) {
			bad("heard not kept well")
		}
		for _, c := range r.Heard {
			if hidden(c) || c < ' ' {
				bad("hidden characters kept")
			}
		}
		if r.Got != nil {
			value(*r.Got)
		}
	}
}
