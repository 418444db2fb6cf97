package text

// enRecord holds what is said when a record is read again.
var enRecord = map[string]string{
	"record.title":        "{name} ({job}): {n|event|events}, {when}, {zone}.",
	"record.days":         "{from} to {to}",
	"record.day":          "{day}",
	"record.gap":          "... {gap} ...",
	"record.set-back.gap": "... back by {gap} ...",
	"record.line":         "{at}  {who}  {what}",
	"record.said":         "> {words}",
	"record.erased":       "(erased)",
	"record.until":        "Up to here; the record goes on.",
	"record.named":        "{name}, {role}",

	"record.builder": "builder", "record.second": "second hand", "record.follower": "follower", "record.system": "clock",

	"record.opened": "begins the job", "record.answered": "answers", "record.proposed": "proposes", "record.dropped": "leaves it", "record.heard": "asks",
	"record.skipped": "skips", "record.put-off": "puts off", "record.taken-up": "takes up", "record.moved": "moves", "record.reopened": "opens again",
	"record.undone": "takes back", "record.paused": "pauses", "record.continued": "goes on", "record.tapped": "taps", "record.rang": "rings",
	"record.told": "is shown", "record.noted": "notes", "record.snagged": "finds", "record.snag-closed": "closes", "record.ended": "ends the job",
	"record.renamed": "renames", "record.archived": "puts away", "record.set-back": "notices", "record.met": "is met", "record.chose": "chooses",
	"record.priced": "gives a price", "record.recalled": "is told what is known", "record.calibrated": "keeps a film", "record.came": "takes delivery", "record.solved": "has searched on", "record.released": "says what waited",
	"record.photo": "photo {photo}",

	"record.same":         "Today's formulas say the same ({n|telling|tellings} compared).",
	"record.differs":      "Today's formulas say something else at {n|event|events} of {all}:",
	"record.diff":         "{seq}  {day} {at}  {what}",
	"record.diff.line":    "{old} -> {new}",
	"record.diff.nothing": "nothing",
	"record.row":          "{cells}",
}
