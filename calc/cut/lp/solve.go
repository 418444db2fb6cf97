package lp

import "math"

const (
	optimal  = 1e-9 // reduced costs this near 0 count as 0
	pivotMin = 1e-8
	feasible = 1e-9
)

// Solve takes primal steps until no column improves the cost. It returns false
// if it did not get there within its own cap on steps, which only rounding can
// make it reach; the solution is then usable but not optimal.
func (p *Program) Solve() bool {
	d := make([]float64, p.m)
	same := 0
	for step := 0; step < 200+50*p.m; step++ {
		if step%(100+2*p.m) == 99+2*p.m {
			p.refresh()
		}
		enter := -1
		if same > 2*p.m+20 {
			enter = p.firstImproving() // Bland's rule cannot cycle
		} else {
			enter = p.mostImproving()
		}
		if enter < 0 {
			return true
		}
		p.direction(enter, d)
		leave := p.leaving(d, same > 2*p.m+20)
		if leave < 0 {
			return false // unbounded: cannot be with costs ≥ 0, so rounding
		}
		if p.x[leave] > feasible {
			same = 0
		} else {
			same++
		}
		p.pivot(enter, leave, d)
	}
	return false
}

func (p *Program) mostImproving() int {
	best, at := -optimal, -1
	for j := range p.cols {
		if p.where[j] < 0 {
			if d := p.reduced(j); d < best {
				best, at = d, j
			}
		}
	}
	p.work += int64(4 * len(p.cols))
	return at
}

func (p *Program) firstImproving() int {
	p.work += int64(4 * len(p.cols))
	for j := range p.cols {
		if p.where[j] < 0 && p.reduced(j) < -optimal {
			return j
		}
	}
	return -1
}

// leaving returns the place that runs out first along d; among equals the
// largest pivot, or by Bland's rule the lowest column.
func (p *Program) leaving(d []float64, bland bool) int {
	leave, least := -1, math.Inf(1)
	for i, di := range d {
		if di < pivotMin {
			continue
		}
		r := math.Max(p.x[i], 0) / di
		switch {
		case r < least-1e-12:
			leave, least = i, r
		case r <= least+1e-12 && bland && p.basis[i] < p.basis[leave]:
			leave = i
		case r <= least+1e-12 && !bland && di > d[leave]:
			leave, least = i, math.Min(r, least)
		}
	}
	return leave
}

// pivot brings column enter in at place leave along direction d.
func (p *Program) pivot(enter, leave int, d []float64) {
	m := p.m
	rc := p.reduced(enter)
	row := p.inv[leave*m : (leave+1)*m]
	scale := 1 / d[leave]
	for k := range row {
		row[k] *= scale
	}
	p.x[leave] *= scale
	touched := int64(0)
	for i := range m {
		f := d[i]
		if i == leave || f == 0 {
			continue
		}
		other := p.inv[i*m : (i+1)*m]
		for k, r := range row {
			other[k] -= float64(f * r)
		}
		p.x[i] -= float64(f * p.x[leave])
		touched += int64(m)
	}
	for k, r := range row {
		p.y[k] += float64(rc * r)
	}
	p.where[p.basis[leave]] = -1
	p.basis[leave] = enter
	p.where[enter] = leave
	p.work += touched + int64(m)
}

// SetRHS changes the right-hand sides. The duals stay as they are; Solve again
// after Restore.
func (p *Program) SetRHS(rhs []float64) {
	copy(p.rhs, rhs)
	p.values()
}

// values works x out afresh from the inverse.
func (p *Program) values() {
	for i := range p.m {
		s := 0.0
		for k, b := range p.rhs {
			s += float64(p.inv[i*p.m+k] * b)
		}
		p.x[i] = s
	}
	p.work += int64(p.m * p.m)
}

// Restore takes dual steps until no basic variable is negative, from a basis
// that was optimal before the right-hand sides changed. It returns false if it
// found no way there.
func (p *Program) Restore() bool {
	d := make([]float64, p.m)
	for step := 0; step < 200+20*p.m; step++ {
		if step%(100+2*p.m) == 99+2*p.m {
			p.refresh()
		}
		leave, worst := -1, -feasible
		for i, x := range p.x {
			if x < worst {
				leave, worst = i, x
			}
		}
		if leave < 0 {
			return true
		}
		row := p.inv[leave*p.m : (leave+1)*p.m]
		enter, best, size := -1, math.Inf(1), 0.0
		for j := range p.cols {
			if p.where[j] >= 0 {
				continue
			}
			c := p.cols[j]
			a := 0.0
			for k, i := range c.Rows {
				a += float64(row[i] * c.Coef[k])
			}
			if a > -pivotMin {
				continue
			}
			r := math.Max(p.reduced(j), 0) / -a
			if r < best-1e-12 || r <= best+1e-12 && -a > size {
				enter, best, size = j, math.Min(r, best), -a
			}
		}
		p.work += int64(8 * len(p.cols))
		if enter < 0 {
			return false
		}
		p.direction(enter, d)
		p.pivot(enter, leave, d)
	}
	return false
}

// refresh inverts the basis anew, which sheds the rounding of many pivots.
func (p *Program) refresh() {
	m := p.m
	a := make([]float64, m*2*m) // [basis | identity]
	for place, j := range p.basis {
		c := p.cols[j]
		for k, i := range c.Rows {
			a[i*2*m+place] = c.Coef[k]
		}
	}
	for i := range m {
		a[i*2*m+m+i] = 1
	}
	for col := range m {
		at := col
		for i := col + 1; i < m; i++ {
			if math.Abs(a[i*2*m+col]) > math.Abs(a[at*2*m+col]) {
				at = i
			}
		}
		if math.Abs(a[at*2*m+col]) < 1e-12 {
			return // singular only by rounding: keep the inverse we have
		}
		if at != col {
			for k := range 2 * m {
				a[at*2*m+k], a[col*2*m+k] = a[col*2*m+k], a[at*2*m+k]
			}
		}
		pr := a[col*2*m : (col+1)*2*m]
		f := 1 / pr[col]
		for k := col; k < 2*m; k++ {
			pr[k] *= f
		}
		for i := range m {
			f := a[i*2*m+col]
			if i == col || f == 0 {
				continue
			}
			row := a[i*2*m : (i+1)*2*m]
			for k := col; k < 2*m; k++ {
				row[k] -= float64(f * pr[k])
			}
			p.work += int64(m)
		}
	}
	for i := range m {
		copy(p.inv[i*m:(i+1)*m], a[i*2*m+m:(i+1)*2*m])
	}
	p.values()
	p.prices()
}
