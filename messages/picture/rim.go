package picture

import (
	"math"

	"chargehand/calc/geom"
	"chargehand/flow/talk"
)

// band is how wide on paper the sign for what stands on an edge is.
var band = map[geom.Kind]float64{geom.Gutter: 2.2, geom.Wall: 3.2, geom.Parapet: 3.2}

// rim draws a roof's outline with, outside of it, what stands on each edge.
func (e *easel) rim(o geom.Outline) {
	in := e.all(o.Vertices)
	n := len(in)
	if n < 3 || len(o.Edges) != n {
		return
	}
	for i, edge := range o.Edges {
		w := band[edge.Kind]
		if w == 0 {
			continue
		}
		from, to := in[i], in[(i+1)%n]
		before, after := band[o.Edges[(i+n-1)%n].Kind], band[o.Edges[(i+1)%n].Kind]
		ring := []pt{from, to, mitre(from, to, in[(i+2)%n], w, after), mitreBack(in[(i+n-1)%n], from, to, before, w)}
		e.edge(edge.Kind, ring)
	}
	e.stroke(talk.Wide, in, true)
}

// mitre is where the outer lines of two edges meet at the corner between them:
// a from p to q, b wide, then one from q to r, c wide. The outline runs
// clockwise, so outside is on the left.
func mitre(p, q, r pt, b, c float64) pt {
	u, v := q.sub(p).unit(), r.sub(q).unit()
	sin := u.cross(v)
	if math.Abs(sin) < 0.05 { // one line goes on: the band ends square
		return q.add(u.left().by(b))
	}
	return q.add(v.by(b / sin)).sub(u.by(c / sin))
}

// mitreBack is the same for the edge from q to r, c wide.
func mitreBack(p, q, r pt, b, c float64) pt {
	u, v := q.sub(p).unit(), r.sub(q).unit()
	if math.Abs(u.cross(v)) < 0.05 {
		return q.add(v.left().by(c))
	}
	return mitre(p, q, r, b, c)
}

// edge draws the sign of one edge: inner line first, then outer line backwards.
func (e *easel) edge(kind geom.Kind, ring []pt) {
	from, to, outTo, outFrom := ring[0], ring[1], ring[2], ring[3]
	switch kind {
	case geom.Wall:
		e.fill(talk.Brick, ring)
	case geom.Gutter:
		e.fill(talk.Blank, ring)
		e.stroke(talk.Narrow, []pt{from, outFrom, outTo, to}, false)
		half := func(a, b pt) pt { return a.add(b.sub(a).by(0.5)) }
		e.stroke(talk.Narrow, []pt{half(from, outFrom), half(to, outTo)}, false)
	case geom.Parapet:
		e.fill(talk.Blank, ring)
		e.stroke(talk.Wide, []pt{from, outFrom, outTo, to}, false)
		along := to.sub(from)
		dir, out := along.unit(), outTo.sub(to)
		out = dir.left().by(out.dot(dir.left()))
		const stone = 5.0
		for at := stone; at < along.len()-stone/3; at += stone {
			foot := from.add(dir.by(at))
			e.stroke(talk.Narrow, []pt{foot, foot.add(out)}, false)
		}
	}
	e.see(ring, 0)
}
