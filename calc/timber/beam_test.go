package timber

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Closed forms of elementary beam theory, as every handbook prints them
// (Structural Engineer's Pocket Book, beam formulae).
func TestBeamHandbookCases(t *testing.T) {
	t.Parallel()
	const l, q, p, ei = 3000.0, 1.3, 900.0, 2e11
	inf := math.Inf(1)
	cases := []struct {
		name               string
		b                  beam
		ra, moment, deflct float64
	}{
		{"uniform", beam{span: l, lines: []lineLoad{{0, l, q, q}}}, q * l / 2, q * l * l / 8, 5 * q * l * l * l * l / (384 * ei)},
		{"mid point", beam{span: l, points: []pointLoad{{l / 2, p}}}, p / 2, p * l / 4, p * l * l * l / (48 * ei)},
		// load rising from nothing: M = q l²/(9√3), w = 0.006522 q l⁴/EI
		{"triangle", beam{span: l, lines: []lineLoad{{0, l, q, 0}}}, q * l / 3, q * l * l / (9 * math.Sqrt(3)), 0.00652219 * q * l * l * l * l / ei},
		// point at a = 1 m from the far end: w = P a (l²-a²)^1.5 / (9√3 l EI)
		{"eccentric point", beam{span: l, points: []pointLoad{{2000, p}}}, p / 3, p * 2000 * 1000 / l,
			p * 1000 * math.Pow(l*l-1000*1000, 1.5) / (9 * math.Sqrt(3) * l * ei)},
	}
	for _, c := range cases {
		s := c.b.solve()
		assert.InEpsilon(t, c.ra, s.ra, 1e-12, c.name)
		assert.InEpsilon(t, c.moment, s.maxMoment(), 1e-9, c.name)
		assert.InEpsilon(t, c.deflct, s.maxDeflection(ei, inf), 1e-6, c.name)
	}
	// Shear adds q l²/8 · κ/GA to a uniform load, P l/4 · κ/GA to a point.
	ga := 1e7
	s := cases[0].b.solve()
	assert.InEpsilon(t, cases[0].deflct+q*l*l/8/ga, s.maxDeflection(ei, ga), 1e-9)
	s = cases[1].b.solve()
	assert.InEpsilon(t, cases[1].deflct+p*l/4/ga, s.maxDeflection(ei, ga), 1e-9)

	// Overhang a under its own uniform load: M = q a²/2 at the support, tip
	// q a³(4l+3a)/(24EI), support rises nowhere.
	a := 500.0
	over := beam{span: l, tail: a, lines: []lineLoad{{l, l + a, q, q}}}.solve()
	assert.InEpsilon(t, q*a*a/2, over.maxMoment(), 1e-9)
	assert.InEpsilon(t, q*a*a*a*(4*l+3*a)/(24*ei), over.tipDeflection(ei, inf), 1e-9)
	assert.InEpsilon(t, -q*a*a/(2*l), over.ra, 1e-9)
	assert.Zero(t, over.maxDeflection(ei, inf))
}

// A general finite element program solved the same joist as a plane-stress
// plate of orthotropic timber: no beam theory at all.
func TestBeamAgainstPlaneStress(t *testing.T) {
	t.Parallel()
	f, err := os.Open("../../testdata/worked/structure/joist-plane-stress.csv")
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	all, err := r.ReadAll()
	require.NoError(t, err)
	beams := map[string]beam{
		"uniform 1 N/mm on span and tail":   {lines: []lineLoad{{0, 3500, 1, 1}}},
		"uniform 1 N/mm on span":            {lines: []lineLoad{{0, 3000, 1, 1}}},
		"uniform 1 N/mm on tail":            {lines: []lineLoad{{3000, 3500, 1, 1}}},
		"900 N at 1500 mm":                  {points: []pointLoad{{1500, 900}}},
		"900 N at 3500 mm":                  {points: []pointLoad{{3500, 900}}},
		"triangle 2 to 0 N/mm over 1800 mm": {lines: []lineLoad{{0, 1800, 2, 0}}},
		"1.5 N/mm from 600 to 1400 mm":      {lines: []lineLoad{{600, 1400, 1.5, 1.5}}},
	}
	require.Len(t, all, 1+len(beams))
	sec := Section{47, 170}
	ei, ga := 11000*sec.inertia(), 690*sec.area()/1.2
	for _, line := range all[1:] {
		var want [4]float64
		for i := range want {
			want[i], err = strconv.ParseFloat(line[i+1], 64)
			require.NoError(t, err)
		}
		b, ok := beams[line[0]]
		require.True(t, ok, line[0])
		b.span, b.tail = 3000, 500
		s := b.solve()
		assert.InDelta(t, want[0], s.ra, 0.01, line[0])
		assert.InDelta(t, want[1], s.rb, 0.01, line[0])
		assert.InDelta(t, want[2], s.maxDeflection(ei, ga), 0.001*want[2]+1e-9, line[0])
		// The tip sits on the stub beyond a support, where a plate feels the
		// support's own disturbance; a third of a percent covers it.
		assert.InDelta(t, want[3], s.deflection(3500, ei, ga), 0.0035*math.Abs(want[3]), line[0])
	}
}

// integrated solves the same beam by brute force: the moment from the loads
// left of each place by summing strips, the deflection by summing curvature
// twice. No formula is shared with beam.go.
func integrated(b beam, ei, ga float64, n int) (moment, shear, deflection float64) {
	end := b.span + b.tail
	dx := end / float64(n)
	q := make([]float64, n) // force in each strip, at its middle
	for i := range q {
		x := (float64(i) + 0.5) * dx
		for _, l := range b.lines {
			if x >= l.from && x < l.to {
				q[i] += (l.q0 + (l.q1-l.q0)*(x-l.from)/(l.to-l.from)) * dx
			}
		}
		for _, p := range b.points {
			if p.at >= float64(i)*dx && p.at < float64(i+1)*dx || p.at == end && i == n-1 {
				q[i] += p.p
			}
		}
	}
	var total, about float64
	for i, f := range q {
		total += f
		about += f * (float64(i) + 0.5) * dx
	}
	rb := about / b.span
	ra := total - rb
	m := make([]float64, n+1)
	v := ra
	onB := int(math.Round(b.span / dx))
	for i := range n {
		if i == onB {
			v += rb
		}
		shear = math.Max(shear, math.Abs(v))
		m[i+1] = m[i] + v*dx - q[i]*dx/2
		v -= q[i]
		shear = math.Max(shear, math.Abs(v))
		moment = math.Max(moment, math.Abs(m[i+1]))
	}
	slope, w := 0.0, make([]float64, n+1)
	for i := range n {
		k := -(m[i] + m[i+1]) / 2 / ei
		w[i+1] = w[i] + slope*dx + k*dx*dx/2
		slope += k * dx
	}
	for i := 0; i <= onB; i++ {
		x := float64(i) * dx
		sag := w[i] - w[onB]*x/b.span + (m[i]-m[onB]*x/b.span)/ga
		deflection = math.Max(deflection, sag)
	}
	return moment, shear, deflection
}

func TestBeamAgainstIntegration(t *testing.T) {
	t.Parallel()
	for _, b := range []beam{
		{span: 2650, lines: []lineLoad{{0, 2650, 0.4, 0.4}}},
		{span: 2650, tail: 350, lines: []lineLoad{{0, 3000, 0.4, 0.4}}, points: []pointLoad{{3000, 900}}},
		{span: 3200, lines: []lineLoad{{0, 1900, 2.2, 0.3}, {1900, 3200, 0.3, 0.3}}},
		{span: 3200, tail: 400, lines: []lineLoad{{0, 3600, 2.2, 0.5}, {0, 3600, 0.2, 0.2}}},
		{span: 4100, lines: []lineLoad{{700, 1500, 1, 1}, {0, 4100, 0.3, 0.3}}, points: []pointLoad{{2900, 700}}},
	} {
		ei, ga := 1.2e11, 4.5e6
		s := b.solve()
		m, v, w := integrated(b, ei, ga, 60000)
		assert.InEpsilon(t, m, s.maxMoment(), 2e-4, "%+v", b)
		assert.InEpsilon(t, v, s.maxShear(), 2e-4, "%+v", b)
		assert.InEpsilon(t, w, s.maxDeflection(ei, ga), 2e-4, "%+v", b)
	}
}
