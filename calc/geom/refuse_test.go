package geom_test

import (
	"errors"
	"testing"

	"chargehand/calc"
	"chargehand/calc/geom"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func assertField(t *testing.T, err error, field string) {
	t.Helper()
	var domain *calc.DomainError
	require.True(t, errors.As(err, &domain), "want a domain error, got %v", err)
	assert.Equal(t, field, domain.Field, "%v", err)
	assert.NotEmpty(t, domain.Wanted)
}

func fourFree() []geom.Kind {
	return []geom.Kind{geom.Gutter, geom.Verge, geom.Verge, geom.Verge}
}

func TestOutlineRefusals(t *testing.T) {
	t.Parallel()
	square := []geom.Point{{X: 5000}, {}, {Y: 3000}, {X: 5000, Y: 3000}}
	for name, c := range map[string]struct {
		at    []geom.Point
		kinds []geom.Kind
		field string
	}{
		"two corners":   {square[:2], fourFree()[:2], "vertices"},
		"kinds missing": {square, fourFree()[:3], "edges"},
		"unknown kind":  {square, []geom.Kind{geom.Gutter, "hedge", geom.Verge, geom.Verge}, "edges[1]"},
		"anticlockwise": {[]geom.Point{square[3], square[2], square[1], square[0]}, fourFree(), "vertices"},
		"crossing":      {[]geom.Point{square[0], square[1], square[3], square[2]}, fourFree(), "edges[3]"},
		"too short":     {[]geom.Point{{X: 0.5}, {}, {Y: 3000}, {X: 0.5, Y: 3000}}, fourFree(), "edges[0]"},
		"too long":      {[]geom.Point{{X: 100001}, {}, {Y: 3000}, {X: 5000, Y: 3000}}, fourFree(), "edges[0]"},
		"not a number":  {[]geom.Point{{X: nan()}, {}, {Y: 3000}, {X: 5000, Y: 3000}}, fourFree(), "edges[0]"},
	} {
		_, err := geom.NewOutline(c.at, c.kinds)
		require.Error(t, err, name)
		assertField(t, err, c.field)
	}
	kinds := [4]geom.Kind(fourFree())
	_, err := geom.Rectangle(0, 3000, kinds)
	assertField(t, err, "length_mm")
	_, err = geom.Rectangle(5000, geom.MaxEdge+1, kinds)
	assertField(t, err, "depth_mm")
	_, err = geom.Rectangle(geom.MinEdge, geom.MaxEdge, kinds)
	assert.NoError(t, err, "the limits themselves belong to the domain")
}
