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

// chooser knows what a question's choices are called.
type chooser struct {
	picks []Pick
	names [][]string // folded, for each pick
	tight [][]string // the same, compact
}

func newChooser(t *tongue, picks []Pick) *chooser {
	c := &chooser{picks: picks}
	for _, p := range picks {
		names := p.names(t)
		tight := make([]string, len(names))
		for i, n := range names {
			tight[i] = compact(n)
		}
		c.names = append(c.names, names)
		c.tight = append(c.tight, tight)
	}
	return c
}

// exact returns the choices one of whose names, made compact, is s.
func (c *chooser) exact(s string) []int {
	var hits []int
	for i, names := range c.tight {
		if s != "" && slices.Contains(names, s) {
			hits = append(hits, i)
		}
	}
	return hits
}

// match returns the choices that phrase names: exactly if any, else by their
// beginning, else by the beginning of one of their words.
func (c *chooser) match(phrase string) []int {
	s := compact(phrase)
	if s == "" {
		return nil
	}
	if hits := c.exact(s); hits != nil {
		return hits
	}
	begins := func(n string) bool { return strings.HasPrefix(n, s) }
	inner := func(n string) bool {
		for w := range strings.FieldsSeq(n) {
			if strings.HasPrefix(w, s) {
				return true
			}
		}
		return false
	}
	var hits []int
	for i, names := range c.tight {
		if slices.ContainsFunc(names, begins) {
			hits = append(hits, i)
		}
	}
	if hits != nil {
		return hits
	}
	for i, names := range c.names {
		if slices.ContainsFunc(names, inner) {
			hits = append(hits, i)
		}
	}
	return hits
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
func (w Want) picked(c *chooser, hits []int, words string) sensed {
	var s sensed
	for _, i := range hits {
		s.cands = append(s.cands, candidate{v: Value{Kind: Choice, Key: c.picks[i].Key, Num: float64(i + 1), Words: words}})
	}
	switch {
	case len(hits) == 0, len(hits) > mostOptions:
		return refuse(RefusedChoice)
	case len(hits) > 1:
		s.why = AskChoice
	}
	return s
}

// choice reads the whole answer as one choice.
func (l *listener) choice() Heard {
	s := l.chosen(l.chooser(0))
	if s.refused != "" {
		return l.refused(s.refused)
	}
	return l.settle([]sentence{{cands: [][]candidate{s.cands}, why: s.why}})
}

// chosen reads every token of l as one choice: by its place in the list, by its
// name, by "don't know", by a beginning, or by a name inside a sentence.
func (l *listener) chosen(c *chooser) sensed {
	t := l.t
	words := kept(l.said)
	whole := phraseOf(l.toks)
	exact := c.exact(compact(whole))
	if n, ok := l.place(); ok && (n > 0 || exact == nil) { // a choice called "last" is not the last of the list
		if n < 0 {
			n = len(c.picks)
		}
		if n >= 1 && n <= len(c.picks) && !slices.Contains(exact, n-1) {
			exact = append(exact, n-1) // "2" of 2, 3, 5: the second, or the two?
		}
		return l.w.picked(c, exact, words)
	}
	if exact != nil {
		return l.w.picked(c, exact, words)
	}
	if t.unsure[whole] {
		return l.w.doubt(c, words)
	}
	if hits := c.match(whole); hits != nil {
		return l.w.picked(c, hits, words)
	}
	var rest []token
	doubtful := false
	for _, tok := range l.toks {
		doubtful = doubtful || t.not[tok.text] || t.or[tok.text]
		if !t.noise[tok.text] && !t.and[tok.text] {
			rest = append(rest, tok)
		}
	}
	if doubtful {
		return refuse(RefusedChoice) // "not felt", "felt or metal"
	}
	if hits := c.match(phraseOf(rest)); hits != nil {
		return l.w.picked(c, hits, words)
	}
	var hits []int
	for i, names := range c.names {
		if slices.ContainsFunc(names, func(n string) bool { return containsWords(rest, n) }) {
			hits = append(hits, i)
		}
	}
	return l.w.picked(c, hits, words)
}

// doubt is "don't know": an answer where it is offered.
func (w Want) doubt(c *chooser, words string) sensed {
	if w.Unsure == "" {
		return refuse(RefusedUnsure)
	}
	for i, p := range w.Choices {
		if p.Key == w.Unsure {
			return w.picked(c, []int{i}, words)
		}
	}
	return sensed{cands: []candidate{{v: Value{Kind: w.Kind, Key: w.Unsure, Words: words}}}}
}

// containsWords says whether the words of name stand in toks, in order and
// together. A name of one letter does not count: "a" is in every sentence.
func containsWords(toks []token, name string) bool {
	words := strings.Fields(name)
	if len(name) < 2 {
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
func (w Want) pick(t *tongue, c *chooser, it item, words string) sensed {
	if it.word != "" {
		return w.picked(c, c.match(it.word), words)
	}
	l := listener{w: w, said: words, t: t, toks: scan(words)}
	return l.chosen(c)
}

// chooser returns the choices of value n of the line.
func (l *listener) chooser(n int) *chooser {
	if l.w.Parts == nil {
		n = 0
	}
	n = min(n, max(len(l.w.Parts)-1, 0))
	if l.choosers == nil {
		l.choosers = make([]*chooser, max(len(l.w.Parts), 1))
	}
	if l.choosers[n] == nil {
		l.choosers[n] = newChooser(l.t, l.w.part(n).Choices)
	}
	return l.choosers[n]
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
			if phrase := phraseOf(l.toks[i:k]); phrase != "" && l.toks[k-1].kind != mark && l.chooser(n).match(phrase) != nil {
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
		if l.t.yes[s] || l.t.no[s] || l.t.fine[s] || l.w.Parts == nil && l.t.yesNoLetters(s) {
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
		if len(l.chooser(0).match(string(r))) != 1 {
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
		case l.w.Kind == YesNo && l.t.yesNoLetters(it.word):
			parts = strings.Split(it.word, "")
		case l.w.Kind == Choice && it.word != "" && l.chooser(0).match(it.word) == nil:
			parts = l.initials(it.word)
		case l.w.Kind == Choice && it.word == "" && len(s) > 1 && it.units == nil && int(it.fig.num) > len(l.w.Choices) &&
			len(l.chooser(0).match(s)) == 0 && strings.Trim(s, "123456789"[:min(9, len(l.w.Choices))]) == "":
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
