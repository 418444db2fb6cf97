package hear

import "testing"

// Ranges of a plan field, a section field and others as a question has them.
var (
	// depth along the fall: 1500 to 5000 is usual, 500 to 10000 possible
	depth = Want{Kind: PlanLength, Range: Range{SoftMin: 1500, SoftMax: 5000, HardMin: 500, HardMax: 10000}}
	// length along the eaves: 2000 to 9000 is usual, 500 to 20000 possible
	eaves = Want{Kind: PlanLength, Range: Range{SoftMin: 2000, SoftMax: 9000, HardMin: 500, HardMax: 20000}}
	// fascia, actual thickness
	fascia = Want{Kind: SectionLength, Range: Range{SoftMin: 12, SoftMax: 30, HardMin: 6, HardMax: 60}}
	// upstand above the finished roof
	upstand = Want{Kind: SectionLength, Range: Range{SoftMin: 150, SoftMax: 300, HardMin: 75, HardMax: 900}}
)

// The ways of writing one length a thumb finds.
func TestPlanLength(t *testing.T) {
	t.Parallel()
	check(t, eaves, []row{
		{"5.4", "5400"}, {"5,4", "5400"}, {"5400", "5400"}, {"5.4m", "5400"}, {"5.4 m", "5400"}, {"5.4 M", "5400"},
		{"5m40", "5400"}, {"5m 40", "5400"}, {"5 m 40 cm", "5400"}, {"5m40cm", "5400"}, {"5m400", "5400"}, {"5m400mm", "5400"},
		{"540cm", "5400"}, {"540 cm", "5400"}, {"5400mm", "5400"}, {"5400 mil", "5400"}, {"5.40", "5400"}, {"5.400", "5400"},
		{"05.4", "5400"}, {"5.4.", "5400"}, {"5400.", "5400"}, {"5400!", "5400"}, {" 5400 ", "5400"}, {"\t5400\n", "5400"},
		{"5 400", "5400"}, {"5\u00a0400", "5400"}, {"5\u202f400", "5400"}, {"5m05", "5050"}, {"5m 4cm", "5040"}, {"5m 10cm 5mm", "5105"}, {"5m10cm5mm", "5105"}, {"5m4cm", "5040"},
		{"5.4 metres", "5400"}, {"5.4 meters", "5400"}, {"5.4mtr", "5400"}, {"５.４", "5400"}, {"5．4", "5400"}, {"5٫4", "5400"},
		{"about 5.4", "5400"}, {"~5.4", "5400"}, {"it's 5.4", "5400"}, {"It’s 5.4m long", "5400"}, {"5.4m, I think", "5400"},
		{"5 1/2", "5500"}, {"5½", "5500"}, {"5 ½", "5500"}, {"5½ m", "5500"}, {"5-1/2 m", "5500"}, {"5 and a half", "5500"},
		{"5 and 1/2 metres", "5500"}, {`"5.4"`, "5400"}, {"“5.4”", "5400"}, {"(5.4)", "5400"}, {"6yd", "5486.4"}, {"+5.4", "5400"}, {"5 and ½ m", "5500"}, {"5m 1.2.3", "no number"}, {"1.2,3,4", "no many"}, {"5.4 ft.", "1645.92 ~"}, {"5m³", "no number"},
	})
}

// Feet and inches: 1 in = 25.4 mm exactly (international yard and pound
// agreement, 1959), so 17'8" is 212 in = 5384.8 mm.
func TestFeetAndInches(t *testing.T) {
	t.Parallel()
	check(t, eaves, []row{
		{`17'8"`, "5384.8"}, {"17'8", "5384.8"}, {"17ft 8in", "5384.8"}, {"17ft8in", "5384.8"}, {"17ft 8", "5384.8"}, {"17ft8", "5384.8"},
		{"17 ft. 8 in.", "5384.8"}, {"17 feet 8 inches", "5384.8"}, {"17 foot 8", "5384.8"}, {`17' 8"`, "5384.8"}, {`17'-8"`, "5384.8"},
		{"17’8”", "5384.8"}, {"17′8″", "5384.8"}, {"17' 8''", "5384.8"}, {"17’ 8’’", "5384.8"}, {"17‘8“", "5384.8"},
		{`17' 8 1/2"`, "5397.5"}, {`17' 8½"`, "5397.5"}, {`17'8-1/2"`, "5397.5"}, {"17ft 8.5in", "5397.5"}, {"17ft 8 and a half", "5397.5"},
		{`17' 8 5/8"`, "5400.675"}, {"17ft 8 and 5/8 inches", "5400.675"},
		{"18'6\"", "5638.8"}, {"18ft6", "5638.8"}, {"18'", "5486.4"}, {"18 ft", "5486.4"}, {`212"`, "5384.8"}, {"212 inches", "5384.8"},
		{"17.5ft", "5334"}, {"17½ ft", "5334"}, {"17 and a half feet", "5334"}, {"17ft 0in", "5181.6"}, {"6yd 1ft", "5791.2"},
		{"5500,2900", "no many"}, {"5500.2900", "no many"}, {"5400,5", "5400.5"}, {"5400.000", "5400"},
		{`17' 14"`, "no many"}, {"17' 8' 3", "no many"},
	})
}

func TestDictatedLength(t *testing.T) {
	t.Parallel()
	check(t, eaves, []row{
		{"five point four metres", "5400"}, {"five point four", "5400"}, {"Five Point Four Metres.", "5400"}, {"five point four oh", "5400"},
		{"five point four zero zero", "5400"}, {"five point forty five", "5450"}, {"five metres forty", "5400"}, {"five metre forty", "5400"},
		{"five metres and forty centimetres", "5400"}, {"five metres oh five", "5050"}, {"five metres four hundred", "5400"},
		{"five hundred and forty centimetres", "5400"}, {"five thousand four hundred", "5400"}, {"five thousand four hundred mil", "5400"},
		{"fifty four hundred", "5400"}, {"fifty-four hundred", "5400"}, {"five thousand, four hundred", "no many"},
		{"two metres ninety", "2900"}, {"two metres ninety five", "2950"}, {"two and a half metres", "2500"}, {"two metres and a half", "2500"},
		{"two and three quarter metres", "2750"}, {"twenty four forty", "2440"}, {"twenty-four forty", "2440"}, {"two four four oh", "2440"},
		{"two thousand four hundred and forty", "2440"}, {"a thousand", "1000 ~"}, {"nine hundred", "? 9000 | 900"},
		{"five thousand and forty", "5040"}, {"seventeen foot eight", "5384.8"}, {"seventeen feet eight inches", "5384.8"},
		{"seventeen foot eight and a half", "5397.5"}, {"four foot six", "1371.6 ~"}, {"half a metre", "500 ~"}, {"a metre", "1000 ~"},
		{"a metre and a half", "1500 ~"}, {"6 and a half metres", "6500"}, {"um, it's about five point four metres", "5400"},
		{"five point two nine", "5290"}, {"five point two two point nine", "no many"}, {"nine thousand", "9000"}, {"5 point 4", "5400"}, {"5 thousand 4 hundred", "5400"}, {"5 thousand 400", "5400"}, {"two four double oh", "2400"},
		{"5 foot 6 inches and a half", "1689.1 ~"},
		// two numbers run together can be a point left out: asks
		{"two ninety", "? 2900 | 290!"}, {"five forty", "? 5400 | 540"}, {"two forty five", "? 2450 | 245!"},
		// a lone number of one digit after metres is a tenth or a hundredth
		{"five metres four", "? 5400 | 5040"}, {"5m4", "? 5400 | 5040"}, {"two metres nine", "? 2900 | 2090"},
		{"five four", "no many"}, {"five or six", "no number"}, {"less than five", "no number"}, {"not five", "no number"},
		{"between five and six", "no number"}, {"five to six", "no number"}, {"five for metres", "no number"}, {"five point", "no number"},
	})
	check(t, upstand, []row{
		{"a hundred and fifty mil", "150"}, {"hundred and fifty", "150"}, {"one hundred fifty", "150"}, {"one fifty", "150"}, {"one five oh", "150"},
		{"two hundred and forty", "240"}, {"two hundred forty mill", "240"}, {"six inches", "152.4"}, {"six and a half inches", "165.1"},
		{"six and three quarter inches", "171.45"}, {"half a foot", "152.4"}, {"a foot", "304.8 ~"}, {"fifteen centimetres", "150"},
		{"a hundred and eighty eight", "188"}, {"one eighty eight", "188"},
	})
}

// Plan fields: 500 and more is mm, below 30 is metres, between asks.
func TestPlanUnits(t *testing.T) {
	t.Parallel()
	check(t, depth, []row{
		{"2.9", "2900"}, {"3", "3000"}, {"2900", "2900"}, {"500", "? 5000 | 500"}, {"240", "? 2400 | 240!"}, {"290", "? 2900 | 290!"},
		{"30", "? 762 | 9144 | 30!"}, {"30.5", "? 774.7 | 9296.4 | 30.5!"}, {"499", "? 4990 | 499!"}, {"96", "? 2438.4 | 960 | 96!"}, {"0.5", "500 ~"}, {"0.29", "no range"},
		{"-3", "no range"}, {"0", "no range"}, {"54000", "no range"},
		// the field's own range finds the slip of ten, or the feet
		{"540", "? 540 | 5400"}, {"8", "? 2438.4 | 8000"}, {"12", "? 3657.6"}, {"29000", "no range"},
	})
	check(t, Want{Kind: PlanLength}, []row{ // no range: the bare rule
		{"500", "500"}, {"499.9", "? 499.9 | 4999"}, {"30", "? 30 | 300"}, {"29.9", "29900"}, {"240", "? 240 | 2400"}, {"0", "0"}, {"0.3", "300"}, {"five forty", "? 5400 | 540"}, {"nine fifty", "? 9500 | 950"}, {"twenty four forty", "2440"},
		{"-1", "no range"},
	})
}

// Section fields: bare is mm with the field's own range; 1.8 for a fascia asks.
func TestSectionUnits(t *testing.T) {
	t.Parallel()
	check(t, fascia, []row{
		{"18", "18"}, {"18mm", "18"}, {"18 mil", "18"}, {"1.8", "? 18"}, {"1,8", "? 18"}, {"1.8cm", "18"}, {`3/4"`, "19.05"}, {"3/4", "? 19.05"},
		{`¾"`, "19.05"}, {"three quarters of an inch", "19.05"}, {"an inch", "25.4"}, {"1 inch", "25.4"}, {"0.018", "? 18"}, {"0.018m", "18"},
		{"180", "no range"}, {"38", "38 ~"}, {"eighteen", "18"}, {"18 thick", "18"}, {"5", "? 50"}, {"0.7", "? 17.78"},
	})
	check(t, upstand, []row{
		{`6"`, "152.4"}, {"6 in", "152.4"}, {"6", "? 152.4"}, {"15", "? 150"}, {"15cm", "150"}, {"0.15", "? 150"}, {"150", "150"}, {"100", "100 ~"},
		{"1.5", "no range"}, {"-150", "no range"},
	})
	check(t, Want{Kind: SectionLength, Range: Range{SoftMin: -20, SoftMax: 300, HardMin: -50, HardMax: 400}}, []row{
		{"-3", "-3"}, {"minus three", "-3"}, {"−3", "-3"}, {"–3", "-3"}, {"73", "73"}, {"0", "0"}, {"none", "0"},
	})
}

// Boards: 2000 to 3100 is mm, 2.0 to 3.1 m, 7 to 10 ft, anything else asks.
func TestBoard(t *testing.T) {
	t.Parallel()
	one := Want{Kind: BoardLength}
	check(t, one, []row{
		{"2.4", "2400"}, {"2,4", "2400"}, {"2400", "2400"}, {"2440", "2440"}, {"2,440", "2440"}, {"2.44", "2440"}, {"8", "2438.4"}, {"8ft", "2438.4"},
		{"8'", "2438.4"}, {"2000", "2000"}, {"3100", "3100"}, {"2.0", "2000"}, {"3.1", "3100"}, {"7", "2133.6"}, {"10", "3048"},
		{"24", "? 2400 | 24!"}, {"240", "? 2400 | 240!"}, {"244", "? 2440 | 244!"}, {"96", "? 2438.4 | 96!"}, {"2m44", "2440"}, {"244cm", "2440"},
		{"1999", "no range"}, {"3101", "no range"}, {"3.2", "no range"}, {"6.9", "? 2103.12 | 6.9!"}, {"11", "no range"}, {"1.2m", "1200"}, {"18", "no range"},
		{"eight foot", "2438.4"}, {"twenty four hundred", "2400"}, {"eight by four", "no many"}, {"25", "? 2500 | 25!"},
	})
	pair := Want{Kind: BoardLength, Many: Many{2, 2}}
	check(t, pair, []row{
		{"8x4", "2438.4 1219.2"}, {"8 x 4", "2438.4 1219.2"}, {"8X4", "2438.4 1219.2"}, {"8×4", "2438.4 1219.2"}, {"8*4", "2438.4 1219.2"},
		{"8'x4'", "2438.4 1219.2"}, {"8ft x 4ft", "2438.4 1219.2"}, {"8ftx4ft", "2438.4 1219.2"}, {"8 by 4", "2438.4 1219.2"},
		{"eight by four", "2438.4 1219.2"}, {"8x4 ft", "2438.4 1219.2"}, {"8ft x 4", "2438.4 1219.2"}, {"8 x 2", "2438.4 609.6"},
		{"2440x1220", "2440 1220"}, {"2440 1220", "2440 1220"}, {"2440mm x 1220mm", "2440 1220"}, {"2440mmx1220mm", "2440 1220"},
		{"2440,1220", "2440 1220"}, {"2440, 1220", "2440 1220"}, {"2440/1220", "no few"}, {"2 440 1 220", "2440 1220"}, {"2,440 x 1,220", "2440 1220"},
		{"2.4 by 1.2", "2400 1200"}, {"2,4 x 1,2", "2400 1200"}, {"2.4 1.2 m", "2400 1200"}, {"2.4 by 1.2 metres", "2400 1200"},
		{"2440 and 1220", "2440 1220"}, {"twenty four forty by twelve twenty", "2440 1220"}, {"two point four by one point two", "2400 1200"},
		{"2440\n1220", "2440 1220"}, {"2440; 1220", "2440 1220"}, {"2440 x 590", "2440 590"}, {"2440 x 122", "? 2440 1220 | 2440 122!"},
		{"2440", "no few"}, {"2440 1220 18", "no many"}, {"8x", "no few"}, {"x4", "no number"}, {"244 x 122", "? 2440 1220 | 244 122!"},
	})
}

func TestSite(t *testing.T) {
	t.Parallel()
	altitude := Want{Kind: SiteLength, Range: Range{SoftMin: 0, SoftMax: 300000, HardMin: -10000, HardMax: 600000}}
	check(t, altitude, []row{
		{"80", "80000"}, {"80m", "80000"}, {"300 ft", "91440"}, {"0", "0"}, {"eighty metres", "80000"}, {"400", "? 121920 | 400000"}, {"0.4 km", "400000 ~"},
	})
}

func TestSeveralLengths(t *testing.T) {
	t.Parallel()
	six := Want{Kind: PlanLength, Range: eaves.Range, Many: Many{6, 6}}
	check(t, six, []row{
		{"5500 5500 2900 2900 6218 6218", "5500 5500 2900 2900 6218 6218"},
		{"5.5 5.5 2.9 2.9 6.218 6.218", "5500 5500 2900 2900 6218 6218"},
		{"5,5 5,5 2,9 2,9 6,218 6,218", "5500 5500 2900 2900 6218 6218"},
		{"5,5;5,5;2,9;2,9;6,218;6,218", "5500 5500 2900 2900 6218 6218"},
		{"5,500 5,500 2,900 2,900 6,218 6,218", "5500 5500 2900 2900 6218 6218"},
		{"5 500 5 500 2 900 2 900 6 218 6 218", "5500 5500 2900 2900 6218 6218"},
		{"5500,5500,2900,2900,6218,6218", "5500 5500 2900 2900 6218 6218"},
		{"5m50 5m50 2m90 2m90 6m218 6m218", "5500 5500 2900 2900 6218 6218"},
		{"550 550 290 290 621 621 cm", "5500 5500 2900 2900 6210 6210"},
		{"550 550 290 290 622 622", "? 5500 5500 2900 2900 6220 6220 | 550 550 290 290 622 622!"},
		{"5.5, 5.5, 2.9, 2.9, 6.218", "no few"},
	})
	two := Want{Kind: PlanLength, Range: eaves.Range, Many: Many{2, 2}}
	check(t, two, []row{
		{"5.5 2.9", "5500 2900"}, {"5,5 2,9", "5500 2900"}, {"5.5x2.9", "5500 2900"}, {"5.5 by 2.9 m", "5500 2900"}, {"5m50 2m90", "5500 2900"},
		{"5,500 2,900", "5500 2900"}, {"5,5,2,9", "5500 2900"}, {"5.8 3.2", "5800 3200"}, {"18' 9'", "5486.4 2743.2"}, {`18'6" x 9'6"`, "5638.8 2895.6"},
		{"18ft 9ft", "5486.4 2743.2"}, {"240 300", "? 2400 3000 | 240 300!"}, {"240 96", "? 2400 2438.4 | 2400 960 | 240 96!"}, {"five point two two point nine", "5200 2900"}, {"5m 9m", "5000 9000"}, {"8x4", "8000 4000"},
	})
	overlaps := Want{Kind: SectionLength, Range: Range{HardMin: 1, HardMax: 400}, Many: Many{4, 4}}
	check(t, overlaps, []row{
		{"160 150 155 140", "160 150 155 140"}, {"160,150,155,140", "160 150 155 140"}, {"160, 150, 155 and 140", "160 150 155 140"},
		{"160/150/155/140", "no number"}, {"16 15 15.5 14 cm", "? 16 15 15.5 140 | 160 150 155 140"}, {"160 150 155", "no few"},
		{"one sixty one fifty one fifty five one forty", "no few"}, {"one sixty, one fifty, one fifty five, one forty", "160 150 155 140"},
	})
	pipe := Want{Kind: SectionLength, Range: Range{HardMin: 1, HardMax: 5000}, Many: Many{3, 3}}
	check(t, pipe, []row{{"110 300 400", "110 300 400"}, {"110, 300, 400", "110 300 400"}, {"110,300,400", "110 300 400"}})
	some := Want{Kind: SectionLength, Range: Range{HardMin: 1, HardMax: 9000}, Many: Many{1, 9}}
	check(t, some, []row{
		{"2443", "2443"}, {"1 200 300", "1 200 300"}, {"5 500", "? 5 500 | 5500"}, {"5,500", "? 5.5 | 5500 | 5 500"}, {"407 814 1221", "407 814 1221"},
		{`17' 8"`, "5384.8"},
	})
	check(t, Want{Kind: Number, Many: Many{1, 9}}, []row{{"1,200 5 500", "no ambiguous"}, {"1,200; 5,500", "? 1.2 5.5 | 1200 5500 | 1 200 5 500"}})
}

// Where 1,200 or 5 500 has two meanings that come to different values it asks;
// where they come to the same there is nothing to ask.
func TestGroups(t *testing.T) {
	t.Parallel()
	plain := Want{Kind: Number}
	check(t, plain, []row{
		{"1,200", "? 1.2 | 1200"}, {"1,20", "1.2"}, {"1,2000", "1.2"}, {"0,200", "0.2"}, {"1,200.5", "1200.5"}, {"1.200,5", "1200.5"}, {"1,200,300", "1200300"},
		{"1.200", "1.2"}, {"1.200.300", "1200300"}, {"12,500", "? 12.5 | 12500"}, {"1 200", "1200"}, {"1 200,5", "1200.5"}, {"1 200.5", "1200.5"},
		{"1,2,3", "no many"}, {"1,200,30", "no many"}, {"1.2.3", "no number"}, {"5,4,", "5.4"}, {",5", "no number"}, {".5", "0.5"}, {"5.", "5"},
		{"1 20", "no many"}, {"1 2000", "no many"},
	})
	check(t, eaves, []row{{"5,400", "5400"}, {"1,200", "1200 ~"}, {"12,500", "? 3810 | 12500"}})
	check(t, Want{Kind: Litres, Range: Range{HardMin: 0, HardMax: 30}}, []row{{"1,200", "1.2"}, {"2,5", "2.5"}})
	check(t, Want{Kind: Mass, Range: Range{HardMin: 0, HardMax: 5000}}, []row{{"1,200", "? 1.2 | 1200"}, {"1,200 kg", "? 1.2 | 1200"}})
	check(t, Want{Kind: Count}, []row{{"1,200", "1200"}, {"1 200", "1200"}})
}
