package takeoff_test

import (
	"encoding/json"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc/takeoff"
)

func reckon(t *testing.T, in string) (takeoff.ListOut, error) {
	t.Helper()
	var v takeoff.ListIn
	d := json.NewDecoder(strings.NewReader(in))
	d.DisallowUnknownFields()
	require.NoError(t, d.Decode(&v), in)
	return takeoff.ReckonList(v)
}

// The three-wall sheet through the topic gives the lines of the sheet.
const threeWallsJSON = `{
	"plate_runs_mm":[5400,5400],"dpc_runs_mm":[],"anchor_runs_mm":[5400,5400],"resin_hole_d_mm":12,"resin_hole_depth_mm":70,
	"strap_runs_mm":[],"lateral_runs_mm":[3200],"hanger_ends":30,"plate_ends":0,"hanger_holes":12,
	"joists":[{"count":15,"length_mm":3106}],"noggins":[{"count":2,"length_mm":4695}],"strutting":[],"firrings":[],
	"boards":8,"deck_area_m2":17.28,"deck_edge":"square","battens_mm":[3200],"fascias_mm":[3200],"corners":0,
	"upstands":[{"run_mm":5400,"height_mm":178},{"run_mm":3200,"height_mm":178},{"run_mm":5400,"height_mm":178}],
	"sheet_length_mm":3700,"sheet_width_mm":5800,"field_m2":14.79,"contact_m2":4.91,
	"patches":[{"count":2,"length_mm":200,"width_mm":200}],"pipes":1,"patch_edge_mm":5600,"bar_runs_mm":[5400,3200,5400],
	"trims":[{"run_mm":3200}],"trim_corners":0,"trim_ends":2,"gutter_runs_mm":[3200],"outlets":1,"downpipe_mm":2400,
	"lead":[{"run_mm":5400,"width_mm":150},{"run_mm":3200,"width_mm":150},{"run_mm":5400,"width_mm":150}],"chase_runs_mm":[5400,3200,5400],
	"deck_length_mm":3200,"deck_width_mm":5400,"batches":4,"tower_days":3.5,"rubbish_m3":3}`

func TestReckonTheWorkedSheet(t *testing.T) {
	t.Parallel()
	out, err := reckon(t, threeWallsJSON)
	require.NoError(t, err)
	bill, err := takeoff.List(threeWalls())
	require.NoError(t, err)
	assert.Empty(t, out.Missing)
	require.Len(t, out.Lines, len(bill.Lines))
	for i, l := range bill.Lines {
		got := out.Lines[i]
		assert.Equal(t, l.Key, got.Line)
		assert.InDelta(t, l.Needed, got.Needed, 1e-9, l.Key)
		assert.InDelta(t, l.ToBuy, got.ToBuy, 1e-9, l.Key)
		assert.Equal(t, written(l.Packs), written(got.Packs), l.Key)
		assert.Equal(t, l.Tight, got.Tight, l.Key)
		assert.Nil(t, got.Cost)
		assert.NotNil(t, got.Packs)
	}
	assert.Len(t, out.Unpriced, len(out.Lines))
	keys := 0
	for _, g := range out.Groups {
		keys += len(g.Lines)
	}
	assert.Equal(t, len(out.Lines), keys)
	_, err = json.Marshal(out)
	require.NoError(t, err)
}

// A pack size and price of the builder's own, and a delivery that is short.
func TestReckonPacksAndDelivery(t *testing.T) {
	t.Parallel()
	out, err := reckon(t, `{"field_m2":14.79,"packs":[{"line":"deck-adhesive","sizes":[{"size":2.5,"price":24.5},{"size":5,"price":39.99}]}],
		"delivered":[{"line":"deck-adhesive","packs":[{"size":5,"count":1}]}]}`)
	require.NoError(t, err)
	for _, l := range out.Lines {
		if l.Line != takeoff.DeckAdhesive {
			continue
		}
		assert.Equal(t, "5x1 2.5x1", written(l.Packs))
		assert.InDelta(t, 64.49, *l.Cost, 1e-9)
		assert.Equal(t, takeoff.IntoWaste, *l.Arrived)
		assert.Equal(t, "2.5x1", written(l.ToGet))
	}
	assert.InDelta(t, 64.49, out.Priced, 1e-9)
	assert.Nil(t, out.Cost)
	assert.NotContains(t, out.Unpriced, takeoff.DeckAdhesive)
	assert.Contains(t, out.Missing, takeoff.JoistTimber)
}

func TestReckonDeliveryOfOneWidth(t *testing.T) {
	t.Parallel()
	out, err := reckon(t, `{"lead":[{"run_mm":3200,"width_mm":150},{"run_mm":3200,"width_mm":240}],
		"delivered":[{"line":"lead","size_mm":240,"packs":[{"size":3,"count":1}]}]}`)
	require.NoError(t, err)
	for _, l := range out.Lines {
		if l.Line != takeoff.LeadSheet {
			continue
		}
		if l.SizesMM[0] == 150 {
			assert.Nil(t, l.Arrived)
		} else {
			assert.Equal(t, takeoff.Short, *l.Arrived)
		}
	}
}

// An empty list is none needed; a key left out is not known.
func TestReckonNoneIsNotUnknown(t *testing.T) {
	t.Parallel()
	out, err := reckon(t, `{"bar_runs_mm":[]}`)
	require.NoError(t, err)
	assert.NotContains(t, out.Missing, takeoff.Bar)
	out, err = reckon(t, `{}`)
	require.NoError(t, err)
	assert.Contains(t, out.Missing, takeoff.Bar)
}

func TestReckonListRefuses(t *testing.T) {
	t.Parallel()
	for in, field := range map[string]string{
		`{"deck_edge":"butt"}`:                   "deck_edge",
		`{"sheet_length_mm":3700}`:               "sheet_width_mm",
		`{"sheet_width_mm":3700}`:                "sheet_length_mm",
		`{"deck_length_mm":3700}`:                "deck_width_mm",
		`{"resin_hole_d_mm":12}`:                 "resin_hole_depth_mm",
		`{"packs":[{"line":"rope","sizes":[]}]}`: "packs",
		`{"packs":[{"line":"deck-screws","sizes":[{"size":200,"price":-1}]}]}`:                    "packs",
		`{"deck_screws":400,"packs":[{"line":"deck-screws","sizes":[{"size":0}]}]}`:               "packs",
		`{"delivered":[{"line":"rope","packs":[]}]}`:                                              "delivered",
		`{"deck_screws":400,"delivered":[{"line":"deck-screws","packs":[{"size":0,"count":1}]}]}`: "delivered",
		`{"field_m2":-1}`:   "field_m2",
		`{"rubbish_m3":-1}`: "rubbish_m3",
	} {
		_, err := reckon(t, in)
		if assert.Error(t, err, in) {
			assertDomain(t, err, field)
		}
	}
}

// Every key a line can have is one whose packs and prices can be told.
func TestReckonKnowsItsKeys(t *testing.T) {
	t.Parallel()
	for _, in := range []takeoff.Input{fourFreeEdges(), threeWalls()} {
		bill, err := takeoff.List(in)
		require.NoError(t, err)
		for _, l := range bill.Lines {
			_, err := takeoff.ReckonList(takeoff.ListIn{Packs: []takeoff.ListPacks{{Line: string(l.Key), Sizes: []takeoff.ListSize{{Size: 1}}}}})
			assert.NoError(t, err, l.Key)
		}
	}
}

func TestReckonListSchema(t *testing.T) {
	t.Parallel()
	for _, v := range []any{takeoff.ListIn{}, takeoff.ListOut{}, takeoff.ListPiece{}, takeoff.ListUpstand{}, takeoff.ListPatch{}, takeoff.ListTrim{},
		takeoff.ListLead{}, takeoff.ListPacks{}, takeoff.ListSize{}, takeoff.ListDelivery{}, takeoff.ListLine{}, takeoff.ListGroup{}, takeoff.Pack{}} {
		typ := reflect.TypeOf(v)
		for i := range typ.NumField() {
			assert.NotEmpty(t, typ.Field(i).Tag.Get("json"), typ.Field(i).Name)
			assert.NotEmpty(t, typ.Field(i).Tag.Get("doc"), typ.Field(i).Name)
		}
	}
}

func FuzzReckonList(f *testing.F) {
	f.Add(threeWallsJSON)
	f.Add(`{"field_m2":14.79,"packs":[{"line":"deck-adhesive","sizes":[{"size":2.5,"price":24.5}]}],"delivered":[{"line":"deck-adhesive","packs":[{"size":5,"count":1}]}]}`)
	f.Add(`{"trims":[{"run_mm":5020,"mitres":1}],"packs":[{"line":"trim","sizes":[{"size":5}]}]}`)
	f.Add(`{"lead":[{"run_mm":1010,"width_mm":150}]}`)
	f.Fuzz(func(t *testing.T, s string) {
		var in takeoff.ListIn
		if json.Unmarshal([]byte(s), &in) != nil {
			return
		}
		out, err := takeoff.ReckonList(in)
		if err != nil {
			return
		}
		_, err = json.Marshal(out)
		require.NoError(t, err)
		for _, l := range out.Lines {
			require.InDelta(t, l.ToBuy, l.Needed+l.Waste+l.LeftOver, 1e-6*(1+l.ToBuy), l.Line)
			require.GreaterOrEqual(t, l.LeftOver, -1e-6, l.Line)
		}
	})
}
