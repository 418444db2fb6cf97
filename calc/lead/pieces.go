package lead

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// ID names the rule for lead pieces and its version.
const ID = "lead.pieces/1"

const (
	// Expansion of lead, 1/K. Source: Building Construction Handbook, 8th ed.,
	// lead sheet. 29.3e-6 is in print too, 1.4 % less.
	Expansion = 29.7e-6
	// YearRange is the swing of temperature between summer sun and winter
	// night. Source: same worked example, 45 K.
	YearRange unit.KelvinDiff = 45

	wedgeSpacing = 450 * unit.Millimetre // common practice, no source
	clipSpacing  = 500 * unit.Millimetre // common practice, no source
	clipExposed  = 300 * unit.Millimetre // common practice, no source
)

// Run is a length of flashing along one wall.
type Run struct {
	Length   unit.Length
	Width    unit.Length // of the strip as cut from the roll, the turn-in included
	Code     int
	Lap      unit.Length     // of one piece over the next
	MaxPiece unit.Length     // 0: the most the code allows
	Exposed  bool            // severe exposure: clips closer
	Range    unit.KelvinDiff // swing of temperature; 0: YearRange
}

// Cut is how a run is made.
type Cut struct {
	Pieces   int
	Piece    unit.Length   // each, all equal
	Starts   []unit.Length // of each piece along the run; it laps the one before
	Mass     unit.Mass     // of all pieces
	Movement unit.Length   // of one piece over the swing of temperature
	Wedges   int           // in the chase
	Clips    int           // at the free edge
	Thin     bool          // a code for soakers, under FlashingCode
}

// Pieces returns the equal pieces of a run of flashing.
//
//	n = ⌈(L − lap)/(max − lap)⌉    piece = (L + (n − 1)·lap)/n
//	mass = n·piece·width·m    movement = α·piece·ΔT
//	wedges = ⌈L/450⌉ + 1    clips = ⌈L/500⌉ + 1 (exposed 300)
//
// Source: longest piece NHBC Standards 7.2.20; mass EN 12588; movement
// Building Construction Handbook 8th ed.; spacings common practice, no source.
// Units: mm, kg/m², K.
// Shape: mass linear in width; movement linear in piece; pieces never fall as L grows.
// Domain: L 100 to 50000; width 50 to 1000; code 3 to 8; lap 50 to 300 and at most half the longest piece; longest piece 300 to what the code allows; ΔT above 0 to 120 K.
// Ignores: waste of the roll, laps round corners.
// Errors: DomainError only.
func Pieces(r Run) (Cut, error) {
	const op = "lead.pieces"
	sheet, ok := Code(r.Code)
	if !ok {
		return Cut{}, &calc.DomainError{Op: op, Field: "code", Got: r.Code, Wanted: "3 to 8"}
	}
	if r.MaxPiece == 0 {
		r.MaxPiece = sheet.MaxPiece
	}
	if r.Range == 0 {
		r.Range = YearRange
	}
	for _, c := range []struct {
		field       string
		v, min, max float64
		unit        string
	}{
		{"run_mm", float64(r.Length), 100, 50000, "mm"},
		{"width_mm", float64(r.Width), 50, 1000, "mm"},
		{"max_piece_mm", float64(r.MaxPiece), 300, float64(sheet.MaxPiece), "mm"},
		{"lap_mm", float64(r.Lap), 50, math.Min(300, float64(r.MaxPiece)/2), "mm"},
		{"range_k", float64(r.Range), 1, 120, "K"},
	} {
		if err := calc.Outside(op, c.field, c.v, c.min, c.max, c.unit); err != nil {
			return Cut{}, err
		}
	}
	L, lap, longest := float64(r.Length), float64(r.Lap), float64(r.MaxPiece) // mm
	n := int(math.Max(1, math.Ceil((L-lap)/(longest-lap))))
	piece := (L + float64(n-1)*lap) / float64(n) // mm
	clips := clipSpacing
	if r.Exposed {
		clips = clipExposed
	}
	starts := make([]unit.Length, n)
	for k := range starts {
		starts[k] = unit.Length(float64(k) * (piece - lap))
	}
	return Cut{
		Starts:   starts,
		Thin:     r.Code < FlashingCode,
		Pieces:   n,
		Piece:    unit.Length(piece),
		Mass:     sheet.Mass.Over(unit.Length(float64(n) * piece).By(r.Width)),
		Movement: unit.Length(Expansion * piece * float64(r.Range)),
		Wedges:   points(r.Length, wedgeSpacing),
		Clips:    points(r.Length, clips),
	}, nil
}

// points counts fixings along l, one at each end and none further apart than spacing.
func points(l, spacing unit.Length) int { return int(math.Ceil(float64(l)/float64(spacing))) + 1 }
