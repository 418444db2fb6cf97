package hear

type moments struct{}

func (l *listener) moment() Heard { return l.refused(RefusedMoment) }
