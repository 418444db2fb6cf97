package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestReckonExamples runs the example of each topic as people type it and as
// programs write it: the same answer, and one that obeys the schema.
func TestReckonExamples(t *testing.T) {
	t.Parallel()
	for _, topic := range reckonTopics() {
		code, people, stderr := reckoned("", append([]string{topic.name}, topic.example...)...)
		require.Equal(t, exitOK, code, "%s: %s", topic.name, stderr)
		assert.Empty(t, stderr, topic.name)
		understood, answer, ok := strings.Cut(people, "\n\n")
		require.True(t, ok, people)

		in, out, _ := schemas(topic)
		examples := in["examples"].([]any)
		require.Len(t, examples, 1)
		assert.Empty(t, conforms(in, examples[0], topic.name))
		raw, err := json.Marshal(examples[0])
		require.NoError(t, err)
		code, stdout, stderr := reckoned(string(raw), topic.name, "--json")
		require.Equal(t, exitOK, code, "%s: %s", topic.name, stdout)
		assert.Empty(t, stderr, topic.name)
		told := oneObject(t, stdout)
		assert.Empty(t, conforms(out, told, topic.name), stdout)

		for key := range examples[0].(map[string]any) {
			assert.Regexp(t, `(?m)^`+key+` `, understood, "%s: what was understood", topic.name)
		}
		for _, k := range reckonKeys(topic.out) {
			if k.required {
				assert.Regexp(t, `(?m)^`+k.name+`[ .]`, answer, topic.name)
				assert.Contains(t, told, k.name, topic.name)
			}
		}
	}
}

// TestReckonHelp: every example is in the help, every key in that of its topic.
func TestReckonHelp(t *testing.T) {
	t.Parallel()
	code, list, _ := reckoned("")
	assert.Equal(t, exitOK, code)
	topics := reckonTopics()
	assert.Len(t, strings.Split(strings.TrimSpace(list), "\n"), len(topics))
	code, help, _ := reckoned("", "--help")
	assert.Equal(t, exitOK, code)
	for _, topic := range topics {
		assert.Regexp(t, `(?m)^`+topic.name+` +`+topic.says[:10], list)
		assert.Contains(t, help, topic.exampleLine())
		code, own, stderr := reckoned("", topic.name, "--help")
		assert.Equal(t, exitOK, code, stderr)
		assert.Contains(t, own, topic.exampleLine())
		for _, k := range append(reckonKeys(topic.in), reckonKeys(topic.out)...) {
			assert.Regexp(t, `(?m)^  `+k.name+`( |$)`, own, topic.name)
		}
		code, _, _ = reckoned("", topic.name, "--schema")
		assert.Equal(t, exitOK, code)
	}
}

// TestReckonSchemaIsValid checks a schema against hand-made inputs, so that the
// small validator of these tests is itself seen to refuse.
func TestReckonSchemaIsValid(t *testing.T) {
	t.Parallel()
	in, _, no := schemas(topicNamed(t, "cut"))
	for input, ok := range map[string]bool{
		`{"stock":[{"length_mm":4800}],"pieces":[{"length_mm":1000,"count":2}],"kerf_mm":3}`:               true,
		`{"stock":[{"length_mm":4800}],"pieces":[{"length_mm":1000,"count":2.5}],"kerf_mm":3}`:             false,
		`{"stock":[{"length_mm":4800}],"pieces":[{"length_mm":1000}],"kerf_mm":3}`:                         false,
		`{"stock":[{"length_mm":4800}],"pieces":[{"length_mm":1000,"count":2}]}`:                           false,
		`{"stock":[{"length_mm":"4800"}],"pieces":[{"length_mm":1000,"count":2}],"kerf_mm":3}`:             false,
		`{"stock":{},"pieces":[{"length_mm":1000,"count":2}],"kerf_mm":3}`:                                 false,
		`{"stock":[{"length_mm":4800}],"pieces":[{"length_mm":1000,"count":2}],"kerf_mm":-1}`:              false,
		`{"stock":[{"length_mm":4800,"colour":1}],"pieces":[{"length_mm":1000,"count":2}],"kerf_mm":3}`:    false,
		`{"stock":[{"length_mm":4800}],"pieces":[{"length_mm":1000,"count":2}],"kerf_mm":3,"trim_mm":1e9}`: false,
	} {
		var v any
		require.NoError(t, json.Unmarshal([]byte(input), &v))
		assert.Equal(t, ok, conforms(in, v, "cut") == "", input)
		code, _, _ := reckoned(input, "cut", "--json")
		assert.Equal(t, ok, code == exitOK, input)
	}
	for answer, ok := range map[string]bool{
		`{"error":{"field":"b_mm","got":1,"wanted":"2"}}`:         true,
		`{"error":{"field":"b_mm","got":null,"wanted":"2"}}`:      true,
		`{"error":{"field":"b_mm","wanted":"2"}}`:                 false,
		`{"error":{"field":"b_mm","got":1,"wanted":"2"},"out":1}`: false,
	} {
		var v any
		require.NoError(t, json.Unmarshal([]byte(answer), &v))
		assert.Equal(t, ok, conforms(no, v, "error") == "", answer)
	}
}

// answered reckons key=value words by way of --json.
func answered(t *testing.T, topic, input string) map[string]any {
	t.Helper()
	code, stdout, stderr := reckoned(input, topic, "--json")
	require.Equal(t, exitOK, code, "%s%s", stdout, stderr)
	return oneObject(t, stdout)
}

// TestReckonPublished: figures as others print them come out of the command.
func TestReckonPublished(t *testing.T) {
	t.Parallel()
	number := func(m map[string]any, key string) float64 { return m[key].(float64) }

	// University of Miami humidity page: 20 °C and 50 % give 9.26 °C. Half of
	// 2333 Pa, which is 17.5 mmHg as clinical tables print it for 20 °C.
	dew := answered(t, "dew", `{"air_c":20,"rh_pct":50}`)
	assert.InDelta(t, 9.26, number(dew, "dew_point_c"), 0.05)
	assert.InEpsilon(t, 23.33/2, number(dew, "vapour_pressure_hpa"), 0.005)

	// Benoit, Legrand, Tastet, Calcul de structures en bois (2008), example
	// 2.3.1: C24 75 x 200 at 0.5 m, span 4.5 m, g 0.5 and q 1.5 kN/m², medium
	// term: bending ratio 0.45573, w_inst,q 7.501 mm. Its g holds the joist,
	// ours is told without.
	span := `{"method":"ec5","b_mm":75,"h_mm":200,"grade":"C24","centres_mm":500,"dead_kn_m2":%g,"imposed_kn_m2":1.5,"point_kn":0,"load_duration":"medium","service_class":1,"clear_span_mm":4450,"bearing_mm":50}`
	own := number(answered(t, "span", fmt.Sprintf(span, 0.3)), "own_weight_kn_m")
	judged := answered(t, "span", fmt.Sprintf(span, 0.5-own/0.5))
	assert.InDelta(t, 4500, number(judged, "design_span_mm"), 0)
	assert.InEpsilon(t, 0.45573, number(judged["utilisation"].(map[string]any), "bending"), 1e-4)
	for _, c := range judged["conditions"].([]any) {
		if row := c.(map[string]any); row["name"] == "deflection_instant" {
			assert.InEpsilon(t, 7.501, number(row, "demand"), 1e-4)
		}
	}

	// Steel Buildings in Europe part 3, appendix A: a 3 m step, 10 m below and
	// 40 m above, s_k 0.65: μ 4.0 over 6.0 m, 2.6 kN/m².
	snow := answered(t, "snow", `{"sk_kn_m2":0.65,"step_height_m":3,"lower_width_m":10,"upper_width_m":40}`)
	assert.InDelta(t, 4, number(snow, "mu2"), 0.001)
	assert.InDelta(t, 6, number(snow, "drift_length_m"), 0.001)
	assert.InDelta(t, 2.6, number(snow, "drift_kn_m2"), 0.001)
	assert.InDelta(t, 0.52, number(snow, "undrifted_kn_m2"), 0.001)

	// One metre of lead of code 4, a metre wide: 20.41 kg (college plumbing
	// notes on EN 12588; 11.34 g/cm³ x 1.8 mm); 2 m over 45 K move 2.67 mm
	// (Building Construction Handbook, 8th ed.), so 1 m moves half of that.
	lead := answered(t, "lead", `{"run_mm":1000,"code":4,"width_mm":1000,"lap_mm":100}`)
	assert.InDelta(t, 1, number(lead, "pieces"), 0)
	assert.InDelta(t, 20.41, number(lead, "mass_kg"), 0.01)
	assert.InDelta(t, 2.67/2, number(lead, "movement_mm"), 0.005)

	// London almanac, 1 December 2015, UTC: sunrise 07:43:17, sunset 15:55:13,
	// noon 11:49; a minute either way.
	sun := answered(t, "sun", `{"lat":51.5,"lon":-0.1167,"date":"2015-12-01","zone":"Europe/London"}`)
	assert.Contains(t, []any{"07:42", "07:43", "07:44"}, sun["sunrise"])
	assert.Contains(t, []any{"15:54", "15:55", "15:56"}, sun["sunset"])
	assert.Contains(t, []any{"11:48", "11:49", "11:50"}, sun["noon"])
}

// TestReckonZones: the same sun by the clocks of three zones, summer time and a
// half hour included; places without a clock are refused.
func TestReckonZones(t *testing.T) {
	t.Parallel()
	noon := func(zone, date string) string {
		return answered(t, "sun", fmt.Sprintf(`{"lat":51.5,"lon":0,"date":%q,"zone":%q}`, date, zone))["noon"].(string)
	}
	minutes := func(s string) (m int) {
		var h int
		_, err := fmt.Sscanf(s, "%d:%d", &h, &m)
		require.NoError(t, err)
		return 60*h + m
	}
	utc := minutes(noon("UTC", "2026-06-21"))
	assert.Equal(t, utc+60, minutes(noon("Europe/London", "2026-06-21")))
	assert.Equal(t, utc+330, minutes(noon("Asia/Kolkata", "2026-06-21")))
	assert.Equal(t, noon("UTC", "2026-12-21"), noon("Europe/London", "2026-12-21"))
	for _, zone := range []string{"", "Local", "Mars", "Europe", "../etc/passwd", "/etc/localtime", "europe/london\x00", "GMT+25"} {
		raw, err := json.Marshal(map[string]any{"lat": 1, "lon": 1, "date": "2026-06-21", "zone": zone})
		require.NoError(t, err)
		code, stdout, _ := reckoned(string(raw), "sun", "--json")
		assert.Equal(t, exitUsage, code, zone)
		assert.Contains(t, stdout, `"field":"zone"`, zone)
	}
}

// TestReckonHears: what people type for a key, and the number it stands for.
// Bare numbers in keys of a plan are metres below thirty, else millimetres; in
// keys of a section millimetres.
func TestReckonHears(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		topic, key, text string
		want             any
	}{
		{"span", "clear_span_mm", "3.4", 3400.0},
		{"span", "clear_span_mm", "3,4", 3400.0},
		{"span", "clear_span_mm", "3400", 3400.0},
		{"span", "clear_span_mm", "3.4 m", 3400.0},
		{"span", "clear_span_mm", "11ft 2in", 3403.6},
		{"span", "clear_span_mm", "300", 300.0}, // the chat would ask mm or cm; the key says mm
		{"span", "clear_span_mm", "3412.375", 3412.375},
		{"span", "extra_from_mm", "25", 25.0}, // 25 m would be too long
		{"span", "h_mm", "19.5cm", 195.0},
		{"span", "h_mm", "195", 195.0},
		{"span", "b_mm", "2in", 50.8},
		{"joists", "joint_gap_mm", "3", 3.0},
		{"sheet", "skew_mm", "-40", -40.0},
		{"snow", "altitude_m", "80", 80.0},
		{"snow", "altitude_m", "250 ft", 76.2},
		{"go", "surface_c", "60", 60.0}, // the chat would ask °C or °F
		{"go", "surface_c", "68 F", 20.0},
		{"go", "wind_m_s", "5", 5.0},
		{"go", "wind_m_s", "36 km/h", 10.0},
		{"go", "rh_pct", "70%", 70.0},
		{"go", "rain_in_min", "2h", 120.0},
		{"gutter", "area_m2", "20 m2", 20.0},
		{"gutter", "fall", "1:500", 0.002},
		{"gutter", "fall", "0.002", 0.002},
		{"fall", "ratio", "1/40", 0.025},
		{"fall", "ratio", "2.5%", 0.025},
		{"fall", "ratio", "1:8", 0.125},
		{"fall", "ratio", "8", 8.0}, // the topic reads it as 1 in 8
		{"sun", "lon", "-0.12", -0.12},
		{"lead", "code", "four", 4.0},
		{"lead", "exposed", "yes", true},
		{"lead", "exposed", "false", false},
		{"go", "kind", "Wet", "wet"},
		{"deck", "lines_mm", "0,400, 800,1.2m", []any{0.0, 400.0, 800.0, 1200.0}},
		{"deck", "lines_mm", "[0,400]", []any{0.0, 400.0}},
		{"deck", "lines_mm", "", []any{}},
		{"sheet", "edges", "gutter, Wall", []any{"gutter", "wall"}},
	} {
		var key reckonKey
		for _, k := range reckonKeys(topicNamed(t, c.topic).in) {
			if k.name == c.key {
				key = k
			}
		}
		require.NotEmpty(t, key.name, c.key)
		v, r := key.hearAll(c.text)
		if !assert.Nil(t, r, "%s=%s", c.key, c.text) {
			continue
		}
		raw, err := json.Marshal(v)
		require.NoError(t, err)
		var heard any
		require.NoError(t, json.Unmarshal(raw, &heard))
		if f, ok := heard.(float64); ok {
			assert.InDelta(t, c.want, f, 1e-9*math.Max(1, math.Abs(f)), "%s=%s", c.key, c.text)
			continue
		}
		assert.Equal(t, c.want, heard, "%s=%s", c.key, c.text)
	}
}

// TestReckonRefusesPeople: heard, wanted, example on stderr, nothing on stdout,
// exit 2.
func TestReckonRefusesPeople(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ args, heard, wanted, example string }{
		{"spam", "spam", "roof, snow", "chargehand reckon roof"},
		{"dew air_c", "air_c", "key=value", "chargehand reckon dew air_c=20 rh_pct=50"},
		{"dew", "nothing", "a number, -45 to 60 °C: air temperature", "air_c=20"},
		{"dew air_c=20", "nothing", "1 to 100 %", "rh_pct=50"},
		{"dew air_c=20 air_c=21", "21", "each key once", "air_c=20"},
		{"dew air=20", "20", "a key among air_c, rh_pct", "chargehand reckon dew"},
		{"dew air_c=warm", "warm", "-45 to 60 °C", "air_c=20"},
		{"dew air_c=NaN", "NaN", "-45 to 60 °C", "air_c=20"},
		{"dew air_c=1e1", "1e1", "-45 to 60 °C", "air_c=20"},
		{"dew air_c=0x14", "0x14", "-45 to 60 °C", "air_c=20"},
		{"dew air_c=", "", "-45 to 60 °C", "air_c=20"},
		{"span h_mm=17m", "17m", "60 to 400 mm", "h_mm=195"},
		{"span method=oak", "oak", "ec5, bs5268 or nds", "method=ec5"},
		{"lead code=4.5", "4.5", "a whole number, 3 to 8", "code=4"},
		{"lead exposed=maybe", "maybe", "yes or no", "chargehand reckon lead"},
		{"gutter area_m2=1,234", "1,234", "1.234 m² or 1234 m²: say which", "area_m2=19.4"},
		{"cut stock=long", "long", "a list, each an object {length_mm, cost, available}", "stock="},
		{`cut stock=[{"length_mm":"x"}]`, "x", "a number, 0.1 to 100000 mm", "stock="},
		{`cut stock=[{"length_mm":1,"length_mm":1}]`, "1", "each key once", "stock="},
		{"roof sides_mm=5.4m,nope", "nope", "a number of mm", "sides_mm="},
		{"dew --schema air_c=1", "air_c=1", "no key=value beside", "chargehand reckon dew"},
	} {
		code, stdout, stderr := reckoned("", strings.Fields(c.args)...)
		assert.Equal(t, exitUsage, code, c.args)
		assert.Empty(t, stdout, c.args)
		lines := strings.Split(stderr, "\n")
		require.Len(t, lines, 5, stderr)
		assert.Equal(t, "  heard    "+c.heard, lines[1], c.args)
		assert.Contains(t, lines[2], c.wanted, c.args)
		assert.Contains(t, lines[3], "  example  "+c.example, c.args)
	}
}

// TestReckonRefusesPrograms: the error object to the letter.
func TestReckonRefusesPrograms(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ args, input, want string }{
		{"dew --json", `{"air_c":20}`, `{"error":{"field":"rh_pct","got":null,"wanted":"a number, 1 to 100 %: relative humidity, %"}}`},
		{"dew --json", `{"air_c":20,"rh":50}`, `{"error":{"field":"rh","got":50,"wanted":"a key among air_c, rh_pct"}}`},
		{"dew --json", `{"air_c":"20","rh_pct":50}`, `{"error":{"field":"air_c","got":"20","wanted":"a number, -45 to 60 °C"}}`},
		{"dew --json", `{"air_c":20,"rh_pct":150}`, `{"error":{"field":"rh_pct","got":150,"wanted":"a number, 1 to 100 %"}}`},
		{"dew --json", `{"air_c":1e999,"rh_pct":50}`, `{"error":{"field":"air_c","got":"1e999","wanted":"a number, -45 to 60 °C"}}`},
		{"dew --json", `{"air_c":20,"air_c":20,"rh_pct":50}`, `{"error":{"field":"air_c","got":20,"wanted":"each key once"}}`},
		{"dew --json", `[]`, `{"error":{"field":"","got":"a list of 0","wanted":"one JSON object"}}`},
		{"dew --json", ``, `{"error":{"field":"","got":null,"wanted":"one JSON object"}}`},
		{"dew --json", `{}{}`, `{"error":{"field":"","got":"{}{","wanted":"one JSON value; byte 3: invalid character '{' after top-level value"}}`},
		{"dew --json air_c=1", ``, `{"error":{"field":"","got":"air_c=1","wanted":"no key=value beside --json or --schema"}}`},
		{"cut --json", `{"stock":[{"length_mm":0}]}`, `{"error":{"field":"stock[0].length_mm","got":0,"wanted":"a number, 0.1 to 100000 mm"}}`},
		{"sun --json", `{"lat":1,"lon":1,"date":"2023-02-29","zone":"UTC"}`, `{"error":{"field":"date","got":"2023-02-29","wanted":"a day of 1901 to 2099, as 2026-06-21"}}`},
		{"span --json", `{"method":"ec5","b_mm":47,"h_mm":195,"grade":"oak","centres_mm":400,"dead_kn_m2":0.5}`, `{"error":{"field":"grade","got":"oak",`},
		{"--json", `{}`, `{"error":{"field":"topic","got":null,"wanted":"roof, snow`},
		{"spam --json", `{}`, `{"error":{"field":"topic","got":"spam","wanted":"roof, snow`},
	} {
		code, stdout, stderr := reckoned(c.input, strings.Fields(c.args)...)
		assert.Equal(t, exitUsage, code, c.input)
		assert.Empty(t, stderr, c.input)
		if strings.HasSuffix(c.want, "}}") {
			assert.Equal(t, c.want+"\n", stdout)
		} else {
			assert.True(t, strings.HasPrefix(stdout, c.want), stdout)
		}
	}
}

// TestReckonTellsPeople: numbers as one writes them, lists on one line.
func TestReckonTellsPeople(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		v    float64
		unit string
		want string
	}{
		{5400, "mm", "5400"}, {407.1666, "mm", "407.17"}, {-0.001, "mm", "0"}, {0.02, "mm", "0.02"},
		{0.0208, "l/s per m²", "0.0208"}, {0.000123456, "", "0.0001235"}, {19.4512, "m²", "19.451"}, {1e-15, "", "0"}, {0, "", "0"}, {-1.8, "", "-1.8"}, {21600, "", "21600"},
	} {
		assert.Equal(t, c.want, rounded(c.v, c.unit), "%v %s", c.v, c.unit)
	}
	_, stdout, _ := reckoned("", "joists", "length_mm=2.4m", "board_length_mm=1200", "joint_gap_mm=0", "joist_mm=50", "max_centres_mm=600")
	assert.Contains(t, stdout, "length_mm        2400 mm\n")
	assert.Contains(t, stdout, "\nmarks_mm          25, 600, 1200, 1800, 2375 mm\n")
	_, stdout, _ = reckoned("", "cut", `stock=[{"length_mm":2000}]`, `pieces=[{"length_mm":900,"count":2}]`, "kerf_mm=3")
	assert.Contains(t, stdout, "\nbars         stock_mm 2000, pieces_mm [900, 900], letters [A, A], offcut_mm 194\n")
	assert.Contains(t, stdout, "\nproven       yes\n")
}

// TestReckonInterrupted: a search that is broken off is no answer.
func TestReckonInterrupted(t *testing.T) {
	t.Parallel()
	var pieces []string
	for i := range 300 {
		pieces = append(pieces, fmt.Sprintf(`{"length_mm":%d,"count":3}`, 301+i*7))
	}
	var out, errs bytes.Buffer
	w := realWorld()
	w.In = strings.NewReader(`{"stock":[{"length_mm":4800},{"length_mm":6000}],"kerf_mm":3,"budget":20000000,"pieces":[` + strings.Join(pieces, ",") + `]}`)
	w.Out, w.Err = &out, &errs
	w.Signal = func(ctx context.Context) (context.Context, context.CancelFunc) {
		ctx, stop := context.WithCancel(ctx)
		stop()
		return ctx, stop
	}
	assert.Equal(t, exitError, run([]string{"reckon", "cut", "--json"}, w))
	assert.Empty(t, out.String())
}

// TestReckonLostOutput: an answer that can't be written is no success.
func TestReckonLostOutput(t *testing.T) {
	t.Parallel()
	shut, err := os.Open(os.DevNull) // not open for writing
	require.NoError(t, err)
	defer shut.Close()
	for _, args := range [][]string{{"dew", "--json"}, {"dew", "air_c=20", "rh_pct=50"}, {"dew", "--schema"}, {"dew", "--json"}} {
		var errs bytes.Buffer
		w := realWorld()
		w.In, w.Out, w.Err = strings.NewReader(`{"air_c":20,"rh_pct":50}`), shut, &errs
		assert.Equal(t, exitError, run(append([]string{"reckon"}, args...), w))
		assert.NotEmpty(t, errs.String())
	}
}
