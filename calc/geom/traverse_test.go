package geom_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"chargehand/calc/geom"
	"chargehand/calc/unit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// bearing reads N76-00E, S75-23-18W (quadrant) and 226-54-23 (from north).
func bearing(t testing.TB, s string) unit.Angle {
	t.Helper()
	body := strings.Trim(s, "NSEW")
	deg, scale := 0.0, 1.0
	for _, part := range strings.Split(body, "-") {
		deg += number(t, part) / scale
		scale *= 60
	}
	switch {
	case strings.HasPrefix(s, "N") && strings.HasSuffix(s, "W"):
		deg = 360 - deg
	case strings.HasPrefix(s, "S") && strings.HasSuffix(s, "E"):
		deg = 180 - deg
	case strings.HasPrefix(s, "S") && strings.HasSuffix(s, "W"):
		deg = 180 + deg
	}
	return unit.Angle(deg) * unit.Degree
}

// The published traverses T1 (lecture slides, metres), T2 and T3 (J. Mahun,
// open-access surveying text, traverse adjustment solutions 1 and 2, feet).
// The books carry rounded components on, hence 0.003 of a unit.
func TestCompassRuleAgainstPublishedTraverses(t *testing.T) {
	t.Parallel()
	scale := map[string]unit.Length{"T1": unit.Metre, "T2": unit.Foot, "T3": unit.Foot}
	courses := map[string][]geom.Course{}
	printed := map[string][]map[string]string{}
	for _, row := range readCSV(t, "traverse.csv") {
		name := row["traverse"]
		courses[name] = append(courses[name], geom.Course{
			Length:  unit.Length(number(t, row["length"])) * scale[name],
			Bearing: bearing(t, row["bearing_or_azimuth"]),
		})
		printed[name] = append(printed[name], row)
	}
	require.Len(t, courses, 3)
	adjusted := map[string]geom.Traverse{}
	for name, c := range courses {
		tr, err := geom.Compass(c)
		require.NoError(t, err)
		adjusted[name] = tr
		var lat, dep unit.Length
		for i, row := range printed[name] {
			g := tr.Legs[i]
			near := func(want string, got unit.Length) {
				t.Helper()
				want, _, _ = strings.Cut(want, " ")
				if want != "" {
					assert.InDelta(t, number(t, want), got.In(scale[name]), 0.003, "%s %s", name, row["line"])
				}
			}
			near(row["lat_raw"], g.Latitude)
			near(row["dep_raw"], g.Departure)
			near(row["lat_adj"], g.AdjustedLatitude)
			near(row["dep_adj"], g.AdjustedDeparture)
			lat += g.AdjustedLatitude
			dep += g.AdjustedDeparture
		}
		assert.InDelta(t, 0, float64(lat), 1e-6)
		assert.InDelta(t, 0, float64(dep), 1e-6)
	}
	for _, row := range readCSV(t, "traverse-summary.csv") {
		name := row["traverse"]
		tr := adjusted[name]
		want := row["printed"]
		switch row["quantity"] {
		case "sum lat":
			assert.InDelta(t, number(t, want), tr.Latitude.In(scale[name]), 0.003)
			assert.InDelta(t, number(t, row["exact"]), tr.Latitude.In(scale[name]), 0.0001)
		case "sum dep":
			assert.InDelta(t, number(t, want), tr.Departure.In(scale[name]), 0.003)
			assert.InDelta(t, number(t, row["exact"]), tr.Departure.In(scale[name]), 0.0001)
		case "perimeter":
			assert.InDelta(t, number(t, want), tr.Perimeter.In(scale[name]), 1e-9)
		case "linear closure":
			assert.InDelta(t, number(t, want), tr.Misclosure.In(scale[name]), 0.003)
		case "precision 1 in":
			assert.InEpsilon(t, number(t, want), tr.Precision(), 0.01)
		case "adjusted A-B length":
			assert.InDelta(t, number(t, want), tr.Legs[0].Length().In(scale[name]), 0.003)
		case "adjusted D-A azimuth":
			assert.InDelta(t, bearing(t, want).In(unit.Degree), tr.Legs[3].Bearing().In(unit.Degree), 0.5/3600)
		default:
			t.Errorf("no check for %s", row["quantity"])
		}
	}
}

// A walk with bearings becomes a roof lying along its gutter, whichever way
// north was, and small gaps move every corner a little.
func TestTraverseBecomesARoof(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(7, 1))
	for range 200 {
		p := star(r, 4+r.IntN(5))
		noise := 1 + float64(r.IntN(2))*1e-4*r.Float64()
		var courses []geom.Course
		for i := range p {
			q := p[(i+1)%len(p)]
			dx, dy := float64(q.X-p[i].X), float64(q.Y-p[i].Y)
			courses = append(courses, geom.Course{Length: unit.Length(math.Hypot(dx, dy)), Bearing: unit.Angle(math.Atan2(dx, dy))})
		}
		courses[0].Length *= unit.Length(noise)
		tr, err := geom.Compass(courses)
		require.NoError(t, err)
		kinds := make([]geom.Kind, len(p))
		for i := range kinds {
			kinds[i] = geom.Verge
		}
		kinds[0] = geom.Gutter
		o, err := tr.Outline(kinds)
		require.NoError(t, err)
		assert.InEpsilon(t, float64(p.Area()), float64(o.Area()), 1e-3)
		assert.Equal(t, geom.Point{}, o.Vertices[1])
		assert.InDelta(t, 0, float64(o.Vertices[0].Y), 1e-9)
		assert.Positive(t, float64(o.Vertices[0].X))
		for i, e := range o.Edges {
			assert.InDelta(t, float64(tr.Legs[i].Length()), float64(e.Length), 1e-6)
		}
	}
}

func TestCompassTurnsWithTheBearings(t *testing.T) {
	t.Parallel()
	courses := []geom.Course{{Length: 5000, Bearing: 270 * unit.Degree}, {Length: 3000, Bearing: 1 * unit.Degree}, {Length: 5010, Bearing: 90 * unit.Degree}, {Length: 3000, Bearing: 180 * unit.Degree}}
	a, err := geom.Compass(courses)
	require.NoError(t, err)
	for i := range courses {
		courses[i].Bearing += 33 * unit.Degree
	}
	b, err := geom.Compass(courses)
	require.NoError(t, err)
	assert.InDelta(t, float64(a.Misclosure), float64(b.Misclosure), 1e-9)
	for i := range courses {
		assert.InDelta(t, float64(a.Legs[i].Length()), float64(b.Legs[i].Length()), 1e-9)
		turned := math.Mod((b.Legs[i].Bearing()-a.Legs[i].Bearing()).In(unit.Degree)+360, 360)
		assert.InDelta(t, 33, turned, 1e-9)
	}
}

func TestCompassRefusals(t *testing.T) {
	t.Parallel()
	good := []geom.Course{{Length: 1, Bearing: 0}, {Length: 1, Bearing: 2}, {Length: 1, Bearing: 4}}
	_, err := geom.Compass(good[:2])
	assertField(t, err, "courses")
	for _, c := range []geom.Course{{Length: 0}, {Length: nan()}, {Length: 1, Bearing: 721 * unit.Degree}, {Length: 1, Bearing: unit.Angle(math.NaN())}, {Length: unit.Length(math.Inf(1))}} {
		_, err := geom.Compass([]geom.Course{good[0], c, good[2]})
		assertField(t, err, "courses[1]")
	}
	_, err = geom.Traverse{}.Outline(nil)
	assertField(t, err, "courses")
	tr, err := geom.Compass(good)
	require.NoError(t, err)
	_, err = tr.Outline(fourFree())
	assertField(t, err, "edges")
}
