package setout

import "chargehand/calc/unit"

// ChaseIn is the topic chase.
type ChaseIn struct {
	Upstand *float64  `json:"upstand_mm,omitempty" doc:"rubber wanted above the finished roof; none: 150" min:"75" max:"600"`
	Joint   float64   `json:"joint_mm" doc:"any one bed joint, above the finished roof at the high end of the wall" min:"-3000" max:"3000"`
	Course  *float64  `json:"course_mm,omitempty" doc:"none: 75" min:"60" max:"300"`
	Avoid   []float64 `json:"avoid_mm,omitempty" doc:"bed joints not to be raked, as heights like joint_mm: DPC, weep holes, lintel bearings"`
	Length  float64   `json:"length_mm" doc:"of the wall along the roof" min:"300" max:"20000"`
	Drop    *float64  `json:"drop_mm,omitempty" doc:"of the roof along the wall; none: 0" min:"0"`
	Depth   *float64  `json:"depth_mm,omitempty" doc:"of the chase" min:"0" max:"100"`
	Leaf    *float64  `json:"leaf_mm,omitempty" doc:"thickness of the leaf; none: 102.5" min:"75" max:"450"`
	Raked   *bool     `json:"raked,omitempty" doc:"a bed joint is raked out, no brick is cut"`
	Shell   *float64  `json:"shell_mm,omitempty" doc:"left of a hollow unit behind the chase; none: solid" min:"1" max:"100"`
}

// ChaseOut is the answer of the topic chase.
type ChaseOut struct {
	Joint     float64    `json:"chase_mm" doc:"underside, above the roof at the high end"`
	BoardTop  float64    `json:"board_top_mm"`
	Rubber    float64    `json:"rubber_mm" doc:"greatest height of rubber when the chase runs level"`
	Stepped   float64    `json:"stepped_rubber_mm" doc:"and when it steps"`
	Steps     []StepSpan `json:"steps"`
	MostDepth float64    `json:"most_depth_mm,omitempty"`
	DepthOK   *bool      `json:"depth_ok,omitempty"`
}

// StepSpan is a stretch of chase in one bed joint.
type StepSpan struct {
	From  float64 `json:"from_mm" doc:"along the wall from its high end"`
	To    float64 `json:"to_mm"`
	Joint float64 `json:"joint_mm" doc:"underside above the roof at the high end"`
	Least float64 `json:"least_mm" doc:"above the roof right below it"`
	Most  float64 `json:"most_mm"`
}

// ReckonChase is ChaseFor and ChaseDepth as the topic chase.
func ReckonChase(in ChaseIn) (ChaseOut, error) {
	course, err := usual("setout.chase", "course_mm", in.Course, float64(Course))
	if err != nil {
		return ChaseOut{}, err
	}
	shell, err := usual("setout.chase_depth", "shell_mm", in.Shell, 0)
	if err != nil {
		return ChaseOut{}, err
	}
	c, err := ChaseFor(ChaseInput{
		Upstand: unit.Length(or(in.Upstand, 150)), Joint: unit.Length(in.Joint), Course: unit.Length(course),
		Avoid: lengths(in.Avoid), Length: unit.Length(in.Length), Drop: unit.Length(value(in.Drop)),
	})
	if err != nil {
		return ChaseOut{}, err
	}
	out := ChaseOut{Joint: float64(c.Joint), BoardTop: float64(c.BoardTop), Rubber: float64(c.Rubber), Stepped: float64(c.Stepped)}
	for _, s := range c.Steps {
		out.Steps = append(out.Steps, StepSpan{From: float64(s.From), To: float64(s.To), Joint: float64(s.Joint), Least: float64(s.Least), Most: float64(s.Most)})
	}
	if in.Depth == nil {
		return out, nil
	}
	d, err := ChaseDepth(DepthInput{
		Leaf: unit.Length(or(in.Leaf, 102.5)), Depth: unit.Length(*in.Depth), Raked: in.Raked != nil && *in.Raked, Shell: unit.Length(shell),
	})
	if err != nil {
		return ChaseOut{}, err
	}
	out.MostDepth, out.DepthOK = float64(d.Most), &d.OK
	return out, nil
}

// CopingIn is the topic coping.
type CopingIn struct {
	Wall    float64 `json:"wall_mm" doc:"thickness of the parapet with its render" min:"90" max:"600"`
	Coping  float64 `json:"coping_mm" doc:"width of the coping" min:"100" max:"900"`
	Outside float64 `json:"outside_mm" doc:"overhang past the outer face" min:"-100" max:"300"`
	Throat  float64 `json:"throat_mm" doc:"from the coping's edge to the near side of its throat" min:"0" max:"60"`
	Run     float64 `json:"run_mm" doc:"length of parapet" min:"300" max:"30000"`
	Piece   float64 `json:"piece_mm" doc:"length of one coping" min:"200" max:"3000"`
}

// CopingOut is the answer of the topic coping.
type CopingOut struct {
	Inside       float64 `json:"inside_mm" doc:"overhang past the inner face"`
	ClearOutside float64 `json:"clear_outside_mm" doc:"throat clear of the outer face; at least 40"`
	ClearInside  float64 `json:"clear_inside_mm"`
	OK           bool    `json:"ok"`
	Least        float64 `json:"least_coping_mm" doc:"width that would do, set in the middle"`
	Pieces       int     `json:"pieces"`
	Last         float64 `json:"last_mm" doc:"length of the last one, cut"`
	DPC          float64 `json:"dpc_mm" doc:"width of the damp-proof course: the whole wall"`
}

// ReckonCoping is CopingFor as the topic coping.
func ReckonCoping(in CopingIn) (CopingOut, error) {
	c, err := CopingFor(CopingInput{
		Wall: unit.Length(in.Wall), Coping: unit.Length(in.Coping), Outside: unit.Length(in.Outside),
		Throat: unit.Length(in.Throat), Run: unit.Length(in.Run), Piece: unit.Length(in.Piece),
	})
	if err != nil {
		return CopingOut{}, err
	}
	return CopingOut{
		Inside: float64(c.Inside), ClearOutside: float64(c.ClearOutside), ClearInside: float64(c.ClearInside), OK: c.OK,
		Least: float64(c.LeastCoping), Pieces: c.Pieces, Last: float64(c.Last), DPC: float64(c.DPC),
	}, nil
}
