package hear

// Kind is what sort of answer a field takes; it decides the unit of a bare number.
type Kind uint8

const (
	Text          Kind = iota // any words
	PlanLength                // mm; bare: 500 and more is mm, below 30 is m, else asks
	SectionLength             // mm; bare is mm, asks cm or in when that misses the range
	BoardLength               // mm; bare: 2000 to 3100 mm, 2.0 to 3.1 m, 7 to 10 ft, else asks
	BoardWidth                // mm; bare: 590 to 1250 mm, 0.59 to 1.25 m, 2 to 4 ft, else asks
	SiteLength                // mm; bare is m: altitude, distance from a boundary
	Temperature               // °C; above 45 asks whether °F was meant
	Count                     // whole number
	Number                    // plain number
	Percent                   // %
	Choice                    // one of Want.Choices
	YesNo                     // yes, no, and Want.Unsure where offered
	Time                      // a moment, see When
	Minutes                   // min; a span of time
	Mass                      // kg
	Litres                    // l
	Ratio                     // drop over run: 1/40, 1:40, 2.5 %, 25 mm per metre
	Area                      // m²
	Speed                     // m/s; bare is Want.Bare ("m/s", "mph", "km/h", "kn"), else asks
)

// Range limits a number, in the base unit of its kind. Outside soft asks
// "really?", outside hard refuses. A pair of limits that are both 0 is no limit.
type Range struct {
	SoftMin, SoftMax float64
	HardMin, HardMax float64
}

// Pick is one thing to choose. Words are what a person may call it, in the
// person's language; when there are none, the table of the language is asked
// for Key, and Key itself always counts.
type Pick struct {
	Key   string
	Words []string
}

// Many says how many values one line may hold. The zero Many is exactly one.
type Many struct{ Min, Max int }

// Civil is a wall-clock moment at the site, without a zone.
type Civil struct {
	Year, Month, Day int
	Hour, Minute     int
}

// Want is what the open question wants to hear.
type Want struct {
	Kind    Kind
	Range   Range
	Choices []Pick
	Many    Many
	Offered []Value // what "." takes; nil when nothing is offered
	Unsure  string  // the Value.Key that "don't know" gives, in a field of any kind but Text and for the whole line; "" where it is not offered
	Bare    string  // unit of a bare number where the kind leaves it open: "mph", "m2/l"
	Lang    string  // "en", "pl"; unknown languages hear as "en"
	Now     Civil   // for "friday", "10:42"
	Past    bool    // Time: the moment has already been ("laid since")

	// Parts makes one line answer several things in order, each with its own
	// kind, range, choices and offer: "18 38 10 112 1", "110 40 y". Lang and Now
	// are taken from the whole; Kind, Range and Choices of the whole are not looked
	// at. At least Many.Min parts must be there (0 means all of them). Text and
	// Time can't be parts.
	Parts []Want
}
