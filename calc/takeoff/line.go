package takeoff

import "chargehand/calc/unit"

// Unit is what a line is counted in.
type Unit string

const (
	Each        Unit = "each"
	Metre       Unit = "m"
	SquareMetre Unit = "m2"
	CubicMetre  Unit = "m3"
	Litre       Unit = "l"
	Kilogram    Unit = "kg"
	Millilitre  Unit = "ml"
	Cartridge   Unit = "cartridge"
	Day         Unit = "day"
)

// Where names the kind of merchant a line is bought from.
type Where string

const (
	Timber    Where = "timber"
	Ironwork  Where = "ironwork" // anchors, straps, hangers, screws, nails
	Roofing   Where = "roofing"
	Rainwater Where = "rainwater"
	Lead      Where = "lead"
	Sundry    Where = "sundry"
	Hire      Where = "hire"
)

// Group is the lines bought at one place.
type Group struct {
	Where Where
	Lines []Line
	Cost  *Money // nil unless every line has a cost
}

// Line is one thing to order. A key comes once, but for lead, which has a line
// for each width.
type Line struct {
	Key    Key
	Unit   Unit
	Needed float64 // as calculated
	Waste  float64 // on top, in the same unit
	ToBuy  float64
	Packs  []Pack
	// Spare is those of Packs that are spare pieces (joists).
	Spare []Pack
	// LeftOver is ToBuy - Needed - Waste.
	LeftOver float64
	Where    Where
	// Tight and Surplus are judged only where the need is an estimate in packs;
	// a count bought one by one, and a length cut to order, have neither.
	Tight   bool
	Surplus bool
	// Offer is what to buy instead of a tight choice; nil otherwise.
	Offer []Pack
	Cost  *Money // nil when the builder has given no price
	// Size is what is made or cut: length and width of sheet and cover, lengths
	// of joists, width of lead.
	Size []unit.Length
	Mass unit.Mass // of lead; 0 elsewhere
}

// Bill is the whole list.
type Bill struct {
	Lines []Line
	// Missing names the lines for which a quantity is not known yet.
	Missing []Key
	// Cost is nil unless every line has a cost; Priced adds up those that have.
	Cost   *Money
	Priced Money
}

// Groups returns the lines by where they are bought, in the order of the list.
func (b Bill) Groups() []Group {
	var groups []Group
	at := map[Where]int{}
	for _, line := range b.Lines {
		i, ok := at[line.Where]
		if !ok {
			i = len(groups)
			at[line.Where] = i
			groups = append(groups, Group{Where: line.Where})
		}
		groups[i].Lines = append(groups[i].Lines, line)
	}
	for i := range groups {
		groups[i].Cost = sum(groups[i].Lines)
	}
	return groups
}

// sum is the cost of some lines, nil when one of them has none.
func sum(lines []Line) *Money {
	total := new(Money)
	for _, l := range lines {
		total = add(total, l.Cost)
	}
	return total
}

// add is a + b, nil when either is not known.
func add(a, b *Money) *Money {
	if a == nil || b == nil {
		return nil
	}
	c := *a + *b
	return &c
}
