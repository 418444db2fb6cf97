// Package load works out what lies, blows and banks on a small flat roof:
// dead load from the build-up, the imposed load, snow with its drifts, wind by
// zones, the combinations by name, and what is left of the weight when the
// wind lifts.
//
// Values that a country sets for itself live in a [Set]; every answer names
// the set it used. Loads are characteristic values on the plan unless a name
// says design.
package load
