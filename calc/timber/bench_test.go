package timber_test

import (
	"testing"

	"chargehand/calc/timber"
	"chargehand/calc/unit"
)

func BenchmarkSpanSearch(b *testing.B) {
	j := timber.Joist{Section: timber.Section{B: 47, H: 170}, Centres: 400.5, Dead: 0.5 * unit.KilonewtonPerM2}
	for b.Loop() {
		if _, _, err := timber.MaxClearSpan(j); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSpanSearchDriftAndTail(b *testing.B) {
	j := timber.Joist{Section: timber.Section{B: 47, H: 170}, Centres: 400.5, Dead: 0.5 * unit.KilonewtonPerM2, Tail: 300,
		Drifts: []timber.Drift{{Peak: 2 * unit.KilonewtonPerM2, Far: 0.4 * unit.KilonewtonPerM2, Length: 5000}}}
	for b.Loop() {
		if _, _, err := timber.MaxClearSpan(j); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkChooseTable(b *testing.B) {
	board := 2400.0
	in := timber.ChooseIn{ClearMM: 2850, DeadKNM2: 0.25, BoardMM: &board}
	for b.Loop() {
		if _, err := timber.ReckonChoose(in); err != nil {
			b.Fatal(err)
		}
	}
}
