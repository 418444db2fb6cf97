package timber

import "math"

// kcrit returns the lateral stability factor of the top edge.
func (r ec5) kcrit() float64 {
	if r.Unbraced == 0 {
		return 1
	}
	h := float64(r.Section.H)
	lef := 0.9*float64(r.Unbraced) + 2*h // uniform load on the compression edge
	return stability(r.s.Fm, criticalStress(r.Section, r.s.E05, lef))
}

// criticalStress returns σ_m,crit of a solid softwood joist.
//
//	σ_m,crit = 0.78 b² E_0,05 / (h l_ef)
//
// Source: EN 1995-1-1 eq. (6.32); checked against Benoit, Legrand, Tastet,
// Calcul de structures en bois (2008), example 2.3.2. N/mm², mm.
func criticalStress(s Section, e05, lef float64) float64 {
	b := float64(s.B)
	return 0.78 * b * b * e05 / (float64(s.H) * lef)
}

// stability returns k_crit from f_m,k and σ_m,crit. EN 1995-1-1 eq. (6.30), (6.34).
func stability(fmk, crit float64) float64 {
	lambda := math.Sqrt(fmk / crit) // λ_rel,m
	switch {
	case lambda <= 0.75:
		return 1
	case lambda <= 1.4:
		return 1.56 - 0.75*lambda
	}
	return 1 / (lambda * lambda)
}
