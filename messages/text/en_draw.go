package text

// Words of the pictures: captions, what stands for a picture that can't be seen,
// and the labels in it. A label is a word or two: it has to find room.
var enDraw = map[string]string{
	"label.figure": "{n:mm}",
	"label.edge":   "{n} {kind}",
	"label.dia":    "Ø{n:mm}",
	"label.area":   "{area}",
	"label.fall":   "fall {fall}",
	"label.drop":   "{drop} down",

	"picture.edge":          "{n} {kind} {length:mm}",
	"picture.roof":          "Roof plan: {area}.",
	"picture.roof.alt":      "Roof plan, {area}. Edges clockwise from the gutter, in mm: {edges}.",
	"picture.roof.fall":     "Roof plan: {area}, falls {drop} to the gutter ({fall}).",
	"picture.roof.fall.alt": "Roof plan, {area}. Edges clockwise from the gutter, in mm: {edges}. It falls {drop} to the gutter, {fall}.",

	"label.rod":       "Marks from the left end, to centres",
	"label.joint":     "joint",
	"picture.rod":     "{n|joist|joists} at {centres:mm} centres, marked along one tape.",
	"picture.rod.alt": "{n|joist|joists} at {centres:mm} centres. Marks along one tape from the left end of the gutter: {marks}. Board ends meet at {joints}.",

	"label.letter":     "{letter}",
	"label.saw":        "Saw {n|board|boards}",
	"label.part":       "{letter} {length:mm}",
	"label.ripped":     "{letter} {length:mm} × {width:mm}",
	"label.times":      "{n|board|boards}",
	"picture.row":      "row {n}, {width:mm} wide: {lengths}",
	"picture.deck":     "Deck: {n|board|boards} cut into {pieces|piece|pieces}. Letters show where each goes.",
	"picture.deck.alt": "Deck from {n|board|boards} in {pieces|piece|pieces}. From the gutter, left to right, in mm: {rows}.",
}
