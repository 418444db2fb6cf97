// Package store keeps what has happened: the records of every job and of the
// book, the clocks that wait, the messages already acted on, how far each reader
// has been told, and the photos.
//
// It knows events and nothing of the conversation. This package holds the
// promises ([Journal], [Photos], [Eraser]), the errors a person meets, what every
// implementation must refuse ([Prepare]) and the check of a whole store
// ([Check]). store/bolt is the embedded store, store/memory one for tests and
// the demo, store/photos the pictures beside the file; store/storetest is the
// promises written as tests, run on each of them.
//
// # One transaction
//
// A [Journal.Commit] is everything one accepted message writes: its seen key,
// the records it makes in one or more streams, the clocks they leave, the line
// for the list. It is written wholly or not at all, and it is on the disk when
// Commit returns nil. A commit is made for a state: when the stream has moved on
// it is refused with [event.ErrConflict], when its message was acted on before
// with [event.ErrSeen], and then nothing of it is written. If both are true the
// answer is ErrSeen, so a message sent twice is never stepped twice.
//
// # The file
//
// store/bolt keeps one bbolt file. Numbers are big endian, so keys sort by
// number and time; 0 is a zero byte, which no name may contain.
//
//	meta      "format"                      "chargehand store 1"
//	          "hash"                        event.Scheme, the way records are chained
//	events    stream / be64(seq)            the record, one line of JSON (event.MarshalRecord)
//	heads     stream                        be64(seq) hash[32] summary
//	due       time stream 0 name            1
//	clocks    stream 0 name                 time
//	seen      key                           be64(Unix seconds when it was seen)
//	marks     stream 0 reader               the mark, JSON
//
// events has one bucket a stream. A time is be64(Unix seconds, sign bit turned)
// be32(nanoseconds): the order of keys is the order of instants, and no
// nanosecond is lost, so clocks rebuilt from the record can be compared exactly.
// due and clocks are the same set, once by time and once by stream.
//
// Photos lie in a folder beside the file, named after it: FILE.photos/ab/abcd...
// by the SHA-256 of their content.
//
// # Versions
//
// "format" changes when a program that knows only the old layout would misread
// the new one; such a program stops with [Newer] and touches nothing. Records
// carry their own version, kinds are permanent, and old records load for ever.
//
// # What is never rewritten
//
// Records: the interface has no way to change or remove one, and a record that
// is read again is, byte for byte, the one that was written. The one exception
// is [Eraser], which drops the values of a person's data and keeps their
// commitments: number, order, time, kind and hash of every record stay, and the
// chain verifies as before. The dropped bytes are gone from the file only after
// it was compacted, and from older backups only when those are deleted.
//
// Heads, clocks and marks are replaced by commits; seen keys are forgotten by age.
package store
