// Package event is the vocabulary of a job's record: what can happen to a job,
// how each happening is written down, and how the writing is chained so that
// nobody can change the past unseen.
//
// # The record
//
// A stream is one job, or the book (people, chats, prices). It is a list of
// [Record] values numbered from 1 without a gap. A Record is an [Event] with a
// header (sequence, time, kind) and the people's part (who, where, because of
// which message). Kinds are permanent strings: Go names may change, a kind and
// the meaning of its fields never do. A new field is optional; a new meaning is
// a new kind.
//
// # The chain
//
// An event is flattened into leaves, one for each JSON scalar, named by its
// JSON pointer (RFC 6901). Each leaf gets a random salt and a commitment
//
//	commitment = SHA-256(scheme, salt, pointer, canonical value)
//	hash       = SHA-256(scheme, previous hash, version, seq, at, kind,
//	                     then pointer and commitment of each leaf, by pointer)
//
// where each part is preceded by its length in bytes, and lengths, version and
// seq are eight bytes, big endian; at is RFC 3339 in UTC with as many decimals of
// the second as it has; the scheme is the text of [Scheme].
//
// Dropping a leaf's value and salt but keeping its commitment erases it, and
// the chain still verifies: a person's name or a wrong photo can go, the fact
// that something was said at that point stays. Canonical values are those of
// RFC 8785 for scalars: shortest round-trip numbers, no HTML escaping; whole
// numbers of up to 64 bits keep all their digits.
//
// # Shared with the store
//
// [Clock], [SeenKey], [Mark] and [Reader] live here so that the store knows
// nothing of the conversation and the conversation nothing of the store.
package event
