package main

import (
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"chargehand/flow/hear"
)

// readWords turns key=value words into the object that --json would have
// read. Values are heard as in the chat; lists are separated by commas; what
// begins with [ or { is JSON.
func readWords(words []string, keys []reckonKey) (object, *refusal) {
	o := object{}
	for _, w := range words {
		name, text, ok := strings.Cut(w, "=")
		if !ok {
			return nil, &refusal{Got: w, Wanted: "key=value"}
		}
		name, text = strings.TrimSpace(name), strings.TrimSpace(text)
		if slices.ContainsFunc(o, func(m member) bool { return m.key == name }) {
			return nil, &refusal{Field: name, Got: text, Wanted: "each key once"}
		}
		var value any = text // an unknown key is refused by fill
		if i := slices.IndexFunc(keys, func(k reckonKey) bool { return k.name == name }); i >= 0 {
			var r *refusal
			if value, r = keys[i].hearAll(text); r != nil {
				return nil, r
			}
		}
		o = append(o, member{name, value})
	}
	return o, nil
}

func (k reckonKey) hearAll(text string) (any, *refusal) {
	if strings.HasPrefix(text, "[") || strings.HasPrefix(text, "{") {
		return parseJSON([]byte(text), k.name)
	}
	list := k.typ.Kind() == reflect.Slice
	one := k.typ
	if list {
		one = one.Elem()
	}
	switch {
	case !scalar(one):
		return nil, &refusal{Field: k.name, Got: text, Wanted: k.wanted() + ", as JSON"}
	case !list:
		return k.hear(one, text, k.name)
	}
	values := []any{}
	if text == "" {
		return values, nil
	}
	for i, part := range strings.Split(text, ",") {
		v, r := k.hear(one, strings.TrimSpace(part), fmt.Sprintf("%s[%d]", k.name, i))
		if r != nil {
			return nil, r
		}
		values = append(values, v)
	}
	return values, nil
}

// hear turns the text of one value into its JSON form.
func (k reckonKey) hear(t reflect.Type, text, path string) (any, *refusal) {
	no := &refusal{Field: path, Got: text, Wanted: k.wantedOf(t)}
	switch t.Kind() {
	case reflect.Bool:
		h := hear.Answer(text, hear.Want{Kind: hear.YesNo})
		if len(h.Values) != 1 {
			no.Wanted = "yes or no"
			return nil, no
		}
		return h.Values[0].Yes(), nil
	case reflect.String:
		for _, e := range k.enum {
			if strings.EqualFold(e, text) {
				return e, nil
			}
		}
		return text, nil // what enum does not hold is refused by put
	case reflect.Int, reflect.Float64:
		v, options := k.hearNumber(t, text)
		if options != nil {
			no.Wanted = oneOf(options) + ": say which"
			return nil, no
		}
		if math.IsNaN(v) || !k.inRange(v) {
			return nil, no
		}
		return json.Number(plain(v)), nil
	}
	panic("reckon: no word is a " + t.String())
}

// manner is how a number is heard: the kind of the chat's field, how much of
// the key's unit its base unit is, and the unit that a bare number has when
// more than one could be meant, because the key itself says so.
type manner struct {
	kind hear.Kind
	base float64
	own  string
}

// planLength is where a length stops being a section and becomes a
// measurement of the plan, which people give in metres.
const planLength = 5000 // mm

func (k reckonKey) manner(t reflect.Type) manner {
	switch {
	case t.Kind() == reflect.Int:
		return manner{hear.Count, 1, ""}
	case k.name == "ratio", k.name == "fall":
		return manner{hear.Ratio, 1, ""}
	}
	switch unitOf(k.name) {
	case "mm":
		if k.max != nil && *k.max >= planLength {
			return manner{hear.PlanLength, 1, "mm"}
		}
		return manner{hear.SectionLength, 1, "mm"}
	case "m":
		return manner{hear.SiteLength, 1000, "m"}
	case "m²":
		return manner{hear.Area, 1, "m2"}
	case "°C":
		return manner{hear.Temperature, 1, "°C"}
	case "%":
		return manner{hear.Percent, 1, "%"}
	case "min":
		return manner{hear.Minutes, 1, "min"}
	case "m/s":
		return manner{hear.Speed, 1, "m/s"}
	case "kg":
		return manner{hear.Mass, 1, "kg"}
	}
	return manner{hear.Number, 1, ""}
}

// bareNumber is a number as a program writes it.
var bareNumber = regexp.MustCompile(`^-?[0-9]{1,15}(\.[0-9]{1,17})?$`)

// hearNumber hears a number in the unit of the key. It is NaN when nothing fits;
// options are the readings to choose among when the key does not settle it.
func (k reckonKey) hearNumber(t reflect.Type, text string) (v float64, options []string) {
	m := k.manner(t)
	h := hear.Answer(text, hear.Want{Kind: m.kind, Range: k.heardRange(m), Bare: m.own})
	if len(h.Values) == 1 {
		return h.Values[0].Num / m.base, nil
	}
	if h.Ask != nil && h.Ask.Why == hear.AskUnit {
		for _, o := range h.Ask.Options {
			if len(o.Values) == 1 && o.Values[0].Unit == m.own {
				return o.Values[0].Num / m.base, nil
			}
		}
	}
	// The chat has no length below zero and no millionth of a metre, and thinks
	// of metres first; a number written in full beside a key that says mm is mm.
	// A ratio the topics themselves read as 1 in 40 or 0.025.
	if bareNumber.MatchString(text) && (m.own == "mm" || m.kind == hear.Ratio) {
		if bare, err := strconv.ParseFloat(text, 64); err == nil && k.inRange(bare) {
			return bare, nil
		}
	}
	if h.Ask != nil {
		for _, o := range h.Ask.Options {
			if len(o.Values) == 1 && !o.Outside {
				options = append(options, strings.TrimSpace(plain(o.Values[0].Num/m.base)+" "+unitOf(k.name)))
			}
		}
		if len(options) > 1 {
			return 0, options
		}
	}
	return math.NaN(), nil
}

// heardRange is the key's range in the base unit of what is heard.
func (k reckonKey) heardRange(m manner) hear.Range {
	if m.kind == hear.Ratio || k.min == nil && k.max == nil {
		return hear.Range{}
	}
	r := hear.Range{HardMin: math.Inf(-1), HardMax: math.Inf(1)}
	if k.min != nil {
		r.HardMin = *k.min * m.base
	}
	if k.max != nil {
		r.HardMax = *k.max * m.base
	}
	return r
}
