package setout

import "chargehand/calc/unit"

// LevelsIn is the topic levels.
type LevelsIn struct {
	Centres  []float64   `json:"centres_mm" doc:"where the joists stand"`
	Stations []float64   `json:"stations_mm" doc:"where each was levelled, from the low end"`
	Tops     [][]float64 `json:"tops_mm" doc:"for each joist the height at each station above any one datum"`
}

// LevelsOut is the answer of the topic levels; joists and stations count from 1.
type LevelsOut struct {
	Joists []LevelledOut `json:"joists"`
	Low    []int         `json:"low" doc:"joists over 3 mm below the string line somewhere"`
	High   []int         `json:"high" doc:"joists over 3 mm above it"`
	Flat   []int         `json:"flat" doc:"joists falling less than 1:80 somewhere"`
	Ponds  []PondOut     `json:"ponds"`
	OK     bool          `json:"ok"`
}

// LevelledOut is one joist.
type LevelledOut struct {
	Off      []float64 `json:"off_mm" doc:"top minus string line at each station: negative is low"`
	Packer   []float64 `json:"packer_mm" doc:"under its bearing"`
	Flattest float64   `json:"flattest" doc:"least fall between two stations, drop over run"`
	Whole    float64   `json:"fall" doc:"from end to end"`
}

// PondOut is where water stands.
type PondOut struct {
	Joist   int     `json:"joist"`
	Station int     `json:"station"`
	Depth   float64 `json:"depth_mm"`
}

// ReckonLevels is CheckLevels as the topic levels.
func ReckonLevels(in LevelsIn) (LevelsOut, error) {
	l := Levels{Centres: lengths(in.Centres), Stations: lengths(in.Stations)}
	for _, row := range in.Tops {
		l.Tops = append(l.Tops, lengths(row))
	}
	c, err := CheckLevels(l)
	if err != nil {
		return LevelsOut{}, err
	}
	out := LevelsOut{Low: fromOne(c.Low), High: fromOne(c.High), Flat: fromOne(c.Flat), Ponds: []PondOut{}, OK: c.OK}
	for _, j := range c.Joists {
		out.Joists = append(out.Joists, LevelledOut{
			Off: millimetres(j.Off), Packer: millimetres(j.Packer), Flattest: float64(j.Flattest), Whole: float64(j.Whole),
		})
	}
	for _, p := range c.Ponds {
		out.Ponds = append(out.Ponds, PondOut{Joist: p.Joist + 1, Station: p.Station + 1, Depth: float64(p.Depth)})
	}
	return out, nil
}

func fromOne(indices []int) []int {
	out := make([]int, len(indices))
	for i, k := range indices {
		out[i] = k + 1
	}
	return out
}

// StandingIn is the topic standing: joists that stand already.
type StandingIn struct {
	Measured   []float64 `json:"measured_mm" doc:"centres as taped from the edge of the deck where the rows begin"`
	Joist      float64   `json:"joist_mm" doc:"thickness of the joist" min:"25" max:"150"`
	Gap        float64   `json:"joint_gap_mm" doc:"gap between two board ends" min:"0" max:"20"`
	MaxCentres float64   `json:"max_centres_mm" doc:"true limit of the centres: 410 for what the trade calls 400" max:"1200"`
	Length     float64   `json:"length_mm" doc:"deck along the rows" min:"500" max:"20000"`
	Depth      float64   `json:"depth_mm" doc:"deck across the rows" min:"300" max:"20000"`
	Board      float64   `json:"board_length_mm" doc:"board as measured" min:"600" max:"6000"`
	BoardWidth float64   `json:"board_width_mm" doc:"cover width of a board" min:"300" max:"1300"`
	Fixed      *bool     `json:"fixed,omitempty" doc:"the joists cannot be moved any more"`
	Batten     *float64  `json:"batten_mm,omitempty" doc:"thickness of a batten; none: 47" min:"25" max:"100"`
	BoardPrice *float64  `json:"price_board,omitempty" doc:"the builder's own; without prices work alone decides" min:"0"`
	Timber     *float64  `json:"price_timber_m,omitempty" doc:"a metre" min:"0"`
	Hour       *float64  `json:"price_hour,omitempty" doc:"an hour of work" min:"0"`
}

// StandingOut is the answer of the topic standing.
type StandingOut struct {
	Options []OptionOut `json:"options" doc:"cheapest first; none: no way was found"`
	Wide    []BayOut    `json:"wide_bays" doc:"bays over the greatest centres: none of the options cures them"`
}

// OptionOut is one way; joists count from 1.
type OptionOut struct {
	Way       Way         `json:"way" enum:"as they stand,module,battens,cut boards,noggins"`
	OddRows   []float64   `json:"odd_rows_mm" doc:"joints of the first, third, … row from the datum"`
	EvenRows  []float64   `json:"even_rows_mm"`
	Moves     int         `json:"moves" doc:"joists to another mark"`
	NewJoists int         `json:"new_joists"`
	Marks     []int       `json:"marks_mm,omitempty" doc:"of the module"`
	Battens   []BattenOut `json:"battens,omitempty"`
	Bearers   []BearerOut `json:"bearers,omitempty"`
	Noggins   int         `json:"noggins"`
	Timber    float64     `json:"timber_mm"`
	Boards    int         `json:"boards" doc:"whole boards, the last row counted as a whole one; at most"`
	Work      float64     `json:"work_min"`
	Cost      float64     `json:"cost"`
}

// BattenOut is a batten on the side of a joist.
type BattenOut struct {
	Joist  int     `json:"joist"`
	Beyond bool    `json:"beyond" doc:"on the side away from the datum"`
	Length float64 `json:"length_mm"`
}

// BearerOut is a bearer under a joint.
type BearerOut struct {
	Joint float64 `json:"joint_mm"`
	Rows  int     `json:"rows"`
}

// ReckonStanding is Choose, with the wide bays of CheckCentres, as the topic
// standing.
func ReckonStanding(in StandingIn) (StandingOut, error) {
	batten, err := usual("setout.existing", "batten_mm", in.Batten, float64(usualBatten))
	if err != nil {
		return StandingOut{}, err
	}
	e := Existing{
		Centres: lengths(in.Measured), Joist: unit.Length(in.Joist), JointGap: unit.Length(in.Gap), MaxCentres: unit.Length(in.MaxCentres),
		Length: unit.Length(in.Length), Depth: unit.Length(in.Depth), BoardLength: unit.Length(in.Board), BoardWidth: unit.Length(in.BoardWidth),
		Fixed: in.Fixed != nil && *in.Fixed, Batten: unit.Length(batten),
		Prices: Prices{Board: value(in.BoardPrice), TimberMetre: value(in.Timber), Hour: value(in.Hour)},
	}
	options, err := Choose(e)
	if err != nil {
		return StandingOut{}, err
	}
	check, err := checkOut(Standing{Centres: e.Centres, Joist: e.Joist, JointGap: e.JointGap, MaxCentres: e.MaxCentres})
	if err != nil {
		return StandingOut{}, err
	}
	out := StandingOut{Options: []OptionOut{}, Wide: check.Wide}
	for _, o := range options {
		to := OptionOut{
			Way: o.Way, OddRows: millimetres(o.Rows[0]), EvenRows: millimetres(o.Rows[1]), Moves: o.Moves, NewJoists: o.Joists,
			Noggins: o.Noggins, Timber: float64(o.Timber), Boards: o.Boards, Work: float64(o.Work), Cost: o.Cost,
		}
		for _, m := range o.Marks {
			to.Marks = append(to.Marks, Whole(m))
		}
		for _, b := range o.Battens {
			to.Battens = append(to.Battens, BattenOut{Joist: b.Joist + 1, Beyond: b.Beyond, Length: float64(b.Length)})
		}
		for _, b := range o.Bearers {
			to.Bearers = append(to.Bearers, BearerOut{Joint: float64(b.Joint), Rows: b.Rows})
		}
		out.Options = append(out.Options, to)
	}
	return out, nil
}
