// Package air is the damp in the air and on the deck: vapour pressure, dew
// point, how fast a wet film dries, and how warm a surface probably is when
// nobody has put a thermometer on it.
//
// Vapour pressures are those of the plain Magnus form, over water unless the
// name says ice, without the enhancement factor of moist air (about 0.5 % at
// sea level): every use here is a ratio or a difference in which it cancels.
package air
