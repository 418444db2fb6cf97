package hear

// englishPicks is what English speakers call the choices of the trade. A choice
// whose question passes its own words does not look here.
var englishPicks = map[string][]string{
	"detached": {"detached", "free standing", "freestanding", "standalone", "on its own"},
	"attached": {"attached", "semi detached", "joined on", "lean to"},
	"integral": {"integral", "built in", "part of the house"},

	"felt":   {"felt", "bitumen felt", "roofing felt", "torch on", "mineral felt"},
	"metal":  {"metal", "tin", "steel", "box profile", "corrugated iron", "zinc"},
	"cement": {"cement sheets", "cement sheet", "corrugated cement", "asbestos cement", "asbestos"},
	"timber": {"timber", "wood", "wooden", "boards"},
	"none":   {"none", "nothing", "bare", "no roof", "open"},

	"rect":      {"rectangle", "rectangular", "square", "oblong"},
	"rectangle": {"rectangle", "rectangular", "square", "oblong", "rect"},
	"l":         {"l shape", "l shaped"},
	"t":         {"t shape", "t shaped"},
	"other":     {"other", "something else", "another", "neither", "none of these", "none of them"},

	"gutter":  {"gutter", "eaves", "eave", "low side", "guttering"},
	"verge":   {"verge", "free edge", "open edge", "kerb", "side"},
	"wall":    {"wall", "abutment", "house wall", "house"},
	"parapet": {"parapet", "parapet wall"},

	"smooth":     {"smooth", "smooth brick"},
	"rough":      {"rough", "rough brick"},
	"rendered":   {"rendered", "render"},
	"pebbledash": {"pebbledash", "pebble dash", "roughcast", "dashed"},

	"lift": {"lift", "lift them", "take off", "take them off", "remove", "come off"},
	"stay": {"stay", "leave", "leave them", "keep", "they stay"},

	"short":  {"short", "short way", "across", "across the short side"},
	"long":   {"long", "long way", "lengthways"},
	"along":  {"along", "lengthways"},
	"across": {"across", "widthways"},
	"left":   {"left", "left hand", "l"},
	"right":  {"right", "right hand", "r"},

	"top":    {"on wall top", "wall top", "on top", "on the wall"},
	"ledger": {"bolted ledger", "ledger", "bolted", "bolted on"},
	"hanger": {"hanger", "hangers", "joist hanger", "joist hangers"},

	"brick":  {"solid brick", "brick"},
	"hollow": {"hollow", "perforated", "perforated brick", "cellular"},
	"block":  {"block", "blockwork", "breeze block"},
	"stone":  {"stone"},

	"resin":   {"resin", "chemical", "chemical anchor"},
	"sleeve":  {"sleeve", "sleeve anchor"},
	"through": {"through bolt", "through bolts", "bolt through"},
	"screws":  {"screws", "concrete screws", "screw"},
	"straps":  {"straps only", "straps", "strap"},

	"behind": {"behind", "behind the fascia"},
	"on":     {"on", "on the fascia", "in front"},

	"calm":   {"calm", "still", "no wind", "none"},
	"breeze": {"breeze", "breezy", "light wind", "bit of wind"},
	"windy":  {"windy", "strong", "gusty", "blowing"},
	"dry":    {"dry"},
	"normal": {"normal", "ordinary", "average"},
	"damp":   {"damp", "humid", "muggy"},

	"wet":     {"wet", "white", "white wet", "milky", "wet lay"},
	"tacky":   {"tacky", "sticky"},
	"clear":   {"clear", "skin", "skinned", "clear skin", "dry"},
	"contact": {"contact", "touch dry", "both faces", "two faces"},

	"now":   {"now", "today"},
	"later": {"later", "put off", "not now"},

	"yes":       {"yes", "y", "yep", "yeah"},
	"no":        {"no", "n", "nope"},
	"dont-know": {"dont know", "do not know", "not sure", "unsure", "no idea", "dunno"},
	"unknown":   {"dont know", "do not know", "not sure", "unsure", "no idea", "dunno"},
}
