package geom_test

import (
	"testing"

	"chargehand/calc/geom"
	"chargehand/calc/unit"
)

func BenchmarkFourSider(b *testing.B) {
	read := taped([6]float64{5500, 2900, 5487, 2912, 6258, 6178})
	for b.Loop() {
		if _, err := geom.FourSider(read, wallAtBack); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWalk(b *testing.B) {
	steps := uShape()
	for b.Loop() {
		if _, err := geom.Walk(steps); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkOffset(b *testing.B) {
	w, err := geom.Walk(uShape())
	if err != nil {
		b.Fatal(err)
	}
	allowances := []unit.Length{150, 150, 250, 250, 250, 250, 250, 150}
	for b.Loop() {
		if _, err := w.Outline.Offset(allowances); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkReckonRoof(b *testing.B) {
	in := geom.RoofIn{SidesMM: []float64{5500, 2900, 5500, 2900}, DiagonalsMM: []float64{6258, 6178}, Edges: gvwv,
		RowMM: ptr(600), Pipes: []geom.RoofPipe{{XMM: 300, YMM: 400, DiaMM: 110}}}
	for b.Loop() {
		if _, err := geom.ReckonRoof(in); err != nil {
			b.Fatal(err)
		}
	}
}
