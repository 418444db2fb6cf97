package hear

import "testing"

func TestPolish(t *testing.T) {
	t.Parallel()
	length := eaves
	length.Lang = "pl"
	check(t, length, []row{
		{"5,4", "5400"}, {"5.4", "5400"}, {"5400", "5400"}, {"5,4 m", "5400"}, {"5,4m długości", "5400"}, {"5 metrów", "5000"}, {"5 metrów 40", "5400"}, {"5m40", "5400"},
		{"pięć przecinek cztery", "5400"}, {"piec przecinek cztery", "5400"}, {"pie\u0328c\u0301 przecinek cztery", "5400"}, {"PIĘĆ PRZECINEK CZTERY METRA", "5400"}, {"dwa metry dziewięćdziesiąt", "2900"},
		{"pięć metrów czterdzieści centymetrów", "5400"}, {"dwa i pół", "2500"}, {"dwa i pół metra", "2500"}, {"trzy i pół metra", "3500"}, {"dwa i trzy czwarte metra", "2750"},
		{"półtora metra", "1500 ~"}, {"pół metra", "500 ~"}, {"metr", "1000 ~"}, {"metr i pół", "1500 ~"}, {"dwa tysiące czterysta czterdzieści", "2440"}, {"2 tysiące 400", "2400"},
		{"5 400", "5400"}, {"5.400", "5400"}, {"5 stóp 6 cali", "1676.4 ~"}, {"dwadzieścia cztery czterdzieści", "2440"}, {"około 5,4", "5400"},
		{"dwieście czterdzieści", "? 2400 | 240!"}, {"dwa czterdzieści", "? 2400 | 240!"}, {"pięć metrów cztery", "? 5400 | 5040"}, {"1e3", "no exponent"}, {"nan", "no notfinite"},
		{"nie 5", "no number"}, {"5 albo 6", "no number"},
	})
	check(t, Want{Kind: SectionLength, Lang: "pl", Range: upstand.Range}, []row{
		{"sto pięćdziesiąt", "150"}, {"sto pięćdziesiąt milimetrów", "150"}, {"piętnaście centymetrów", "150"}, {"sześć cali", "152.4"}, {"15 cm", "150"}, {"15", "? 150"},
	})
	check(t, Want{Kind: SectionLength, Lang: "pl", Range: Range{SoftMin: 1, SoftMax: 5000}}, []row{{"1.200", "? 1.2 | 1200"}, {"1,200", "? 1.2 | 1200"}, {"1 200", "1200"}})
	check(t, Want{Kind: BoardLength, Many: Many{2, 2}, Lang: "pl"}, []row{{"2,5 na 1,25", "2500 1250"}, {"2500x1250", "2500 1250"}, {"dwa i pół na jeden dwadzieścia pięć", "? 2500 1250 | 2500 125!"}})
	check(t, Want{Kind: Temperature, Lang: "pl"}, []row{{"24 stopnie", "24"}, {"minus dwa", "-2"}, {"24 stopnie Celsjusza", "24"}, {"68", "? 20 | 68"}, {"2 poniżej zera", "-2"}})
	check(t, Want{Kind: Count, Lang: "pl"}, []row{{"piętnaście", "15"}, {"15 belek", "15"}, {"dwie osoby", "2"}, {"brak", "0"}, {"dwadzieścia jeden sztuk", "21"}})
	check(t, Want{Kind: Minutes, Lang: "pl"}, []row{{"kwadrans", "no unit"}, {"pół godziny", "30"}, {"półtorej godziny", "90"}, {"godzina", "60"}, {"2 godziny", "120"}, {"15 minut", "15"}})
	check(t, Want{Kind: Litres, Lang: "pl"}, []row{{"dwa i pół litra", "2.5"}, {"2,5 l", "2.5"}, {"pół litra", "0.5"}, {"500 ml", "0.5"}})
	check(t, Want{Kind: Ratio, Lang: "pl"}, []row{{"1/40", "0.025"}, {"1 do 40", "0.025"}, {"jeden na czterdzieści", "0.025"}, {"2,5%", "0.025"}, {"2,5 procenta", "0.025"}, {"25 mm na metr", "0.025"}})
	check(t, Want{Kind: Percent, Lang: "pl"}, []row{{"szesnaście procent", "16"}, {"16,5 %", "16.5"}})
}

func TestPolishYesNo(t *testing.T) {
	t.Parallel()
	w := Want{Kind: YesNo, Unsure: "unknown", Lang: "pl"}
	var rows []row
	for _, s := range []string{"tak", "Tak.", "TAK!", "ta", "t", "taaak", "jasne", "oczywiście", "pewnie", "no tak", "tak proszę", "gotowe", "ok", "dobra", "zgadza się", "👍", "1"} {
		rows = append(rows, row{s, Yes})
	}
	for _, s := range []string{"nie", "Nie!", "nieee", "n", "jeszcze nie", "nie ma", "no nie", "nie, dziękuję", "wcale nie", "2", "👎"} {
		rows = append(rows, row{s, No})
	}
	for _, s := range []string{"nie wiem", "Nie wiem", "niewiem", "nie jestem pewien", "nie pamiętam", "trudno powiedzieć", "może", "3"} {
		rows = append(rows, row{s, "unknown"})
	}
	for _, s := range []string{"no", "chyba tak", "chyba nie", "tak i nie", "tak, ale nie wszędzie", "nie ma problemu", "tak czy nie"} {
		rows = append(rows, row{s, "no yesno"})
	}
	check(t, w, rows)
	if _, _, ok := Command("t", w); ok {
		t.Error("t is tak here")
	}
	check(t, Want{Kind: Choice, Choices: picks("gutter", "verge", "wall", "parapet"), Lang: "pl"}, []row{
		{"ściana", "wall"}, {"sciana", "wall"}, {"rynna", "gutter"}, {"okap", "gutter"}, {"attyka", "parapet"}, {"2", "verge"}, {"drugi", "verge"}, {"druga", "verge"},
		{"ostatnia", "parapet"}, {"nie ściana", "no choice"}, {"ściana albo rynna", "no choice"}, {"dwa", "verge"},
	})
}

func TestPolishMoments(t *testing.T) {
	t.Parallel()
	check(t, Want{Kind: Time, Now: morning, Lang: "pl"}, []row{
		{"za 10 minut", "+10min"}, {"za pół godziny", "+30min"}, {"za godzinę", "+60min"}, {"za półtorej godziny", "+90min"}, {"za dwie godziny", "+120min"},
		{"10 minut temu", "-10min"}, {"godzinę temu", "-60min"}, {"za 3 dni", "2026-05-09"}, {"za tydzień", "2026-05-13"}, {"za dwa tygodnie", "2026-05-20"}, {"za miesiąc", "2026-06-06"},
		{"dziś", "2026-05-06"}, {"jutro", "2026-05-07"}, {"jutro rano", "2026-05-07"}, {"pojutrze", "2026-05-08"}, {"wczoraj", "2026-05-05"},
		{"w piątek", "2026-05-08"}, {"piątek", "2026-05-08"}, {"piatek", "2026-05-08"}, {"środa", "? 2026-05-06 | 2026-05-13"}, {"w przyszły piątek", "? 2026-05-08 | 2026-05-15"},
		{"w zeszły piątek", "2026-05-01"}, {"weekend", "2026-05-09"}, {"w przyszłym tygodniu", "2026-05-11 week"}, {"w przyszłym miesiącu", "2026-06 month"},
		{"12 maja", "2026-05-12"}, {"12 maja 2027", "2027-05-12"}, {"12.05.2026", "2026-05-12"}, {"12.05.", "2026-05-12"}, {"12/05", "2026-05-12"}, {"12.05", "? 2026-05-06 12:05 | 2026-05-12"},
		{"pierwszego czerwca", "2026-06-01"}, {"dwudziestego pierwszego maja", "2026-05-21"}, {"w czerwcu", "2026-06 month"}, {"koniec maja", "2026-05-31"}, {"połowa czerwca", "2026-06-15"},
		{"wiosną", "2027-03 season"}, {"na wiosnę", "2027-03 season"}, {"latem", "2026-06 season"}, {"jesienią", "2026-09 season"}, {"zimą", "2026-12 season"},
		{"o 10:42", "2026-05-06 10:42"}, {"10.42", "2026-05-06 10:42"}, {"o dziesiątej", "2026-05-06 10:00"}, {"wpół do jedenastej", "2026-05-06 10:30"}, {"południe", "2026-05-06 12:00"},
		{"kwadrans po dziesiątej", "2026-05-06 10:15"}, {"dziesięć po dziesiątej", "2026-05-06 10:10"}, {"za dziesięć dziesiąta", "2026-05-06 09:50"}, {"o ósmej wieczorem", "2026-05-06 20:00"},
		{"o siódmej rano", "2026-05-07 07:00"}, {"jutro o dziesiątej", "2026-05-07 10:00"}, {"jutro o dwudziestej drugiej", "2026-05-07 22:00"}, {"wczoraj o 17", "2026-05-05 17:00"},
		{"po tynku", "no moment"}, {"kiedyś", "no moment"},
	})
}
