package hear

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"
)

// englishNumber spells n (0 to 99999) as a person says it.
func englishNumber(n int) string {
	small := strings.Fields("zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen")
	tens := strings.Fields("- - twenty thirty forty fifty sixty seventy eighty ninety")
	switch {
	case n < 20:
		return small[n]
	case n < 100:
		if n%10 == 0 {
			return tens[n/10]
		}
		return tens[n/10] + " " + small[n%10]
	case n < 1000:
		s := small[n/100] + " hundred"
		if n%100 > 0 {
			s += " and " + englishNumber(n%100)
		}
		return s
	}
	s := englishNumber(n/1000) + " thousand"
	switch r := n % 1000; {
	case r == 0:
	case r < 100:
		s += " and " + englishNumber(r)
	default:
		s += " " + englishNumber(r)
	}
	return s
}

// polishNumber spells n (0 to 99999) in the nominative.
func polishNumber(n int) string {
	small := strings.Fields("zero jeden dwa trzy cztery pięć sześć siedem osiem dziewięć dziesięć jedenaście dwanaście trzynaście czternaście " +
		"piętnaście szesnaście siedemnaście osiemnaście dziewiętnaście")
	tens := strings.Fields("- - dwadzieścia trzydzieści czterdzieści pięćdziesiąt sześćdziesiąt siedemdziesiąt osiemdziesiąt dziewięćdziesiąt")
	hundreds := strings.Fields("- sto dwieście trzysta czterysta pięćset sześćset siedemset osiemset dziewięćset")
	var parts []string
	if th := n / 1000; th > 0 {
		switch {
		case th == 1:
			parts = append(parts, "tysiąc")
		case th%10 >= 2 && th%10 <= 4 && th/10 != 1:
			parts = append(parts, polishNumber(th), "tysiące")
		default:
			parts = append(parts, polishNumber(th), "tysięcy")
		}
		n %= 1000
		if n == 0 {
			return strings.Join(parts, " ")
		}
	}
	if n >= 100 {
		parts = append(parts, hundreds[n/100])
		if n %= 100; n == 0 {
			return strings.Join(parts, " ")
		}
	}
	if n < 20 {
		return strings.Join(append(parts, small[n]), " ")
	}
	parts = append(parts, tens[n/10])
	if n%10 > 0 {
		parts = append(parts, small[n%10])
	}
	return strings.Join(parts, " ")
}

func trimmed(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// Shape: a length written in any of these styles is heard as that length.
func TestStylesRoundTrip(t *testing.T) {
	t.Parallel()
	field := Want{Kind: PlanLength, Range: Range{HardMin: 500, HardMax: 20000}}
	polishField := field
	polishField.Lang = "pl"
	n := 0
	hear := func(w Want, said string, mm float64) {
		t.Helper()
		h := Answer(said, w)
		if len(h.Values) != 1 || math.Abs(h.Values[0].Num-mm) > 1e-6 {
			t.Errorf("%g mm said as %q (%s): heard %s", mm, said, w.Lang, brief(h))
		}
		n++
	}
	for mm := 500; mm <= 20000; mm += 13 {
		m, v := float64(mm)/1000, float64(mm)
		comma := strings.ReplaceAll(trimmed(m), ".", ",")
		for _, s := range []string{
			fmt.Sprintf("%d", mm), fmt.Sprintf("%dmm", mm), fmt.Sprintf("%d mil", mm), trimmed(m), comma, trimmed(m) + "m", comma + " m", trimmed(m) + " metres",
			fmt.Sprintf("%.3f", m), fmt.Sprintf("%.3f m", m), fmt.Sprintf("%dm%03d", mm/1000, mm%1000), fmt.Sprintf("%d m %d mm", mm/1000, mm%1000),
			trimmed(v/10) + "cm", trimmed(v/10) + " centimetres", englishNumber(mm), englishNumber(mm) + " millimetres",
			strings.ReplaceAll(englishNumber(mm), " and ", " "), "about " + fmt.Sprintf("%d", mm), fmt.Sprintf("  %d. ", mm), strings.ToUpper(englishNumber(mm)),
			englishNumber(mm/1000) + " point " + spokenDecimals(mm%1000) + " metres",
		} {
			if strings.HasPrefix(s, "0m") || mm < 1000 && strings.Contains(s, "zero point") {
				s = trimmed(m) + " metre"
			}
			hear(field, s, v)
		}
		if mm >= 1000 {
			hear(field, fmt.Sprintf("%d %03d", mm/1000, mm%1000), v)
			hear(field, fmt.Sprintf("%d,%03d", mm/1000, mm%1000), v)
			hear(field, fmt.Sprintf("%d\u202f%03d", mm/1000, mm%1000), v)
		}
		for _, s := range []string{comma, comma + " m", polishNumber(mm), polishNumber(mm) + " milimetrów", fmt.Sprintf("%d", mm)} {
			hear(polishField, s, v)
		}
	}
	for cm := 100; cm < 2000; cm += 3 {
		if cm%100 >= 10 {
			hear(field, fmt.Sprintf("%dm%02d", cm/100, cm%100), float64(cm)*10)
			hear(field, fmt.Sprintf("%d m %d", cm/100, cm%100), float64(cm)*10)
			hear(field, englishNumber(cm/100)+" metres "+englishNumber(cm%100), float64(cm)*10)
			hear(polishField, polishNumber(cm/100)+" metrów "+polishNumber(cm%100), float64(cm)*10)
		}
	}
	for sixteenths := 2 * 12 * 16; sixteenths < 60*12*16; sixteenths += 37 {
		ft, in, part := sixteenths/192, sixteenths/16%12, sixteenths%16
		mm := float64(sixteenths) / 16 * 25.4
		fraction, den := "", 16
		if part > 0 {
			for part%2 == 0 {
				part, den = part/2, den/2
			}
			fraction = fmt.Sprintf(" %d/%d", part, den)
		}
		for _, s := range []string{
			fmt.Sprintf(`%d' %d%s"`, ft, in, fraction), fmt.Sprintf("%d’ %d%s”", ft, in, fraction), fmt.Sprintf(`%d′ %d%s″`, ft, in, fraction),
			fmt.Sprintf("%dft %d%s in", ft, in, fraction), fmt.Sprintf("%d feet %d%s inches", ft, in, fraction), fmt.Sprintf("%d'%d%s", ft, in, fraction),
			trimmed(float64(sixteenths)/16) + `"`, fmt.Sprintf("%s foot %d%s", englishNumber(ft), in, fraction),
		} {
			hear(field, s, mm)
		}
	}
	if n < 10000 {
		t.Fatalf("only %d styles tried", n)
	}
}

// spokenDecimals says the three decimals digit by digit: "four oh five".
func spokenDecimals(n int) string {
	var out []string
	for _, c := range fmt.Sprintf("%03d", n) {
		if c == '0' {
			out = append(out, "oh")
		} else {
			out = append(out, englishNumber(int(c-'0')))
		}
	}
	return strings.Join(out, " ")
}

// bareNumbers are numbers a thumb may send, small and large, with and without decimals.
func bareNumbers() []float64 {
	var out []float64
	for n := 0.01; n < 100000; n *= 1.013 {
		out = append(out, n, math.Round(n), math.Round(n*10)/10, math.Round(n*100)/100)
	}
	return out
}

// Shape: a bare number is never taken ten or a hundred or a thousand times too
// large or small: what is taken is the number in mm, m or ft; and where the
// value is odd for the field, no unit on the tape would have made it usual.
func TestNoGuessAcrossTen(t *testing.T) {
	t.Parallel()
	for _, w := range []Want{
		depth, eaves, fascia, upstand, {Kind: PlanLength}, {Kind: SectionLength}, {Kind: BoardLength}, {Kind: BoardWidth}, {Kind: SiteLength},
		{Kind: SectionLength, Range: Range{SoftMin: 20, SoftMax: 25, HardMin: 5, HardMax: 100}},
		{Kind: PlanLength, Range: Range{SoftMin: 1500, SoftMax: 4200, HardMin: 300, HardMax: 12000}},
	} {
		taken := 0
		for _, n := range bareNumbers() {
			said := strconv.FormatFloat(n, 'f', 2, 64)
			n, _ = strconv.ParseFloat(said, 64)
			h := Answer(said, w)
			checkWhole(t, said, w, h)
			if h.Values == nil {
				continue
			}
			taken++
			v := h.Values[0]
			if v.Given {
				t.Errorf("%v %s: no unit was given", w.Kind, said)
			}
			mm, m, ft := math.Abs(v.Num-n) < 1e-6, math.Abs(v.Num-n*1000) < 1e-6, math.Abs(v.Num-n*304.8) < 1e-6
			if !mm && !m && !ft {
				t.Errorf("%v %s: taken as %g", w.Kind, said, v.Num)
			}
			if w.Kind == PlanLength && n >= 30 && n < 500 {
				t.Errorf("plan %s: taken, must ask", said)
			}
			if w.limits().grade(v.Num) == good {
				continue
			}
			for _, unit := range []float64{1, 10, 1000} {
				if w.Kind == PlanLength && (unit == 10 && n < 30 || unit == 1000 && n >= 500 || unit == 1 && n < 30) {
					continue // 8 is never 8 cm on a plan, nor 900 metres
				}
				if other := n * unit; math.Abs(other-v.Num) > 1e-6 && w.limits().grade(other) == good {
					t.Errorf("%v %s: taken as %g though %g is usual", w.Kind, said, v.Num, other)
				}
			}
		}
		if taken == 0 {
			t.Errorf("%v %+v: nothing taken", w.Kind, w.Range)
		}
	}
}

// Shape: of two bare numbers taken in the same unit the larger is the longer.
func TestMonotone(t *testing.T) {
	t.Parallel()
	for _, w := range []Want{depth, fascia, {Kind: PlanLength}, {Kind: BoardLength}, {Kind: Temperature}, {Kind: Minutes}, {Kind: Percent}, {Kind: Litres}, {Kind: Number}} {
		last := map[string]float64{}
		for n := 0; n < 6000; n += 3 {
			h := Answer(strconv.Itoa(n), w)
			if h.Values == nil {
				continue
			}
			v := h.Values[0]
			if was, ok := last[v.Unit]; ok && v.Num <= was {
				t.Errorf("%v: %d %s is %g, not above %g", w.Kind, n, v.Unit, v.Num, was)
			}
			last[v.Unit] = v.Num
		}
	}
}

// Shape: what does not change the meaning does not change what is heard.
func TestIndifferent(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(1, 2))
	for _, w := range []Want{eaves, {Kind: YesNo, Unsure: "x"}, {Kind: Time, Now: morning}, {Kind: Choice, Choices: picks("gutter", "verge", "wall")}, {Kind: Ratio}, {Kind: Minutes}} {
		for _, said := range seeds() {
			want := brief(Answer(said, w))
			for _, change := range []func(string) string{
				strings.ToUpper, strings.ToLower,
				func(s string) string { return "  " + s + "\n" },
				func(s string) string { return strings.ReplaceAll(s, " ", "\u00a0") },
				func(s string) string { return strings.ReplaceAll(s, " ", strings.Repeat(" ", 1+rng.IntN(3))) },
				func(s string) string { return strings.ReplaceAll(s, "'", "’") },
				func(s string) string { return strings.ReplaceAll(s, "\"", "″") },
			} {
				other := change(said)
				if !utf8.ValidString(said) {
					continue // changing its case would mend it
				}
				if got := brief(Answer(other, w)); got != want {
					t.Errorf("%v: %q is %q, %q is %q", w.Kind, said, want, other, got)
				}
			}
		}
	}
}
