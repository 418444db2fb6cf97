package hear

import (
	"slices"
	"strings"
)

// names are what choice c may be called, folded.
func (c Pick) names(t *tongue) []string {
	out := []string{folded(strings.NewReplacer("-", " ", "_", " ", ".", " ").Replace(c.Key))}
	if c.Words == nil {
		return append(out, t.picks[c.Key]...)
	}
	for _, w := range c.Words {
		out = append(out, folded(w))
	}
	return out
}

// compact takes out what a thumb leaves out: "C 16" is "c16".
func compact(s string) string {
	return strings.Map(func(r rune) rune {
		switch r {
		case ' ', '-', '.', '\'', '/':
			return -1
		}
		return r
	}, s)
}

// match returns the choices that phrase names: exactly if any, else by their
// beginning or by the beginning of one of their words.
func match(t *tongue, choices []Pick, phrase string) []int {
	want := compact(phrase)
	if want == "" {
		return nil
	}
	var exact, begins, inner []int
	for i, c := range choices {
		names := c.names(t)
		switch {
		case slices.ContainsFunc(names, func(n string) bool { return compact(n) == want }):
			exact = append(exact, i)
		case slices.ContainsFunc(names, func(n string) bool { return strings.HasPrefix(compact(n), want) }):
			begins = append(begins, i)
		case slices.ContainsFunc(names, func(n string) bool {
			return slices.ContainsFunc(strings.Fields(n), func(w string) bool { return strings.HasPrefix(w, want) })
		}):
			inner = append(inner, i)
		}
	}
	switch {
	case exact != nil:
		return exact
	case begins != nil:
		return begins
	}
	return inner
}

// phraseOf writes tokens as the person spaced them, leaving signs out.
func phraseOf(toks []token) string {
	var b strings.Builder
	for i, t := range toks {
		if t.kind == mark && t.text != "/" && t.text != "." || t.text == "." && i == len(toks)-1 {
			continue
		}
		if t.space && b.Len() > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(t.text)
	}
	return b.String()
}

// picked is the outcome of choosing the numbered choices.
func (w Want) picked(hits []int, words string) sensed {
	var s sensed
	for _, i := range hits {
		s.cands = append(s.cands, candidate{v: Value{Kind: Choice, Key: w.Choices[i].Key, Num: float64(i + 1), Words: words}})
	}
	switch {
	case len(hits) == 0, len(hits) > 4:
		return refuse(RefusedChoice)
	case len(hits) > 1:
		s.why = AskChoice
	}
	return s
}

// choice reads the whole answer as one choice.
func (l *listener) choice() Heard {
	s := l.chosen()
	if s.refused != "" {
		return l.refused(s.refused)
	}
	return l.settle([]sentence{{cands: [][]candidate{s.cands}, why: s.why}})
}

func (l *listener) chosen() sensed {
	w, t := l.w, l.t
	words := kept(l.said)
	whole := phraseOf(l.toks)
	exact := slices.DeleteFunc(match(t, w.Choices, whole), func(i int) bool {
		return !slices.ContainsFunc(w.Choices[i].names(t), func(n string) bool { return compact(n) == compact(whole) })
	})
	if n, ok := l.place(); ok {
		if n < 0 {
			n = len(w.Choices)
		}
		if n >= 1 && n <= len(w.Choices) && !slices.Contains(exact, n-1) {
			exact = append(exact, n-1)
		}
		return w.picked(exact, words)
	}
	if len(exact) > 0 {
		return w.picked(exact, words)
	}
	if t.unsure[strings.ReplaceAll(whole, "'", "")] {
		return l.w.doubt(words)
	}
	if hits := match(t, w.Choices, whole); hits != nil {
		return w.picked(hits, words)
	}
	var rest []token
	doubtful := false
	for _, tok := range l.toks {
		if t.not[tok.text] || t.or[tok.text] {
			doubtful = true
		}
		if !t.noise[tok.text] && !t.and[tok.text] {
			rest = append(rest, tok)
		}
	}
	if !doubtful {
		if hits := match(t, w.Choices, phraseOf(rest)); hits != nil {
			return w.picked(hits, words)
		}
	}
	var hits []int
	for i, c := range w.Choices {
		if slices.ContainsFunc(c.names(t), func(n string) bool { return containsWords(rest, n) }) {
			hits = append(hits, i)
		}
	}
	if doubtful && len(hits) == 1 {
		return refuse(RefusedChoice) // "not felt"
	}
	return w.picked(hits, words)
}

// doubt is "don't know": an answer where it is offered.
func (w Want) doubt(words string) sensed {
	if w.Unsure == "" {
		return refuse(RefusedUnsure)
	}
	for i, c := range w.Choices {
		if c.Key == w.Unsure {
			return w.picked([]int{i}, words)
		}
	}
	return sensed{cands: []candidate{{v: Value{Kind: w.Kind, Key: w.Unsure, Words: words}}}}
}

// containsWords says whether the words of name stand in toks, in order and together.
func containsWords(toks []token, name string) bool {
	words := strings.Fields(name)
	if len(words) == 0 {
		return false
	}
	for i := 0; i+len(words) <= len(toks); i++ {
		ok := true
		for k, w := range words {
			if toks[i+k].text != w {
				ok = false
				break
			}
		}
		if ok {
			return true
		}
	}
	return false
}

// place reads the answer as a place in the list: "2", "2.", "#2", "option two",
// "the second one", "last".
func (l *listener) place() (n int, ok bool) {
	toks := slices.DeleteFunc(slices.Clone(l.toks), func(t token) bool {
		return t.kind == mark && (t.text == "." || t.text == ")" || t.text == "(" || t.text == "#" || t.text == "!")
	})
	if len(toks) == 0 || len(toks) > 5 {
		return 0, false
	}
	if n, ok := l.t.ordinals[phraseOf(toks)]; ok {
		return n, true
	}
	for len(toks) > 1 && toks[0].kind == word && l.t.optionWord[toks[0].text] {
		if _, isOrdinal := l.t.ordinals[toks[0].text]; isOrdinal {
			break
		}
		toks = toks[1:]
	}
	if len(toks) > 1 && l.t.optionWord[toks[len(toks)-1].text] {
		toks = toks[:len(toks)-1]
	}
	if n, ok := l.t.ordinals[phraseOf(toks)]; ok {
		return n, true
	}
	p := numberParser{toks: toks, t: l.t}
	f, next, ok := p.figure(0)
	if !ok || next != len(toks) || f.whole == "" || f.num > 1e6 {
		return 0, false
	}
	return int(f.num), true
}

// pick reads one item of a line as a choice.
func (w Want) pick(t *tongue, it item, words string) sensed {
	if it.word != "" {
		if hits := match(t, w.Choices, it.word); hits != nil {
			return w.picked(hits, words)
		}
		return refuse(RefusedChoice)
	}
	l := listener{w: w, said: words, t: t, toks: scan(words)}
	return l.chosen()
}

// wordItem finds the longest name of a choice, or a yes or no, at token i of a
// line with several values.
func (l *listener) wordItem(i, n int) (string, int) {
	w := l.w.part(n)
	if l.toks[i].kind == digits {
		return "", i
	}
	switch w.Kind {
	case Choice:
		for k := min(i+4, len(l.toks)); k > i; k-- {
			if phrase := phraseOf(l.toks[i:k]); phrase != "" && l.toks[k-1].kind != mark && match(l.t, w.Choices, phrase) != nil {
				return phrase, k
			}
		}
		if l.initials(l.toks[i].text) != nil {
			return l.toks[i].text, i + 1
		}
	case YesNo:
		for k := min(i+3, len(l.toks)); k > i; k-- {
			if phrase := phraseOf(l.toks[i:k]); phrase != "" && l.t.unsure[phrase] {
				return phrase, k
			}
		}
		s := l.toks[i].text
		if l.t.yes[s] || l.t.no[s] || l.t.fine[s] || strings.Trim(s, "yn") == "" {
			return s, i + 1
		}
	}
	return "", i
}

// initials reads "gvwv" as four choices by their first letters.
func (l *listener) initials(s string) []string {
	if l.w.Parts != nil || len(s) < 2 {
		return nil
	}
	var out []string
	for _, r := range s {
		if len(match(l.t, l.w.Choices, string(r))) != 1 {
			return nil
		}
		out = append(out, string(r))
	}
	return out
}

// splitPicks takes "1232", "gvwv" and "yyn" apart where the line holds several
// picks of one kind.
func (l *listener) splitPicks(items []item) []item {
	if l.w.Parts != nil || l.w.Kind != Choice && l.w.Kind != YesNo {
		return items
	}
	var out []item
	for _, it := range items {
		var parts []string
		switch s := it.fig.whole; {
		case l.w.Kind == YesNo && it.word != "" && len(it.word) > 1 && strings.Trim(it.word, "yn") == "":
			parts = strings.Split(it.word, "")
		case l.w.Kind == Choice && it.word != "" && match(l.t, l.w.Choices, it.word) == nil:
			parts = l.initials(it.word)
		case l.w.Kind == Choice && it.word == "" && len(s) > 1 && it.units == nil && int(it.fig.num) > len(l.w.Choices) &&
			len(match(l.t, l.w.Choices, s)) == 0 && strings.Trim(s, "123456789"[:min(9, len(l.w.Choices))]) == "":
			for i := range s {
				d := it
				d.fig.whole, d.fig.num = s[i:i+1], float64(s[i]-'0')
				d.from, d.to = it.from+i, it.from+i+1
				out = append(out, d)
			}
			continue
		}
		if parts == nil {
			out = append(out, it)
			continue
		}
		for _, s := range parts {
			d := it
			d.word = s
			out = append(out, d)
		}
	}
	return out
}
