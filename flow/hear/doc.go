// Package hear turns what a person typed or dictated into values: lengths,
// temperatures, counts, picks, yes and no, moments. It is pure and total: no
// clock, no error, no panic, whatever the text is.
//
// # What it promises
//
// The unit of a bare number is inferred for each field by the rules of its
// [Kind] and its [Range], never globally. Nothing is guessed across a factor of
// ten: where two readings of one text differ and both could be meant, the
// answer is an [Ambiguity] with the readings to choose among. What can't be
// read is a [Refusal] that holds what was heard, why, and the key of an example.
// There are no sentences here, only keys: the words to people are elsewhere.
//
// # How a line is read
//
// Signs with more than one meaning (the comma of 1,200, the space of 5 500, the
// words twenty four forty) are not settled one by one. The whole line is parsed
// once under each reading it gives cause for; readings that don't fit the number
// of values wanted, or the hard range, fall away; if more than one value is left,
// it asks. Two readings that come to the same length are one: "1,200" in a plan
// field is 1.2 m or 1200 mm, which is nothing to ask about.
//
// A number inside its soft range is taken. One outside it, where a neighbouring
// unit would put it inside, asks; otherwise it is taken as Soft, for the question
// "really?".
//
// # Order of use
//
// For each line of a person call [Command] first; when it is no command, call
// [Answer] with the open question's [Want]. After an Ambiguity was shown, call
// [PickOption] instead of Answer.
//
// # Languages
//
// Everything that depends on a language is data in a table: unit words, number
// words, yes and no, commands, months and seasons, names of choices. A new
// language is a new table.
package hear
