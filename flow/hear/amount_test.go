package hear

import "testing"

// Celsius unless said; above 45 it may be Fahrenheit, F = 1.8·C + 32.
func TestTemperature(t *testing.T) {
	t.Parallel()
	deck := Want{Kind: Temperature, Range: Range{SoftMin: 0, SoftMax: 45, HardMin: -20, HardMax: 80}}
	check(t, deck, []row{
		{"24", "24"}, {"24.5", "24.5"}, {"24,5", "24.5"}, {"24c", "24"}, {"24C", "24"}, {"24 °C", "24"}, {"24°", "24"}, {"24℃", "24"}, {"24º", "24"},
		{"24 degrees", "24"}, {"24 degrees C", "24"}, {"24 deg", "24"}, {"24 celsius", "24"}, {"twenty four", "24"}, {"twenty-four degrees", "24"},
		{"45", "45"}, {"0", "0"}, {"zero", "0"},
		{"68", "? 20 | 68"}, {"46", "? 7.777777778 | 46"}, {"68F", "20"}, {"68°F", "20"}, {"68 degrees fahrenheit", "20"}, {"68 degrees", "? 20 | 68"},
		{"120", "? 48.888888889 | 120!"}, {"68c", "68 ~"}, {"200", "no range"}, {"about 68", "? 20 | 68"},
		{"-2", "-2 ~"}, {"−2", "-2 ~"}, {"minus two", "-2 ~"}, {"minus 2 degrees", "-2 ~"}, {"two below", "-2 ~"}, {"2 below zero", "-2 ~"},
		{"two degrees below", "-2 ~"}, {"-30", "no range"}, {"24 mm", "no unit"}, {"warm", "no number"}, {"no", "no number"}, {"none", "no number"},
	})
	check(t, Want{Kind: Temperature}, []row{{"-300", "no range"}, {"46", "? 7.777777778 | 46"}, {"-40f", "-40"}})
}

func TestCount(t *testing.T) {
	t.Parallel()
	check(t, Want{Kind: Count, Range: Range{HardMin: 0, HardMax: 100}}, []row{
		{"15", "15"}, {"fifteen", "15"}, {"15 joists", "15"}, {"fifteen joists", "15"}, {"2 people", "2"}, {"2 of us", "2"}, {"none", "0"}, {"0", "0"},
		{"zero", "0"}, {"a dozen", "12"}, {"two dozen", "24"}, {"twenty-one", "21"}, {"15.0", "15"}, {"15 off", "15"}, {"about 15", "15"},
		{"2.5", "no whole"}, {"1/2", "no whole"}, {"two and a half", "no whole"}, {"15 mm", "no unit"}, {"101", "no range"}, {"-1", "no range"},
		{"don't know", "no unsure"}, {"not sure", "no unsure"}, {"1️⃣", "1"}, {"some", "no number"}, {"3 or 4", "no number"}, {"3-4", "no number"}, {"3 4", "no many"}, {"", "no empty"}, {"many", "no number"},
	})
}

func TestPercent(t *testing.T) {
	t.Parallel()
	check(t, Want{Kind: Percent, Range: Range{SoftMin: 6, SoftMax: 30, HardMin: 0, HardMax: 60}}, []row{
		{"16", "16"}, {"16%", "16"}, {"16 %", "16"}, {"16％", "16"}, {"16 percent", "16"}, {"16 per cent", "16"}, {"sixteen percent", "16"}, {"16,5", "16.5"},
		{"0.16", "? 16 | 0.16"}, {"5", "5 ~"}, {"61", "no range"}, {"16 mm", "no unit"},
	})
	check(t, Want{Kind: Percent}, []row{{"101", "no range"}, {"100", "100"}, {"-1", "no range"}})
}

// 1 gal = 4.54609 l (UK Weights and Measures Act 1985), US gal = 231 cubic
// inches = 3.785411784 l; lb = 0.45359237 kg (1959 agreement).
func TestAmounts(t *testing.T) {
	t.Parallel()
	check(t, Want{Kind: Minutes}, []row{
		{"15", "15"}, {"15 min", "15"}, {"15min", "15"}, {"15m", "15"}, {"15 mins", "15"}, {"15 minutes", "15"}, {"fifteen minutes", "15"}, {"1h", "60"},
		{"1 hour", "60"}, {"an hour", "60"}, {"half an hour", "30"}, {"quarter of an hour", "15"}, {"a quarter of an hour", "15"}, {"an hour and a half", "90"},
		{"three quarters of an hour", "45"}, {"1h30", "90"}, {"1 h 30", "90"}, {"1 h 30 min", "90"}, {"1 hour 30 minutes", "90"}, {"1 hour and 30 minutes", "90"},
		{"one and a half hours", "90"}, {"1.5h", "90"}, {"90 sec", "1.5"}, {"1 min 30", "1.5"}, {"1:30", "? 90 | 1.5"}, {"2 days", "2880"}, {"-5", "no range"},
		{"5 mm", "no unit"}, {"7.5", "7.5"}, {"half", "no unit"}, {"a quarter", "no unit"},
	})
	check(t, Want{Kind: Litres}, []row{
		{"2.5", "2.5"}, {"2,5", "2.5"}, {"2.5l", "2.5"}, {"2.5 L", "2.5"}, {"2.5 litres", "2.5"}, {"500ml", "0.5"}, {"500 mil", "0.5"}, {"half a litre", "0.5"},
		{"two and a half litres", "2.5"}, {"1 l 500 ml", "1.5"}, {"70 cl", "0.7"}, {"a gallon", "? 4.54609 | 3.785411784"}, {"2 pints", "? 1.1365225 | 0.946352946"},
		{"2 kg", "no unit"},
	})
	check(t, Want{Kind: Mass}, []row{
		{"25", "25"}, {"25kg", "25"}, {"25 kilos", "25"}, {"500 g", "0.5"}, {"1 kg 500 g", "1.5"}, {"10 lb", "4.5359237"}, {"1 t", "1000"}, {"2 stone", "12.70058636"},
		{"25 litres", "no unit"},
	})
	check(t, Want{Kind: Area}, []row{
		{"16", "16"}, {"16m2", "16"}, {"16 m²", "16"}, {"16㎡", "16"}, {"16 sqm", "16"}, {"16 sq m", "16"}, {"16 square metres", "16"}, {"100 sq ft", "9.290304"},
		{"16 m", "no unit"}, {"16.5", "16.5"},
	})
	check(t, Want{Kind: Speed, Bare: "mph", Range: Range{HardMin: 0, HardMax: 60}}, []row{
		{"12", "5.36448"}, {"12 mph", "5.36448"}, {"5 m/s", "5"}, {"36 km/h", "10"}, {"36kph", "10"}, {"10 knots", "5.144444444"}, {"12 miles an hour", "5.36448"},
	})
	check(t, Want{Kind: Speed}, []row{{"12", "? 12 | 5.36448 | 3.333333333"}, {"12 mph", "5.36448"}})
	check(t, Want{Kind: Number, Bare: "m2/l", Range: Range{HardMin: 0.5, HardMax: 10}}, []row{
		{"3", "3"}, {"3 m2/l", "3"}, {"3 m²/l", "3"}, {"3m²/l", "3"}, {"2,5 m2/l", "2.5"}, {"3 mm", "no unit"}, {"30", "no range"},
	})
}

// A fall: 1/40, 1:40 and 1 in 40 are 0.025, which is 25 mm in a metre and 2.5 %.
func TestRatio(t *testing.T) {
	t.Parallel()
	fall := Want{Kind: Ratio, Range: Range{SoftMin: 1. / 80, SoftMax: 1. / 20, HardMin: 1. / 200, HardMax: 1. / 5}}
	check(t, fall, []row{
		{"1/40", "0.025"}, {"1:40", "0.025"}, {"1 / 40", "0.025"}, {"1 : 40", "0.025"}, {"1∶40", "0.025"}, {"1⁄40", "0.025"}, {"1 in 40", "0.025"},
		{"one in forty", "0.025"}, {"1 to 40", "0.025"}, {"2.5%", "0.025"}, {"2,5 %", "0.025"}, {"two point five percent", "0.025"}, {"40", "0.025"},
		{"25 mm per metre", "0.025"}, {"25mm/m", "0.025"}, {"25 mm in a metre", "0.025"}, {"25 mm in 1 m", "0.025"}, {"73 mm in 2.9 m", "0.025172414"},
		{"about 1 in 40", "0.025"}, {"it's 1:40", "0.025"}, {"1/300", "no range"}, {"1/0", "no number"}, {"40/1", "no range"}, {"1 in", "no unit"},
		{"25 mm", "no unit"}, {"1/10", "0.1 ~"}, {"1/40/2", "no number"}, {"half", "? 0.005"}, {"2.5", "? 0.025"}, {"flat", "no number"},
		{"10", "0.1 ~"}, {"2°", "0.034920769"}, {"91°", "no number"}, {"25 mm in 40", "no unit"}, {"25 mm in 40 kg", "no unit"}, {"1 in 300", "no range"}, {"1 in 40 please", "0.025"}, {"1 in 40.", "0.025"}, {"1/40.", "0.025"},
	})
	check(t, Want{Kind: Ratio}, []row{{"40", "? 0.025 | 0.4"}, {"1/40", "0.025"}, {"0.025", "? 0.00025 | 0.025"}, {"2/1", "no range"}})
}
