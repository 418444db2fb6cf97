package cut_test

import (
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc/cut"
	"chargehand/calc/unit"
)

// mixedInteger is a reference solver for mixed-integer programs: coinor-cbc or
// glpk-utils of Debian, whichever is on the path.
type mixedInteger struct {
	name string
	path string
}

// referenceSolvers skips the test where neither is installed, but not where CI
// is set: there a missing judge is a failure.
func referenceSolvers(t testing.TB) []mixedInteger {
	t.Helper()
	var out []mixedInteger
	for _, name := range []string{"cbc", "glpsol"} {
		if path, err := exec.LookPath(name); err == nil {
			out = append(out, mixedInteger{name, path})
		}
	}
	if len(out) == 0 {
		if os.Getenv("CI") == "true" {
			t.Fatal("neither cbc (coinor-cbc) nor glpsol (glpk-utils) is on the path")
		}
		t.Skip("neither cbc nor glpsol is on the path")
	}
	return out
}

// model writes a problem in the LP file format: one whole-number variable for
// each way to fill a bar until no piece fits any more. The ways are listed here
// afresh, from the rule of the package comment.
func model(p cut.Problem) string {
	var objective, ints strings.Builder
	rows := make([]strings.Builder, len(p.Pieces))
	limits := make([]strings.Builder, len(p.Stocks))
	vars := 0
	for k, s := range p.Stocks {
		times := make([]int, len(p.Pieces))
		var fill func(i int, room unit.Length)
		fill = func(i int, room unit.Length) {
			if i < len(times) {
				taken := 0
				for {
					times[i] = taken
					fill(i+1, room)
					if taken == p.Pieces[i].Count || room < p.Pieces[i].Length {
						times[i] = 0
						return
					}
					taken++
					room -= p.Pieces[i].Length + p.Kerf
				}
			}
			any := false
			for j, n := range times {
				if n < p.Pieces[j].Count && room >= p.Pieces[j].Length {
					return
				}
				any = any || n > 0
			}
			if !any {
				return
			}
			name := fmt.Sprintf("x%d", vars)
			vars++
			fmt.Fprintf(&objective, " + %d %s\n", s.Cost, name)
			fmt.Fprintf(&ints, " %s\n", name)
			fmt.Fprintf(&limits[k], " + %s\n", name)
			for j, n := range times {
				if n > 0 {
					fmt.Fprintf(&rows[j], " + %d %s\n", n, name)
				}
			}
		}
		fill(0, s.Length-p.Trim)
	}
	var out strings.Builder
	fmt.Fprintf(&out, "Minimize\n cost:\n%sSubject To\n", objective.String())
	for j := range rows {
		fmt.Fprintf(&out, " p%d:\n%s >= %d\n", j, rows[j].String(), p.Pieces[j].Count)
	}
	for k, s := range p.Stocks {
		if s.Available != cut.Unlimited && limits[k].Len() > 0 {
			fmt.Fprintf(&out, " s%d:\n%s <= %d\n", k, limits[k].String(), s.Available)
		}
	}
	fmt.Fprintf(&out, "General\n%sEnd\n", ints.String())
	return out.String()
}

var (
	cbcSays    = regexp.MustCompile(`(?m)^Optimal - objective value\s+([-0-9.e+]+)`)
	glpsolSays = regexp.MustCompile(`(?s)Status:\s+INTEGER OPTIMAL.*Objective:\s+\S+ = ([-0-9.e+]+)`)
)

// solve returns the least cost, or false if the solver gave up in its time.
func (m mixedInteger) solve(t testing.TB, lp string) (cost float64, ok bool) {
	t.Helper()
	dir := t.TempDir()
	in, out := filepath.Join(dir, "model.lp"), filepath.Join(dir, "out.txt")
	require.NoError(t, os.WriteFile(in, []byte(lp), 0o600))
	var cmd *exec.Cmd
	says := cbcSays
	if m.name == "cbc" {
		cmd = exec.Command(m.path, in, "seconds", "10", "solve", "solution", out)
	} else {
		cmd = exec.Command(m.path, "--lp", in, "--tmlim", "10", "-o", out)
		says = glpsolSays
	}
	log, err := cmd.CombinedOutput()
	require.NoError(t, err, "%s", log)
	answer, err := os.ReadFile(out)
	require.NoError(t, err, "%s", log)
	found := says.FindSubmatch(answer)
	if found == nil {
		return 0, false
	}
	cost, err = strconv.ParseFloat(string(found[1]), 64)
	require.NoError(t, err)
	return cost, true
}

// Fresh lists of the site's size cost what the reference solvers say.
func TestAgainstMixedInteger(t *testing.T) {
	solvers := referenceSolvers(t)
	t.Parallel()
	r := rand.New(rand.NewPCG(21, 34))
	for _, m := range solvers {
		judged := 0
		for range 12 {
			kinds := 3 + r.IntN(5)
			p := siteProblem(r, kinds, kinds+10+r.IntN(15), 1+r.IntN(4))
			l, err := cut.Solve(p)
			require.NoError(t, err)
			require.True(t, l.Proven)
			if want, ok := m.solve(t, model(p)); ok {
				judged++
				assert.InDelta(t, want, float64(l.Cost), 1e-3, "%s: %+v", m.name, p)
			}
		}
		require.Greater(t, judged, 6, "%s gave up too often to be a judge", m.name)
	}
}
