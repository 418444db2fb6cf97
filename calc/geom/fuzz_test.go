package geom_test

import (
	"encoding/binary"
	"errors"
	"math"
	"testing"

	"chargehand/calc"
	"chargehand/calc/geom"
	"chargehand/calc/unit"
)

// stepsFrom reads a walk from raw bytes: two for a length, one for turn and kind.
func stepsFrom(raw []byte) []geom.Step {
	turns := []geom.Turn{geom.Right, geom.Right, geom.Left, geom.Straight, ""}
	kinds := []geom.Kind{geom.Gutter, geom.Verge, geom.Wall, geom.Parapet, "?"}
	var steps []geom.Step
	for ; len(raw) >= 3; raw = raw[3:] {
		steps = append(steps, geom.Step{
			Length: unit.Length(binary.LittleEndian.Uint16(raw)),
			Turn:   turns[int(raw[2])%len(turns)],
			Kind:   kinds[int(raw[2]>>4)%len(kinds)],
		})
	}
	return steps
}

func bytesOf(steps []geom.Step) []byte {
	var raw []byte
	for _, s := range steps {
		raw = binary.LittleEndian.AppendUint16(raw, uint16(s.Length))
		raw = append(raw, map[geom.Turn]byte{geom.Right: 0, geom.Left: 2, geom.Straight: 3, "": 4}[s.Turn])
	}
	return raw
}

// Any walk is either refused with an edge named or becomes a roof whose area two
// methods agree on; any offset of it is refused or right.
func FuzzWalk(f *testing.F) {
	f.Add(bytesOf(uShape()), int16(150), int16(-300))
	f.Add(bytesOf(uShape()), int16(450), int16(450))
	f.Add(bytesOf([]geom.Step{step(5000, geom.Right, ""), step(3000, geom.Right, ""), step(5015, geom.Right, ""), step(3000, "", "")}), int16(0), int16(9))
	f.Add(bytesOf([]geom.Step{step(5000, geom.Right, ""), step(1000, geom.Straight, ""), step(2000, geom.Right, ""), step(5000, geom.Right, ""), step(3000, geom.Right, "")}), int16(-100), int16(77))
	f.Add([]byte{}, int16(0), int16(0))
	f.Fuzz(func(t *testing.T, raw []byte, even, odd int16) {
		steps := stepsFrom(raw)
		w, err := geom.Walk(steps)
		if err != nil {
			var fault *geom.WalkError
			if !errors.As(err, &fault) || fault.Edge < 0 || fault.Edge >= max(1, len(steps)) {
				t.Fatalf("refused without an edge: %v", err)
			}
			assertDomain(t, err)
			return
		}
		o := w.Outline
		area := float64(o.Area())
		if !near(area, byStrips(o.Vertices)) {
			t.Fatalf("areas differ: %v %v", area, byStrips(o.Vertices))
		}
		for _, axis := range []geom.Axis{geom.AlongGutterAxis, geom.UpRoofAxis} {
			rects, err := o.Rectangles(axis)
			sum := 0.0
			for _, r := range rects {
				sum += float64(r.Area())
			}
			if err != nil || !near(area, sum) {
				t.Fatalf("rectangles: %v %v %v", area, sum, err)
			}
		}
		if d := o.CountCorners(geom.External) - o.CountCorners(geom.Internal); d != 4 {
			t.Fatalf("corners: %d", d)
		}
		allowances := make([]unit.Length, len(o.Edges))
		for i := range allowances {
			allowances[i] = unit.Length([2]int16{even, odd}[i%2])
		}
		p, err := o.Offset(allowances)
		if err != nil {
			assertDomain(t, err)
			return
		}
		assertOffsetEdges(t, o, allowances, p)
	})
}

func near(a, b float64) bool { return math.Abs(a-b) <= 1e-9*math.Max(math.Abs(a), math.Abs(b)) }

func assertDomain(t *testing.T, err error) {
	t.Helper()
	var domain *calc.DomainError
	if !errors.As(err, &domain) || domain.Field == "" || domain.Wanted == "" {
		t.Fatalf("not a domain error: %v", err)
	}
}

// Any six numbers are refused or become a convex roof whose corners stand at the
// adjusted lengths; residuals are no larger than those of any one reading
// taking the whole misclosure.
func FuzzFourSider(f *testing.F) {
	f.Add(5500.0, 2900.0, 5500.0, 2900.0, 6258.0, 6178.0)
	f.Add(5500.0, 5500.0, 2900.0, 2900.0, 6218.0, 6218.0)
	f.Add(1.0, 1.0, 1.0, 1.0, 1.4, 1.41)
	f.Add(1000.0, 1000.0, 1000.0, 1000.0, 1999.9, 10.0)
	f.Add(math.NaN(), 1.0, 1.0, 1.0, 1.0, math.Inf(-1))
	f.Fuzz(func(t *testing.T, a, b, c, d, e, g float64) {
		read := taped([6]float64{a, b, c, d, e, g})
		four, err := geom.FourSider(read, wallAtBack)
		if err != nil {
			assertDomain(t, err)
			return
		}
		v := four.Outline.Vertices
		if !v.IsConvex() || v.Orientation() != geom.Clockwise {
			t.Fatalf("no roof: %v", v)
		}
		var at [4][2]float64
		for i, p := range v {
			at[i] = [2]float64{float64(p.X), float64(p.Y)}
		}
		scale := max(a, b, c, d, e, g)
		for i, l := range lengthsOf(at) {
			if math.Abs(l-readings(four.Adjusted)[i]) > 1e-6*scale {
				t.Fatalf("brace %d is %v, adjusted %v", i, l, readings(four.Adjusted)[i])
			}
		}
		sum := 0.0
		for _, r := range readings(four.Residuals) {
			sum += r * r
		}
		if m := float64(four.Misclosure); math.IsNaN(m) || m < 0 || math.Sqrt(sum) > m+1e-6*scale {
			t.Fatalf("residuals %v, misclosure %v", math.Sqrt(sum), m)
		}
	})
}

// Openings anywhere on an L: refused, or every gap is that of a face inside the
// roof.
func FuzzClearances(f *testing.F) {
	f.Add(90.0, 4705.0, 110.0, 3000.0, 1000.0, 900.0, 900.0)
	f.Add(2200.0, 3000.0, 1.0, 0.0, 0.0, 10.0, 10.0)
	f.Add(math.Inf(1), math.NaN(), 0.0, 1e300, -1e300, 1e300, 5.0)
	f.Fuzz(func(t *testing.T, px, py, dia, x, y, l, d float64) {
		o := lShape(t)
		openings := []geom.Opening{
			geom.Pipe(geom.Point{X: unit.Length(px), Y: unit.Length(py)}, unit.Length(dia)),
			geom.RooflightAt(geom.Rect{Min: geom.Point{X: unit.Length(x), Y: unit.Length(y)}, Max: geom.Point{X: unit.Length(x + l), Y: unit.Length(y + d)}}),
		}
		gaps, err := o.Clearances(openings)
		if err != nil {
			assertDomain(t, err)
			return
		}
		if len(gaps) != 13 {
			t.Fatalf("%d gaps", len(gaps))
		}
		for _, g := range gaps {
			if !(g.Gap >= 0 && g.Gap < 10000) {
				t.Fatalf("%+v", g)
			}
		}
	})
}

func FuzzReckonRoof(f *testing.F) {
	f.Add(5500.0, 2900.0, 6218.0, 6218.0, 1200.0, 300.0, 400.0, 110.0, uint8(0))
	f.Add(5500.0, 2900.0, 6258.0, 6178.0, 600.0, 90.0, 90.0, 110.0, uint8(1))
	f.Add(5500.0, 2900.0, 0.0, 0.0, 600.0, 90.0, 90.0, 110.0, uint8(2))
	f.Add(math.NaN(), math.Inf(1), -1.0, 0.0, 0.0, 0.0, 0.0, 0.0, uint8(7))
	f.Fuzz(func(t *testing.T, a, b, c, d, row, x, y, dia float64, form uint8) {
		in := geom.RoofIn{Pipes: []geom.RoofPipe{{XMM: x, YMM: y, DiaMM: dia}}}
		if form&1 != 0 {
			in.SidesMM, in.DiagonalsMM, in.Edges = []float64{a, b, a, b}, []float64{c, d}, gvwv
		} else if form&2 != 0 {
			in.Walk = []geom.RoofStep{{LengthMM: a, Turn: "right", Kind: "gutter"}, {LengthMM: b, Turn: "right", Kind: "verge"},
				{LengthMM: a, Turn: "right", Kind: "wall"}, {LengthMM: b, Kind: "verge"}}
		}
		if form&3 == 0 || form&4 != 0 {
			in.LengthMM, in.DepthMM, in.Edges = &a, &b, gvwv
		}
		if form&8 == 0 && row > 200 {
			in.RowMM = &row
		}
		out, err := geom.ReckonRoof(in)
		if err != nil {
			assertDomain(t, err)
			return
		}
		assertFinite(t, out)
	})
}
