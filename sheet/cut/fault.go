package cut

import (
	"fmt"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"
)

// A FaultKind is a way in which a program is not fit to be run.
type FaultKind int

// The kinds of fault that [Replay] finds.
const (
	Gouge        FaultKind = iota // a part is cut deeper than asked
	Uncut                         // what is asked is not cut, or not deep enough
	Loose                         // a part, or waste, comes to lie loose
	Weak                          // a part hangs by less than a tab
	Spoilboard                    // deeper into the spoilboard than agreed
	LowTravel                     // rapid travel below the top of the sheet
	SpindleOff                    // cutting with the spindle stopped
	UnknownTool                   // a cutter that is not in the list
	BeyondReach                   // deeper than the cutter reaches
	DeepPass                      // more taken in one pass than the cutter should
	OffSheet                      // the axis leaves the sheet while cutting
	OffTravel                     // the axis leaves the machine's travel
	Clamped                       // the cutter meets a forbidden region, such as a clamp
	LowChange                     // a cutter is changed, or the program ends, below the safe height
	NearTravel                    // rapid travel so close over the sheet that only the feed is to be used
	Plunged                       // straight down into wood with a cutter that does not cut at its center
	SteepEntry                    // down into wood more steeply than the cutter may
	FastPlunge                    // down faster than the cutter may
	WrongFeed                     // a feed that is not this cutter's
	WrongSpeed                    // a speed of the spindle out of the cutter's bounds
	NotUpToSpeed                  // moved before the spindle is up to speed
	BeyondEdge                    // deeper than the cutting edges are long
	AfterFree                     // cut into a part whose outline is cut already
)

var faultNames = [...]string{
	"part cut too deep", "not cut as asked", "comes loose", "held by less than a tab", "spoilboard cut too deep", "rapid travel too low",
	"spindle stopped", "unknown cutter", "deeper than the cutter reaches", "pass too deep", "off the sheet",
	"off the machine's travel", "forbidden region", "too low for a change or the end",
	"rapid travel too close to the sheet", "plunge by a cutter that cannot", "entry too steep", "plunge too fast", "wrong feed for the cutter",
	"wrong speed for the cutter", "spindle not up to speed", "deeper than the cutting edges", "cut after the part is free",
}

// String returns the kind in words.
func (k FaultKind) String() string {
	if k < 0 || int(k) >= len(faultNames) {
		return "unknown"
	}
	return faultNames[k]
}

// A Fault is one kind of fault at one feature of a part, or of the moves.
type Fault struct {
	Kind      FaultKind
	Placement int    // index in the job, -1 where no part is concerned
	Name      string // of the part and its copy
	Feature   string // "outline", "opening 1", "slot 3", "pocket 1", "bevel 2", "face"
	At        r2.Vec // where it is worst, on the sheet
	Z, Need   float64
	Line      int // of the text, the move that did it, or the last there; 0 where there is none
	Count     int // of places probed, or of moves, where it was found
}

// Error returns the fault in one line.
func (f Fault) Error() string {
	var b strings.Builder
	fmt.Fprint(&b, f.Kind)
	if f.Name != "" {
		fmt.Fprintf(&b, ": %s, %s", f.Name, f.Feature)
	}
	fmt.Fprintf(&b, " at %.2f, %.2f: %.3f, need %.3f", f.At.X, f.At.Y, f.Z, f.Need)
	if f.Line > 0 {
		fmt.Fprintf(&b, ", line %d", f.Line)
	}
	if f.Count > 1 {
		fmt.Fprintf(&b, " (%d places)", f.Count)
	}
	return b.String()
}

// Faults are what [Replay] found, by kind, then placement, then feature; they wrap
// [ErrFaulty].
type Faults []Fault

// Error returns one line a fault.
func (f Faults) Error() string {
	lines := make([]string, len(f))
	for i := range f {
		lines[i] = f[i].Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap returns ErrFaulty.
func (f Faults) Unwrap() error { return ErrFaulty }

// Has reports whether a kind is among them.
func (f Faults) Has(k FaultKind) bool {
	for i := range f {
		if f[i].Kind == k {
			return true
		}
	}
	return false
}
