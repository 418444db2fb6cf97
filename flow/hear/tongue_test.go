package hear

import (
	"slices"
	"testing"
)

// What every language has to know.
func TestEveryTongueIsComplete(t *testing.T) {
	t.Parallel()
	if len(tongues) < 2 {
		t.Fatal("one language proves nothing about the tables")
	}
	for lang, l := range tongues {
		known := map[string]bool{}
		for _, ids := range l.units {
			for _, id := range ids {
				if measures[id].factor == 0 {
					t.Errorf("%s: unit %q is unknown", lang, id)
				}
				known[id] = true
			}
		}
		for _, id := range []string{"mm", "cm", "m", "in", "ft", "m2", "°C", "°F", "°", "min", "h", "s", "d", "wk", "kg", "g", "l", "ml", "%", "m/s", "km/h"} {
			if !known[id] {
				t.Errorf("%s: no word for %s", lang, id)
			}
		}
		have := map[float64]bool{}
		for _, n := range l.numerals {
			have[n.n] = true
		}
		for _, n := range []float64{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 30, 40, 50, 60, 70, 80, 90, 100, 1000, 0.5, 0.25} {
			if !have[n] {
				t.Errorf("%s: no word for %g", lang, n)
			}
		}
		m := l.moments
		for name, want := range map[string]struct {
			words map[string]int
			all   []int
		}{
			"month": {m.months, []int{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12}}, "weekday": {m.weekdays, []int{0, 1, 2, 3, 4, 5, 6}},
			"season": {m.seasons, []int{3, 6, 9, 12}}, "day": {m.days, []int{-1, 0, 1, 2}},
		} {
			for _, n := range want.all {
				found := false
				for _, v := range want.words {
					found = found || v == n
				}
				if !found {
					t.Errorf("%s: no word for %s %d", lang, name, n)
				}
			}
		}
		for n := 1; n <= 31; n++ {
			if n > 20 && n != 30 {
				continue
			}
			if !slices.ContainsFunc([]map[string]int{m.dayWords}, func(w map[string]int) bool {
				for _, v := range w {
					if v == n {
						return true
					}
				}
				return false
			}) {
				t.Errorf("%s: no word for the day %d", lang, n)
			}
		}
		for name, s := range map[string]set{"yes": l.yes, "no": l.no, "fine": l.fine, "unsure": l.unsure, "and": l.and, "by": l.by, "point": l.point, "minus": l.minus,
			"or": l.or, "not": l.not, "but": l.but, "now": m.now, "next": m.next, "ago": m.ago, "ahead": m.ahead, "noon": m.noon, "midnight": m.midnight} {
			if len(s) == 0 {
				t.Errorf("%s: no words for %s", lang, name)
			}
		}
	}
}

// No word says two things where only one is looked at.
func TestTonguesDoNotContradictThemselves(t *testing.T) {
	t.Parallel()
	for lang, l := range tongues {
		apart := func(a, b set, what string) {
			for w := range a {
				if b[w] {
					t.Errorf("%s: %q is %s", lang, w, what)
				}
			}
		}
		apart(l.yes, l.no, "yes and no")
		apart(l.yes, l.not, "yes and not")
		apart(l.yes, l.but, "yes and but")
		apart(l.yesAll, l.noAll, "yes and no")
		apart(l.yesAll, l.unsure, "yes and don't know")
		apart(l.noAll, l.unsure, "no and don't know")
		apart(l.fine, l.no, "fine and no")
		apart(l.fine, l.unsure, "fine and don't know")
		apart(l.noise, l.and, "noise and and")
		apart(l.noise, l.by, "noise and by")
		apart(l.noise, l.or, "noise and or")
		apart(l.noise, l.minus, "noise and minus")
		apart(l.noise, l.but, "noise and but")
		for w, n := range l.numerals {
			if l.noise[w] || l.and[w] || l.by[w] || l.point[w] {
				t.Errorf("%s: %q is %g and something else", lang, w, n.n)
			}
			if ids := l.units[w]; ids != nil {
				t.Errorf("%s: %q is %g and the unit %v", lang, w, n.n, ids)
			}
		}
		for w, ids := range l.units {
			dims := map[dimension]bool{}
			for _, id := range ids {
				if d := measures[id].dim; dims[d] {
					t.Errorf("%s: %q is two units of one sort: %v", lang, w, ids)
				} else {
					dims[d] = true
				}
			}
			if l.noise[w] && w != "on" {
				t.Errorf("%s: %q is noise and the unit %v", lang, w, ids)
			}
		}
	}
}

// A choice that one language can name, every language can.
func TestPicksInEveryTongue(t *testing.T) {
	t.Parallel()
	for lang, l := range tongues {
		for key, words := range english.picks {
			if len(l.picks[key]) == 0 {
				t.Errorf("%s: no words for %s (%v)", lang, key, words)
			}
		}
		for key := range l.picks {
			if len(english.picks[key]) == 0 {
				t.Errorf("%s: %s is unknown in English", lang, key)
			}
		}
	}
}

func TestLanguageTags(t *testing.T) {
	t.Parallel()
	for tag, want := range map[string]*tongue{"en": &english, "en-GB": &english, "EN_us": &english, "pl": &polish, "pl-PL": &polish, "": &english, "xx": &english, "\xff": &english} {
		if tongueOf(tag) != want {
			t.Errorf("%q", tag)
		}
	}
}
