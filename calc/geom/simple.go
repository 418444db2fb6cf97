package geom

// IsSimple reports whether p is an honest ring: at least three vertices, no
// side of no length, and no two sides that cross, overlap or touch anywhere
// but at the vertex they share.
func (p Polygon) IsSimple() bool {
	if len(p) < 3 {
		return false
	}
	_, _, crossed := p.firstCrossing()
	return !crossed
}

// firstCrossing returns the first side j, in the order walked, that meets an
// earlier side i where it should not. A side of no length meets itself.
func (p Polygon) firstCrossing() (i, j int, found bool) {
	n := len(p)
	for j = range n {
		c, d := p.side(j)
		if c == d {
			return j, j, true
		}
		for i = range j {
			a, b := p.side(i)
			switch {
			case i+1 == j && foldsBack(a, b, d):
				return i, j, true
			case i+1 == j || j == n-1 && i == 0:
				// Neighbours share their vertex. A spike at the first vertex also
				// shows as a second side meeting a third.
			case meet(a, b, c, d):
				return i, j, true
			}
		}
	}
	return 0, 0, false
}

// foldsBack reports whether the path a-b-c returns over itself at b.
func foldsBack(a, b, c vec) bool {
	return turn(a, b, c) == 0 && b.sub(a).dot(c.sub(b)) < 0
}

// meet reports whether the closed segments ab and cd have a point in common.
func meet(a, b, c, d vec) bool {
	ca, cb := turn(c, d, a), turn(c, d, b)
	ac, ad := turn(a, b, c), turn(a, b, d)
	if (ca > 0) != (cb > 0) && (ac > 0) != (ad > 0) && ca != 0 && cb != 0 && ac != 0 && ad != 0 {
		return true
	}
	return ca == 0 && within(c, d, a) || cb == 0 && within(c, d, b) ||
		ac == 0 && within(a, b, c) || ad == 0 && within(a, b, d)
}

// within reports whether q, known to lie on the line ab, lies between a and b.
func within(a, b, q vec) bool {
	return min(a.x, b.x) <= q.x && q.x <= max(a.x, b.x) &&
		min(a.y, b.y) <= q.y && q.y <= max(a.y, b.y)
}
