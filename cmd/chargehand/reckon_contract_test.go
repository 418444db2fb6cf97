package main

import (
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// contract is the keys that programs may rely on, by topic. "?" marks what may
// be left out, "[]" a list, "{}" an object of any keys. Keys are added to
// topics; these are never taken away or renamed.
var contract = []struct{ topic, in, out string }{
	{"span", "method b_mm h_mm grade centres_mm dead_kn_m2 imposed_kn_m2 point_kn? snow_kn_m2? clear_span_mm? bearing_mm? ceiling? deflection_limit? duration_factor?",
		"max_clear_span_mm governed_by utilisation{} status"},
	{"snow", "sk_kn_m2 zone altitude_m step_height_m? lower_width_m? upper_width_m? upper_pitch_deg?",
		"sk_kn_m2 mu1 mu2 drift_length_m undrifted_kn_m2 drift_kn_m2"},
	{"wind", "qp_kn_m2 length_m depth_m height_m parapet_m?",
		"zones[].name zones[].cpe10 zones[].cpe1 zones[].area_m2 zones[].uplift_kn_m2 total_uplift_kn straps{}"},
	{"joists", "length_mm board_length_mm joint_gap_mm joist_mm max_centres_mm",
		"centres_mm bays_per_board count marks_mm[] joint_bearing_mm"},
	{"deck", "row_length_mm depth_mm joist_spacing_mm? lines_mm[]? board_length_mm board_width_mm kerf_mm end_gap_mm row_gap_mm min_bays stagger strips[]? strips[].length_mm strips[].height_mm strips[].count",
		"boards rows[][] cuts[] lower_bound proven"},
	{"cut", "stock[].length_mm stock[].cost? stock[].available? pieces[].length_mm pieces[].count kerf_mm trim_mm?",
		"bars[].stock_mm bars[].pieces_mm[] bars[].offcut_mm count cost lower_bound proven"},
	{"sheet", "outline[]? length_mm? depth_mm? edges[] widths_mm[]? skew_mm?",
		"length_mm width_mm mass_kg allowances{} seams[]"},
	{"window", "method label_min label_c? max_min? surface_c other_surface_c? air_c rh_pct? damp? wind_m_s? wind? substrate job_factor?",
		"window_min ready_min? dead_min? by{}"},
	{"batch", "window_min hands rollers? factor? field_m2? fold_mm?",
		"area_m2 strip_mm batches direction oldest_min"},
	{"dew", "air_c rh_pct", "dew_point_c vapour_pressure_hpa"},
	{"go", "surface_c air_c rh_pct min_24h_c moisture_pct? wind_m_s gust_m_s rain_in_min? minutes_to_sunset? kind",
		"verdict reasons[]"},
	{"sun", "lat lon date zone", "sunrise sunset noon civil_dawn civil_dusk"},
	{"gutter", "area_m2 wall_area_m2? rainfall_l_s_m2 size_mm? length_m fall?",
		"flow_l_s capacity_l_s size_mm outlet_mm status"},
	{"fall", "depth_mm drop_mm? ratio?", "drop_mm ratio firrings_mm[]? status"},
	{"lead", "run_mm code width_mm lap_mm max_piece_mm?", "pieces piece_mm mass_kg movement_mm wedges clips"},
	{"fixings", "what run_mm", "count first_mm spacing_mm notes[]"},
	{"roof", "length_mm? depth_mm? sides_mm[]? diagonals_mm[]? walk[]? edges[]? pipes[]? rooflights[]?", "area_m2"},
	{"list", "plate_runs_mm[]?", "lines[] missing[]"},
	{"choose", "clear_span_mm dead_kn_m2", "found best"},
	{"fastener", "method kind", "shear_kn withdrawal_kn"},
	{"pressure", "vb_m_s terrain height_m", "qp_kn_m2"},
	{"regions", "walk[]? sides_mm[]? diagonals_mm[]? board_length_mm joint_gap_mm joist_mm max_centres_mm", "centres_mm count"},
	{"standing", "measured_mm[] joist_mm joint_gap_mm max_centres_mm length_mm depth_mm board_length_mm board_width_mm", "options[]"},
	{"levels", "centres_mm[] stations_mm[] tops_mm[][]", "ok low[] high[] flat[] ponds[]"},
	{"front", "fascia_mm batten_mm trim_mm gutter_mm", "drip_mm reach"},
	{"chase", "joint_mm length_mm drop_mm?", "chase_mm rubber_mm steps[]"},
	{"coping", "wall_mm coping_mm outside_mm throat_mm run_mm piece_mm", "inside_mm pieces dpc_mm ok"},
}

// enums are words of the contract that must be among those a key takes.
var enums = []struct{ topic, key, words string }{
	{"span", "method", "ec5,bs5268,nds"},
	{"span", "out.status", "within,close,over"},
	{"window", "method", "wet,contact"},
	{"go", "out.verdict", "go,care,stop"},
	{"gutter", "out.status", "within,close,over"},
	{"fall", "out.status", "within,close,over"},
	{"fixings", "what", "plate,ledger,bar,trim,upstand board"},
}

func topicNamed(t testing.TB, name string) reckonTopic {
	t.Helper()
	topics := reckonTopics()
	i := slices.IndexFunc(topics, func(r reckonTopic) bool { return r.name == name })
	require.GreaterOrEqual(t, i, 0, "no topic %s", name)
	return topics[i]
}

func TestReckonContract(t *testing.T) {
	t.Parallel()
	require.Len(t, reckonTopics(), len(contract), "a topic without a line in the contract")
	for _, c := range contract {
		in, out, _ := schemas(topicNamed(t, c.topic))
		for _, side := range []struct {
			keys   string
			schema map[string]any
		}{{c.in, in}, {c.out, out}} {
			for _, key := range strings.Fields(side.keys) {
				path, optional := strings.CutSuffix(key, "?")
				if assert.NotNil(t, find(side.schema, path), "%s: %s", c.topic, key) && optional && !strings.ContainsAny(path, ".[") {
					assert.NotContains(t, side.schema["required"], path, "%s: %s may be left out", c.topic, key)
				}
			}
		}
	}
	for _, e := range enums {
		schema, out, _ := schemas(topicNamed(t, e.topic))
		key, isOut := strings.CutPrefix(e.key, "out.")
		if isOut {
			schema = out
		}
		for _, word := range strings.Split(e.words, ",") {
			assert.Contains(t, find(schema, key)["enum"], word, "%s: %s", e.topic, e.key)
		}
	}
}

// TestReckonIsWhole: every topic that calc answers is a command.
func TestReckonIsWhole(t *testing.T) {
	t.Parallel()
	found := 0
	files, err := filepath.Glob(filepath.Join("..", "..", "calc", "*", "*.go"))
	require.NoError(t, err)
	for _, file := range files {
		src, err := os.ReadFile(file)
		require.NoError(t, err)
		for _, m := range regexp.MustCompile(`(?m)^func Reckon([A-Z]\w*)\(`).FindAllSubmatch(src, -1) {
			found++
			topicNamed(t, strings.ToLower(string(m[1])))
		}
	}
	assert.Equal(t, found, len(reckonTopics()))
}

// TestReckonFindsNothing: the contract test can fail.
func TestReckonFindsNothing(t *testing.T) {
	t.Parallel()
	in, out, _ := schemas(topicNamed(t, "cut"))
	for _, path := range []string{"stok", "stock.length_mm", "stock[0].length", "kerf_mm[0]", ""} {
		assert.Nil(t, find(in, path), path)
	}
	assert.NotNil(t, find(in, "stock[3].length_mm"))
	assert.Nil(t, find(out, "bars[][]"))
}

// unitless are the numbers of topics that are pure ratios, codes, classes,
// degrees of arc or counts of what their name says.
var unitless = strings.Fields(`deflection_limit duration_factor psi2 service_class zone min_bays stagger budget count cost
	job_factor hands rollers factor ratio fall code lat lon price size mitres available
	anchors straps hanger_ends plate_ends hanger_holes board_lines specific_gravity boards deck_screws corners pipes trim_corners trim_ends
	orographic price_board price_timber_m price_hour outlets batches minutes_to_sunset tower_days`)

// TestReckonKeysCarryUnits: a number that goes in has its unit in its key, or
// its key stands in the list above.
func TestReckonKeysCarryUnits(t *testing.T) {
	t.Parallel()
	used := map[string]bool{}
	var walk func(topic string, typ reflect.Type)
	walk = func(topic string, typ reflect.Type) {
		for _, k := range reckonKeys(typ) {
			assert.NotEmpty(t, k.name, "%s: a field of %s has no key", topic, typ)
			assert.NotEmpty(t, k.doc, "%s: %s is not explained", topic, k.name)
			e := k.typ
			for e.Kind() == reflect.Slice {
				e = e.Elem()
			}
			switch e.Kind() {
			case reflect.Struct:
				walk(topic, e)
			case reflect.Float64, reflect.Int:
				used[k.name] = true
				assert.True(t, unitOf(k.name) != "" || slices.Contains(unitless, k.name), "%s: %s carries no unit", topic, k.name)
			}
		}
	}
	for _, topic := range reckonTopics() {
		walk(topic.name, topic.in)
	}
	for _, name := range unitless {
		assert.True(t, used[name], "%s is no key any more", name)
	}
}
