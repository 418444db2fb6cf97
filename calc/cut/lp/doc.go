// Package lp solves the small linear programs behind a cutting list: rows are
// what is wanted and what can be had, columns are ways to saw a bar, and
// columns are found while it runs.
//
//	min Σ c_j·x_j   with   Σ_j a_ij·x_j ≥ b_i  or  ≤ b_i,   x ≥ 0
//
// A [Program] keeps an explicit inverse of its basis, so a column added later
// starts from where the last solution stood (primal steps), and so does a
// changed b (dual steps). What it returns are floats near the optimum. A proof
// must not rest on them: round the duals to integers and verify those.
//
// Source: the revised simplex method as in V. Chvátal, Linear Programming
// (1983), chapters 7 and 10; column generation after P. C. Gilmore and R. E.
// Gomory, Operations Research 9 (1961) 849-859 and 11 (1963) 863-888.
package lp
