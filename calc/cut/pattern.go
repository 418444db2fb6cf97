package cut

// pattern is one way to saw a bar: a kind and how often each item.
type pattern struct {
	kind  int
	items []int // item indexes, ascending
	times []int
}

// proper says whether no item occurs more often than wanted.
func (p pattern) proper(demand []int) bool {
	for k, i := range p.items {
		if p.times[k] > demand[i] {
			return false
		}
	}
	return true
}

func (p pattern) key() string {
	b := []byte{byte(p.kind), byte(p.kind >> 8)}
	for k, i := range p.items {
		b = append(b, byte(i), byte(i>>8), byte(p.times[k]), byte(p.times[k]>>8))
	}
	return string(b)
}
