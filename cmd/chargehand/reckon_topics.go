package main

import (
	"math"
	"reflect"
	"time"

	"chargehand/calc"
	"chargehand/calc/air"
	"chargehand/calc/cut"
	"chargehand/calc/deck"
	"chargehand/calc/drain"
	"chargehand/calc/fixings"
	"chargehand/calc/geom"
	"chargehand/calc/glue"
	"chargehand/calc/lead"
	"chargehand/calc/load"
	"chargehand/calc/setout"
	"chargehand/calc/sheet"
	"chargehand/calc/sun"
	"chargehand/calc/takeoff"
	"chargehand/calc/timber"
	"chargehand/calc/unit"
	"chargehand/calc/weather"
)

// reckonTopic is one calculation as a command.
type reckonTopic struct {
	name, says string
	in, out    reflect.Type
	reckon     func(in reflect.Value) (out any, err error)
	example    []string // key=value words
}

func topicOf[In, Out any](name, says string, f func(In) (Out, error), example ...string) reckonTopic {
	return reckonTopic{
		name: name, says: says, example: example,
		in: reflect.TypeFor[In](), out: reflect.TypeFor[Out](),
		reckon: func(in reflect.Value) (any, error) {
			out, err := f(in.Interface().(In))
			if err != nil {
				return nil, err
			}
			fillNil(reflect.ValueOf(&out).Elem())
			return out, nil
		},
	}
}

// reckonTopics is every topic, in the order of the work.
func reckonTopics() []reckonTopic {
	return []reckonTopic{
		topicOf("roof", "area, edges, corners and taper of a roof plan", geom.ReckonRoof,
			"sides_mm=5.4m,3.6m,5.38m,3.62m", "diagonals_mm=6.48m,6.49m", "edges=gutter,verge,wall,verge"),
		topicOf("snow", "snow on the roof, with drifts at a taller wall or a parapet", load.ReckonSnow,
			"sk_kn_m2=0.65", "step_height_m=3", "lower_width_m=10", "upper_width_m=40"),
		topicOf("wind", "uplift on a flat roof by zones, and the pull on its straps", load.ReckonWind,
			"qp_kn_m2=0.7", "length_m=5.4", "depth_m=3.6", "height_m=2.8", "dead_kn_m2=0.4"),
		topicOf("pressure", "peak pressure of the wind from its velocity, the terrain and the height", load.ReckonPressure,
			"vb_m_s=24", "terrain=country", "height_m=2.8", "annex=UK", "altitude_m=80"),
		topicOf("span", "how far a joist may span, and how hard it works", timber.ReckonSpan,
			"method=ec5", "b_mm=47", "h_mm=195", "grade=C24", "centres_mm=400", "dead_kn_m2=0.5", "clear_span_mm=3.4m"),
		topicOf("choose", "which joists reach a span with the least timber", timber.ReckonChoose,
			"clear_span_mm=3.4m", "dead_kn_m2=0.5", "board_length_mm=2400"),
		topicOf("joists", "joist centres and marks that land under the board joints", setout.ReckonJoists,
			"length_mm=5.4m", "board_length_mm=2440", "joint_gap_mm=3", "joist_mm=47", "max_centres_mm=410"),
		topicOf("fall", "drop, ratio and firrings of the fall", setout.ReckonFall,
			"depth_mm=3.6m", "ratio=1:40"),
		topicOf("regions", "joists of a roof that is no plain rectangle", setout.ReckonRegions,
			"sides_mm=5.4m,3.6m,5.38m,3.62m", "diagonals_mm=6.48m,6.49m", "board_length_mm=2440", "joint_gap_mm=3", "joist_mm=47", "max_centres_mm=410"),
		topicOf("standing", "what to do with joists that stand already", setout.ReckonStanding,
			"measured_mm=24,425,830,1235,1640,2040,2376", "joist_mm=47", "joint_gap_mm=3", "max_centres_mm=410",
			"length_mm=2.4m", "depth_mm=3.6m", "board_length_mm=2440", "board_width_mm=600"),
		topicOf("levels", "whether joists as levelled lie in line and fall", setout.ReckonLevels,
			"centres_mm=24,430,837", "stations_mm=0,1800,3600", "tops_mm=[[0,45,90],[1,44,91],[0,46,90]]"),
		topicOf("front", "gutter edge: where the trim drips and where the joists are cut", setout.ReckonFront,
			"fascia_mm=20", "batten_mm=50", "trim_mm=5", "gutter_mm=112"),
		topicOf("chase", "height of the chase over the roof, level or stepped", setout.ReckonChase,
			"joint_mm=165", "length_mm=3.6m", "drop_mm=90"),
		topicOf("coping", "coping of a parapet: overhangs, pieces and damp-proof course", setout.ReckonCoping,
			"wall_mm=215", "coping_mm=305", "outside_mm=45", "throat_mm=5", "run_mm=3.6m", "piece_mm=600"),
		topicOf("deck", "a board layout with the fewest boards, and how they are sawn", deck.ReckonDeck,
			"row_length_mm=5.4m", "depth_mm=3.6m", "joist_spacing_mm=400", "board_length_mm=2400", "board_width_mm=600",
			"kerf_mm=3", "end_gap_mm=3", "row_gap_mm=0", "min_bays=2", "stagger=1"),
		topicOf("cut", "a cut list from stock lengths with the least waste", cut.ReckonCut,
			`stock=[{"length_mm":4800},{"length_mm":3600}]`, `pieces=[{"length_mm":3450,"count":4},{"length_mm":1150,"count":6}]`, "kerf_mm=3"),
		topicOf("sheet", "the rubber sheet to order, its seams, corners and offcuts", sheet.ReckonSheet,
			"length_mm=5.4m", "depth_mm=3.6m", "edges=gutter,verge,wall,verge"),
		topicOf("window", "how long spread adhesive stays usable (wet) or can be pressed (contact)", glue.ReckonWindow,
			"method=wet", "label_min=15", "surface_c=22", "air_c=18", "rh_pct=60", "wind_m_s=2", "substrate=board"),
		topicOf("batch", "how much adhesive to spread at once", glue.ReckonBatch,
			"window_min=15", "hands=2", "field_m2=19", "fold_mm=5.4m"),
		topicOf("dew", "dew point of the air", air.ReckonDew,
			"air_c=20", "rh_pct=50"),
		topicOf("go", "whether the weather lets the work begin", weather.ReckonGo,
			"surface_c=14", "air_c=13", "rh_pct=70", "min_24h_c=6", "wind_m_s=3", "gust_m_s=6", "kind=wet"),
		topicOf("sun", "sunrise, sunset, noon and civil twilight", reckonSun,
			"lat=51.48", "lon=0", "date=2026-06-21", "zone=Europe/London"),
		topicOf("gutter", "the gutter and outlet that carry the rain", drain.ReckonGutter,
			"area_m2=19.4", "rainfall_l_s_m2=0.0208", "length_m=5.4"),
		topicOf("lead", "pieces of a lead flashing, their mass, wedges and clips", lead.ReckonLead,
			"run_mm=5.4m", "code=4", "width_mm=300", "lap_mm=100"),
		topicOf("fixings", "how many fixings, and where", fixings.ReckonFixings,
			"what=bar", "run_mm=5.4m"),
		topicOf("fastener", "strength of one nail, lag screw or bolt in timber", fixings.ReckonFastener,
			"method=ec5", "kind=nail", "d_mm=3.1", "length_mm=75", "side_mm=18", "point_kg_m3=310"),
		topicOf("list", "the materials list, in packs, with what is still unknown", takeoff.ReckonList,
			"plate_runs_mm=5.4m,5.4m", `joists=[{"count":14,"length_mm":3600}]`, "boards=12", "deck_screws=480", "deck_edge=t&g"),
	}
}

// fillNil makes nil lists and maps of an answer empty, so that a key promised
// as a list is one. What is left out when empty stays nil.
func fillNil(v reflect.Value) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			fillNil(v.Elem())
		}
	case reflect.Slice:
		for i := range v.Len() {
			fillNil(v.Index(i))
		}
		if v.IsNil() {
			v.Set(reflect.MakeSlice(v.Type(), 0, 0))
		}
	case reflect.Map:
		if v.IsNil() {
			v.Set(reflect.MakeMap(v.Type()))
		}
	case reflect.Struct:
		for _, k := range reckonKeys(v.Type()) {
			if f := v.Field(k.index); k.required || !f.IsZero() {
				fillNil(f)
			}
		}
	}
}

// reckonSun gives the topic sun the clocks of the world's zones.
func reckonSun(in sun.SunIn) (sun.SunOut, error) { return sun.ReckonSun(in, zoneOffset) }

func zoneOffset(zone string, at sun.Instant) (unit.Minutes, error) {
	where, err := time.LoadLocation(zone)
	if err != nil || zone == "Local" {
		return 0, &calc.DomainError{Op: "sun.reckon", Field: "zone", Got: zone, Wanted: "an IANA time zone, as Europe/London"}
	}
	midnight := time.Date(at.Date.Year, time.Month(at.Date.Month), at.Date.Day, 0, 0, 0, 0, time.UTC)
	minutes := time.Duration(math.Round(float64(at.Minute) * float64(time.Minute)))
	_, seconds := midnight.Add(minutes).In(where).Zone()
	return unit.Minutes(seconds) / 60, nil
}
