package hear

import "strings"

// Answer reads text as an answer to w. It is total: whatever text is, exactly
// one of Values, Ask and Refused of the result is set.
func Answer(text string, w Want) Heard {
	limit := MaxLine
	if w.Kind == Text && w.Parts == nil {
		limit = MaxText
	}
	plain := w.Kind == Text && w.Parts == nil
	said, why := clean(text, limit, plain)
	if why != "" {
		return w.refused(text, why)
	}
	l := listener{w: w, said: said, t: tongueOf(w.Lang)}
	if l.takesOffer() {
		if len(w.Offered) == 0 {
			return w.refused(text, RefusedNoOffer)
		}
		return Heard{Values: append([]Value(nil), w.Offered...), Offered: true}
	}
	if plain {
		return Heard{Values: []Value{{Kind: Text, Text: said, Words: kept(said)}}}
	}
	l.toks = unquoted(scan(said))
	if why := l.notNumber(); why != "" {
		return w.refused(text, why)
	}
	if w.Kind != Choice && w.Kind != YesNo && l.t.unsure[phraseOf(l.toks)] {
		if w.Unsure == "" {
			return w.refused(text, RefusedUnsure)
		}
		return Heard{Values: []Value{{Kind: w.Kind, Key: w.Unsure, Words: kept(said)}}}
	}
	switch {
	case w.Parts != nil, w.Many != Many{} && w.Kind != Time:
		return l.line()
	case w.Kind == Choice:
		return l.choice()
	case w.Kind == YesNo:
		return l.yesNo()
	case w.Kind == Time:
		return l.moment()
	case w.Kind == Ratio:
		return l.fall()
	}
	return l.line()
}

// listener is one answer being read.
type listener struct {
	w    Want
	said string // cleaned
	toks []token
	t    *tongue

	choosers []*chooser // one for each part, made when needed
}

func (w Want) refused(text, why string) Heard {
	kind := w.Kind
	if w.Parts != nil {
		kind = w.Parts[0].Kind
	}
	return Heard{Refused: &Refusal{Heard: kept(text), Why: why, Example: kind.Example()}}
}

func (l *listener) refused(why string) Heard { return l.w.refused(l.said, why) }

// takesOffer: "." and "..." take everything that is offered.
func (l *listener) takesOffer() bool {
	return strings.Trim(l.said, ". …") == ""
}

// notNumber finds what ParseFloat would take and a builder never says.
func (l *listener) notNumber() string {
	if l.w.Kind == Choice || l.w.Kind == YesNo || l.w.Kind == Time {
		return ""
	}
	for i, t := range l.toks {
		if t.kind == mark && t.text == "∞" {
			return RefusedNotFinite
		}
		if t.kind != word && t.text != "x" {
			continue
		}
		if why := l.t.notNumbers[t.text]; why != "" {
			return why
		}
		if i == 0 || t.space || l.toks[i-1].kind != digits {
			continue
		}
		p := l.toks[i-1]
		switch {
		case t.text == "e":
			return RefusedExponent
		case p.text == "0" && t.text[0] == 'x' && !(i > 1 && !p.space && (l.toks[i-2].text == "." || l.toks[i-2].text == ",")) && // 5.0x4 is no hex
			(len(t.text) > 1 || i+1 < len(l.toks) && !l.toks[i+1].space && l.toks[i+1].kind == digits):
			return RefusedHex
		}
	}
	return ""
}

// unquoted takes off quotation marks round the whole answer; a single one at
// the end is inches.
func unquoted(toks []token) []token {
	last := len(toks) - 1
	if last > 1 && toks[0].kind == mark && toks[last].kind == mark && toks[0].text == toks[last].text &&
		(toks[0].text == `"` || toks[0].text == "'") {
		return toks[1:last]
	}
	return toks
}
