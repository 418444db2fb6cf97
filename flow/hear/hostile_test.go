package hear

import (
	"strings"
	"testing"
	"unicode/utf8"
)

func everyKind() []Want {
	var out []Want
	for k := Text; k <= Speed; k++ {
		w := Want{Kind: k, Now: morning}
		if k == Choice {
			w.Choices = picks("gutter", "verge", "wall")
		}
		out = append(out, w)
	}
	return out
}

// What a parser of numbers takes and a person never says.
func TestHostileNumbers(t *testing.T) {
	t.Parallel()
	for _, k := range everyKind() {
		if k.Kind == Text || k.Kind == Choice || k.Kind == YesNo || k.Kind == Time {
			continue
		}
		check(t, k, []row{
			{"NaN", "no notfinite"}, {"nan", "no notfinite"}, {"inf", "no notfinite"}, {"-inf", "no notfinite"}, {"+Inf", "no notfinite"}, {"Infinity", "no notfinite"},
			{"∞", "no notfinite"}, {"-∞", "no notfinite"}, {"5 inf", "no notfinite"},
			{"1e3", "no exponent"}, {"1E3", "no exponent"}, {"5.4e3", "no exponent"}, {"1e+3", "no exponent"}, {"1e-3", "no exponent"}, {"5,4e3", "no exponent"},
			{"1e999", "no exponent"}, {"1e", "no exponent"},
			{"0x10", "no hex"}, {"0X1F", "no hex"}, {"0xff", "no hex"}, {"0x1p-2", "no hex"}, {"-0x10", "no hex"}, {"5 0x10", "no hex"},
			{"0b101", "no number"}, {"0o17", "no number"}, {"1_000", "no number"}, {"5^2", "no number"}, {"2+2", "no number"}, {"=5+5", "no number"}, {"5/0", "no number"},
			{"0/0", "no number"}, {"--5", "no number"}, {"5-", "no number"}, {"5..4", "no number"}, {"$5", "no number"}, {"5€", "no number"}, {"<5>", "no number"},
			{"5;DROP", "no number"}, {"${5}", "no number"}, {"%d", "no number"}, {"%s%n", "no number"}, {"٥", "no number"}, {"Ⅴ", "no number"}, {"五", "no number"},
			{strings.Repeat("9", 41), "no number"},
		})
		if got := brief(Answer(strings.Repeat("9", 40), k)); got != "no range" {
			t.Errorf("%v: forty nines: %s", k.Kind, got)
		}
	}
}

// Text that is not what it looks like, or not text at all.
func TestHostileText(t *testing.T) {
	t.Parallel()
	for _, k := range everyKind() {
		rows := []row{
			{"", "no empty"}, {"   ", "no empty"}, {"\n\t\r\n", "no empty"}, {"\u00a0", "no empty"},
			{"5\x00", "no control"}, {"\x1b[31m5", "no control"}, {"5\x7f", "no control"}, {"\a", "no control"}, {"5\u0085", "no control"}, {"5\u009b31m", "no control"},
			{"\u202e45", "no hidden"}, {"\u200f5", "no hidden"}, {"5\u200e", "no hidden"}, {"\u2066x\u2069", "no hidden"}, {"5\u061c", "no hidden"},
			{"5\u200b4", "no hidden"}, {"5\u20604", "no hidden"}, {"\ufeff5", "no hidden"}, {"5\u00ad4", "no hidden"}, {"5\u200c4", "no hidden"}, {"\U000e0041", "no hidden"},
			{"5\u3164", "no hidden"}, {"\ue000", "no hidden"}, {"\ufffd", "no hidden"},
			{"5\xff", "no bytes"}, {"\xc3\x28", "no bytes"}, {"\xed\xa0\x80", "no bytes"}, {"\xf8\x88\x80\x80\x80", "no bytes"},
			{strings.Repeat("5", 100_000), "no long"}, {strings.Repeat("\u200b", 50_000), "no long"}, {strings.Repeat("\xff", 100_000), "no long"},
			{strings.Repeat(" ", 100_000), "no long"},
		}
		check(t, k, rows)
		for _, r := range rows {
			if _, _, ok := Command(r.said, k); ok {
				t.Errorf("%q is a command", r.said)
			}
		}
	}
	joined := "Garage 👨\u200d🔧"
	check(t, Want{Kind: Text}, []row{
		{"12 Mill Lane", `"12 Mill Lane"`}, {"  Łąkowa 5\n2nd line ", "\"Łąkowa 5\\n2nd line\""}, {"שלום", `"שלום"`}, {"✔️", `"✔️"`}, {joined, `"Garage 👨\u200d🔧"`}, {"1e3", `"1e3"`},
		{strings.Repeat("a", MaxText), `"` + strings.Repeat("a", MaxText) + `"`}, {strings.Repeat("a", MaxText+1), "no long"},
	})
}

// What is kept of a refused text is short, whole and visible.
func TestKept(t *testing.T) {
	t.Parallel()
	for said, want := range map[string]string{
		"  a  b\n\nc ":                            "a b c",
		"a\u202eb\x00c\u200bd":                    "abcd",
		"a\xffb":                                  "ab",
		strings.Repeat("é", 400):                  strings.Repeat("é", 250),
		"x" + strings.Repeat("é", 400):            "x" + strings.Repeat("é", 249),
		strings.Repeat("日", 200):                  strings.Repeat("日", 166),
		strings.Repeat("ab ", 300):                strings.TrimSpace(strings.Repeat("ab ", 167)[:500]),
		strings.Repeat(" ", 2000) + "a":           "a",
		strings.Repeat("\u200b", 100_000) + "end": "end",
	} {
		got := kept(said)
		if got != want {
			t.Errorf("kept(%.30q) = %q, want %q", said, got, want)
		}
		if len(got) > MaxKept || !utf8.ValidString(got) {
			t.Errorf("kept(%.30q) is %d bytes", said, len(got))
		}
	}
}

// junk is text made to be slow to read, near the longest that is read at all.
func junk() map[string]string {
	out := map[string]string{}
	for _, s := range []string{"(", "[", "{", "'", `"`, "''", "-", ".", ",", "x", "5", "5 ", "5,", "5.", "5 500 ", "1,200 ", "5m", "5m ", "17' 8\" ", "1/2 ", "½", "a ",
		"and ", "a half ", "half ", "two ", "twenty ", "hundred ", "thousand ", "hundred and ", "point ", "two point ", "minus ", "-5", "y", "y ", "g", "gutter ", "no ",
		"in ", "of ", "of a ", "degrees ", "°", "%", "next ", "friday ", "end of ", "12/5 ", "10:42 ", "2m ", "é", "日", "²", "m2 ", "sq ", "sq m ", "not ", "5x", "x5", "0x", "1e",
		"\u0301", "5\n", "= ", "~", "the "} {
		out[s] = strings.Repeat(s, MaxLine/len(s))
	}
	return out
}

// Reading stays linear: twice the junk is at most little more than twice the
// work, counted in allocations since a clock tells more of the machine.
func TestJunkIsLinear(t *testing.T) {
	wants := append(everyKind(), Want{Parts: everyKind(), Many: Many{Min: 1}})
	for _, w := range everyKind() {
		switch w.Kind {
		case PlanLength, Choice, YesNo, Minutes, Number:
			w.Many = Many{1, 100}
			wants = append(wants, w)
		}
	}
	n := 0
	for name, text := range junk() {
		half := strings.Repeat(name, MaxLine/len(name)/2)
		for _, w := range wants {
			checkWhole(t, text, w, Answer(text, w))
			Command(text, w)
			if w.Many == (Many{}) {
				continue
			}
			one := testing.AllocsPerRun(1, func() { Answer(half, w) })
			two := testing.AllocsPerRun(1, func() { Answer(text, w) })
			if two > 2.5*one+500 {
				t.Errorf("%q in a %v field: %g allocations, %g for half of it", name, w.Kind, two, one)
			}
			n++
		}
	}
	if n == 0 {
		t.Fatal("no junk")
	}
}
