package weather

// Verdict is one of three grades; the worst reason decides.
type Verdict string

const (
	Go   Verdict = "go"
	Care Verdict = "care"
	Stop Verdict = "stop"
)

// worse returns the stricter of two verdicts.
func worse(a, b Verdict) Verdict {
	rank := func(v Verdict) int {
		switch v {
		case Stop:
			return 2
		case Care:
			return 1
		}
		return 0
	}
	if rank(b) > rank(a) {
		return b
	}
	return a
}

// Reason is one limit that was met: which, what was found, and the limit that
// the finding lies beyond, both in the unit that Key implies.
type Reason struct {
	Key     Key     `json:"key" doc:"which limit was met"`
	Verdict Verdict `json:"verdict" doc:"care or stop" enum:"care,stop"`
	Value   float64 `json:"value" doc:"what was found, in the unit of the key"`
	Limit   float64 `json:"limit" doc:"the limit it lies beyond, in the unit of the key"`
	Label   bool    `json:"label,omitempty" doc:"true when the limit is the one printed on the tin"`
}

// Key names a limit. The strings are stable: records keep them.
type Key string

const (
	SurfaceLow     Key = "surface_low"     // °C
	SurfaceHigh    Key = "surface_high"    // °C
	NightCold      Key = "night_cold"      // °C, least air temperature of the next 24 h
	DewMargin      Key = "dew_margin"      // K, surface less dew point
	HumidityHigh   Key = "humidity_high"   // %
	MoistureHigh   Key = "moisture_high"   // %
	RainSoon       Key = "rain_soon"       // min from the end of the task to the rain; negative: in the task
	WindMean       Key = "wind_mean"       // m/s
	WindGust       Key = "wind_gust"       // m/s
	Thunder        Key = "thunder"         // 1 = yes
	Frost          Key = "frost"           // 1 = yes
	DaylightShort  Key = "daylight_short"  // min from the end of the task to sunset
	SurfaceFreezes Key = "surface_freezes" // °C: ice is likely whoever looks
)
