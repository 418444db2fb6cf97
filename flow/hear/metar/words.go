package metar

// Column is what a number means.
type Column string

const (
	Time    Column = "time"
	Air     Column = "air"
	Surface Column = "surface"
	Dew     Column = "dew"
	RH      Column = "rh"
	Wind    Column = "wind"
	Gust    Column = "gust"
	Rain    Column = "rain"
	Passed  Column = "passed" // understood, and of no use here
)

// Words says which words name a column in one language, in lower case.
type Words map[string]Column

// English returns the words of English.
func English() Words {
	return Words{
		"time": Time, "hour": Time,
		"temp": Air, "temperature": Air, "air": Air,
		"surface": Surface, "deck": Surface,
		"dew": Dew, "dewpoint": Dew, "dp": Dew,
		"rh": RH, "humidity": RH, "hum": RH,
		"wind": Wind, "speed": Wind,
		"gust": Gust, "gusts": Gust,
		"rain": Rain, "precipitation": Rain, "precip": Rain,
		"point": Passed, "relative": Passed, "mean": Passed,
	}
}

// Polish returns the words of Polish.
func Polish() Words {
	return Words{
		"czas": Time, "godz": Time, "godzina": Time,
		"temp": Air, "temperatura": Air, "powietrze": Air,
		"powierzchnia": Surface, "poszycie": Surface,
		"rosa": Dew, "rosy": Dew,
		"wilgotność": RH, "wilg": RH,
		"wiatr": Wind, "prędkość": Wind,
		"porywy": Gust, "poryw": Gust,
		"deszcz": Rain, "opad": Rain, "opady": Rain,
		"punkt": Passed, "względna": Passed, "średni": Passed,
	}
}

// strength orders columns where one head holds two words: "wind gust" is a
// gust, "dew point temperature" a dew point.
var strength = map[Column]int{Passed: 0, Air: 1, Wind: 1, Time: 2, Surface: 2, RH: 2, Rain: 2, Gust: 3, Dew: 3}
