// Package calc is the trade's arithmetic: one package a topic below it, pure,
// with no clock, no files, no randomness and no knowledge of who asks.
//
// # What a formula promises
//
// Every exported function says what it returns in the trade's words, prints
// the formula as its source prints it, and names the source (work, edition,
// clause, table), the units, the domain, the errors, and what it ignores. A
// value from memory is marked "from memory"; a habit of the trade without a
// citable source is marked "common practice, no source".
//
// Outside its domain a function returns [*DomainError]; it never extrapolates,
// never clamps and never returns NaN or Inf beside a nil error.
//
// # The two doors
//
// Go callers use functions over the quantities of calc/unit. The office and
// the tests use the same calculation as a topic (chargehand reckon TOPIC): a
// pair of structs In and Out whose JSON keys carry their unit. In such a
// struct a field without omitempty is required, a pointer field with omitempty
// is optional, and the tags `doc`, `enum`, `min` and `max` feed the printed
// JSON Schema. DomainError.Field then holds the JSON key.
package calc
