package text

import "maps"

// english joins the tables of the English words.
func english() *Speaker {
	s := &Speaker{
		lang:    "en",
		phrases: map[string]string{},
		months:  []string{"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"},
		plural: func(n int) int {
			if n == 1 {
				return 0
			}
			return 1
		},
	}
	for _, t := range enTables() {
		maps.Copy(s.phrases, t)
	}
	return s
}

func enTables() []map[string]string {
	return []map[string]string{enAsk, enWhy, enName, enPick, enTold, enCaution, enDoubt, enTalk, enHear, enList, enOrder, enFigure, enRecord, enDraw}
}
