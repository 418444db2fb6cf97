package hear

import "strings"

func (l *listener) yesNo() Heard {
	s := l.w.agreed(l.t, l.toks, kept(l.said))
	if s.refused != "" {
		return l.refused(s.refused)
	}
	return l.settle([]sentence{{cands: [][]candidate{s.cands}, why: s.why}})
}

// agree reads one item of a line as yes or no.
func (w Want) agree(t *tongue, it item, words string) sensed {
	if it.word != "" {
		words = it.word
	}
	return w.agreed(t, scan(words), words)
}

// agreed reads tokens as yes, no, or don't know. A yes or no with a "but" in it
// is neither.
func (w Want) agreed(t *tongue, toks []token, words string) sensed {
	yn := func(key string) candidate {
		n := 0.0
		if key == Yes {
			n = 1
		}
		return candidate{v: Value{Kind: YesNo, Key: key, Num: n, Words: words}}
	}
	just := func(key string) sensed { return sensed{cands: []candidate{yn(key)}} }

	var said []string
	for _, tok := range toks {
		switch {
		case tok.kind == mark && !t.yes[tok.text] && !t.no[tok.text]:
			if strings.Contains("?/+-", tok.text) { // yes? yes/no
				return refuse(RefusedYesNo)
			}
		default:
			said = append(said, tok.text)
		}
	}
	if len(said) == 0 {
		return refuse(RefusedYesNo)
	}
	phrase := strings.Join(said, " ")
	switch {
	case t.unsure[phrase]:
		return w.doubt(nil, words)
	case t.yesAll[phrase]:
		return just(Yes)
	case t.noAll[phrase]:
		return just(No)
	case t.fine[phrase]:
		if len(w.Offered) == 1 && w.Offered[0].Key != Yes {
			return sensed{why: AskOffered, cands: []candidate{yn(w.Offered[0].Key), yn(Yes)}}
		}
		return just(Yes)
	case phrase == "1":
		return just(Yes)
	case phrase == "2":
		return just(No)
	case phrase == "3":
		return w.doubt(nil, words)
	}
	first := said[0]
	if !t.yes[first] && !t.no[first] {
		first = squeeze(first)
	}
	switch {
	case t.yes[first]:
		for _, s := range said[1:] {
			if t.no[s] || t.not[s] || t.but[s] || t.or[s] || digitsOnly(s) {
				return refuse(RefusedYesNo)
			}
		}
		return just(Yes)
	case t.no[first]:
		for _, s := range said[1:] {
			if t.yes[s] || t.but[s] || t.noBut[s] || t.or[s] || digitsOnly(s) {
				return refuse(RefusedYesNo)
			}
		}
		return just(No)
	}
	return refuse(RefusedYesNo)
}

func digitsOnly(s string) bool { return s != "" && strings.Trim(s, "0123456789") == "" }

// squeeze makes "yesss" "yes" and "nooo" "no".
func squeeze(s string) string {
	var b strings.Builder
	var last rune
	for _, r := range s {
		if r != last {
			b.WriteRune(r)
		}
		last = r
	}
	return b.String()
}

// yesNoLetters says whether s is several answers of one letter run together: "yyn".
func (t *tongue) yesNoLetters(s string) bool {
	if len(s) < 2 || t.yes[s] || t.no[s] {
		return false
	}
	for _, r := range s {
		if c := string(r); !t.yes[c] && !t.no[c] {
			return false
		}
	}
	return true
}
