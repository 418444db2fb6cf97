package timber

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// NotchID names the notch and hole limits and their version in the record.
const NotchID = "timber.cut/1"

const cutOp = "timber.cut"

// CutRule is a published set of limits for cuts in a joist that is otherwise
// within its span.
type CutRule string

const (
	CutUK   CutRule = "uk"   // LABC sheet, TRADA and BS 5268-2 texts
	CutNHBC CutRule = "nhbc" // NHBC Standards 6.4.18
	CutUS   CutRule = "us"   // IBC 2308.7.4
)

// cutRow holds one rule: sizes as fractions of the depth, places as fractions
// of the span from the nearer bearing. A zero fraction means not allowed, a
// zero length means no such limit.
type cutRow struct {
	rule                 CutRule
	notch                float64
	notchCap             unit.Length
	notchFrom, notchTo   float64
	endNotch             float64
	hole                 float64
	holeCap              unit.Length
	holeFrom, holeTo     float64
	apart                float64 // hole diameters, centre to centre
	holeToNotch, deepest unit.Length
}

// cutRows holds the limits. Sources: uk: LABC, How to get it right: notches and
// holes in solid timber joists (zones, sizes, caps); three diameters between
// holes from the Irish TGD A 1997 and BS 5268-2 texts, 100 mm from hole to
// notch from NHBC Standards 6.4.18. nhbc: NHBC Standards 2020 6.4.18 Table 6.
// us: IBC 2018 2308.7.4, whose text on holes was not seen, so none is allowed.
var cutRows = [...]cutRow{
	{rule: CutUK, notch: 0.125, notchCap: 35, notchFrom: 0.07, notchTo: 0.25,
		hole: 0.25, holeCap: 65, holeFrom: 0.25, holeTo: 0.4, apart: 3, holeToNotch: 100},
	{rule: CutNHBC, notch: 0.15, notchFrom: 0.1, notchTo: 0.2,
		hole: 0.25, holeFrom: 0.25, holeTo: 0.4, apart: 3, holeToNotch: 100, deepest: 250},
	{rule: CutUS, notch: 1.0 / 6, notchTo: 1.0 / 3, endNotch: 0.25},
}

// CutLimits are the limits of one rule for one joist. Zones are distances from
// the nearer bearing.
type CutLimits struct {
	NotchDepth         unit.Length
	NotchFrom, NotchTo unit.Length
	EndNotchDepth      unit.Length // at the bearing; 0: none without design
	HoleDiameter       unit.Length // 0: none without design
	HoleFrom, HoleTo   unit.Length
	HolesApart         float64     // diameters of the larger hole, centre to centre
	HoleToNotch        unit.Length // clear distance
}

// LimitsOfCuts returns how deep a joist may be notched, how large it may be
// bored on its centre line, and where.
//
// Source: see the table; checked against the LABC worked limits.
// Shape: sizes grow with the depth up to a cap, zones with the span.
// Domain: depth 60 to 400 mm (nhbc: to 250), span up to 20 m.
// Ignores: cuts at the bearing of a joist near its shear limit (see
// NotchFactor), cantilevers, and any cut over the plate.
// Errors: DomainError only.
func LimitsOfCuts(rule CutRule, depth, span unit.Length) (CutLimits, error) {
	r, err := cutRowOf(rule)
	if err != nil {
		return CutLimits{}, err
	}
	deepest := unit.Length(400)
	if r.deepest > 0 {
		deepest = r.deepest
	}
	if err := calc.Outside(cutOp, "h_mm", float64(depth), 60, float64(deepest), "mm"); err != nil {
		return CutLimits{}, err
	}
	if err := calc.Outside(cutOp, "clear_span_mm", float64(span), 2*float64(depth), longestSpan, "mm"); err != nil {
		return CutLimits{}, err
	}
	capped := func(f float64, most unit.Length) unit.Length {
		l := unit.Length(f) * depth
		if most > 0 {
			l = min(l, most)
		}
		return l
	}
	part := func(f float64) unit.Length { return unit.Length(f) * span }
	return CutLimits{
		NotchDepth: capped(r.notch, r.notchCap), NotchFrom: part(r.notchFrom), NotchTo: part(r.notchTo),
		EndNotchDepth: capped(r.endNotch, 0),
		HoleDiameter:  capped(r.hole, r.holeCap), HoleFrom: part(r.holeFrom), HoleTo: part(r.holeTo),
		HolesApart: r.apart, HoleToNotch: r.holeToNotch,
	}, nil
}

func cutRowOf(rule CutRule) (cutRow, error) {
	for _, r := range cutRows {
		if r.rule == rule {
			return r, nil
		}
	}
	return cutRow{}, &calc.DomainError{Op: cutOp, Field: "rule", Got: string(rule), Wanted: "uk, nhbc or us"}
}

// EndNotch is a square or tapered notch in the bottom edge at a bearing.
type EndNotch struct {
	Depth  unit.Length // whole depth h of the joist
	Left   unit.Length // h_ef, depth left above the notch
	Offset unit.Length // x, from the line of the reaction to the notch corner
	Slope  float64     // i, run over rise of a tapered notch; 0 is square
}

// NotchFactor returns k_v, by which an end notch in the bottom edge reduces the
// shear strength of the depth left. A notch in the top edge at the bearing
// needs none (k_v = 1).
//
//	k_v = min(1, k_n (1 + 1.1 i^1.5/√h) / (√h (√(α(1-α)) + 0.8 (x/h) √(1/α - α²))))
//	α = h_ef/h,  k_n = 5.0 for solid timber
//
// Source: EN 1995-1-1 6.5.2, eq. (6.62), (6.63); checked against Porteous and
// Kermani, Structural Timber Design to Eurocode 5 (2007), example 4.8.2.
// Units: mm under the roots. Shape: 1 without a notch; falls as less depth is left.
// Domain: half the depth or more left, offset 0 to one depth, slope 0 to 10.
// Errors: DomainError only.
func NotchFactor(n EndNotch) (float64, error) {
	if err := calc.Outside(cutOp, "h_mm", float64(n.Depth), 60, 400, "mm"); err != nil {
		return 0, err
	}
	h := float64(n.Depth)
	if err := calc.Outside(cutOp, "h_left_mm", float64(n.Left), h/2, h, "mm"); err != nil {
		return 0, err
	}
	if err := calc.Outside(cutOp, "offset_mm", float64(n.Offset), 0, h, "mm"); err != nil {
		return 0, err
	}
	if err := calc.Outside(cutOp, "slope", n.Slope, 0, 10, ""); err != nil {
		return 0, err
	}
	const kn = 5.0
	a := float64(n.Left) / h
	below := math.Sqrt(a*(1-a)) + 0.8*float64(n.Offset)/h*math.Sqrt(1/a-a*a)
	if below == 0 {
		return 1, nil
	}
	return math.Min(1, kn*(1+1.1*math.Pow(n.Slope, 1.5)/math.Sqrt(h))/(math.Sqrt(h)*below)), nil
}
