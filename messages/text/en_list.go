package text

// enList holds the materials list.
var enList = map[string]string{
	"list.title": "Materials", "list.item": "item", "list.needed": "needed", "list.buy": "to buy", "list.left": "left over",
	"list.amount": "{n} {unit}", "list.count": "{n}", "list.pack": "{n} x {size}", "list.packs": "{packs} {unit}", "list.sized": "{item} {size}", "list.flagged": "{left}, {flag}",
	"list.missing": "Not known yet: {items}.", "list.none": "No list yet. I need length, depth and edges first.",
	"flag.tight": "tight", "flag.surplus": "a lot over",
	"unit.each": "", "unit.m": "m", "unit.m2": "m²", "unit.m3": "m³", "unit.l": "l", "unit.kg": "kg", "unit.cartridge": "cartridges", "unit.ml": "ml", "unit.day": "days",
	"where.timber": "TIMBER YARD", "where.ironwork": "FIXINGS", "where.roofing": "ROOFING", "where.rainwater": "RAINWATER", "where.lead": "LEAD", "where.sundry": "SUNDRIES", "where.hire": "HIRE",

	"item.plates": "plate timber", "item.dpc": "damp-proof strip", "item.anchors": "anchors", "item.resin": "resin", "item.straps": "straps",
	"item.lateral-straps": "lateral straps", "item.hangers": "joist hangers", "item.clips": "joist clips or straps", "item.hanger-nails": "hanger nails",
	"item.skew-nails": "nails 4.5 x 100", "item.joists": "joists", "item.noggins": "noggin timber", "item.strutting": "strutting", "item.firrings": "firrings",
	"item.boards": "deck boards", "item.deck-screws": "deck screws", "item.battens": "battens", "item.fascias": "fascia", "item.upstand-board": "upstand board",
	"item.upstand-plugs": "plugs and screws", "item.sheet": "rubber sheet", "item.deck-adhesive": "deck adhesive", "item.contact-adhesive": "contact adhesive",
	"item.primer": "primer", "item.patches": "patches", "item.edge-sealant": "edge sealant", "item.water-stop": "water-stop sealant", "item.bar": "bar", "item.bar-screws": "bar screws",
	"item.trim": "edge trim", "item.trim-corners": "trim corners", "item.trim-ends": "trim ends", "item.trim-nails": "trim nails", "item.gutter": "gutter",
	"item.gutter-brackets": "gutter brackets", "item.gutter-stop-ends": "stop ends", "item.gutter-outlets": "outlets", "item.downpipe": "downpipe", "item.lead": "lead",
	"item.lead-clips": "lead clips", "item.lead-wedges": "lead wedges", "item.chase-sealant": "chase sealant", "item.patination-oil": "patination oil", "item.cloths": "cloths",
	"item.roller-sleeves": "roller sleeves", "item.brushes": "brushes", "item.gloves": "gloves", "item.tape": "tape", "item.cleaner": "cleaner",
	"item.access": "tower or boards", "item.temporary-cover": "cover sheet", "item.skip": "skip",
}

// enFigure names the figures of the plan that a change can move.
var enFigure = map[string]string{
	"fig.area": "area", "fig.fall": "fall", "fig.skew": "skew", "fig.snow": "snow on the roof", "fig.drift": "drift at the wall", "fig.drift-exceptional": "exceptional drift", "fig.wind-pressure": "wind pressure", "fig.wind-lift": "wind lift", "fig.fall-left": "fall left after sag",
	"fig.ledger-share": "anchor strength used", "fig.strap-pull": "pull on a strap", "fig.lateral-straps": "lateral straps",
	"fig.span-max": "span limit", "fig.span-share": "span used", "fig.joist-centres": "centres", "fig.joist-count": "joists", "fig.joist-marks": "marks", "fig.joist-stock": "joist length",
	"fig.anchors": "anchors", "fig.straps": "straps", "fig.strutting": "rows of strutting", "fig.noggins": "noggins",
	"fig.boards": "boards", "fig.deck-pieces": "deck pieces", "fig.screws": "deck screws", "fig.drip": "drip", "fig.board-top": "board top", "fig.rubber": "rubber height",
	"fig.sheet-length": "sheet length", "fig.sheet-width": "sheet width", "fig.window": "window", "fig.batch": "batch", "fig.trims": "trim pieces", "fig.gutter": "gutter",
	"fig.bar-screws": "bar screws", "fig.lead-pieces": "lead pieces", "fig.go": "weather", "fig.contact-run": "contact run",
}
