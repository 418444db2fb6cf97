// Package draw makes the pictures of a roof: from the facts and the plan worked
// out from them, a sketch in mm with what it says in words. It draws nothing
// itself and knows no font, no page and no language; what the lines look like
// and where the words find room is for messages/picture.
//
// Every dimension it puts down is the distance it stands beside, to the
// millimetre: a picture that is not true to its own figures is worse than none.
package draw
