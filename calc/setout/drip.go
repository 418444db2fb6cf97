package setout

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// DripID names the drip rule and its version.
const DripID = "setout.drip/1"

const (
	leastDrip = 30 * unit.Millimetre // common practice, no source
	mostDrip  = 55 * unit.Millimetre // common practice, no source
)

// DripInput is what hangs at the gutter edge, each thickness as measured.
type DripInput struct {
	Fascia         unit.Length
	Batten         unit.Length
	Trim           unit.Length // how far the trim stands out from the batten
	Gutter         unit.Length // width across the gutter
	BattenOnFascia bool        // the batten is fixed on the face of the fascia, not on the deck edge above it
}

// Reach says how the drip meets the gutter.
type Reach string

const (
	Reaches Reach = "reaches" // within the limits
	Short   Reach = "short"   // water runs down the fascia
	Beyond  Reach = "beyond"  // past the middle of the gutter: heavy rain shoots over
)

// Drip is where the water leaves the edge.
type Drip struct {
	Past        unit.Length // beyond the face of the fascia
	Least, Most unit.Length // what is wanted of Past
	Reach       Reach
	BattenLeast unit.Length // batten thicknesses that would do, the rest unchanged
	BattenMost  unit.Length
}

// DripPast returns how far the drip stands past the fascia.
//
//	drip = batten + trim − fascia    (batten on the deck edge, the fascia below it)
//	drip = batten + trim             (batten on the face of the fascia)
//	wanted: 30 to 55, and no more than half the gutter
//
// Source: common practice, no source.
// Shape: linear in each thickness; independent of the gutter but for the limit.
// Domain: fascia 0 to 100; batten 0 to 100; trim 0 to 50; gutter 60 to 250 mm.
// Errors: DomainError only.
func DripPast(in DripInput) (Drip, error) {
	const op = "setout.drip"
	for _, c := range []struct {
		field    string
		v        unit.Length
		min, max float64
	}{
		{"fascia_mm", in.Fascia, 0, 100},
		{"batten_mm", in.Batten, 0, 100},
		{"trim_mm", in.Trim, 0, 50},
		{"gutter_mm", in.Gutter, 60, 250},
	} {
		if err := calc.Outside(op, c.field, float64(c.v), c.min, c.max, "mm"); err != nil {
			return Drip{}, err
		}
	}
	behind := in.Fascia
	if in.BattenOnFascia {
		behind = 0
	}
	d := Drip{Past: in.Batten + in.Trim - behind, Least: leastDrip, Most: min(mostDrip, in.Gutter/2)}
	d.BattenLeast = max(0, d.Least+behind-in.Trim)
	d.BattenMost = max(0, d.Most+behind-in.Trim)
	switch {
	case d.Past < d.Least:
		d.Reach = Short
	case d.Past > d.Most:
		d.Reach = Beyond
	default:
		d.Reach = Reaches
	}
	return d, nil
}
