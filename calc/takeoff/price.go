package takeoff

import (
	"math"
	"slices"
)

// priceOf adds up packs at the builder's prices; nil when one has none.
func (s *sheet) priceOf(key Key, packs []Pack) *Money {
	total := new(Money)
	for _, p := range packs {
		each := s.price(key, p.Size)
		if each == nil {
			return nil
		}
		*total += Money(p.Count) * *each
	}
	return total
}

// priceBy is the cost of something bought by measure, at the builder's price of
// one unit of it.
func (s *sheet) priceBy(key Key, amount float64) *Money {
	each := s.price(key, 1)
	if each == nil {
		return nil
	}
	cost := Money(math.Round(amount * float64(*each)))
	return &cost
}

// price is the builder's price of one size; nil when he has not said, or said
// something no price can be.
func (s *sheet) price(key Key, size float64) *Money {
	own := s.in.Packs[key]
	i := slices.IndexFunc(own, func(o PackSize) bool { return thousandths(o.Size) == thousandths(size) })
	if i < 0 || own[i].Price == nil || !s.within("packs", float64(*own[i].Price), 0, float64(dearest), "hundredths") {
		return nil
	}
	return own[i].Price
}
