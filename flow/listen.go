package flow

import (
	"math"
	"strings"
	"time"

	"chargehand/calc/unit"
	"chargehand/flow/event"
	"chargehand/flow/hear"
)

// yesNo is what a step wants that names no other Want.
func yesNo(View) hear.Want { return hear.Want{Kind: hear.YesNo} }

func textWant(View) hear.Want { return hear.Want{Kind: hear.Text} }

func ranged(kind hear.Kind, softMin, softMax, hardMin, hardMax float64) hear.Want {
	return hear.Want{Kind: kind, Range: hear.Range{SoftMin: softMin, SoftMax: softMax, HardMin: hardMin, HardMax: hardMax}}
}

// fixed makes a Want that does not look at the job.
func fixed(w hear.Want) func(View) hear.Want { return func(View) hear.Want { return w } }

func planLength(softMin, softMax, hardMin, hardMax float64) func(View) hear.Want {
	return fixed(ranged(hear.PlanLength, softMin, softMax, hardMin, hardMax))
}

func sectionLength(softMin, softMax, hardMin, hardMax float64) func(View) hear.Want {
	return fixed(ranged(hear.SectionLength, softMin, softMax, hardMin, hardMax))
}

func many(w hear.Want, min, max int) hear.Want {
	w.Many = hear.Many{Min: min, Max: max}
	return w
}

func planLengths(min, max int, softMin, softMax, hardMin, hardMax float64) func(View) hear.Want {
	return fixed(many(ranged(hear.PlanLength, softMin, softMax, hardMin, hardMax), min, max))
}

func sectionLengths(min, max int, softMin, softMax, hardMin, hardMax float64) func(View) hear.Want {
	return fixed(many(ranged(hear.SectionLength, softMin, softMax, hardMin, hardMax), min, max))
}

func count(softMin, softMax, hardMin, hardMax float64) func(View) hear.Want {
	return fixed(ranged(hear.Count, softMin, softMax, hardMin, hardMax))
}

// choices makes picks of keys; "unknown" is what "don't know" gives.
func choices(keys []string) hear.Want {
	w := hear.Want{Kind: hear.Choice}
	for _, k := range keys {
		w.Choices = append(w.Choices, hear.Pick{Key: k})
		if k == "unknown" {
			w.Unsure = "unknown"
		}
	}
	return w
}

func pick(keys ...string) func(View) hear.Want { return fixed(choices(keys)) }

func picksWant(n int, keys ...string) func(View) hear.Want {
	return fixed(many(choices(keys), n, n))
}

// parts makes one line hold several answers of different kinds.
func parts(min int, ws ...hear.Want) hear.Want {
	return hear.Want{Parts: ws, Many: hear.Many{Min: min, Max: len(ws)}}
}

func offerWord(key string) func(View) (event.Value, bool) { return offerWordAs("pick", key) }

func offerWordAs(unit, key string) func(View) (event.Value, bool) {
	return func(View) (event.Value, bool) { return event.Word(unit, key), true }
}

func offerNums(unit string, nums ...float64) func(View) (event.Value, bool) {
	return func(View) (event.Value, bool) { return event.Of(unit, nums...), true }
}

// want is what the step wants to hear now, from this person at this moment.
func (t *turn) want(spec Spec) hear.Want {
	v := t.view()
	w := yesNo(v)
	if spec.Want != nil {
		w = spec.Want(v)
	}
	w.Lang = t.in.By.Lang
	w.Now = civil(t.in.When(), t.s.Zone)
	if spec.Unsure {
		w.Unsure = "unknown"
	}
	if spec.Offer != nil {
		if val, ok := spec.Offer(v); ok {
			w.Offered = offered(val, w, t.s.Zone)
		}
	}
	return w
}

// wants are all kinds of answer the step takes, the usual one first.
func (t *turn) wants(spec Spec) []hear.Want {
	out := []hear.Want{t.want(spec)}
	for _, w := range spec.Else {
		w.Lang, w.Now = out[0].Lang, out[0].Now
		out = append(out, w)
	}
	return out
}

// civil is the wall clock at the site. A zone that can't be found reads as UTC.
func civil(at time.Time, zone string) hear.Civil {
	at = at.In(location(zone))
	return hear.Civil{Year: at.Year(), Month: int(at.Month()), Day: at.Day(), Hour: at.Hour(), Minute: at.Minute()}
}

func location(zone string) *time.Location {
	loc, err := time.LoadLocation(zone)
	if err != nil {
		return time.UTC
	}
	return loc
}

// instant turns a moment as it was said into a time of the record.
func instant(w hear.When, now time.Time, zone string) time.Time {
	if w.Relative {
		return now.Add(time.Duration(w.After * float64(time.Minute))).UTC()
	}
	c := w.At
	return time.Date(c.Year, time.Month(c.Month), c.Day, c.Hour, c.Minute, 0, 0, location(zone)).UTC()
}

// recordUnit is the unit a kind of answer has in the record.
func recordUnit(k hear.Kind) string {
	switch k {
	case hear.PlanLength, hear.SectionLength, hear.BoardLength, hear.BoardWidth:
		return "mm"
	case hear.SiteLength:
		return "m"
	case hear.Temperature:
		return "celsius"
	case hear.Count:
		return "count"
	case hear.Percent:
		return "pct"
	case hear.Minutes:
		return "min"
	case hear.Mass:
		return "kg"
	case hear.Litres:
		return "litre"
	case hear.Ratio:
		return "ratio"
	case hear.Area:
		return "m2"
	case hear.Speed:
		return "m_s"
	}
	return "number"
}

// value turns what was heard into what the record keeps.
func value(heard []hear.Value, now time.Time, zone string) event.Value {
	if len(heard) == 0 {
		return event.Value{}
	}
	if len(heard) == 3 && heard[0].Kind == hear.PlanLength && heard[1].Kind == hear.Choice {
		return event.Value{Unit: "leg", Nums: []float64{heard[0].Num}, Text: heard[1].Key + " " + heard[2].Key}
	}
	switch first := heard[0]; first.Kind {
	case hear.Text:
		return event.Word("text", first.Text)
	case hear.YesNo:
		return event.Word("yes", first.Key)
	case hear.Choice:
		keys := make([]string, len(heard))
		for i, h := range heard {
			keys[i] = h.Key
		}
		return event.Word("pick", strings.Join(keys, " "))
	case hear.Time:
		return event.Value{Unit: "time", At: instant(first.When, now, zone)}
	default:
		out := event.Value{Unit: recordUnit(first.Kind)}
		for _, h := range heard {
			n := h.Num
			if h.Kind == hear.SiteLength {
				n /= float64(unit.Metre)
			}
			out.Nums = append(out.Nums, n)
		}
		return out
	}
}

// offered turns a recorded value into what "." gives, spread over the parts
// where one line holds several answers.
func offered(val event.Value, w hear.Want, zone string) []hear.Value {
	kind := func(i int) hear.Kind {
		switch {
		case i < len(w.Parts):
			return w.Parts[i].Kind
		case val.Unit == "pct": // measured where a tap is usual
			return hear.Percent
		case val.Unit == "m_s":
			return hear.Speed
		}
		return w.Kind
	}
	switch val.Unit {
	case "yes":
		return []hear.Value{{Kind: hear.YesNo, Key: val.Text}}
	case "pick":
		var out []hear.Value
		for _, k := range words(val.Text) {
			out = append(out, hear.Value{Kind: hear.Choice, Key: k})
		}
		return out
	case "text":
		return []hear.Value{{Kind: hear.Text, Text: val.Text}}
	case "time":
		return []hear.Value{{Kind: hear.Time, When: hear.When{At: civil(val.At, zone)}}}
	}
	var out []hear.Value
	for i, n := range val.Nums {
		if kind(i) == hear.SiteLength {
			n *= float64(unit.Metre)
		}
		out = append(out, hear.Value{Kind: kind(i), Num: n})
	}
	return out
}

func words(s string) []string { return strings.Fields(s) }

func mm(v event.Value) *unit.Length { return lengthAt(v, 0) }

func lengthAt(v event.Value, i int) *unit.Length {
	if i >= len(v.Nums) {
		return nil
	}
	l := unit.Length(v.Nums[i])
	return &l
}

func number(v event.Value) *float64 {
	if len(v.Nums) == 0 {
		return nil
	}
	n := v.Nums[0]
	return &n
}

func round(l unit.Length) float64 { return math.Round(float64(l)) }

// args are the arguments of a recorded phrase, in pairs of name and value.
func args(pairs ...any) map[string]event.Value {
	out := map[string]event.Value{}
	for i := 0; i+1 < len(pairs); i += 2 {
		out[pairs[i].(string)] = pairs[i+1].(event.Value)
	}
	return out
}
