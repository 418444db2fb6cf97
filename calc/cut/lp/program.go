package lp

// Column is one variable: its cost and its nonzero coefficients by row.
type Column struct {
	Cost float64
	Rows []int
	Coef []float64
}

// Program is a linear program under way. Make one with New.
type Program struct {
	m     int
	rhs   []float64
	atMax []bool    // row is ≤, not ≥
	cols  []*Column // shared between clones, never written
	cost  []float64 // of each column here
	where []int     // of each column: its place in the basis, or -1
	basis []int     // columns by place
	inv   []float64 // basis inverse, m×m by rows
	x     []float64 // value of the basic variables
	y     []float64 // duals
	work  int64
}

// costOfMissing stands for a row that no column fills yet. It is far above any
// honest dual, and the verified bound that follows does not rest on it.
const costOfMissing = 1e7

// New returns a program with one row for each right-hand side; atMax says which
// rows are ≤. Every right-hand side must be ≥ 0. Columns 0 to m−1 are the rows'
// own: slack for a ≤ row, a costly stopgap for a ≥ row. Scale costs so that the
// honest ones are near 1.
func New(rhs []float64, atMax []bool) *Program {
	m := len(rhs)
	p := &Program{m: m, rhs: append([]float64(nil), rhs...), atMax: atMax,
		inv: make([]float64, m*m), x: append([]float64(nil), rhs...), y: make([]float64, m)}
	for i := range m {
		c := Column{Rows: []int{i}, Coef: []float64{1}}
		if !atMax[i] {
			c.Cost = costOfMissing
		}
		p.Add(c)
		p.where[i] = i
		p.basis = append(p.basis, i)
		p.inv[i*m+i] = 1
		p.y[i] = c.Cost
	}
	for i := range m {
		if !atMax[i] {
			p.Add(Column{Rows: []int{i}, Coef: []float64{-1}}) // surplus
		}
	}
	return p
}

// Add appends a column and returns its index.
func (p *Program) Add(c Column) int {
	p.cols = append(p.cols, &c)
	p.cost = append(p.cost, c.Cost)
	p.where = append(p.where, -1)
	return len(p.cols) - 1
}

// Columns returns how many columns there are, the rows' own among them.
func (p *Program) Columns() int { return len(p.cols) }

// Value returns the value of column j in the present solution.
func (p *Program) Value(j int) float64 {
	if p.where[j] < 0 {
		return 0
	}
	return p.x[p.where[j]]
}

// Duals returns the duals of the present solution, ≥ 0 on ≥ rows and ≤ 0 on ≤
// rows once solved. The slice belongs to the program.
func (p *Program) Duals() []float64 { return p.y }

// Objective returns the cost of the present solution.
func (p *Program) Objective() float64 {
	z := 0.0
	for i, j := range p.basis {
		z += float64(p.cost[j] * p.x[i])
	}
	return z
}

// Missing returns how much of the ≥ rows no column fills: above 0 while the
// program has no honest solution yet.
func (p *Program) Missing() float64 {
	sum := 0.0
	for i := range p.m {
		if !p.atMax[i] {
			sum += p.Value(i)
		}
	}
	return sum
}

// Work returns the table cells touched so far.
func (p *Program) Work() int64 { return p.work }

// reduced returns the reduced cost of column j.
func (p *Program) reduced(j int) float64 {
	c := p.cols[j]
	d := p.cost[j]
	for k, i := range c.Rows {
		d -= float64(c.Coef[k] * p.y[i])
	}
	return d
}

// direction returns inverse × column j.
func (p *Program) direction(j int, d []float64) {
	c := p.cols[j]
	for i := range d {
		row := p.inv[i*p.m : (i+1)*p.m]
		s := 0.0
		for k, r := range c.Rows {
			s += float64(row[r] * c.Coef[k])
		}
		d[i] = s
	}
	p.work += int64(p.m * len(c.Rows))
}

// Clone returns a copy that can go its own way.
func (p *Program) Clone() *Program {
	c := *p
	c.rhs = append([]float64(nil), p.rhs...)
	c.cols = append([]*Column(nil), p.cols...)
	c.cost = append([]float64(nil), p.cost...)
	c.where = append([]int(nil), p.where...)
	c.basis = append([]int(nil), p.basis...)
	c.inv = append([]float64(nil), p.inv...)
	c.x = append([]float64(nil), p.x...)
	c.y = append([]float64(nil), p.y...)
	c.work += int64(p.m*p.m/2 + 4*len(p.cols))
	return &c
}

// Ban makes columns too dear to be used. The solution stays feasible; Solve
// again.
func (p *Program) Ban(columns []int) {
	basic := false
	for _, j := range columns {
		p.cost[j] = costOfMissing
		basic = basic || p.where[j] >= 0
	}
	if basic {
		p.prices()
	}
}

// Drop forgets the columns from first on for which gone says so, unless they
// are in the basis. It returns the indexes kept, in order.
func (p *Program) Drop(first int, gone func(j int) bool) (kept []int) {
	to := first
	for j := first; j < len(p.cols); j++ {
		if p.where[j] < 0 && gone(j) {
			continue
		}
		p.cols[to], p.cost[to], p.where[to] = p.cols[j], p.cost[j], p.where[j]
		if p.where[j] >= 0 {
			p.basis[p.where[j]] = to
		}
		kept = append(kept, j)
		to++
	}
	p.cols, p.cost, p.where = p.cols[:to], p.cost[:to], p.where[:to]
	return kept
}

// prices works the duals out afresh from the inverse.
func (p *Program) prices() {
	m := p.m
	for k := range p.y {
		p.y[k] = 0
	}
	for i, j := range p.basis {
		c := p.cost[j]
		if c == 0 {
			continue
		}
		for k, v := range p.inv[i*m : (i+1)*m] {
			p.y[k] += float64(c * v)
		}
	}
	p.work += int64(m * m)
}
