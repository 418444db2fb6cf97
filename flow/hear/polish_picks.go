package hear

// polishPicks is what Polish speakers call the choices of the trade.
var polishPicks = map[string][]string{
	"detached": {"wolnostojący", "wolno stojący", "wolnostojąca"},
	"attached": {"dobudowany", "przybudowany", "przy domu", "bliźniak"},
	"integral": {"wbudowany", "w bryle domu"},

	"felt":   {"papa", "papa termozgrzewalna"},
	"metal":  {"blacha", "blacha trapezowa", "metal"},
	"cement": {"eternit", "płyty cementowe", "azbest"},
	"timber": {"drewno", "deski", "drewniany", "drewniana"},
	"none":   {"brak", "nic", "żaden", "żadne"},

	"rect":      {"prostokąt", "prostokątny", "kwadrat"},
	"rectangle": {"prostokąt", "prostokątny", "kwadrat"},
	"l":         {"w kształcie l", "litera l"},
	"t":         {"w kształcie t", "litera t"},
	"other":     {"inny", "inna", "inne", "coś innego"},

	"gutter":  {"rynna", "okap"},
	"verge":   {"wolna krawędź", "krawędź", "szczyt"},
	"wall":    {"ściana", "mur"},
	"parapet": {"attyka", "ogniomur"},

	"smooth":     {"gładka", "gładki"},
	"rough":      {"szorstka", "chropowata"},
	"rendered":   {"tynk", "otynkowana", "tynkowana"},
	"pebbledash": {"tynk kamyczkowy", "baranek"},

	"lift": {"zdjąć", "zdejmuję", "podnieść"},
	"stay": {"zostają", "zostawić", "zostaw"},

	"short":  {"krótszy bok", "krótki", "w poprzek"},
	"long":   {"dłuższy bok", "długi"},
	"along":  {"wzdłuż"},
	"across": {"w poprzek"},
	"left":   {"lewa", "lewy", "z lewej"},
	"right":  {"prawa", "prawy", "z prawej"},

	"top":    {"na murze", "na ścianie"},
	"ledger": {"belka przykręcona", "przykręcona"},
	"hanger": {"wieszak", "wieszaki"},

	"brick":  {"cegła pełna", "cegła"},
	"hollow": {"pustak", "cegła dziurawka"},
	"block":  {"bloczek", "bloczki"},
	"stone":  {"kamień"},

	"resin":   {"żywica", "kotwa chemiczna", "chemiczna"},
	"sleeve":  {"tuleja", "kotwa tulejowa"},
	"through": {"śruba przelotowa", "na wylot", "przelotowa"},
	"screws":  {"wkręty", "wkręty do betonu"},
	"straps":  {"same taśmy", "taśmy", "kotwy taśmowe"},

	"behind": {"za", "za deską", "pod deską"},
	"on":     {"na", "na desce"},

	"calm":   {"bezwietrznie", "spokojnie"},
	"breeze": {"lekki wiatr", "wietrzyk"},
	"windy":  {"wietrznie", "mocny wiatr", "silny wiatr"},
	"dry":    {"sucho", "suchy"},
	"normal": {"normalnie", "zwykle"},
	"damp":   {"wilgotno", "wilgotny"},

	"wet":   {"mokry", "mokre", "biały"},
	"tacky": {"lepki", "lepkie", "klei się"},
	"clear": {"przezroczysty", "przezroczyste", "suchy", "suche"},

	"contact": {"kontaktowy", "kontaktowo", "dwustronnie"},

	"now":   {"teraz", "dziś"},
	"later": {"później", "potem", "nie teraz"},

	"1": {"strefa 1"},
	"2": {"strefa 2"},
	"3": {"strefa 3"},
	"4": {"strefa 4"},
	"5": {"strefa 5"},

	"nothing":    {"nic", "nic nie wisi"},
	"door-track": {"prowadnica bramy", "prowadnice", "szyna bramy", "brama"},
	"hoist":      {"wciągarka", "wciągnik", "wielokrążek"},
	"uk":         {"wielka brytania", "uk", "anglia", "szkocja", "walia"},
	"elsewhere":  {"gdzie indziej", "poza wielką brytanią", "inny kraj"},
	"given":      {"podana wartość", "podane", "podana"},
	"map-speed":  {"prędkość z mapy", "z mapy", "mapa"},
	"sea":        {"nad morzem", "morze", "wybrzeże"},
	"country":    {"otwarty teren", "wieś", "pola"},
	"town":       {"miasto", "zabudowa"},

	"design":      {"obliczeniowa", "obliczeniowe", "nośność obliczeniowa"},
	"recommended": {"zalecana", "zalecane", "obciążenie zalecane"},

	"yes":       {"tak", "t"},
	"no":        {"nie", "n"},
	"dont-know": {"nie wiem", "nie jestem pewien", "nie jestem pewna"},
	"unknown":   {"nie wiem", "nie jestem pewien", "nie jestem pewna"},
}
