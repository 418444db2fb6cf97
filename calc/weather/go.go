package weather

import (
	"chargehand/calc"
	"chargehand/calc/air"
	"chargehand/calc/unit"
)

// GradeID names the table of limits.
const GradeID = "weather.go/1"

// Kind is the work that the weather is asked about.
type Kind string

const (
	Wet     Kind = "wet"     // water-based deck adhesive, laid wet
	Contact Kind = "contact" // solvent contact adhesive, pressed touch-dry
	Sheet   Kind = "sheet"   // handling the loose sheet, no glue
	Roof    Kind = "roof"    // any other work on the roof
)

// Label holds limits printed on the tin. nil means not printed.
type Label struct {
	SurfaceMin *unit.Celsius
	SurfaceMax *unit.Celsius
	RHMax      *unit.Percent
}

// Moment is what is known of the weather now and in the next hours. nil means
// not known: the limit is then not judged and is named in Judgement.Unjudged.
type Moment struct {
	Kind     Kind
	Surface  unit.Celsius
	Air      unit.Celsius
	RH       unit.Percent
	Min24h   unit.Celsius // least air temperature forecast for the next 24 hours
	Wind     unit.Speed   // mean
	Gust     unit.Speed
	Moisture *unit.Percent // of the deck
	RainIn   *unit.Minutes // from now; +Inf is not allowed, nil is "not known"
	ToSunset *unit.Minutes // from now; negative after sunset
	Task     unit.Minutes  // how long the work takes; 0 when the two above count from its end
	Thunder  bool
	Frost    bool // frost or ice seen
	Label    Label
}

// Judgement is the verdict with everything that led to it.
type Judgement struct {
	Verdict  Verdict
	Reasons  []Reason // worst first, then in the order of the table
	DewPoint unit.Celsius
	Unjudged []Key // limits for which nothing was known
}

// limits of one row: care beyond the first, stop beyond the second. A value on
// a boundary belongs to the better column.
type row struct{ care, stop float64 }

// The table of go, care and stop.
//
// Source: common practice, no source, save the stop for all roof work in wind:
// 23 mph "upsets balance" is HSE wording. Mean and gust in mph as the trade
// says them.
var (
	surfaceLow    = row{10, 5}              // °C, below
	surfaceHigh   = row{30, 45}             // °C, above
	nightCold     = row{7, 5}               // °C, below; water-based only
	dewWet        = row{5, 3}               // K, below
	dewContact    = row{5, 5}               // K, below: solvent has no care column
	humidity      = row{75, 85}             // %, above
	moisture      = row{18, 20}             // %, above
	rain          = row{180, 60}            // min after the end of the task, below
	daylight      = row{120, 60}            // min before sunset at the end of the task, below
	sheetWindMean = row{12 * mph, 17 * mph} // m/s, above
	sheetWindGust = row{20 * mph, 26 * mph} // m/s, above
	roofWindMean  = row{17 * mph, 23 * mph} // m/s, above
	roofWindGust  = row{26 * mph, 35 * mph} // m/s, above
)

const (
	mph  = float64(unit.MilePerHour) // m/s
	week = 7 * 24 * 60               // min
)

// Judge grades a moment against the table.
//
//	surface °C     go 10..30      care 5..10, 30..45   stop <5, >45     wet, contact
//	least air 24 h go >=7         care 5..7            stop <5          wet
//	surface - dew  go >=5 K       care 3..5 (wet)      stop <3 (contact <5)
//	RH             go <=75 %      care 75..85          stop >85         wet, contact
//	deck moisture  go <=18 %      care 18..20          stop >20         wet, contact
//	rain           go none for task + 3 h, care task + 1..3 h, stop sooner
//	wind mean/gust go <=12/20 mph care <=17/26         stop above       sheet, wet, contact
//	               go <=17/26     care <=23/35         stop above       roof
//	daylight       go ends 2 h before sunset, care 1 h, stop less
//	thunder, frost or ice: stop
//
// Source: common practice, no source (23 mph: HSE wording). The wind of the
// sheet is for sheets of 5 m and over and is kept for shorter ones.
// Units: in and out by type; reasons in the unit of their key.
// Shape: making any one value worse never improves the verdict.
// Domain: temperatures -45..60 °C (surface to 90), 1 ≤ RH ≤ 100 %, wind 0..75
// m/s, gust not below mean, moisture 0..100 %, minutes within a week.
// Ignores: what only a hand can tell: a damp cloth, a slippery board.
// Errors: DomainError only.
func Judge(m Moment) (Judgement, error) {
	if err := m.check(); err != nil {
		return Judgement{}, err
	}
	td, err := air.DewPoint(m.Air, m.RH)
	if err != nil {
		return Judgement{}, err
	}
	g := grader{verdict: Go}
	if m.Thunder {
		g.add(Reason{Key: Thunder, Verdict: Stop, Value: 1})
	}
	if m.Frost {
		g.add(Reason{Key: Frost, Verdict: Stop, Value: 1})
	}
	if m.Surface < 0 {
		g.add(Reason{Key: SurfaceFreezes, Verdict: Stop, Value: float64(m.Surface)})
	}
	if m.Kind == Wet || m.Kind == Contact {
		m.gradeGlue(&g, td)
	}
	mean, gust := sheetWindMean, sheetWindGust
	if m.Kind == Roof {
		mean, gust = roofWindMean, roofWindGust
	}
	g.above(WindMean, m.Wind.In(unit.MetrePerSecond), mean, nil)
	g.above(WindGust, m.Gust.In(unit.MetrePerSecond), gust, nil)
	if m.Kind != Roof {
		g.belowIfKnown(RainSoon, less(m.RainIn, m.Task), rain)
	}
	g.belowIfKnown(DaylightShort, less(m.ToSunset, m.Task), daylight)
	return Judgement{Verdict: g.verdict, Reasons: g.sorted(), DewPoint: td, Unjudged: g.unjudged}, nil
}

// gradeGlue judges the rows that only matter to a film of adhesive.
func (m Moment) gradeGlue(g *grader, td unit.Celsius) {
	ts := float64(m.Surface)
	g.below(SurfaceLow, ts, surfaceLow, (*float64)(m.Label.SurfaceMin))
	g.above(SurfaceHigh, ts, surfaceHigh, (*float64)(m.Label.SurfaceMax))
	margin := dewWet
	if m.Kind == Wet {
		g.below(NightCold, float64(m.Min24h), nightCold, nil)
	} else {
		margin = dewContact
	}
	g.below(DewMargin, float64(m.Surface.Sub(td)), margin, nil)
	g.above(HumidityHigh, float64(m.RH), humidity, (*float64)(m.Label.RHMax))
	if m.Moisture == nil {
		g.unjudged = append(g.unjudged, MoistureHigh)
	} else {
		g.above(MoistureHigh, float64(*m.Moisture), moisture, nil)
	}
}

func (m Moment) check() error {
	const op = "weather.go"
	switch m.Kind {
	case Wet, Contact, Sheet, Roof:
	default:
		return &calc.DomainError{Op: op, Field: "kind", Got: m.Kind, Wanted: "wet, contact, sheet or roof"}
	}
	type limit struct {
		field       string
		v, min, max float64
		unit        string
	}
	limits := []limit{
		{"surface_c", float64(m.Surface), -45, 90, "°C"},
		{"air_c", float64(m.Air), -45, 60, "°C"},
		{"rh_pct", float64(m.RH), 1, 100, "%"},
		{"min_24h_c", float64(m.Min24h), -45, 60, "°C"},
		{"wind_m_s", m.Wind.In(unit.MetrePerSecond), 0, 75, "m/s"},
		{"gust_m_s", m.Gust.In(unit.MetrePerSecond), m.Wind.In(unit.MetrePerSecond), 100, "m/s, and not below wind_m_s"},
		{"task_min", float64(m.Task), 0, week, "min"},
	}
	if m.Moisture != nil {
		limits = append(limits, limit{"moisture_pct", float64(*m.Moisture), 0, 100, "%"})
	}
	if m.RainIn != nil {
		limits = append(limits, limit{"rain_in_min", float64(*m.RainIn), 0, week, "min"})
	}
	if m.ToSunset != nil {
		limits = append(limits, limit{"minutes_to_sunset", float64(*m.ToSunset), -week, week, "min"})
	}
	if m.Label.SurfaceMin != nil {
		limits = append(limits, limit{"label_min_c", float64(*m.Label.SurfaceMin), -20, 40, "°C"})
	}
	if m.Label.SurfaceMax != nil {
		limits = append(limits, limit{"label_max_c", float64(*m.Label.SurfaceMax), 10, 90, "°C"})
	}
	if m.Label.RHMax != nil {
		limits = append(limits, limit{"label_rh_max_pct", float64(*m.Label.RHMax), 1, 100, "%"})
	}
	for _, l := range limits {
		if err := calc.Outside(op, l.field, l.v, l.min, l.max, l.unit); err != nil {
			return err
		}
	}
	return nil
}

func less(t *unit.Minutes, task unit.Minutes) *float64 {
	if t == nil {
		return nil
	}
	left := float64(*t) - float64(task)
	return &left
}
