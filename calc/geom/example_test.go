package geom_test

import (
	"errors"
	"fmt"

	"chargehand/calc/geom"
	"chargehand/calc/unit"
)

func ExampleFourSider() {
	four, err := geom.FourSider(geom.Taped{
		Sides:     [4]unit.Length{5500, 2900, 5500, 2900},
		Diagonals: [2]unit.Length{6258, 6178},
	}, [4]geom.Kind{geom.Gutter, geom.Verge, geom.Wall, geom.Verge})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f m², closes to %.1f mm, skew %.0f mm to the right\n",
		four.Outline.Area().In(unit.SquareMetre), float64(four.Misclosure), float64(four.Skew))
	// Output: 15.95 m², closes to 0.8 mm, skew 45 mm to the right
}

func ExampleFourSider_misTaped() {
	four, err := geom.FourSider(geom.Taped{
		Sides:     [4]unit.Length{5500, 2900, 5500, 2900},
		Diagonals: [2]unit.Length{6218, 6318}, // somebody read 6.318 for 6.218
	}, [4]geom.Kind{geom.Gutter, geom.Verge, geom.Wall, geom.Verge})
	fmt.Println(four.Closes, err)
	fmt.Printf("misses by %.0f mm; corrections to the diagonals %.0f and %.0f mm\n", float64(four.Misclosure),
		float64(four.Residuals.Diagonals[0]), float64(four.Residuals.Diagonals[1]))
	// Output:
	// false <nil>
	// misses by 102 mm; corrections to the diagonals -25 and -25 mm
}

func ExampleWalk() {
	w, err := geom.Walk([]geom.Step{
		{Length: 5000, Turn: geom.Right, Kind: geom.Gutter},
		{Length: 4800, Turn: geom.Right, Kind: geom.Verge},
		{Length: 2200, Turn: geom.Right, Kind: geom.Wall},
		{Length: 1800, Turn: geom.Left, Kind: geom.Wall},
		{Length: 2800, Turn: geom.Right, Kind: geom.Wall},
		{Length: 3000, Turn: geom.Right, Kind: geom.Verge},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	o := w.Outline
	fmt.Printf("%.2f m², %v of wall, %d internal corner\n", o.Area().In(unit.SquareMetre), o.PerimeterOf(geom.Wall), o.CountCorners(geom.Internal))
	rects, _ := o.Rectangles(geom.AlongGutterAxis)
	for _, r := range rects {
		fmt.Printf("deck %v by %v from %v up\n", r.Length(), r.Depth(), r.Min.Y)
	}
	// Output:
	// 18.96 m², 6800 mm of wall, 1 internal corner
	// deck 5000 mm by 3000 mm from 0 mm up
	// deck 2200 mm by 1800 mm from 3000 mm up
}

func ExampleWalk_open() {
	_, err := geom.Walk([]geom.Step{
		{Length: 5000, Turn: geom.Right, Kind: geom.Gutter},
		{Length: 3000, Turn: geom.Right, Kind: geom.Verge},
		{Length: 5300, Turn: geom.Right, Kind: geom.Wall},
		{Length: 3000, Turn: geom.Right, Kind: geom.Verge},
	})
	var fault *geom.WalkError
	if errors.As(err, &fault) {
		fmt.Println(fault.Fault, "by", fault.Misclosure, "at edge", fault.Edge+1, "suspects from 0:", fault.Suspects)
	}
	// Output: open by 300 mm at edge 4 suspects from 0: [0 2]
}

func ExampleOutline_Offset() {
	o, _ := geom.Rectangle(5500, 2900, [4]geom.Kind{geom.Gutter, geom.Verge, geom.Wall, geom.Verge})
	sheet, err := o.Offset([]unit.Length{150, 150, 250, 150})
	fmt.Println(sheet.Bounds().Length(), sheet.Bounds().Depth(), err)
	// Output: 5800 mm 3300 mm <nil>
}

func ExamplePolygon_UpRoof() {
	w, _ := geom.Walk(uShape())
	for _, x := range []unit.Length{1000, 2500} {
		for _, s := range w.Outline.Vertices.UpRoof(x) {
			fmt.Println("joist at", x, "runs", s.Length())
		}
	}
	// Output:
	// joist at 1000 mm runs 3100 mm
	// joist at 2500 mm runs 2500 mm
}

func ExampleOutline_Clearances() {
	o, _ := geom.Rectangle(3200, 2400, [4]geom.Kind{geom.Gutter, geom.Wall, geom.Wall, geom.Verge})
	pipe, _ := o.PlacePipe(geom.PipeGaps{Dia: 110, Edges: [2]int{2, 1}, Gaps: [2]unit.Length{40, 80}})
	gaps, _ := o.Clearances([]geom.Opening{pipe})
	for _, g := range gaps {
		fmt.Println("edge", g.Edge+1, o.Edges[g.Edge].Kind, g.Gap, geom.RoomFor(g.Gap))
	}
	// Output:
	// edge 1 gutter 2250 mm ample
	// edge 2 wall 80 mm patch
	// edge 3 wall 40 mm tight
	// edge 4 verge 3010 mm ample
}

func ExampleCompass() {
	// The gutter, walked left, is the line that north is turned to.
	tr, err := geom.Compass([]geom.Course{
		{Length: 5000, Bearing: 270 * unit.Degree},
		{Length: 3000, Bearing: 0},
		{Length: 4990, Bearing: 90 * unit.Degree},
		{Length: 3000, Bearing: 180 * unit.Degree},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("misses by %.0f mm, 1 in %.0f; first leg becomes %.2f\n", float64(tr.Misclosure), tr.Precision(), float64(tr.Legs[0].Length()))
	// Output: misses by 10 mm, 1 in 1599; first leg becomes 4996.87
}
