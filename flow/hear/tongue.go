package hear

import "strings"

// class says what a number word may be joined to.
type class uint8

const (
	unitWord    class = iota // 0 to 9
	teenWord                 // 10 to 19
	tenWord                  // 20, 30, .. 90
	hundredWord              // 100, 200, .. 900 as one word
	timesWord                // multiplies what went before: hundred, thousand
	partWord                 // half, quarter: a fraction of what follows
	aloneWord                // a number joined to nothing
)

type numeral struct {
	class class
	n     float64
}

// tongue is everything about hearing that depends on a language. Entries are
// written as people write them and folded (lower case, no accents) on building.
type tongue struct {
	units    map[string][]string // spelling -> unit ids, one for each dimension that knows the spelling
	numerals map[string]numeral
	repeats  map[string]int // "double four"
	point    set            // "point" in "five point four"
	and      set            // joins numbers, separates values
	by       set            // "2.4 by 1.2"
	one      set            // "a metre"
	bareOne  bool           // "metr" by itself is one metre
	minus    set
	below    set // after a reading: "two below"
	of       set // "half of a metre", "half a metre"
	in       set // "one in forty"
	per      set // "25 mm per metre"
	none     set // nought of something
	noise    set // said without changing the number
	nouns    set // what counts count

	yes, no    set // first word of an answer
	yesAll     set // whole phrases
	noAll      set
	fine       set // agrees with whatever is offered
	unsure     set // whole phrases
	but        set // takes back or limits a yes or a no
	noBut      set // after a no, no answer at all: "no problem"
	or         set
	not        set
	optionWord set // "option 2", "number 2"
	ordinals   map[string]int
	picks      map[string][]string // choice key -> what people call it

	notNumbers map[string]string // word -> Refused... key

	commands []saying
	moments  moments

	// dotGroups: "1.200" may be twelve hundred.
	dotGroups bool
}

type set map[string]bool

// setOf splits on commas.
func setOf(list string) set {
	s := set{}
	for _, w := range strings.Split(list, ",") {
		if w = folded(w); w != "" {
			s[w] = true
		}
	}
	return s
}

// saying is one way to give a command.
type saying struct {
	words string
	split []string // the same, word by word
	cmd   Cmd
	rest  bool // something may follow
}

// sayings reads lines of "word, word, ..." into commands.
func sayings(cmd Cmd, rest bool, list string) []saying {
	var out []saying
	for _, w := range strings.Split(list, ",") {
		w = folded(w)
		out = append(out, saying{words: w, split: strings.Fields(w), cmd: cmd, rest: rest})
	}
	return out
}

func together(lists ...[]saying) []saying {
	var out []saying
	for _, l := range lists {
		out = append(out, l...)
	}
	return out
}

func numbers(cls class, list string, ns ...float64) map[string]numeral {
	out := map[string]numeral{}
	words := strings.Fields(list)
	for i, w := range words {
		for _, spelling := range strings.Split(w, "/") {
			out[folded(spelling)] = numeral{cls, ns[i]}
		}
	}
	return out
}

func merge(maps ...map[string]numeral) map[string]numeral {
	out := map[string]numeral{}
	for _, m := range maps {
		for k, v := range m {
			out[k] = v
		}
	}
	return out
}

func foldKeys(m map[string]int) map[string]int {
	out := map[string]int{}
	for k, v := range m {
		out[folded(k)] = v
	}
	return out
}

func foldPicks(tables ...map[string][]string) map[string][]string {
	out := map[string][]string{}
	for _, m := range tables {
		for k, words := range m {
			for _, w := range words {
				out[k] = append(out[k], folded(w))
			}
		}
	}
	return out
}

// spell lists the spellings of units: "id: word, word".
func spell(lines ...string) map[string][]string {
	out := map[string][]string{}
	for _, line := range lines {
		id, list, _ := strings.Cut(line, ":")
		for w := range setOf(list) {
			out[w] = append(out[w], id)
		}
	}
	return out
}

// everywhere are the spellings of units that no language changes.
var everywhere = []string{
	"mm:mm", "cm:cm", "dm:dm", "m:m", "km:km", "in:in", "ft:ft", "yd:yd",
	"mm2:mm²", "cm2:cm²", "m2:m²,qm", "ft2:ft²,sqft",
	"°C:c", "°F:f",
	"s:s,sec", "min:min,m", "h:h,hr", "d:d",
	"g:g", "kg:kg", "t:t", "lb:lb,lbs",
	"ml:ml", "cl:cl", "l:l,lt,ltr",
	"m/s:m/s,mps", "mph:mph", "km/h:km/h,kmh,kph", "kn:kn,kt,kts",
}

// tongueOf returns the table of a language tag ("en", "en-GB", "pl").
func tongueOf(lang string) *tongue {
	tag, _, _ := strings.Cut(strings.ReplaceAll(strings.ToLower(lang), "_", "-"), "-")
	if t, ok := tongues[tag]; ok {
		return t
	}
	return tongues["en"]
}

var tongues = map[string]*tongue{"en": &english, "pl": &polish}
