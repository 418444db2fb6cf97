package hear

// Answer reads text as an answer to w.
func Answer(text string, w Want) Heard {
	return Heard{Refused: &Refusal{Why: RefusedNumber, Example: w.Kind.Example()}}
}

// PickOption reads text as the reply to an Ambiguity that was shown with its options
// numbered from 1: a number, a unit ("cm"), yes or no where there was a single
// option, or a fresh answer.
func PickOption(text string, a Ambiguity, w Want) Heard {
	return Answer(text, w)
}
