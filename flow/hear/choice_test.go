package hear

import "testing"

func picks(keys ...string) []Pick {
	var out []Pick
	for _, k := range keys {
		out = append(out, Pick{Key: k})
	}
	return out
}

func TestChoice(t *testing.T) {
	t.Parallel()
	edge := Want{Kind: Choice, Choices: picks("gutter", "verge", "wall", "parapet")}
	check(t, edge, []row{
		{"1", "gutter"}, {"2", "verge"}, {"4", "parapet"}, {"2.", "verge"}, {"2)", "verge"}, {"(2)", "verge"}, {"#2", "verge"}, {"２", "verge"},
		{"two", "verge"}, {"Two.", "verge"}, {"number 2", "verge"}, {"option 2", "verge"}, {"option two", "verge"}, {"no. 2", "verge"},
		{"second", "verge"}, {"the second", "verge"}, {"the second one", "verge"}, {"2nd", "verge"}, {"first", "gutter"}, {"last", "parapet"},
		{"the last one", "parapet"},
		{"wall", "wall"}, {"WALL", "wall"}, {"Wall.", "wall"}, {"wal", "wall"}, {"w", "wall"}, {"g", "gutter"}, {"it's a wall", "wall"},
		{"the wall", "wall"}, {"a wall I think", "wall"}, {"abutment", "wall"}, {"house wall", "wall"}, {"parapet", "parapet"}, {"para", "parapet"},
		{"free edge", "verge"}, {"kerb", "verge"},
		{"not a wall", "no choice"}, {"wall or verge", "no choice"}, {"5", "no choice"}, {"0", "no choice"}, {"-1", "no choice"}, {"1.5", "no choice"},
		{"1 2", "no choice"}, {"banana", "no choice"}, {"don't know", "no unsure"}, {"wall and verge", "? verge | wall"}, {"12", "no choice"},
		{"1e0", "no choice"}, {"!", "no choice"}, {"99999999999999999999", "no choice"},
	})
	grade := Want{Kind: Choice, Choices: picks("C16", "C24", "dont-know"), Unsure: "dont-know"}
	check(t, grade, []row{
		{"c16", "C16"}, {"C 16", "C16"}, {"C-16", "C16"}, {"c24", "C24"}, {"c", "? C16 | C24"}, {"c2", "C24"}, {"1", "C16"}, {"3", "dont-know"},
		{"don't know", "dont-know"}, {"dont know", "dont-know"}, {"Don’t know", "dont-know"}, {"not sure", "dont-know"}, {"no idea", "dont-know"},
		{"dunno", "dont-know"}, {"it says C24", "C24"}, {"16", "no choice"},
	})
	// where the choices are numbers, a number may be the thing or its place
	hands := Want{Kind: Choice, Choices: picks("2", "3", "5")}
	check(t, hands, []row{{"2", "? 2 | 3"}, {"3", "? 3 | 5"}, {"5", "5"}, {"1", "2"}, {"third", "5"}, {"4", "no choice"}})
	centres := Want{Kind: Choice, Choices: picks("400", "600")}
	check(t, centres, []row{{"400", "400"}, {"600", "600"}, {"1", "400"}, {"4", "no choice"}, {"four hundred", "no choice"}})
	worded := Want{Kind: Choice, Choices: []Pick{{Key: "a", Words: []string{"on the wall top"}}, {Key: "b", Words: []string{"bolted ledger", "hung on the wall"}}}}
	check(t, worded, []row{
		{"bolted", "b"}, {"ledger", "b"}, {"on the wall", "a"}, {"hung", "b"}, {"wall", "? a | b"}, {"top", "a"}, {"a", "a"}, {"on the wall top", "a"},
	})
	check(t, Want{Kind: Choice, Unsure: "later-known", Choices: picks("C16", "later-known")}, []row{{"don't know", "later-known"}, {"no idea", "later-known"}})
	check(t, Want{Kind: Choice, Unsure: "unknown", Choices: picks("C16", "C24")}, []row{{"don't know", "unknown"}})
	check(t, Want{Kind: Choice, Choices: picks("last", "down", "gone")}, []row{{"last", "last"}, {"last spread", "last"}, {"the last one", "gone"}, {"1", "last"}})
	check(t, Want{Kind: Choice, Choices: []Pick{{Key: "a", Words: []string{"", " "}}, {Key: "b", Words: []string{"bee"}}}}, []row{{"a big bee", "b"}, {"zed", "no choice"}})
	check(t, Want{Kind: Choice}, []row{{"1", "no choice"}, {"x", "no choice"}})
}

func TestSeveralChoices(t *testing.T) {
	t.Parallel()
	edges := Want{Kind: Choice, Choices: picks("gutter", "verge", "wall", "parapet"), Many: Many{4, 4}}
	check(t, edges, []row{
		{"1 2 3 2", "gutter verge wall verge"}, {"1,2,3,2", "gutter verge wall verge"}, {"1232", "gutter verge wall verge"}, {"1-2-3-2", "no number"},
		{"g v w v", "gutter verge wall verge"}, {"G V W V", "gutter verge wall verge"}, {"gvwv", "gutter verge wall verge"}, {"GVWP", "gutter verge wall parapet"},
		{"gutter verge wall verge", "gutter verge wall verge"}, {"gutter, verge, wall, verge", "gutter verge wall verge"},
		{"gutter, verge, wall and verge", "gutter verge wall verge"}, {"gutter, free edge, house wall, free edge", "gutter verge wall verge"},
		{"one two three two", "gutter verge wall verge"}, {"1 2 3", "no few"}, {"1 2 3 2 1", "no many"}, {"1 2 3 5", "no choice"}, {"1235", "no few"},
		{"gutter\nverge\nwall\nverge", "gutter verge wall verge"},
	})
	check(t, Want{Kind: YesNo, Many: Many{3, 3}}, []row{
		{"y y y", "yes yes yes"}, {"yyn", "yes yes no"}, {"y,y,n", "yes yes no"}, {"yes yes no", "yes yes no"}, {"Yes, no and yes", "yes no yes"},
		{"y y", "no few"}, {"yy maybe", "no unsure"}, {"1 1 2", "yes yes no"},
	})
}

func TestYesNo(t *testing.T) {
	t.Parallel()
	asked := Want{Kind: YesNo, Unsure: "unknown"}
	var rows []row
	for _, s := range []string{"y", "Y", "yes", "YES", "Yes.", "yes!", "yep", "yup", "yeah", "yeh", "ya", "yea", "aye", "Aye", "yess", "yesss", "yeahhh", "sure",
		"ok", "OK", "okay", "of course", "definitely", "yes please", "yes it is", "yes they are", "it is", "they are", "i have", "I do", "correct", "true",
		"👍", "👍🏽", "✓", "✔️", "👌", "done", "all done", "yes, both of them", "1", "go on", "yeah yeah", "yes mate"} {
		rows = append(rows, row{s, Yes})
	}
	for _, s := range []string{"n", "N", "no", "NO", "No.", "nope", "nah", "na", "naw", "nay", "noo", "nooo", "not yet", "no not yet", "no it isn't", "it isn't",
		"it isn’t", "they aren't", "no thanks", "no way", "none", "never", "not at all", "no need", "👎", "❌", "false", "2", "haven't", "no, not really", "no no no", "not really", "definitely not"} {
		rows = append(rows, row{s, No})
	}
	for _, s := range []string{"don't know", "dont know", "Don’t know", "I don't know", "dunno", "idk", "no idea", "not sure", "i'm not sure", "unsure", "can't tell",
		"no clue", "3", "unknown", "maybe"} {
		rows = append(rows, row{s, "unknown"})
	}
	for _, s := range []string{"no problem", "no worries", "no bother", "yes but", "yes but not the left one", "yes and no", "y/n", "yes/no", "yes?", "half", "nearly",
		"almost", "partly", "yes 2 of 3", "no 3", "4", "yn", "5400", "what", "perhaps", "yes except the corner", "no but soon", "no yes", "yes or no",
		"-", "+", "11", "banana", "👍👎", "not bad", "not only that"} {
		rows = append(rows, row{s, "no yesno"})
	}
	check(t, asked, rows)
	check(t, Want{Kind: YesNo}, []row{{"don't know", "no unsure"}, {"3", "no unsure"}})
	no := Value{Kind: YesNo, Key: No}
	check(t, Want{Kind: YesNo, Offered: []Value{no}}, []row{{".", "no ."}, {"ok", "? no | yes"}, {"yes", "yes"}, {"fine", "? no | yes"}})
	check(t, Want{Kind: YesNo, Offered: []Value{{Kind: YesNo, Key: Yes}}}, []row{{".", "yes ."}, {"ok", "yes"}, {"…", "yes ."}})
}

// One line for several things: fascia, batten, projection, gutter, batten
// behind or on; pipe diameter, gap, infill done.
func TestParts(t *testing.T) {
	t.Parallel()
	mm := func(lo, hi float64) Want { return Want{Kind: SectionLength, Range: Range{HardMin: lo, HardMax: hi}} }
	front := Want{Parts: []Want{mm(6, 60), mm(15, 75), mm(0, 40), mm(60, 200), {Kind: Choice, Choices: picks("behind", "on")}}}
	check(t, front, []row{
		{"18 38 10 112 1", "18 38 10 112 behind"}, {"18, 38, 10, 112, on", "18 38 10 112 on"}, {"18 38 10 112 2", "18 38 10 112 on"},
		{"18mm 38mm 10mm 112mm behind the fascia", "18 38 10 112 behind"}, {"1.8 38 10 112 1", "? 18 38 10 112 behind | 45.72 38 10 112 behind"},
		{"18 38 10 112", "no few"}, {"18 38 10 112 3", "no choice"}, {"18 38 10 300 1", "no range"}, {"18 38 10 112 1 1", "no many"},
	})
	pipe := Want{Parts: []Want{mm(20, 300), mm(0, 3000), {Kind: YesNo}}}
	check(t, pipe, []row{
		{"110 40 y", "110 40 yes"}, {"110 40 yes", "110 40 yes"}, {"110, 40, no", "110 40 no"}, {"110 40", "no few"}, {"110 40 maybe", "no unsure"},
		{"110 y 40", "no number"},
	})
	short := pipe
	short.Many.Min = 2
	check(t, short, []row{{"110 40", "110 40"}, {"110 40 y", "110 40 yes"}, {"110", "no few"}})
	mixed := Want{Parts: []Want{{Kind: SiteLength}, {Kind: PlanLength}}}
	check(t, mixed, []row{{"80 2700", "80000 2700"}, {"80 2.7", "80000 2700"}, {"80m 2.7m", "80000 2700"}})
	deck := Want{Parts: []Want{{Kind: Temperature}, {Kind: YesNo}, {Kind: Choice, Choices: picks("calm", "breeze", "windy")}}}
	check(t, deck, []row{{"24 1 2", "24 yes breeze"}, {"24 y windy", "24 yes windy"}, {"24c yes calm", "24 yes calm"}, {"68 y calm", "? 20 yes calm | 68 yes calm"}})
	fall := Want{Parts: []Want{{Kind: Ratio}, {Kind: SectionLength}}}
	check(t, fall, []row{{"1/500 800", "0.002 800"}, {"1:500 800", "0.002 800"}})
}

func TestOffered(t *testing.T) {
	t.Parallel()
	v := Value{Kind: SectionLength, Num: 18}
	w := Want{Kind: SectionLength, Offered: []Value{v}}
	check(t, w, []row{{".", "18 ."}, {" . ", "18 ."}, {"..", "18 ."}, {"…", "18 ."}, {"20", "20"}})
	check(t, Want{Kind: SectionLength}, []row{{".", "no nooffer"}})
	check(t, Want{Kind: Text, Offered: []Value{{Kind: Text, Text: "Garage"}}}, []row{{".", `"Garage" .`}, {"Shed", `"Shed"`}})
	three := Want{Kind: SectionLength, Many: Many{3, 3}, Offered: []Value{{Kind: SectionLength, Num: 1}, {Kind: SectionLength, Num: 2}, {Kind: SectionLength, Num: 3}}}
	check(t, three, []row{{".", "1 2 3 ."}, {"...", "1 2 3 ."}, {"10 . 30", "10 2 30"}, {". 20 .", "1 20 3"}, {". .", "1 2 3 ."}, {"10 .", "no few"}})
	three.Offered = nil
	check(t, three, []row{{"10 . 30", "no nooffer"}})
}

// "Don't know" is an answer in any field that offers it.
func TestUnsure(t *testing.T) {
	t.Parallel()
	w := Want{Kind: SectionLength, Range: Range{HardMin: 10, HardMax: 100}, Unsure: "unknown"}
	h := Answer("Don’t know", w)
	if len(h.Values) != 1 || h.Values[0].Key != "unknown" || h.Soft {
		t.Errorf("heard %s", brief(h))
	}
	checkWhole(t, "don't know", w, h)
	if h.Values[0].Yes() || !Answer("y", Want{Kind: YesNo}).Values[0].Yes() {
		t.Error("Yes is for a yes")
	}
	w.Unsure = ""
	check(t, w, []row{{"don't know", "no unsure"}, {"no idea", "no unsure"}, {"18", "18"}})
}
