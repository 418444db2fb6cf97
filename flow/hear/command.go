package hear

// Cmd is what a person may say at any question.
type Cmd string

const (
	Accept Cmd = "accept" // . done ok
	Back   Cmd = "back"   // b
	Undo   Cmd = "undo"   // u
	Skip   Cmd = "skip"   // s WHY
	PutOff Cmd = "putoff" // d WHEN, put off WHEN
	Pause  Cmd = "pause"  // p
	Why    Cmd = "why"    // ?
	Rain   Cmd = "rain"   // r
	Stop   Cmd = "stop"   // x
	Timers Cmd = "timers" // t
	List   Cmd = "list"
	Where  Cmd = "where"
	Change Cmd = "change" // change NAME VALUE
	Go     Cmd = "go"     // go PHASE
	Help   Cmd = "help"
	Note   Cmd = "note"   // note TEXT
	Snag   Cmd = "snag"   // snag TEXT
	TakeUp Cmd = "takeup" // take up NAME
)

// Command says whether text is a command at a question that wants w, and which;
// rest is what followed it. In a Text field a command must stand alone, or begin
// with a slash.
func Command(text string, w Want) (cmd Cmd, rest string, ok bool) {
	return "", "", false
}
