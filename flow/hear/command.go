package hear

import "strings"

// Cmd is what a person may say at any question.
type Cmd string

const (
	Accept Cmd = "accept" // . done ok
	Back   Cmd = "back"   // b
	Undo   Cmd = "undo"   // u
	Skip   Cmd = "skip"   // s WHY
	PutOff Cmd = "putoff" // d WHEN, put off WHEN
	Pause  Cmd = "pause"  // p
	Why    Cmd = "why"    // ?
	Rain   Cmd = "rain"   // r
	Stop   Cmd = "stop"   // x
	Timers Cmd = "timers" // t
	List   Cmd = "list"
	Where  Cmd = "where"
	Change Cmd = "change" // change NAME VALUE
	Go     Cmd = "go"     // go PHASE
	Help   Cmd = "help"
	Note   Cmd = "note"   // note TEXT
	Snag   Cmd = "snag"   // snag TEXT
	TakeUp Cmd = "takeup" // take up NAME
	Up     Cmd = "up"     // going up on the roof
	Off    Cmd = "off"    // off the roof
	Price  Cmd = "price"  // price NAME SIZE PRICE
	Came   Cmd = "came"   // came NAME COUNT SIZE
	Choose Cmd = "choose" // choose, choose ROW
)

// Command says whether text is a command at a question that wants w, and which;
// rest is what followed it, as written. A command of one letter stands alone or
// before a space. At a Text question every command must stand alone, or begin
// with a slash ("/note ..."); at a YesNo question the words of consent ("ok",
// "done") are left to Answer, which knows what was offered.
func Command(text string, w Want) (cmd Cmd, rest string, ok bool) {
	said, why := clean(text, MaxText, true)
	if why != "" {
		return "", "", false
	}
	slash := strings.HasPrefix(said, "/") && len(said) > 1
	if slash {
		said = slashed(said)
	}
	free := w.Kind == Text && w.Parts == nil && !slash
	toks := scan(said)
	t := tongueOf(w.Lang)
	best := 0
	for _, s := range t.commands {
		n := len(s.split)
		if n <= best || n > len(toks) {
			continue
		}
		fits := true
		for k, w := range s.split {
			if toks[k].text != w || k > 0 && toks[k].kind == word && !toks[k].space {
				fits = false
				break
			}
		}
		if !fits {
			continue
		}
		end := n
		for end < len(toks) && toks[end].kind == mark && (toks[end].text == "!" || toks[end].text == "." || toks[end].text == "?") {
			end++ // rain!!
		}
		after := ""
		switch {
		case end == len(toks):
		case !s.rest || free:
			continue
		case toks[end].space:
			after = said[toks[end].from:]
		case toks[n].text == ":" || toks[n].text == ",":
			after = said[toks[n].to:]
		default:
			continue
		}
		if w.Kind == YesNo && w.Parts == nil && len(said) == 1 && (t.yes[s.words] || t.no[s.words]) {
			continue // where t is tak
		}
		if s.cmd == Accept && w.Kind == YesNo && w.Parts == nil && s.words != "." {
			continue
		}
		cmd, rest, ok, best = s.cmd, strings.TrimSpace(after), true, n
	}
	if !ok || !slash && w.answers(said, toks, rest) {
		return "", "", false
	}
	return cmd, rest, true
}

// slashed makes "/put_off@name spring" "put off spring": chats that know commands
// write them as one word and may add whom they are for.
func slashed(said string) string {
	name, rest, _ := strings.Cut(strings.TrimLeft(said[1:], " "), " ")
	name, _, _ = strings.Cut(name, "@")
	return strings.ReplaceAll(name, "_", " ") + " " + rest
}

// answers says whether a text that begins like a command is an answer after all:
// the whole name of a choice ("later"), a row of choices by their letters ("p w
// v g"), a yes in other words ("go on").
func (w Want) answers(said string, toks []token, rest string) bool {
	t := tongueOf(w.Lang)
	switch {
	case w.Parts == nil && w.Kind == YesNo:
		phrase := strings.TrimSuffix(phraseOf(toks), ".")
		return t.yesAll[phrase] || t.noAll[phrase] || t.unsure[phrase]
	case w.Parts == nil && w.Kind != Choice:
		return false
	case rest != "":
		return len(toks[0].text) == 1 && Answer(said, w).Values != nil
	case w.Kind != Choice || len(said) < 2:
		return false
	}
	c := newChooser(t, w.Choices)
	return len(c.exact(compact(phraseOf(toks)))) > 0
}
