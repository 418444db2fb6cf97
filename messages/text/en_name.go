package text

// enName holds the short names of the steps.
var enName = map[string]string{
	"name.way": "way of asking", "name.attached": "building", "name.built": "age", "name.covering": "old covering",
	"name.suspect": "suspect linings", "name.asbestos": "asbestos finding", "name.shared": "shared wall", "name.use": "use below",
	"name.hands": "hands", "name.guarded": "edge protection", "name.shape": "shape", "name.sides": "sides", "name.edge": "edge {n}", "name.length": "length", "name.depth": "depth", "name.diagonals": "diagonals",
	"name.edges": "edges", "name.clear-span": "clear span", "name.wall-face": "wall face", "name.wall-above": "wall above",
	"name.upper-depth": "building behind",
	"name.copings":     "copings", "name.parapet-size": "parapet", "name.drop": "drop", "name.pipes": "pipes", "name.rooflights": "rooflights", "name.sill": "sill",
	"name.overhead": "overhead", "name.below": "room below", "name.site": "height above sea", "name.snow-zone": "snow zone",
	"name.tuck": "tuck behind fascia", "name.before": "survey check",

	"name.plate": "plate", "name.wall-kind": "wall", "name.plate-size": "plate size", "name.anchor": "anchor", "name.anchor-size": "anchor size",
	"name.plate-fix": "plates fixed", "name.plate-level": "plate levels", "name.dpc": "damp-proof strip", "name.straps": "straps", "name.plates-hold": "plates check",

	"name.board": "board", "name.centres": "centres class", "name.grade": "grade", "name.joist": "joist size", "name.span-gate": "span finding",
	"name.joist-fix": "joist fixing", "name.joist-order": "joist order", "name.joist-damp": "joist moisture", "name.joist-marks": "joist marks",
	"name.joist-set": "joists set", "name.joist-falls": "joist falls", "name.strutting": "strutting", "name.joists-hold": "joists check",

	"name.board-thick": "board thickness", "name.deck-edges": "board edges", "name.front": "front edge", "name.batten-where": "batten place",
	"name.wall-gap": "wall gap", "name.deck-cut": "boards cut", "name.deck-fixed": "deck fixed", "name.tails": "tails", "name.lips": "lips",
	"name.deck-damp": "deck moisture", "name.deck-hold": "deck check",

	"name.upstand": "upstand", "name.bed-joint": "bed joint", "name.board-top": "board top", "name.upstand-fix": "upstand boards", "name.chase": "chase",
	"name.pipe-backed": "pipe backing", "name.dust-left": "dust work", "name.upstands-hold": "upstands check",

	"name.sheet-step": "sheet steps", "name.sheet-order": "sheet order", "name.sheet-got": "sheet delivered", "name.relax": "relaxing",
	"name.overlaps": "overlaps", "name.way-off": "way off", "name.dry-hold": "dry-lay check", "name.tin": "tin", "name.far-off": "second way off", "name.label-second": "second label line", "name.label-second-temp": "its temperature",
	"name.label-upper": "upper label number", "name.label-least": "label's least temperature", "name.label-cover": "label cover", "name.substrate": "deck surface", "name.place": "place", "name.hours": "forecast",
	"name.square": "test square", "name.learn": "lesson", "name.litres": "litres", "name.ring-who": "who to ring", "name.address": "address", "name.label": "label", "name.label-temp": "label temperature",
	"name.deck-temp": "deck temperature", "name.air-temp": "air temperature", "name.night": "night", "name.damp": "air", "name.wind": "wind",
	"name.rain-in": "rain", "name.go": "weather check", "name.batches": "field bond", "name.bond-hold": "bond check", "name.contact-label": "contact label",
	"name.face-temps": "face temperatures", "name.contact": "contact bond", "name.trim-hold": "edge bond check",

	"name.trim-stock": "trim lengths", "name.battens-on": "battens", "name.trims-on": "trims", "name.corners-on": "corners and ends",
	"name.fascia-on": "fascia", "name.gutter-fall": "gutter fall", "name.gutter-on": "gutter", "name.edges-hold": "edges check",

	"name.cuts": "cuts", "name.patched": "patches", "name.laps": "laps", "name.bar-on": "bar", "name.severe": "exposure", "name.lead-code": "lead code", "name.lead-width": "lead width",
	"name.lead": "lead", "name.pointing": "pointing", "name.copings-on": "copings back", "name.flashing-hold": "details check", "name.hose": "hose test",

	"name.photos": "photos", "name.papers": "papers", "name.hand-over": "hand-over", "name.look": "inspection",
}

// enPick holds what can be chosen, and other single words.
var enPick = map[string]string{
	"pick.full": "full", "pick.short": "short", "pick.detached": "detached", "pick.attached": "attached", "pick.integral": "part of the house",
	"pick.after-2000": "2000 or later", "pick.before-2000": "before 2000", "pick.unknown": "don't know",
	"pick.felt": "felt", "pick.metal": "metal", "pick.cement": "cement sheets", "pick.timber": "timber", "pick.none": "none",
	"pick.unheated": "unheated", "pick.heated": "heated", "pick.cold-roof": "cold roof",
	"pick.rectangle": "rectangle", "pick.four-sided": "four sides", "pick.walked": "walked", "pick.right": "right", "pick.left": "left", "pick.straight": "straight",
	"pick.gutter": "gutter", "pick.verge": "verge", "pick.wall": "wall", "pick.parapet": "parapet",
	"pick.rough": "rough", "pick.smooth": "smooth", "pick.rendered": "rendered", "pick.pebbledash": "pebbledash",
	"pick.lift": "lift", "pick.stay": "leave", "pick.1": "zone 1", "pick.2": "zone 2", "pick.3": "zone 3", "pick.4": "zone 4", "pick.5": "zone 5",
	"pick.on-wall": "plate on the wall", "pick.ledger": "bolted ledger", "pick.hangers": "hangers",
	"pick.brick": "solid brick", "pick.hollow": "hollow brick", "pick.block": "block", "pick.stone": "stone",
	"pick.resin": "resin", "pick.sleeve": "sleeve", "pick.through": "through bolt", "pick.screws": "screws", "pick.straps-only": "straps only",
	"pick.400": "400", "pick.600": "600", "pick.C16": "C16", "pick.C24": "C24",
	"pick.hanger": "hanger", "pick.skew-strap": "skew nails and strap", "pick.clip": "clip",
	"pick.noggins": "on noggins", "pick.tongue": "tongue and groove", "pick.behind": "behind the fascia", "pick.on-fascia": "on the fascia",
	"pick.window": "window", "pick.ladder-hatch": "hatch", "pick.wet": "water-based, laid wet", "pick.two-face": "two-face contact",
	"pick.dry": "dry", "pick.normal": "normal", "pick.damp": "damp", "pick.calm": "calm", "pick.breeze": "breeze", "pick.windy": "windy",
	"pick.within-3h": "within 3 hours", "pick.now": "now",
	"pick.uphill-on-top": "the uphill piece", "pick.downhill-on-top": "the downhill piece",
	"pick.laid": "laid", "pick.relaxed": "relaxed", "pick.start": "start", "pick.last": "last spread", "pick.down": "down", "pick.gone": "gone off", "pick.all-down": "all down",
	"pick.coat-wall": "coated wall", "pick.coat-rubber": "coated rubber", "pick.dry-wall": "wall dry", "pick.dry-rubber": "rubber dry", "pick.mated": "pressed", "pick.all-pressed": "all pressed",
	"pick.water-on": "water on", "pick.dry-below": "dry below", "pick.drips": "drips", "pick.sound": "sound", "pick.found": "something found",

	"pick.board": "sound board", "pick.sealed": "sealed", "pick.thirsty": "thirsty", "pick.very": "very thirsty", "pick.thunder": "thunder",
	"pick.no-square": "no square", "pick.spread": "square spread", "pick.still-wet": "still wet", "pick.tacky": "tacky", "pick.rained": "rained on", "pick.wrong-tin": "wrong tin",
	"pick.use": "use it", "pick.pass": "leave it",

	"word.yes": "yes", "word.no": "no", "word.none": "none", "word.hours": "{n|hour|hours}, {from} to {to}", "word.level": "level", "word.metres": "{n} m", "word.leg": "{length}, {turn}, {kind}", "word.days": "{n|day|days}",
	"risk.looks": "looks", "risk.weather": "water gets in", "risk.structure": "structure", "risk.safety": "people",
	"exit.gutter": "the gutter side", "exit.verge": "the verge", "exit.window": "the window", "exit.ladder-hatch": "the hatch",
	"half.far": "far half", "half.near": "near half",
	"face.wall": "wall", "face.rubber": "rubber", "verdict.care": "care", "verdict.stop": "stop", "verdict.go": "go",
	"phase.survey": "{n} of {of}: survey", "phase.plates": "{n} of {of}: wall plates", "phase.joists": "{n} of {of}: joists", "phase.deck": "{n} of {of}: deck",
	"phase.upstands": "{n} of {of}: upstands", "phase.membrane": "{n} of {of}: membrane", "phase.edges": "{n} of {of}: edges and trims",
	"phase.flashing": "{n} of {of}: flashing", "phase.aftercare": "{n} of {of}: aftercare",
}
