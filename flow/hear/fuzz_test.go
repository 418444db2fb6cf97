package hear

import (
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"
)

// seeds are texts of every sort a person, a keyboard or an attacker sends.
func seeds() []string {
	return []string{
		"5.4", "5,4", "5400", "5.4m", "5m40", "5m4", "540cm", "17'8\"", "17ft 8in", "17' 8 1/2\"", "17’8½”", "8x4", "2440x1220", "2.4 by 1.2", "5 500", "1,200", "1.200,5",
		"five point four metres", "two hundred and forty", "a hundred and fifty mil", "two metres ninety", "four foot six", "twenty four forty", "half a metre",
		"three quarters of an inch", "5500 5500 2900 2900 6218 6218", "160,150,155,140", "18 38 10 112 1", "110 40 y", "68", "68°F", "minus two", "two below", "1/40",
		"1 in 40", "25 mm per metre", "2.5%", "half an hour", "1h30", "1:30", "2 gallons", "16 m²", "12 mph", "y", "Nope", "yesss", "no problem", "don't know", "ok", ".",
		"...", "1", "the second one", "gvwv", "not a wall", "wall or verge", "in 10 min", "friday", "next friday", "12/5", "12.05", "spring", "12th of may 2027", "end of june",
		"half past ten", "quarter to nine", "tomorrow at 3", "2m", "the 31st", "29 feb", "dwa metry dziewięćdziesiąt", "półtora metra", "wpół do dziesiątej", "jutro o ósmej",
		"nie wiem", "s no material", "d spring", "put off until friday", "it's raining", "change depth 3000", "/undo", "NaN", "-inf", "1e3", "0x1F", "∞", "5..4", "5.4.2", "--5",
		"5 -6", "1/0", "99999999999999999999999999", "5\x00", "\u202e45", "5\u200b4", "\xff\xfe", "", " ", "\n", "((((", "and and and", "a a a half", "point point", "'", "\"", "x",
		"½½", "5½½", "1/2/3", "m", "mm 5", "5 mm mm", "°", "two two two two", "hundred thousand", "thousand hundred", "zero point", "oh oh oh", "👍🏽", "‱", "５．４",
	}
}

func TestSeeds(t *testing.T) {
	if len(seeds()) == 0 || len(junk()) == 0 {
		t.Fatal("nothing to begin fuzzing with")
	}
}

// fuzzWant makes a question out of a few numbers.
func fuzzWant(kind, many uint8, lo, hi float64, lang string) Want {
	w := Want{Kind: Kind(kind) % (Speed + 1), Range: Range{SoftMin: lo, SoftMax: hi, HardMin: lo - math.Abs(lo), HardMax: hi * 4}, Lang: lang, Now: morning}
	w.Choices = picks("gutter", "verge", "wall", "400")
	w.Many = Many{int(many % 4), int(many / 4 % 8)}
	w.Past = many%2 == 1
	if many%3 == 1 {
		w.Unsure = "dont-know"
	}
	if many%5 == 1 {
		w.Bare = "m2/l"
	}
	if w.Kind == Speed {
		w.Bare = []string{"", "mph", "m/s"}[many%3]
	}
	if many > 200 {
		w.Parts = []Want{{Kind: SectionLength}, {Kind: w.Kind, Choices: w.Choices}, {Kind: YesNo}}
	}
	return w
}

func FuzzAnswer(f *testing.F) {
	for i, s := range seeds() {
		f.Add(s, uint8(i), uint8(0), 500.0, 9000.0, "en")
		f.Add(s, uint8(i*7), uint8(i*5), 0.0, 0.0, "pl")
		f.Add(s, uint8(PlanLength), uint8(0), 500.0, 9000.0, "en")
		f.Add(s, uint8(Time), uint8(i), 0.0, 0.0, "en")
	}
	for _, s := range junk() {
		f.Add(s, uint8(PlanLength), uint8(9), 500.0, 9000.0, "en")
	}
	f.Fuzz(func(t *testing.T, text string, kind, many uint8, lo, hi float64, lang string) {
		w := fuzzWant(kind, many, lo, hi, lang)
		h := Answer(text, w)
		checkWhole(t, text, w, h)
		if again := Answer(text, w); !reflect.DeepEqual(h, again) {
			t.Fatalf("heard twice: %s, then %s", brief(h), brief(again))
		}
		if h.Ask == nil {
			return
		}
		for i, o := range h.Ask.Options {
			got := PickOption(string(rune('1'+i)), *h.Ask, w)
			if got.Refused == nil && !slices.EqualFunc(got.Values, o.Values, same) {
				t.Fatalf("option %d of %s is taken as %s", i+1, brief(h), brief(got))
			}
			if got.Refused != nil && !o.Outside {
				t.Fatalf("option %d of %s is refused: %s", i+1, brief(h), brief(got))
			}
		}
		checkWhole(t, text, w, PickOption(text, *h.Ask, w))
	})
}

func FuzzCommand(f *testing.F) {
	for i, s := range seeds() {
		f.Add(s, uint8(i), uint8(0), "en")
		f.Add(s, uint8(Text), uint8(0), "pl")
	}
	for _, t := range tongues {
		for i, s := range t.commands {
			f.Add(s.words, uint8(i), uint8(i), "en")
			f.Add(s.words+" 5 weeks", uint8(i), uint8(0), "pl")
			f.Add("/"+s.words, uint8(Text), uint8(0), "en")
		}
	}
	known := map[Cmd]bool{}
	for _, s := range english.commands {
		known[s.cmd] = true
	}
	f.Fuzz(func(t *testing.T, text string, kind, many uint8, lang string) {
		w := fuzzWant(kind, many, 0, 0, lang)
		cmd, rest, ok := Command(text, w)
		if ok != known[cmd] || !ok && (cmd != "" || rest != "") {
			t.Fatalf("%q: %q %q %v", text, cmd, rest, ok)
		}
		said, why := clean(text, MaxText, true)
		if ok && why != "" {
			t.Fatalf("%q: a command, though %s", text, why)
		}
		if !strings.HasPrefix(said, "/") && !strings.Contains(said, rest) || rest != strings.TrimSpace(rest) {
			t.Fatalf("%q: rest %q was not said", text, rest)
		}
		if c2, r2, ok2 := Command(text, w); c2 != cmd || r2 != rest || ok2 != ok {
			t.Fatalf("%q: heard twice differently", text)
		}
	})
}
