package event

import "time"

// Event is one thing that happened to a job. The interface is sealed: every
// kind is in this package, listed in kinds.
type Event interface {
	// Kind is the permanent name written into the record.
	Kind() string
	sealed()
}

// Opened begins a job.
type Opened struct {
	Name string `json:"name"`
	Zone string `json:"zone"` // IANA time zone of the site
	Way  string `json:"way,omitempty"`
}

// Answered settles a step: what was said and what was understood.
type Answered struct {
	Step    string `json:"step"`
	Said    string `json:"said"`
	Value   Value  `json:"value"`
	Offered bool   `json:"offered,omitempty"` // the offered value was taken with one tap
}

// Proposed is a change to a settled answer that waits for a yes, because other
// numbers rest on it.
type Proposed struct {
	Step  string `json:"step"`
	Said  string `json:"said"`
	Value Value  `json:"value"`
	// Doubt names what speaks against it, where it is not a change but a doubtful answer.
	Doubt string           `json:"doubt,omitempty"`
	Args  map[string]Value `json:"args,omitempty"`
}

// Dropped takes a proposal back.
type Dropped struct{}

// Heard is anything said that settles nothing: a refusal, a "why?", a question
// back, a look at the list. Key and Args name the phrase that answers it, so
// that a crash never leaves a person unanswered.
type Heard struct {
	Step string           `json:"step,omitempty"`
	Said string           `json:"said"` // cut at 500 bytes
	Key  string           `json:"key"`
	Args map[string]Value `json:"args,omitempty"`
}

// Skipped passes over a step for a reason.
type Skipped struct {
	Step   string `json:"step"`
	Reason string `json:"reason"`
}

// PutOff leaves a step or a snag for later.
type PutOff struct {
	Step      string    `json:"step"`
	Until     time.Time `json:"until"`
	Said      string    `json:"said"`
	Risk      string    `json:"risk"` // looks, weather, structure or safety
	Temporary string    `json:"temporary,omitempty"`
	Owner     string    `json:"owner,omitempty"`
}

// TakenUp brings back what was skipped or put off.
type TakenUp struct {
	Step string `json:"step"`
}

// Moved puts the conversation at a step the person chose: back, or a jump.
type Moved struct {
	Phase string `json:"phase"`
	Step  string `json:"step,omitempty"`
	Back  bool   `json:"back,omitempty"`
}

// Reopened lists settled steps that have lost what they rested on.
type Reopened struct {
	Steps   []string `json:"steps"`
	Because string   `json:"because"` // the step whose change reopened them
}

// Undone takes back the event with that sequence number. Nothing is removed
// from the record.
type Undone struct {
	Seq uint64 `json:"seq"`
}

// Paused stops the conversation; Protected says in what state the roof was left.
type Paused struct {
	Protected string `json:"protected,omitempty"`
}

// Continued takes a paused job up again.
type Continued struct{}

// Tapped is a moment in timed work: glue spread begins, a sheet is down, a face
// is dry. At is when it happened, which can be before it was heard.
type Tapped struct {
	Work string           `json:"work"` // relax, batch/1, contact/2, ...
	Mark string           `json:"mark"` // begun, last, down, dry-a, ...
	At   time.Time        `json:"at"`
	Has  map[string]Value `json:"has,omitempty"` // the numbers that hold for this work
}

// Rang records that a clock was announced, and how late.
type Rang struct {
	Clock string    `json:"clock"`
	Due   time.Time `json:"due"`
}

// Told keeps numbers as they were shown, with the formulas that made them.
type Told struct {
	What     string   `json:"what"`
	Level    string   `json:"level,omitempty"`
	Lines    []Line   `json:"lines,omitempty"`
	Formulas []string `json:"formulas,omitempty"`
}

// Line is one phrase that was shown, with its numbers.
type Line struct {
	Key  string           `json:"key"`
	Args map[string]Value `json:"args,omitempty"`
}

// Noted is a remark or a photo that belongs to no question.
type Noted struct {
	Text  string `json:"text,omitempty"`
	Photo string `json:"photo,omitempty"` // content hash
	Step  string `json:"step,omitempty"`
}

// Snagged records something wrong or missing.
type Snagged struct {
	Snag string `json:"snag"` // short id within the job
	What string `json:"what"`
}

// SnagClosed ends a snag.
type SnagClosed struct {
	Snag string `json:"snag"`
	How  string `json:"how"`
}

// Ended closes the job: done, or given up.
type Ended struct {
	How    string `json:"how"`
	Reason string `json:"reason,omitempty"`
}

// Renamed gives the job another name.
type Renamed struct {
	Name string `json:"name"`
}

// Archived takes the job out of (or back into) the list of live jobs.
type Archived struct {
	Away bool `json:"away"`
}

// SetBack notes that the machine's clock was found behind the record.
type SetBack struct {
	Behind time.Duration `json:"behind_ns"`
}

// Released says what was kept from those who had wet glue in hand: the words of
// the events with these sequence numbers.
type Released struct {
	Seqs []uint64 `json:"seqs"`
}

// Met adds a person to the book.
type Met struct {
	Person string `json:"person"`
	Name   string `json:"name"`
	Lang   string `json:"lang"`
	Units  string `json:"units,omitempty"`
}

// Chose makes a job the current one of a reader.
type Chose struct {
	Reader string `json:"reader"`
	Job    string `json:"job"`
}

// Priced is one size of a thing the builder can buy, with his own price. It is
// said in a job, and kept in the book as well, so that the next job knows it.
type Priced struct {
	Item  string  `json:"item"`            // key of a line of the list
	Of    string  `json:"of,omitempty"`    // the section or kind it is of
	Size  float64 `json:"size"`            // in the unit of the line
	Price int64   `json:"price,omitempty"` // in hundredths of his currency; 0 = not told
	Gone  bool    `json:"gone,omitempty"`  // it is no longer had in this size
}

// Film is what glue was seen to do on a deck, between two looks, and in what
// conditions.
type Film struct {
	Begun     time.Time `json:"begun"`      // when it was spread
	Label     []float64 `json:"label"`      // what the tin prints: min, °C, and the same of a second line
	Substrate string    `json:"substrate"`  // a pick
	Deck      float64   `json:"deck"`       // °C
	Air       float64   `json:"air"`        // °C
	Model     float64   `json:"model"`      // min, what the rules gave for it
	LastWet   float64   `json:"last_wet"`   // min
	FirstGone float64   `json:"first_gone"` // min
}

// Calibrated is a film that outlives its job: it is kept in the book alone, and
// offered to later jobs. Gone takes it back.
type Calibrated struct {
	Film Film `json:"film"`
	Gone bool `json:"gone,omitempty"`
}

// Recalled is what a job was told from the book as it began.
type Recalled struct {
	Prices []Priced `json:"prices,omitempty"`
	Films  []Film   `json:"films,omitempty"`
}

// Came is what was delivered of one thing; 0 takes back what was said of it.
type Came struct {
	Item  string  `json:"item"`
	Size  float64 `json:"size"` // in the unit of the line
	Count int     `json:"count"`
}

// Solved is what a long search found, off the path of the conversation. It
// answers the problem of that name and no other.
type Solved struct {
	What   string `json:"what"` // deck
	Of     string `json:"of"`   // the name of the problem
	Rows   string `json:"rows,omitempty"`
	Boards string `json:"boards,omitempty"`
	Bound  int    `json:"bound"`
	Work   int64  `json:"work"`
}

func (Opened) Kind() string     { return "opened" }
func (Answered) Kind() string   { return "answered" }
func (Proposed) Kind() string   { return "proposed" }
func (Dropped) Kind() string    { return "dropped" }
func (Heard) Kind() string      { return "heard" }
func (Skipped) Kind() string    { return "skipped" }
func (PutOff) Kind() string     { return "put-off" }
func (TakenUp) Kind() string    { return "taken-up" }
func (Moved) Kind() string      { return "moved" }
func (Reopened) Kind() string   { return "reopened" }
func (Undone) Kind() string     { return "undone" }
func (Paused) Kind() string     { return "paused" }
func (Continued) Kind() string  { return "continued" }
func (Tapped) Kind() string     { return "tapped" }
func (Rang) Kind() string       { return "rang" }
func (Told) Kind() string       { return "told" }
func (Noted) Kind() string      { return "noted" }
func (Snagged) Kind() string    { return "snagged" }
func (SnagClosed) Kind() string { return "snag-closed" }
func (Ended) Kind() string      { return "ended" }
func (Renamed) Kind() string    { return "renamed" }
func (Archived) Kind() string   { return "archived" }
func (SetBack) Kind() string    { return "set-back" }
func (Released) Kind() string   { return "released" }
func (Met) Kind() string        { return "met" }
func (Chose) Kind() string      { return "chose" }
func (Priced) Kind() string     { return "priced" }
func (Recalled) Kind() string   { return "recalled" }
func (Calibrated) Kind() string { return "calibrated" }
func (Came) Kind() string       { return "came" }
func (Solved) Kind() string     { return "solved" }

func (Opened) sealed()     {}
func (Answered) sealed()   {}
func (Proposed) sealed()   {}
func (Dropped) sealed()    {}
func (Heard) sealed()      {}
func (Skipped) sealed()    {}
func (PutOff) sealed()     {}
func (TakenUp) sealed()    {}
func (Moved) sealed()      {}
func (Reopened) sealed()   {}
func (Undone) sealed()     {}
func (Paused) sealed()     {}
func (Continued) sealed()  {}
func (Tapped) sealed()     {}
func (Rang) sealed()       {}
func (Told) sealed()       {}
func (Noted) sealed()      {}
func (Snagged) sealed()    {}
func (SnagClosed) sealed() {}
func (Ended) sealed()      {}
func (Renamed) sealed()    {}
func (Archived) sealed()   {}
func (SetBack) sealed()    {}
func (Released) sealed()   {}
func (Met) sealed()        {}
func (Chose) sealed()      {}
func (Priced) sealed()     {}
func (Recalled) sealed()   {}
func (Calibrated) sealed() {}
func (Came) sealed()       {}
func (Solved) sealed()     {}
