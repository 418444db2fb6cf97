package talk

import "time"

// Phrase is a sentence to be: a key into messages/text and its arguments.
type Phrase struct {
	Key  string
	Args Args
}

// Args are the arguments of a phrase by name. A value is a quantity of
// calc/unit, an int, a float64, a string (said by a person, shown as is), a
// Moment, Money, a Phrase, or a slice of any of these.
type Args map[string]any

// Money is in hundredths of a person's own currency.
type Money int64

// P is a Phrase with arguments in pairs: P("joists.marks", "n", 15).
func P(key string, pairs ...any) Phrase {
	if len(pairs) == 0 {
		return Phrase{Key: key}
	}
	args := make(Args, len(pairs)/2)
	for i := 0; i+1 < len(pairs); i += 2 {
		args[pairs[i].(string)] = pairs[i+1]
	}
	return Phrase{Key: key, Args: args}
}

// Moment is a time to be told on the site's own clock.
type Moment struct {
	At   time.Time
	Zone string // IANA name
	Date bool   // the day matters, not the minute
}

// Level says how a reply must be set apart.
type Level string

const (
	Plain   Level = ""
	Caution Level = "caution" // harm is possible at this step
	Alarm   Level = "alarm"   // wet glue, a person silent: overtakes everything
	Stop    Level = "stop"    // a hold: the job stands
	Change  Level = "change"  // old -> new
)

// Reply is one thing told to a reader.
type Reply interface{ reply() }

// Tell is a few short lines.
type Tell struct {
	Level Level
	Lines []Phrase
}

// Ask is the open question. Question names it with its version, so that an old
// button can be told from a live one.
type Ask struct {
	Question string
	Phrase   Phrase
	Offered  *Phrase  // the value "." takes
	Options  []Option // at most three are shown big, the likeliest first
	Example  *Phrase
}

// Option is one tap.
type Option struct {
	Action string
	Label  Phrase
}

// Show is a table of numbers: a cut list, a materials list.
type Show struct {
	Title Phrase
	Head  []Phrase
	Rows  [][]Phrase // a row of one cell is a heading
	Foot  []Phrase
}

func (Tell) reply() {}
func (Ask) reply()  {}
func (Show) reply() {}

// Say is a plain Tell.
func Say(lines ...Phrase) Tell { return Tell{Lines: lines} }
