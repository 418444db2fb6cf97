package plan

import "slices"

// Need is something that must be known before a joist can be judged.
type Need string

const (
	NeedSize       Need = "size" // of the roof
	NeedBoard      Need = "board"
	NeedCentres    Need = "centres"
	NeedSpan       Need = "clear span"
	NeedJoist      Need = "joist"
	NeedAltitude   Need = "altitude"
	NeedGroundSnow Need = "ground snow"
	NeedWallAbove  Need = "wall above"
	NeedUpperDepth Need = "upper depth"
	NeedParapet    Need = "parapet"
	NeedHung       Need = "hung weight"
)

// lacks notes what keeps the joists from being judged.
func (r *reckoner) lacks(n Need) {
	if !slices.Contains(r.p.Lacks, n) {
		r.p.Lacks = append(r.p.Lacks, n)
	}
}
