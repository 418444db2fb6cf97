package flow

import (
	"fmt"
	"sync"
	"sync/atomic"
	"time"

	"chargehand/calc/plan"
	"chargehand/calc/takeoff"
	"chargehand/calc/unit"
	"chargehand/flow/draw"
	"chargehand/flow/event"
	"chargehand/flow/hear"
	"chargehand/flow/talk"
)

// Kind says what a step is.
type Kind string

const (
	Fact  Kind = "fact"  // something to measure or tell
	Do    Kind = "do"    // something to do on the roof, told with its numbers and confirmed
	Hold  Kind = "hold"  // a check to pass, or skip with a typed reason, before work is covered up
	Gate  Kind = "gate"  // a hold that only a recorded finding lifts: asbestos, span
	Timed Kind = "timed" // work on a clock, a loop of taps
)

// Spec is one step, as data. Its sentences are found by its ID: ask.ID, why.ID
// and, where an answer needs showing, eg.ID.
type Spec struct {
	ID    string
	Phase string
	Kind  Kind

	// Asks is the name its sentences go by where several steps share them, and
	// Number which of them it is; empty means ID.
	Asks   string
	Number int

	// Want says how an answer is heard; nil means yes or no.
	Want func(v View) hear.Want
	// Else are other kinds of answer it takes: a measured wind for a tapped one.
	Else []hear.Want
	// Read hears what no Want can: a place on the map.
	Read func(text string) (event.Value, bool)
	// More names the steps that further numbers of the same line belong to.
	More []string
	// When says whether the answer matters on this roof; nil means always.
	When func(v View) bool
	// Needs are the steps that must be settled first.
	Needs []string
	// Offer is the value that "." takes.
	Offer func(v View) (event.Value, bool)
	// Doubt looks at an answer: a refusal, or a doubt to confirm.
	Doubt func(v View, val event.Value) *Doubt
	// Into writes the answer into the plan's inputs.
	Into func(in *plan.Inputs, val event.Value)
	// Tell is what is shown when the step opens, with the numbers kept; Also is
	// shown after it.
	Tell, Also func(v View) *event.Told
	// Cautions are shown once when the step opens.
	Cautions []string
	// Rests names the parts of the plan and the steps this one rests on: when
	// one of them moves, the step is opened again.
	Rests []string
	// Holds names what the step takes to be in hand: a short delivery opens it
	// again.
	Holds []takeoff.Key
	// Weathers says that the check does not outlast a break of some days unless
	// the step Covered has been answered since.
	Weathers bool
	Covered  string
	// Must says that the job can't go on without an answer.
	Must bool
	// None says that "none" is an answer: an empty list. Unsure says that "don't
	// know" is the same answer.
	None, Unsure bool
	// Unit is the unit a plain number is recorded in.
	Unit string
	// Example says that the step has an example of its own, eg.ID.
	Example bool
	// Names are what else a person may call the step.
	Names []string
	// Risk is what is at stake when it is put off; "" means it can't be.
	Risk string
	// Sets names a part of the conversation the answer sets (zone, way).
	Sets string
	// Short leaves the question out in the short way: the offer stands.
	Short bool
	// Unasked says that nobody is asked: it is told by "change NAME VALUE", and
	// matters once it is.
	Unasked bool
}

// Doubt is what a step thinks of an answer it was given.
type Doubt struct {
	Key    string
	Args   map[string]event.Value
	Refuse bool // it cannot be so; otherwise a yes keeps it
}

// voice is the name the step's sentences go by.
func (s Spec) voice() string {
	if s.Asks != "" {
		return s.Asks
	}
	return s.ID
}

// called is the step's name as a phrase.
func called(id string) talk.Phrase {
	spec, ok := Lookup(id)
	if !ok || spec.Asks == "" {
		return talk.P("name." + id)
	}
	return talk.P("name."+spec.Asks, "n", spec.Number)
}

// record turns what was heard into what the record keeps of this step.
func (s Spec) record(heard []hear.Value, now time.Time, zone string) event.Value {
	if s.Unsure && len(heard) == 1 && heard[0].Key == "unknown" {
		return event.Value{Unit: s.Unit}
	}
	v := value(heard, now, zone)
	if v.Unit == recordUnit(hear.Number) {
		v.Unit = s.unit(hear.Number)
	}
	return v
}

// unit is the unit the step's answers of a kind have in the record.
func (s Spec) unit(k hear.Kind) string {
	if s.Unit != "" {
		return s.Unit
	}
	return recordUnit(k)
}

// nothing says whether a value is the "none" of a step that takes one.
func (s Spec) nothing(v event.Value) bool { return s.None && len(v.Nums) == 0 }

// noneWord is how a step's "none" is called.
func (s Spec) noneWord() talk.Phrase {
	if s.Unsure {
		return talk.P("word.not-told")
	}
	return talk.P("word.none")
}

// physical says whether settling the step changes something on the roof, so
// that "undo" would make the record lie.
func (s Spec) physical() bool { return s.Kind == Do || s.Kind == Hold || s.Kind == Timed }

// phases in the order of the work.
var phases = []string{"survey", "plates", "joists", "deck", "upstands", "membrane", "edges", "flashing", "aftercare"}

// Phases lists the phases in the order of the work.
func Phases() []string { return append([]string(nil), phases...) }

// book holds the script, built once on first use. It can't be an initialised
// package variable: the steps' own functions look the script up, which Go
// calls an initialisation cycle.
var book struct {
	once  sync.Once
	steps []Spec
	byID  map[string]int
}

func script() []Spec {
	book.once.Do(func() {
		for _, part := range [][]Spec{
			surveySteps(), aloneSteps(), platesSteps(), joistsSteps(), deckSteps(), upstandsSteps(),
			membraneSteps(), edgesSteps(), flashingSteps(), aftercareSteps(),
		} {
			book.steps = append(book.steps, part...)
		}
		book.byID = make(map[string]int, len(book.steps))
		for i, s := range book.steps {
			if _, twice := book.byID[s.ID]; twice {
				panic(fmt.Sprintf("flow: two steps are called %q", s.ID))
			}
			book.byID[s.ID] = i
		}
	})
	return book.steps
}

// Script lists every step in the order of the work.
func Script() []Spec { return append([]Spec(nil), script()...) }

// Lookup finds a step.
func Lookup(id string) (Spec, bool) {
	all := script()
	i, ok := book.byID[id]
	if !ok {
		return Spec{}, false
	}
	return all[i], true
}

// View is what a step may look at: the state and the plan worked out from it.
type View struct {
	S State
}

// Plan is everything worked out from the answers so far.
func (v View) Plan() *plan.Plan { return v.S.plan.get(v.S) }

// reckoned works the plan out at most once for a set of answers; a State that
// is only folded never pays for it.
type reckoned struct {
	once   sync.Once
	before *plan.Plan // a plan worked out earlier, to take unchanged parts from
	plan   atomic.Pointer[plan.Plan]
}

// after makes room for the plan of changed answers.
func (r *reckoned) after() *reckoned {
	if r == nil {
		return &reckoned{}
	}
	if done := r.plan.Load(); done != nil {
		return &reckoned{before: done}
	}
	return &reckoned{before: r.before}
}

func (r *reckoned) get(s State) *plan.Plan {
	if r == nil {
		return plan.Reckon(plan.Inputs{}, nil)
	}
	r.once.Do(func() {
		r.plan.Store(plan.Reckon(Inputs(s), r.before))
	})
	return r.plan.Load()
}

// Inputs collects the answers of a job as the plan reads them.
func Inputs(s State) plan.Inputs {
	var in plan.Inputs
	for _, spec := range script() {
		if spec.Into == nil {
			continue
		}
		if set := s.Settled[spec.ID]; set.counts() {
			spec.Into(&in, set.Value)
		}
	}
	weatherInto(&in, s)
	gluedInto(&in, s)
	pressedInto(&in, s)
	bought(&in, s)
	return in
}

// with returns the view as it would be if the step were answered so.
func (v View) with(id string, val event.Value) View {
	s := v.S
	now := s.Settled[id]
	now.Status, now.Value = StepAnswered, val
	s.Settled = with(s.Settled, id, now)
	s.plan = s.plan.after()
	return View{s}
}

// Has says whether the step has an answer.
func (v View) Has(id string) bool { return v.S.Settled[id].Answer() }

// Value returns the step's answer.
func (v View) Value(id string) (event.Value, bool) {
	s := v.S.Settled[id]
	return s.Value, s.Answer()
}

// MM returns the step's answer as a length; 0 where there is none.
func (v View) MM(id string) unit.Length { return unit.Length(v.num(id)) }

func (v View) num(id string) float64 {
	if val, ok := v.Value(id); ok {
		return val.Num()
	}
	return 0
}

// Pick returns the chosen word; "" where there is none.
func (v View) Pick(id string) string {
	if val, ok := v.Value(id); ok {
		return val.Text
	}
	return ""
}

// Yes says whether the step was answered yes.
func (v View) Yes(id string) bool {
	val, ok := v.Value(id)
	return ok && val.Yes()
}

// No says whether the step was answered no.
func (v View) No(id string) bool {
	val, ok := v.Value(id)
	return ok && val.Unit == "yes" && val.Text == "no"
}

// relevant says whether the step matters on this roof.
func (v View) relevant(s Spec) bool { return s.When == nil || s.When(v) }

// phrase is a key with arguments taken from the record.
func phrase(key string, args map[string]event.Value, zone string) talk.Phrase {
	if len(args) == 0 {
		return talk.Phrase{Key: key}
	}
	out := talk.Args{}
	for k, val := range args {
		out[k] = Quantity(val, zone)
	}
	return talk.Phrase{Key: key, Args: out}
}

// Quantity turns a recorded value into what a phrase can speak of; zone is
// where its times are told.
func Quantity(v event.Value, zone string) any {
	one := func(n float64) any {
		switch v.Unit {
		case "mm", "leg":
			return unit.Length(n)
		case "m":
			return talk.P("word.metres", "n", n)
		case "m2":
			return unit.Area(n * float64(unit.SquareMetre))
		case "celsius":
			return unit.Celsius(n)
		case "pct":
			return unit.Percent(n)
		case "count":
			return int(n)
		case "min":
			return unit.Minutes(n)
		case "litre":
			return unit.Volume(n * float64(unit.Litre))
		case "kn":
			return unit.Force(n * float64(unit.Kilonewton))
		case "kn_m2":
			return unit.AreaLoad(n * float64(unit.KilonewtonPerM2))
		case "kg":
			return unit.Mass(n)
		case "m_s":
			return unit.Speed(n)
		case "ratio":
			return unit.Fall(n)
		case "money":
			return talk.Money(n)
		}
		return n
	}
	switch v.Unit {
	case "yes":
		return talk.Phrase{Key: "word." + v.Text}
	case "leg":
		w := words(v.Text)
		if len(w) == 2 && len(v.Nums) == 1 {
			return talk.P("word.leg", "length", one(v.Nums[0]), "turn", talk.P("pick."+w[0]), "kind", talk.P("pick."+w[1]))
		}
		return v.Text
	case "pieces":
		return pieces(v)
	case "packs":
		return packPhrase(v)
	case "pick":
		return picks(v.Text)
	case "key":
		return talk.Phrase{Key: v.Text}
	case "step":
		return called(v.Text)
	case "keys":
		var out []any
		for _, k := range words(v.Text) {
			out = append(out, talk.Phrase{Key: k})
		}
		return out
	case "text":
		return v.Text
	case "time":
		return talk.Moment{At: v.At, Zone: zone}
	case "date":
		return talk.Moment{At: v.At, Zone: zone, Date: true}
	case "hours":
		n, from, to := hoursSpan(v)
		return talk.P("word.hours", "n", n, "from", talk.Moment{At: from, Zone: zone}, "to", talk.Moment{At: to, Zone: zone})
	}
	if len(v.Nums) == 1 {
		return one(v.Nums[0])
	}
	many := make([]any, len(v.Nums))
	for i, n := range v.Nums {
		many[i] = one(n)
	}
	return many
}

// pieces are lettered pieces as one saws them; pieces alike that follow each other
// are told as a number of one.
func pieces(v event.Value) any {
	letters := words(v.Text)
	var out []any
	for i := 0; i < len(v.Nums) && i < len(letters); {
		n := 1
		for i+n < len(letters) && i+n < len(v.Nums) && letters[i+n] == letters[i] && v.Nums[i+n] == v.Nums[i] {
			n++
		}
		l := unit.Length(v.Nums[i])
		if n == 1 {
			out = append(out, talk.P("word.piece", "letter", letters[i], "length", l))
		} else {
			out = append(out, talk.P("word.pieces", "n", n, "letter", letters[i], "length", l))
		}
		i += n
	}
	return out
}

// picks are the chosen words as phrases.
func picks(text string) any {
	keys := words(text)
	if len(keys) == 1 {
		return talk.Phrase{Key: "pick." + keys[0]}
	}
	out := make([]any, len(keys))
	for i, k := range keys {
		out[i] = talk.Phrase{Key: "pick." + k}
	}
	return out
}

// ChoiceSets lists every set of answers the conversation can offer, for the
// test that each label is heard as what it says.
func ChoiceSets() [][]string {
	var out [][]string
	add := func(w hear.Want) {
		if w.Kind != hear.Choice {
			return
		}
		var keys []string
		for _, c := range w.Choices {
			keys = append(keys, c.Key)
		}
		out = append(out, keys)
	}
	for _, spec := range script() {
		if spec.Want != nil && spec.Kind != Timed {
			add(spec.Want(View{}))
		}
	}
	for _, id := range sorted(timed) {
		out = append(out, timed[id])
	}
	return append(out, []string{"shift", "lower", "strip", "reorder"}, []string{"cure-stand", "cure-module", "cure-battens", "cure-cut", "cure-noggins"}, draw.Kinds())
}
