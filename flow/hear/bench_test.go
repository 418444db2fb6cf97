package hear

import "testing"

func BenchmarkAnswer(b *testing.B) {
	six := Want{Kind: PlanLength, Range: eaves.Range, Many: Many{6, 6}}
	for _, c := range []struct {
		name, said string
		w          Want
	}{
		{"bare", "5400", eaves},
		{"feet", "17' 8 1/2\"", eaves},
		{"dictated", "two thousand four hundred and forty millimetres", eaves},
		{"six", "5,5 5,5 2,9 2,9 6,218 6,218", six},
		{"choice", "it's a wall", Want{Kind: Choice, Choices: picks("gutter", "verge", "wall", "parapet")}},
		{"yes", "yes please", Want{Kind: YesNo}},
		{"moment", "next friday at half past ten", Want{Kind: Time, Now: morning}},
		{"refused", "somewhere about the middle of the wall", eaves},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Answer(c.said, c.w)
			}
		})
	}
}

// The longest junk that is read, over the bytes read: linear text takes a like
// time for each byte whatever it repeats.
func BenchmarkJunk(b *testing.B) {
	w := Want{Kind: PlanLength, Range: eaves.Range, Many: Many{1, 100}}
	for _, s := range []string{"5,", "5 500 ", "hundred and ", "17' 8\" ", "("} {
		text := junk()[s]
		b.Run(s, func(b *testing.B) {
			b.SetBytes(int64(len(text)))
			for b.Loop() {
				Answer(text, w)
			}
		})
	}
}

func BenchmarkCommand(b *testing.B) {
	for _, s := range []string{"5400", "put off until friday", "it's raining"} {
		b.Run(s, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Command(s, eaves)
			}
		})
	}
}
