package hood

import "example.com/sagitta/hood/spec"

// What is asked of a hood is that of package spec.
type (
	Spec       = spec.Spec
	Tabs       = spec.Tabs
	Pins       = spec.Pins
	Neck       = spec.Neck
	Chimney    = spec.Chimney
	Board      = spec.Board
	Sheet      = spec.Sheet
	Back       = spec.Back
	Opening    = spec.Opening
	Liner      = spec.Liner
	Duct       = spec.Duct
	Bend       = spec.Bend
	Ply        = spec.Ply
	Form       = spec.Form
	Cut        = spec.Cut
	Dado       = spec.Dado
	Molding    = spec.Molding
	Ribs       = spec.Ribs
	Cleat      = spec.Cleat
	Blocks     = spec.Blocks
	Scribe     = spec.Scribe
	Cooktop    = spec.Cooktop
	Doorway    = spec.Doorway
	ParamError = spec.ParamError
	Faults     = spec.Faults
)

// Version is that of the spec files and packets of this release.
const Version = spec.Version

// NeedVersion returns what a file of another version needs before it can be
// read, and nothing where the version is that of this release.
func NeedVersion(version int) string { return spec.NeedVersion(version) }

// The kinds of fault, for errors.Is, beside arc.ErrNotFinite and arc.ErrRange.
var (
	ErrWord  = spec.ErrWord  // a word that is none of those a field may hold
	ErrPlace = spec.ErrPlace // something does not fit where it is put
	ErrBend  = spec.ErrBend  // the material or the limits do not allow the curve
	ErrOpen  = spec.ErrOpen  // the proof found a joint that does not close
)
