package talk

import "time"

// Person is who speaks, with the role held on this job.
type Person struct {
	ID, Name, Role string // role: builder, second, follower, system
	Lang           string // language tag, "" = English
}

// Input is one thing that happened to a conversation. At is when it was
// received and is the only clock the engine knows; Sent is the sender's own
// time where the channel has one (a message can wait hours for signal).
type Input struct {
	At     time.Time
	Sent   time.Time
	By     Person
	Reader string // where it was said
	Key    string // names the message for good
	Asked  string // the question this reader was last shown, "" if unknown
	What   What
}

// When is the moment the person acted, as far as known.
func (in Input) When() time.Time {
	if !in.Sent.IsZero() && in.Sent.Before(in.At) {
		return in.Sent
	}
	return in.At
}

// What is the content of an input.
type What interface{ what() }

// Begun starts a job. Prices and films are what the book knows.
type Begun struct {
	Name, Zone string
	Prices     []Price
	Films      []Film
}

// Film is what glue was seen to do on an earlier job: with which tin, on what, at
// what temperatures. Times are in minutes, temperatures in °C.
type Film struct {
	Begun                     time.Time
	Label                     []float64 // time and temperature on the tin, and of a second line
	Substrate                 string
	Deck, Air                 float64
	Model, LastWet, FirstGone float64
}

// Price is one size of a thing the builder can buy, at his own price in
// hundredths of his currency; 0 is not told.
type Price struct {
	Item, Of string
	Size     float64
	Price    int64
}

// Solved is what a long search found. It comes from the program itself.
type Solved struct {
	What, Of     string
	Rows, Boards string
	Bound        int
	Work         int64
}

// Said is typed or dictated text.
type Said struct{ Text string }

// Pressed is a tap on an answer of a question.
type Pressed struct{ Question, Action string }

// Pictured is a photo already kept by its content hash.
type Pictured struct{ Hash, Caption string }

// Rang is a clock that fell due.
type Rang struct {
	Clock string
	Due   time.Time
}

// Renamed gives the job another name; Archived puts it away or back. They come
// from the operator, not from the roof.
type Renamed struct{ Name string }
type Archived struct{ Away bool }

func (Begun) what()    {}
func (Said) what()     {}
func (Pressed) what()  {}
func (Pictured) what() {}
func (Rang) what()     {}
func (Renamed) what()  {}
func (Archived) what() {}
func (Solved) what()   {}
