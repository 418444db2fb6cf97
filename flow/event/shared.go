package event

import (
	"errors"
	"time"
)

// Reader is a place that is told things: one chat, one terminal, one web page.
// It is spelled channel:address, for example "term:local".
type Reader string

// Actor says who did something and in what role.
type Actor struct {
	ID   string `json:"id"`
	Name string `json:"name,omitempty"`
	Role string `json:"role"` // builder, second, follower or system
}

// SeenKey names one inbound message for good, so that a message that arrives
// twice acts once. Its form belongs to the channel.
type SeenKey string

// Clock is one alarm of a job. A commit replaces the whole set of a job.
type Clock struct {
	Name string    `json:"name"`
	Due  time.Time `json:"due"`
}

// DueClock is a clock with the job it belongs to.
type DueClock struct {
	Stream string
	Clock
}

// Mark remembers how far a reader has been told about a job.
type Mark struct {
	Seq       uint64    `json:"seq"`
	MessageID string    `json:"message_id,omitempty"`
	Asked     string    `json:"asked,omitempty"` // the question last shown, step@version
	NotBefore time.Time `json:"not_before,omitzero"`
	Attempts  int       `json:"attempts,omitempty"`
}

// Head is the end of a stream.
type Head struct {
	Seq  uint64 `json:"seq"`
	Hash Hash   `json:"hash"`
}

// Commit is everything one accepted message writes, in one transaction or not
// at all.
type Commit struct {
	Seen  []SeenKey
	Parts []Part
}

// Part is what a commit writes to one stream.
type Part struct {
	Stream  string
	Expect  Head     // the end of the stream the records were made for
	Records []Record // sealed, following Expect
	Clocks  []Clock  // replaces the stream's whole set, unless Keep
	Keep    bool     // leave the stream's clocks as they are
	Summary []byte   // one line for the list of streams; nil leaves it as it is
}

// StreamInfo is a stream in the list of streams.
type StreamInfo struct {
	Stream  string
	Head    Head
	Summary []byte
}

// ErrConflict means that a stream has moved on since the records were made:
// fold the new ones and step again.
var ErrConflict = errors.New("the stream has moved on")

// ErrSeen means that one of the seen keys is known already: the message has
// been acted on, nothing is written.
var ErrSeen = errors.New("the message was acted on before")

// ErrUnknown means that there is no such stream or blob.
var ErrUnknown = errors.New("not in the store")

// Book is the stream of what outlives a job: people, languages, prices.
const Book = "book"
