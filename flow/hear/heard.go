package hear

// MaxKept is how many bytes of a person's text a Value or Refusal keeps.
const MaxKept = 500

// MaxText is the longest answer to a Text question, in bytes; MaxLine the
// longest answer to any other.
const (
	MaxText = 4000
	MaxLine = 1000
)

// Keys of a YesNo value.
const (
	Yes = "yes"
	No  = "no"
)

// Value is one thing understood.
//
// Unit is "mm", "cm", "m", "in", "ft", "°C", "°F", "min", "h", "kg", "l" and so
// on; "ft in" and "m cm" for two measures joined; "dm" where a point may have been
// lost (24 for 2.4 m) and "m dm" for 5m4 read as 5.4 m; "1/n", "%", "deg" or ""
// for a fall; "of 1" for 0.16 read as 16 %; "US gal" and "US pt"; for a Number
// what Want.Bare says.
type Value struct {
	Kind Kind
	Num  float64 // in the base unit of Kind: mm, °C, min, kg, l, m², m/s, %, drop over run
	Key  string  // Choice: the key picked; YesNo: Yes or No; any kind: Want.Unsure
	Text string  // Text: the words, trimmed
	When When    // Time

	Unit  string // the unit the number was read in, see below
	Given bool   // the person said the unit; false when the field decided
	Words string // the part of the answer it came from, at most MaxKept bytes
}

// Yes says whether v is a yes.
func (v Value) Yes() bool { return v.Kind == YesNo && v.Key == Yes }

// Grain says how exactly a moment was named.
type Grain uint8

const (
	GrainMinute Grain = iota
	GrainDay          // At is 00:00 of the day
	GrainWeek         // At is the Monday
	GrainMonth        // At is the first
	GrainSeason       // At is the first day of the season (March, June, September, December)
)

// When is a moment: either After minutes from now (negative: ago), an exact
// span on the clock, or the wall-clock moment At.
type When struct {
	Relative bool
	After    float64 // minutes
	At       Civil
	Grain    Grain
}

// Heard is what an answer came to: Values, or Ask, or Refused; never two of them.
type Heard struct {
	Values  []Value
	Offered bool // the offered value was taken
	Soft    bool // some value is outside its soft range: ask "really?"
	Ask     *Ambiguity
	Refused *Refusal
}

// Ambiguity is a text with more than one reading, or with one reading so odd
// that it is asked about.
type Ambiguity struct {
	Heard   string
	Why     string // an Ask... key
	Options []Option
}

// Option is one whole reading of an ambiguous answer. Outside says that it
// would be refused as out of range; such options come last.
type Option struct {
	Values  []Value
	Outside bool
}

// Refusal says why a text was not taken. Heard is cleaned of everything
// invisible and cut at MaxKept bytes.
type Refusal struct {
	Heard   string
	Why     string // a Refused... key
	Example string // key of an example of the kind
	Got     *Value // RefusedRange: what was understood
	Part    int    // which part of Want.Parts, or which of many, counted from 0
}

// Why something was asked.
const (
	AskUnit     = "hear.ask.unit"     // mm or cm, m or ft, °C or °F
	AskNumber   = "hear.ask.number"   // 1,200: a decimal or a thousand
	AskGrouping = "hear.ask.grouping" // one number or several
	AskMoment   = "hear.ask.moment"   // which friday, morning or evening, day or month first
	AskChoice   = "hear.ask.choice"   // the word fits several choices
	AskOffered  = "hear.ask.offered"  // "ok" to a question whose offer is "no"
)

// Why something was refused.
const (
	RefusedEmpty     = "hear.refused.empty"
	RefusedLong      = "hear.refused.long"
	RefusedBytes     = "hear.refused.bytes"     // not UTF-8
	RefusedControl   = "hear.refused.control"   // control characters
	RefusedHidden    = "hear.refused.hidden"    // invisible marks, right-to-left switches
	RefusedNotFinite = "hear.refused.notfinite" // NaN, infinity
	RefusedHex       = "hear.refused.hex"
	RefusedExponent  = "hear.refused.exponent"
	RefusedNumber    = "hear.refused.number" // no number in it, or more than a number
	RefusedUnit      = "hear.refused.unit"   // a unit this field can't have, or units nobody can settle
	RefusedRange     = "hear.refused.range"
	RefusedWhole     = "hear.refused.whole" // a count with a fraction
	RefusedFew       = "hear.refused.few"   // fewer values than wanted
	RefusedMany      = "hear.refused.many"  // more values than wanted
	RefusedChoice    = "hear.refused.choice"
	RefusedYesNo     = "hear.refused.yesno"
	RefusedMoment    = "hear.refused.moment"
	RefusedUnsure    = "hear.refused.unsure"    // "don't know" where it is no answer
	RefusedNoOffer   = "hear.refused.nooffer"   // "." where nothing is offered
	RefusedAmbiguous = "hear.refused.ambiguous" // too many readings to list: say the units
)

// Keys lists every key this package can hand out, for the test that each has words.
func Keys() []string {
	keys := []string{
		AskUnit, AskNumber, AskGrouping, AskMoment, AskChoice, AskOffered,
		RefusedEmpty, RefusedLong, RefusedBytes, RefusedControl, RefusedHidden,
		RefusedNotFinite, RefusedHex, RefusedExponent, RefusedNumber, RefusedUnit,
		RefusedRange, RefusedWhole, RefusedFew, RefusedMany, RefusedChoice,
		RefusedYesNo, RefusedMoment, RefusedUnsure, RefusedNoOffer, RefusedAmbiguous,
	}
	for k := Text; k <= Speed; k++ {
		keys = append(keys, k.Example())
	}
	return keys
}

// Example returns the key of an example answer of the kind.
func (k Kind) Example() string { return "hear.example." + k.String() }

func (k Kind) String() string {
	if int(k) < len(kindNames) {
		return kindNames[k]
	}
	return "unknown"
}

var kindNames = [...]string{
	"text", "plan", "section", "board", "boardwidth", "site", "temperature", "count",
	"number", "percent", "choice", "yesno", "time", "minutes", "mass", "litres",
	"ratio", "area", "speed",
}
