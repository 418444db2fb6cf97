package flow

import (
	"math"
	"slices"

	"chargehand/calc/plan"
	"chargehand/calc/unit"
	"chargehand/flow/event"
)

// asTold is the plan with the numbers of a telling in place of its own, where the
// two differ on show: a picture drawn again years later must say what was said
// then, whatever the formulas have become.
func asTold(p *plan.Plan, ev event.Told) *plan.Plan {
	out := *p
	n := retold{p: &out, own: map[any]bool{}}
	part, lead := 0, 0
	for _, l := range ev.Lines {
		switch l.Key {
		case "told.roof":
			if f := n.fall(); f != nil {
				set(&f.Drop, l.Args["drop"])
				f.Slope = unit.Fall(l.Args["fall"].Num())
			}
		case "told.marks":
			if j := n.joists(); j != nil {
				setAll(&j.Marks, l.Args["marks"])
				setNear(&j.Centres, l.Args["centres"], 0.1)
				j.Count = int(l.Args["n"].Num())
			}
		case "told.part-up", "told.part-along":
			if j := n.joists(); j != nil {
				if i := int(l.Args["n"].Num()) - 1; i >= 0 && i < len(j.Parts) {
					setAll(&j.Parts[i].Plan.Marks, l.Args["marks"])
				}
			}
		case "told.deck.part":
			part = int(l.Args["n"].Num()) - 1
		case "told.deck.row":
			n.row(int(l.Args["n"].Num())-1, part, l)
		case "told.drip":
			if p.Drip != nil {
				d := *p.Drip
				set(&d.Drip, l.Args["drip"])
				set(&d.Most, l.Args["most"])
				out.Drip = &d
			}
		case "told.upstands":
			if p.Upstands != nil {
				u := *p.Upstands
				set(&u.BoardTop, l.Args["top"])
				set(&u.BedJoint, l.Args["joint"])
				set(&u.Rubber, l.Args["rubber"])
				out.Upstands = &u
			}
		case "told.sheet":
			if s := n.sheet(); s != nil {
				set(&s.Length, l.Args["length"])
				set(&s.Width, l.Args["width"])
			}
		case "told.allow":
			if s := n.sheet(); s != nil {
				setAll(&s.Allow, l.Args["allow"])
			}
		case "told.glue-strip":
			n.strip(l)
		case "told.contact":
			if c := p.Contact; c != nil && math.Abs(float64(c.Run)-l.Args["run"].Num()) > 0.5+1e-9 {
				out.Contact = nil // how the edges were divided then is not told: no picture rather than another
			}
		case "told.lead":
			if r := n.leadRun(lead); r != nil {
				set(&r.Piece, l.Args["piece"])
				r.Pieces, r.Wedges, r.Clips = int(l.Args["n"].Num()), int(l.Args["wedges"].Num()), int(l.Args["clips"].Num())
				set(&n.p.Lead.Lap, l.Args["lap"])
			}
			lead++
		case "told.lead.starts":
			if r := n.leadRun(lead - 1); r != nil {
				setAll(&r.Starts, l.Args["starts"])
			}
		}
	}
	return &out
}

// retold copies the parts of a plan it changes: the plan itself is shared.
type retold struct {
	p   *plan.Plan
	own map[any]bool
}

func (n retold) fall() *plan.Fall {
	if n.p.Fall != nil && !n.own[n.p.Fall] {
		f := *n.p.Fall
		n.p.Fall = &f
		n.own[&f] = true
	}
	return n.p.Fall
}

func (n retold) joists() *plan.Joists {
	if n.p.Joists != nil && !n.own[n.p.Joists] {
		j := *n.p.Joists
		j.Parts = slices.Clone(j.Parts)
		n.p.Joists = &j
		n.own[&j] = true
	}
	return n.p.Joists
}

func (n retold) sheet() *plan.Sheet {
	if n.p.Sheet != nil && !n.own[n.p.Sheet] {
		s := *n.p.Sheet
		n.p.Sheet = &s
		n.own[&s] = true
	}
	return n.p.Sheet
}

func (n retold) deck() *plan.Deck {
	if n.p.Deck != nil && !n.own[n.p.Deck] {
		d := *n.p.Deck
		d.Rows = slices.Clone(d.Rows)
		n.p.Deck = &d
		n.own[&d] = true
	}
	return n.p.Deck
}

// leadRun is the flashing of one wall.
func (n retold) leadRun(i int) *plan.LeadRun {
	if n.p.Lead == nil || i < 0 || i >= len(n.p.Lead.Runs) {
		return nil
	}
	if !n.own[n.p.Lead] {
		l := *n.p.Lead
		l.Runs = slices.Clone(l.Runs)
		n.p.Lead = &l
		n.own[&l] = true
	}
	return &n.p.Lead.Runs[i]
}

// row puts a told row of boards in its place; letters come with the lengths.
func (n retold) row(i, part int, l event.Line) {
	d := n.deck()
	if d == nil || i < 0 {
		return
	}
	if i >= len(d.Rows) {
		d.Rows = append(d.Rows, plan.DeckRow{Part: part})
		i = len(d.Rows) - 1
	}
	set(&d.Rows[i].Width, l.Args["width"])
	if setAll(&d.Rows[i].Lengths, l.Args["lengths"]) {
		d.Rows[i].Letters = words(l.Args["lengths"].Text)
		d.Groups = nil // what was sawn then is told in words
	}
}

// strip puts the told strip of glue in its place.
func (n retold) strip(l event.Line) {
	if n.p.Batch == nil || l.Args["strip"].Unit != "mm" || len(l.Args["strip"].Nums) == 0 {
		return
	}
	b := *n.p.Batch
	b.Ahead = slices.Clone(b.Ahead)
	set(&b.Strip, l.Args["strip"])
	if len(b.Ahead) > 0 {
		set(&b.Ahead[0].Width, l.Args["strip"])
	}
	b.Area = unit.Area(l.Args["area"].Num()) * m2
	n.p.Batch = &b
}

// set takes the number that was told, unless it is the plan's own, rounded.
func set(l *unit.Length, v event.Value) { setNear(l, v, 0.5) }

func setNear(l *unit.Length, v event.Value, near float64) {
	if len(v.Nums) == 1 && math.Abs(float64(*l)-v.Nums[0]) > near+1e-9 {
		*l = unit.Length(v.Nums[0])
	}
}

// setAll does so for a list, as a whole, and says whether it had to.
func setAll(ls *[]unit.Length, v event.Value) bool {
	same := len(v.Nums) == len(*ls)
	for i := 0; same && i < len(*ls); i++ {
		same = math.Abs(float64((*ls)[i])-v.Nums[i]) <= 0.5+1e-9
	}
	if same || len(v.Nums) == 0 {
		return false
	}
	out := make([]unit.Length, len(v.Nums))
	for i, n := range v.Nums {
		out[i] = unit.Length(n)
	}
	*ls = out
	return true
}
