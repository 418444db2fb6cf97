package hear

import (
	"strings"
	"testing"
)

func TestCommand(t *testing.T) {
	t.Parallel()
	length := Want{Kind: PlanLength}
	yesNo := Want{Kind: YesNo}
	text := Want{Kind: Text}
	edges := Want{Kind: Choice, Choices: picks("gutter", "verge", "wall", "parapet"), Many: Many{4, 4}}
	straps := Want{Kind: Choice, Choices: picks("now", "later", "none")}
	for _, c := range []struct {
		want Want
		said string
		cmd  Cmd // "" is none
		rest string
	}{
		{length, ".", Accept, ""}, {length, " . ", Accept, ""}, {length, "...", Accept, ""}, {length, "…", Accept, ""}, {length, "ok", Accept, ""},
		{length, "OK", Accept, ""}, {length, "done", Accept, ""}, {length, "Done!", Accept, ""},
		{length, "b", Back, ""}, {length, "B", Back, ""}, {length, "back", Back, ""}, {length, "go back", Back, ""}, {length, "b.", Back, ""},
		{length, "u", Undo, ""}, {length, "undo", Undo, ""}, {length, "Undo that", Undo, ""},
		{length, "s", Skip, ""}, {length, "s no material", Skip, "no material"}, {length, "skip: weather", Skip, "weather"}, {length, "skip this", Skip, ""},
		{length, "S Client decided", Skip, "Client decided"},
		{length, "d", PutOff, ""}, {length, "d spring", PutOff, "spring"}, {length, "d 2 weeks", PutOff, "2 weeks"}, {length, "put off until 12 may", PutOff, "until 12 may"},
		{length, "put it off", PutOff, ""}, {length, "later", PutOff, ""}, {length, "later, friday", PutOff, "friday"},
		{length, "p", Pause, ""}, {length, "pause", Pause, ""}, {length, "pause deck covered", Pause, "deck covered"}, {length, "stop for today", Pause, ""},
		{length, "?", Why, ""}, {length, "why", Why, ""}, {length, "Why?", Why, ""}, {length, "??", Why, ""}, {length, "why 150?", Why, "150?"},
		{length, "r", Rain, ""}, {length, "R", Rain, ""}, {length, "rain", Rain, ""}, {length, "rain!", Rain, ""}, {length, "RAIN!!", Rain, ""},
		{length, "It's raining", Rain, ""}, {length, "it’s raining hard", Rain, "hard"},
		{length, "x", Stop, ""}, {length, "stop", Stop, ""}, {length, "STOP!", Stop, ""}, {length, "stop he fell", Stop, "he fell"}, {length, "emergency", Stop, ""},
		{length, "t", Timers, ""}, {length, "timers", Timers, ""}, {length, "how long have I got?", Timers, ""},
		{length, "list", List, ""}, {length, "draw", Draw, ""}, {length, "draw rod", Draw, "rod"}, {length, "Picture of the roof", Draw, "the roof"}, {length, "sketch gutter", Draw, "gutter"}, {text, "drawing of the deck", "", ""}, {text, "/draw deck", Draw, "deck"}, {length, "where", Where, ""}, {length, "where am i?", Where, ""}, {length, "what's next?", Where, ""},
		{length, "change depth 3000", Change, "depth 3000"}, {length, "Change Depth 2.9m", Change, "Depth 2.9m"}, {length, "change", Change, ""},
		{length, "go deck", Go, "deck"}, {length, "go to the deck", Go, "the deck"}, {length, "help", Help, ""},
		{length, "note door sticks", Note, "door sticks"}, {length, "note: Door  sticks", Note, "Door  sticks"}, {length, "snag corner open", Snag, "corner open"},
		{length, "up", Up, ""}, {length, "On the roof", Up, ""}, {length, "off", Off, ""}, {length, "off the roof!", Off, ""}, {length, "up 5", "", ""},
		{length, "take up lead", TakeUp, "lead"}, {length, "choose", Choose, ""}, {length, "choose 2", Choose, "2"}, {length, "Choose row 2", Choose, "2"}, {length, "resume lead", TakeUp, "lead"}, {length, "/undo", Undo, ""}, {length, "/ undo", Undo, ""}, {length, "/s why not", Skip, "why not"},
		{length, "/put_off spring", PutOff, "spring"}, {length, "/undo@somebody", Undo, ""}, {length, "/put_off@somebody 2 weeks", PutOff, "2 weeks"}, {length, "/@x", "", ""},
		{length, "rain! now", Rain, "now"}, {length, "STOP!! he fell", Stop, "he fell"}, {length, "d.5", "", ""}, {length, "skip. no tape", Skip, "no tape"},
		{length, "b 3", "", ""}, {length, "banana", "", ""}, {length, "backs", "", ""}, {length, "n", "", ""}, {length, "5.4", "", ""}, {length, "r 5", "", ""},
		{length, "x 5", "", ""}, {length, "2440x1220", "", ""}, {length, "", "", ""}, {length, "/", "", ""}, {length, "list of boards", "", ""}, {length, "d2", "", ""},
		{length, "5m", "", ""}, {length, ".5", "", ""}, {length, "rainwater", "", ""}, {length, "no", "", ""}, {length, "b\u200b", "", ""},
		{yesNo, "ok", "", ""}, {yesNo, "done", "", ""}, {yesNo, "go on", "", ""}, {yesNo, ".", Accept, ""}, {yesNo, "y", "", ""}, {yesNo, "n", "", ""}, {yesNo, "s no tape", Skip, "no tape"},
		{yesNo, "b", Back, ""}, {yesNo, "go deck", Go, "deck"}, {yesNo, "all done", "", ""},
		{text, "b", Back, ""}, {text, "back", Back, ""}, {text, ".", Accept, ""}, {text, "note House", "", ""}, {text, "d spring", "", ""}, {text, "/note House", Note, "House"},
		{text, "stop it leaking", "", ""}, {text, "stop", Stop, ""}, {text, "/d spring", PutOff, "spring"}, {text, "rain butt", "", ""}, {text, "?", Why, ""},
		{edges, "p w v g", "", ""}, {edges, "p", Pause, ""}, {edges, "d spring", PutOff, "spring"}, {edges, "g v w p", "", ""}, {edges, "1 2 3 2", "", ""},
		{straps, "later", "", ""}, {straps, "Later", "", ""}, {straps, "d", PutOff, ""}, {straps, "later in spring", PutOff, "in spring"},
	} {
		cmd, rest, ok := Command(c.said, c.want)
		if cmd != c.cmd || rest != c.rest || ok != (c.cmd != "") {
			t.Errorf("said %q to %v: %q %q %v, want %q %q", c.said, c.want.Kind, cmd, rest, ok, c.cmd, c.rest)
		}
	}
}

// Every command of every language can be given, by a word of its own.
func TestCommandsOfEveryLanguage(t *testing.T) {
	t.Parallel()
	all := []Cmd{Accept, Back, Undo, Skip, PutOff, Pause, Why, Rain, Stop, Timers, List, Draw, Where, Change, Go, Help, Note, Snag, TakeUp, Choose, Up, Off}
	for lang, tongue := range tongues {
		have := map[Cmd]bool{}
		seen := map[string]Cmd{}
		for _, s := range tongue.commands {
			if s.words == "" {
				t.Errorf("%s: empty words for %s", lang, s.cmd)
			}
			if was, ok := seen[s.words]; ok && was != s.cmd {
				t.Errorf("%s: %q is %s and %s", lang, s.words, was, s.cmd)
			}
			seen[s.words] = s.cmd
			got, _, ok := Command(s.words, Want{Kind: PlanLength, Lang: lang})
			if !ok || got != s.cmd {
				t.Errorf("%s: %q is heard as %q, want %q", lang, s.words, got, s.cmd)
			}
			have[s.cmd] = true
		}
		for _, c := range all {
			if !have[c] {
				t.Errorf("%s: no way to say %s", lang, c)
			}
		}
		for _, l := range strings.Split("b u s d p r x t", " ") {
			if _, ok := seen[l]; !ok {
				t.Errorf("%s: the letter %s is no command", lang, l)
			}
		}
	}
}

func TestPickOption(t *testing.T) {
	t.Parallel()
	pick := func(said string, first string, w Want, reply string) string {
		a := Answer(said, w)
		if a.Ask == nil || brief(a) != first {
			t.Fatalf("said %q: %s, want %s", said, brief(a), first)
		}
		h := PickOption(reply, *a.Ask, w)
		checkWhole(t, reply, w, h)
		return brief(h)
	}
	board := Want{Kind: BoardLength, Range: Range{HardMin: 2000, HardMax: 3100}}
	for reply, want := range map[string]string{
		"1": "2400", "cm": "2400", "first": "2400", "the first one": "2400", "centimetres": "2400", "2400": "2400", "2.4": "2400", "2": "no range", "mm": "no range",
		"3": "no choice", "banana": "no number", "8": "2438.4", "ft": "no number", "1.": "2400", "last": "no range", "\u202e1": "no hidden",
	} {
		if got := pick("240", "? 2400 | 240!", board, reply); got != want {
			t.Errorf("240, then %q: %q, want %q", reply, got, want)
		}
	}
	for reply, want := range map[string]string{"yes": "18", "y": "18", ".": "18", "1": "18", "cm": "18", "no": "no number", "20": "20", "18": "18", "0": "no range"} {
		if got := pick("1.8", "? 18", fascia, reply); got != want {
			t.Errorf("1.8, then %q: %q, want %q", reply, got, want)
		}
	}
	deck := Want{Kind: Temperature}
	for reply, want := range map[string]string{"f": "20", "F": "20", "°F": "20", "fahrenheit": "20", "1": "20", "2": "68", "celsius": "68", "c": "68", "24": "24"} {
		if got := pick("68", "? 20 | 68", deck, reply); got != want {
			t.Errorf("68, then %q: %q, want %q", reply, got, want)
		}
	}
	when := Want{Kind: Time, Now: morning}
	for reply, want := range map[string]string{"1": "2026-05-08", "2": "2026-05-15", "15 may": "2026-05-15", "second": "2026-05-15"} {
		if got := pick("next friday", "? 2026-05-08 | 2026-05-15", when, reply); got != want {
			t.Errorf("next friday, then %q: %q, want %q", reply, got, want)
		}
	}
	odd := depth
	if got := pick("540", "? 540 | 5400", odd, "2"); got != "5400 ~" {
		t.Errorf("an odd option is taken as odd: %q", got)
	}
}
