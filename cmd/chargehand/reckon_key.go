package main

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"
)

// reckonKey is one key of a topic, as the tags of its struct declare it.
type reckonKey struct {
	name     string
	doc      string
	enum     []string
	min, max *float64
	required bool
	index    int          // of the field
	typ      reflect.Type // of the value, a pointer taken off
}

// reckonKeys lists the keys of a topic's struct in its order. A field that is
// no pointer and has no omitempty is required.
func reckonKeys(t reflect.Type) []reckonKey {
	var keys []reckonKey
	for i := range t.NumField() {
		f := t.Field(i)
		name, omit, _ := strings.Cut(f.Tag.Get("json"), ",")
		k := reckonKey{name: name, doc: f.Tag.Get("doc"), required: omit != "omitempty", index: i, typ: f.Type}
		if e := f.Tag.Get("enum"); e != "" {
			k.enum = strings.Split(e, ",")
		}
		k.min, k.max = limitTag(f, "min"), limitTag(f, "max")
		if k.typ.Kind() == reflect.Pointer {
			k.typ = k.typ.Elem()
		}
		keys = append(keys, k)
	}
	return keys
}

// limitTag reads a tag that the program itself carries, so a bad one is a
// mistake of the programmer.
func limitTag(f reflect.StructField, name string) *float64 {
	tag, ok := f.Tag.Lookup(name)
	if !ok {
		return nil
	}
	v, err := strconv.ParseFloat(tag, 64)
	if err != nil {
		panic(fmt.Sprintf("%s: tag %s of %s: %v", f.Type, name, f.Name, err))
	}
	return &v
}

// unitsByKey maps the end of a key to the unit it stands for, longer ends first.
var unitsByKey = []struct{ end, unit string }{
	{"_l_s_m2", "l/s per m²"}, {"_l_s", "l/s"}, {"_kn_m2", "kN/m²"}, {"_kn_m", "kN/m"}, {"_kn", "kN"},
	{"_n_mm2", "N/mm²"}, {"_kg_m3", "kg/m³"}, {"_kg_m2", "kg/m²"}, {"_kg", "kg"},
	{"_m2_min", "m²/min"}, {"_m2_l", "m²/l"}, {"_l_m2", "l/m²"}, {"_m_s", "m/s"},
	{"_mm2", "mm²"}, {"_mm", "mm"}, {"_m2", "m²"}, {"_m3", "m³"}, {"_m", "m"}, {"_ml", "ml"},
	{"_hpa", "hPa"}, {"_pct", "%"}, {"_deg", "°"}, {"_min", "min"}, {"_c", "°C"}, {"_k", "K"},
}

// unitOf is the unit a key carries in its name; "" for none. A price is in the
// builder's currency, whatever it is the price of.
func unitOf(key string) string {
	if strings.HasPrefix(key, "price_") {
		return ""
	}
	for _, u := range unitsByKey {
		if strings.HasSuffix(key, u.end) {
			return u.unit
		}
	}
	return ""
}

// wanted says what a key takes, in plain words and with the unit.
func (k reckonKey) wanted() string { return k.wantedOf(k.typ) }

func (k reckonKey) wantedOf(t reflect.Type) string {
	if k.enum != nil && t.Kind() == reflect.String {
		return oneOf(k.enum)
	}
	switch t.Kind() {
	case reflect.Float64:
		return k.wantedNumber("a number")
	case reflect.Int:
		return k.wantedNumber("a whole number")
	case reflect.Bool:
		return "true or false"
	case reflect.String:
		return "text"
	case reflect.Slice:
		return "a list, each " + k.wantedOf(t.Elem())
	case reflect.Struct:
		var names []string
		for _, e := range reckonKeys(t) {
			names = append(names, e.name)
		}
		return "an object {" + strings.Join(names, ", ") + "}"
	}
	panic("reckon: no topic takes a " + t.String())
}

func (k reckonKey) wantedNumber(what string) string {
	unit := ""
	if u := unitOf(k.name); u != "" {
		unit = " " + u
	}
	switch {
	case k.min != nil && k.max != nil:
		return what + ", " + plain(*k.min) + " to " + plain(*k.max) + unit
	case k.min != nil:
		return what + " from " + plain(*k.min) + unit
	case k.max != nil:
		return what + " up to " + plain(*k.max) + unit
	case unit != "":
		return what + " of" + unit
	}
	return what
}

// inRange says whether v lies within the limits of the key.
func (k reckonKey) inRange(v float64) bool {
	return (k.min == nil || v >= *k.min) && (k.max == nil || v <= *k.max)
}

func oneOf(words []string) string {
	if n := len(words) - 1; n > 0 {
		return strings.Join(words[:n], ", ") + " or " + words[n]
	}
	return strings.Join(words, "")
}

// plain prints a number without an exponent.
func plain(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
