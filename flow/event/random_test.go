package event

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"time"
)

// texts are what a codec can stumble over.
var texts = []string{
	"", "5.4", "a<b & c>d", "\u2028\u2029", "日本語 ärger", "\"quoted\" \\ back \\u0041", "tab\tline\nreturn\r\b\f", "\x00\x01\x1f\x7f", "👷‍♀️", "{}", "null", "~1/~0",
}

// names are what keys of a map can be; a list is told from an object by names
// that are exactly 0, 1, 2 ..., which these never are.
var names = []string{"depth_mm", "a/b", "c~d", "~1", "<&>", "\u2028", "é", "", "00", "1"}

// fill puts random values into everything below v. full leaves nothing at its
// zero value, so that every optional field is written.
func fill(v reflect.Value, rng *rand.Rand, full bool) {
	some := func() int {
		if full {
			return 1 + rng.IntN(3)
		}
		return rng.IntN(4)
	}
	switch at := v.Addr().Interface().(type) {
	case *time.Time:
		*at = time.Unix(rng.Int64N(1<<32), rng.Int64N(1e9)).UTC()
		if !full && rng.IntN(4) == 0 {
			*at = time.Time{}
		}
		return
	case *string:
		for *at = texts[rng.IntN(len(texts))]; full && *at == ""; {
			*at = texts[rng.IntN(len(texts))]
		}
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			fill(v.Field(i), rng, full)
		}
	case reflect.Slice:
		n := some()
		if n == 0 {
			return // nil, as an omitted field comes back
		}
		v.Set(reflect.MakeSlice(v.Type(), n, n))
		for i := range n {
			fill(v.Index(i), rng, full)
		}
	case reflect.Map:
		n := some()
		if n == 0 {
			return
		}
		v.Set(reflect.MakeMap(v.Type()))
		for range n {
			key, value := reflect.New(v.Type().Key()).Elem(), reflect.New(v.Type().Elem()).Elem()
			key.SetString(names[rng.IntN(len(names))])
			fill(value, rng, full)
			v.SetMapIndex(key, value)
		}
	case reflect.String:
		v.SetString(texts[1+rng.IntN(len(texts)-1)])
	case reflect.Bool:
		v.SetBool(full || rng.IntN(2) == 0)
	case reflect.Float64:
		v.SetFloat(number(rng))
	case reflect.Int, reflect.Int64:
		v.SetInt(int64(rng.Uint64()) >> rng.IntN(64))
	case reflect.Uint64:
		v.SetUint(rng.Uint64() >> rng.IntN(64))
	default:
		panic(fmt.Sprintf("%v: teach fill this type", v.Type()))
	}
}

// number is any finite float64, plain ones as likely as odd ones.
func number(rng *rand.Rand) float64 {
	switch rng.IntN(4) {
	case 0:
		return float64(rng.IntN(10000))
	case 1:
		return float64(rng.IntN(1e6)) / 10
	case 2:
		return []float64{0, math.Copysign(0, -1), 1e21, 1e20, 1e-6, 1e-7, math.MaxFloat64, math.SmallestNonzeroFloat64, 1 << 53, 1<<53 + 2}[rng.IntN(10)]
	}
	for {
		if f := math.Float64frombits(rng.Uint64()); !math.IsNaN(f) && !math.IsInf(f, 0) {
			return f
		}
	}
}

// randomEntry is an event of the same kind as e with random contents.
func randomEntry(e Event, rng *rand.Rand, full bool) Entry {
	data := reflect.New(reflect.TypeOf(e)).Elem()
	fill(data, rng, full)
	var out Entry
	for _, part := range []any{&out.At, &out.By, &out.From, &out.Cause} {
		fill(reflect.ValueOf(part).Elem(), rng, full)
	}
	out.Event = data.Interface().(Event)
	return out
}

func salter(rng *rand.Rand) func([]byte) {
	return func(b []byte) {
		for i := range b {
			b[i] = byte(rng.Uint32())
		}
	}
}

// randomChain is n records of random kinds.
func randomChain(rng *rand.Rand, n int) []Record {
	all := All()
	var head Head
	out := make([]Record, n)
	for i := range out {
		r, err := Seal(head, randomEntry(all[rng.IntN(len(all))], rng, false), salter(rng))
		if err != nil {
			panic(err)
		}
		out[i], head = r, r.Head()
	}
	return out
}
