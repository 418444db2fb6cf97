package fixings

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// FixingsIn is the topic fixings: one run of fixings, or what one set of joists
// or one deck takes.
type FixingsIn struct {
	What         string    `json:"what" doc:"kind of fixing" enum:"plate,ledger,bar,trim,upstand board,strap,lateral strap,lead clip,wedge,bracket,deck,ends,noggins,strutting"`
	RunMM        *float64  `json:"run_mm,omitempty" doc:"length of the run (not for ends, noggins, strutting)" min:"1" max:"50000"`
	MaxSpacingMM *float64  `json:"max_spacing_mm,omitempty" doc:"greatest spacing instead of the usual one" min:"10" max:"50000"`
	EndMM        *float64  `json:"end_mm,omitempty" doc:"distance of the first fixing from the end instead of the usual one" min:"0" max:"25000"`
	PiecesMM     []float64 `json:"pieces_mm,omitempty" doc:"trim: the pieces the run is made of"`
	HeightMM     *float64  `json:"height_mm,omitempty" doc:"upstand board: its height" min:"1" max:"1000"`
	Exposed      *bool     `json:"exposed,omitempty" doc:"lead clip: severe exposure, clips at 300"`

	Wall          *string  `json:"wall,omitempty" doc:"what the plate or ledger is fixed to" enum:"solid brick,hollow brick,block,stone,timber"`
	Anchor        *string  `json:"anchor,omitempty" doc:"sort of anchor" enum:"resin,sleeve,through bolt,screw"`
	AnchorDMM     *float64 `json:"anchor_d_mm,omitempty" doc:"packet: diameter" min:"5" max:"30"`
	AnchorLenMM   *float64 `json:"anchor_length_mm,omitempty" doc:"packet: length" min:"30" max:"500"`
	MaxFixtureMM  *float64 `json:"max_fixture_mm,omitempty" doc:"packet: thickest thing it holds down" min:"1" max:"400"`
	EmbedmentMM   *float64 `json:"embedment_mm,omitempty" doc:"packet: depth in the wall; 70 when silent" min:"30" max:"400"`
	HoleDMM       *float64 `json:"hole_d_mm,omitempty" doc:"packet: hole for a resin anchor" min:"6" max:"40"`
	MinEdgeMM     *float64 `json:"min_edge_mm,omitempty" doc:"packet: least distance to an edge of the wall; 150 when silent" min:"10" max:"1000"`
	EdgeMM        *float64 `json:"edge_mm,omitempty" doc:"measured distance to the nearest end, opening or top of the wall" min:"0" max:"10000"`
	LeastMM       *float64 `json:"least_spacing_mm,omitempty" doc:"packet: closest spacing" min:"10" max:"1000"`
	TimberBMM     *float64 `json:"timber_b_mm,omitempty" doc:"timber the anchor goes through" min:"19" max:"300"`
	TimberHMM     *float64 `json:"timber_h_mm,omitempty" doc:"depth of a ledger" min:"50" max:"400"`
	AnchorAboveMM *float64 `json:"anchor_above_edge_mm,omitempty" doc:"anchors above the ledger's lower edge; half its depth when silent" min:"20" max:"400"`
	PackerMM      *float64 `json:"packer_mm,omitempty" doc:"packers between timber and wall" min:"0" max:"50"`
	WallMM        *float64 `json:"wall_mm,omitempty" doc:"thickness of the leaf" min:"50" max:"1000"`

	JoistSpanMM    *float64 `json:"joist_span_mm,omitempty" doc:"ledger: span of the joists it carries" min:"300" max:"12000"`
	DeadKNM2       *float64 `json:"dead_kn_m2,omitempty" doc:"ledger: weight of the roof, joists included" min:"0.05" max:"10"`
	ImposedKNM2    *float64 `json:"imposed_kn_m2,omitempty" doc:"ledger: imposed or snow; 0.6 when silent" min:"0" max:"20"`
	PointKN        *float64 `json:"point_kn,omitempty" doc:"ledger: a man's weight; 0.9 when silent" min:"0" max:"20"`
	ShearKN        *float64 `json:"shear_resistance_kn,omitempty" doc:"packet: shear of one anchor in this wall" min:"0.01" max:"100"`
	PullKN         *float64 `json:"pull_resistance_kn,omitempty" doc:"packet: pull of one anchor in this wall" min:"0.01" max:"100"`
	ResistanceKind *string  `json:"resistance_kind,omitempty" doc:"what the packet prints" enum:"design,recommended"`

	WindUpliftKN *float64 `json:"wind_uplift_kn,omitempty" doc:"characteristic uplift on this run from a wind calculation" min:"0" max:"1000"`
	DeadKN       *float64 `json:"dead_kn,omitempty" doc:"strap: characteristic weight on the same area" min:"0" max:"1000"`
	StrapKN      *float64 `json:"strap_resistance_kn,omitempty" doc:"packet: design resistance of one strap as fixed" min:"0.01" max:"1000"`
	StrapLenMM   *float64 `json:"strap_length_mm,omitempty" doc:"how far the straps go down the wall" min:"300" max:"6000"`
	WallKGM3     *float64 `json:"wall_kg_m3,omitempty" doc:"density of the wall; 1900 when silent" min:"500" max:"2600"`
	NailDMM      *float64 `json:"nail_d_mm,omitempty" doc:"strap to joist: diameter of the nails" min:"1.9" max:"8"`
	NailLenMM    *float64 `json:"nail_length_mm,omitempty" doc:"strap to joist: length of the nails" min:"25" max:"300"`
	TimberKGM3   *float64 `json:"timber_kg_m3,omitempty" doc:"strap to joist: characteristic density of the joist, 310 for C16" min:"290" max:"500"`

	JoistMM        *float64  `json:"joist_mm,omitempty" doc:"thickness of a joist" min:"25" max:"150"`
	JoistHMM       *float64  `json:"joist_h_mm,omitempty" doc:"depth of a joist" min:"50" max:"400"`
	JoistSpacingMM *float64  `json:"joist_spacing_mm,omitempty" doc:"joist centres" min:"100" max:"1200"`
	BearingMM      *float64  `json:"bearing_mm,omitempty" doc:"lateral strap: joists bear this much on the wall, instead of running along it" min:"0" max:"600"`
	GapMM          *float64  `json:"gap_mm,omitempty" doc:"lateral strap: wall face to the first joist" min:"0" max:"600"`
	ClearSpanMM    *float64  `json:"clear_span_mm,omitempty" doc:"strutting: clear span of the joists" min:"1" max:"12000"`
	LinesMM        []float64 `json:"lines_mm,omitempty" doc:"joist centres; for a deck both its edges as well"`
	HangerEnds     *int      `json:"hanger_ends,omitempty" doc:"ends: joist ends on hangers" min:"0" max:"1000"`
	PlateEnds      *int      `json:"plate_ends,omitempty" doc:"ends: joist ends on plates" min:"0" max:"1000"`
	BoardLines     *int      `json:"board_lines,omitempty" doc:"noggins: long board edges to support" min:"0" max:"50"`

	Rows        []FixingsRow `json:"rows,omitempty" doc:"deck: rows of boards in order"`
	SeamNoggins *bool        `json:"seam_noggins,omitempty" doc:"deck: noggins under the edges between rows"`
	OuterEdges  *bool        `json:"outer_edges,omitempty" doc:"deck: the two outer long edges are screwed too"`
	BoardTMM    *float64     `json:"board_t_mm,omitempty" doc:"deck: thickness of the boards" min:"9" max:"40"`
	AreaM2      *float64     `json:"area_m2,omitempty" doc:"deck without a layout: its area" min:"0" max:"1000"`
}

// FixingsRow is one row of boards.
type FixingsRow struct {
	WidthMM  float64   `json:"width_mm" doc:"width of the row" min:"60" max:"3100"`
	JointsMM []float64 `json:"joints_mm" doc:"support lines on which two boards meet"`
}

// FixingsOut is the answer of the topic. Notes are stable keys, not sentences.
type FixingsOut struct {
	Count     int       `json:"count" doc:"fixings in all"`
	FirstMM   float64   `json:"first_mm" doc:"first from either end"`
	SpacingMM float64   `json:"spacing_mm" doc:"between neighbours"`
	Notes     []Note    `json:"notes" doc:"what to look at, as keys"`
	MarksMM   []float64 `json:"marks_mm,omitempty" doc:"each fixing from the start of the run"`
	Rows      int       `json:"rows,omitempty" doc:"rows of plugs or of strutting"`

	SinkMM         *float64 `json:"counterbore_mm,omitempty" doc:"depth of counterbore"`
	LeftMM         *float64 `json:"timber_left_mm,omitempty" doc:"timber left under the washer"`
	NeededLengthMM *float64 `json:"needed_length_mm,omitempty" doc:"least length of anchor"`
	BrickBehindMM  *float64 `json:"brick_behind_mm,omitempty" doc:"brick left behind the hole"`
	ResinML        *float64 `json:"resin_ml,omitempty" doc:"resin, pressed-out share included"`

	ShearKN     *float64    `json:"shear_per_anchor_kn,omitempty" doc:"on the hardest worked anchor"`
	PullKN      *float64    `json:"pull_per_anchor_kn,omitempty" doc:"on the same, from the load standing off the wall"`
	NetUpliftKN *float64    `json:"net_uplift_kn,omitempty" doc:"1.5 W - 0.9 G on the run"`
	StrapKN     *float64    `json:"per_strap_kn,omitempty" doc:"net uplift on one strap"`
	WallShare   *float64    `json:"wall_utilisation,omitempty" doc:"net uplift over the wall the straps catch"`
	Nails       *int        `json:"nails_per_strap,omitempty" doc:"nails from strap into joist"`
	Utilisation *float64    `json:"utilisation,omitempty" doc:"demand over the packet's resistance"`
	GovernedBy  string      `json:"governed_by,omitempty" doc:"the load that governs"`
	Status      calc.Status `json:"status,omitempty" doc:"within, close, over"`

	StrapLengthMM *float64        `json:"strap_length_mm,omitempty" doc:"length of one lateral strap"`
	Screws        int             `json:"screws,omitempty" doc:"fixings through straps into timber"`
	Pieces        []FixingsPieces `json:"pieces,omitempty" doc:"noggins or strutting to cut, longest first"`
	Crossed       []FixingsPieces `json:"crossed,omitempty" doc:"herringbone 38 x 38 instead of solid strutting"`
	Blocks        int             `json:"blocks,omitempty" doc:"blocks between strutting and walls"`
	Packers       int             `json:"packers,omitempty" doc:"between wall and first joist at lateral straps"`
	ScrewLenMM    *float64        `json:"screw_length_mm,omitempty" doc:"deck: least length of screw"`
	ScrewDMM      *float64        `json:"screw_d_mm,omitempty" doc:"deck: least diameter of screw"`
	DepthMM       *float64        `json:"depth_mm,omitempty" doc:"least depth of noggins or solid strutting"`
	SkewNails     int             `json:"skew_nails,omitempty" doc:"4.5 x 100 mm, locating only"`
	Clips         int             `json:"clips,omitempty" doc:"clips or straps at ends on plates"`
}

// FixingsPieces is a number of pieces alike.
type FixingsPieces struct {
	Count    int     `json:"count" doc:"pieces"`
	LengthMM float64 `json:"length_mm" doc:"length of each"`
}

// ReckonFixings answers the topic fixings.
//
// Source, domain: those of the function behind each kind.
// Errors: DomainError with the JSON key.
func ReckonFixings(in FixingsIn) (FixingsOut, error) {
	switch What(in.What) {
	case Plate, Ledger:
		return in.anchored()
	case Strap:
		return in.strapped()
	case LateralStrap:
		return in.restrained()
	case Trim:
		return in.trimmed()
	case UpstandBoard:
		return in.plugged()
	case LeadClip:
		if in.Exposed != nil && *in.Exposed {
			return in.plain(LeadClipExposed)
		}
		return in.plain(LeadClip)
	case Bar, Wedge, Bracket:
		return in.plain(What(in.What))
	}
	switch in.What {
	case "deck":
		return in.decked()
	case "ends":
		return in.ended()
	case "noggins":
		return in.nogged()
	case "strutting":
		return in.strutted()
	}
	return FixingsOut{}, &calc.DomainError{Op: topic, Field: "what", Got: in.What,
		Wanted: "plate, ledger, bar, trim, upstand board, strap, lateral strap, lead clip, wedge, bracket, deck, ends, noggins or strutting"}
}

const topic = "fixings"

// rule is the usual rule of a kind with the caller's changes.
func (in FixingsIn) rule(what What) (Rule, error) {
	r, err := RuleOf(what)
	if err != nil {
		return Rule{}, err
	}
	if in.MaxSpacingMM != nil {
		r.Most = unit.Length(*in.MaxSpacingMM)
	}
	if in.EndMM != nil {
		first := unit.Length(*in.EndMM)
		if r.Lost > 0 {
			r.Lost = first
		}
		r.First = first
	}
	return r, nil
}

// run is the row of a kind along run_mm.
func (in FixingsIn) run(what What) (Row, error) {
	l, err := need("run_mm", in.RunMM)
	if err != nil {
		return Row{}, err
	}
	r, err := in.rule(what)
	if err != nil {
		return Row{}, err
	}
	return r.Row(unit.Length(l))
}

func (in FixingsIn) plain(what What) (FixingsOut, error) {
	row, err := in.run(what)
	if err != nil {
		return FixingsOut{}, err
	}
	return rowOut(row), nil
}

func rowOut(row Row) FixingsOut {
	out := FixingsOut{Count: row.Count, FirstMM: float64(row.First), SpacingMM: float64(row.Spacing), Notes: []Note{}}
	for _, m := range row.Marks() {
		out.MarksMM = append(out.MarksMM, float64(m))
	}
	return out
}

func (o *FixingsOut) note(n Note) { o.Notes = append(o.Notes, n) }

// need is a value that this kind cannot do without.
func need[T any](field string, v *T) (T, error) {
	if v == nil {
		var none T
		return none, &calc.DomainError{Op: topic, Field: field, Got: nil, Wanted: "a value for this kind"}
	}
	return *v, nil
}

// or is a value, or what stands in for silence.
func or[T any](v *T, silent T) T {
	if v == nil {
		return silent
	}
	return *v
}
