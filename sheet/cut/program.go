package cut

import (
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A Move is one straight or circular move of the cutter's tip.
type Move struct {
	From, To r3.Vec
	K        float64 // of its plan, as in [arc.Vertex]; 0 is straight. z changes in proportion to the length
	Rapid    bool    // travel, as fast as the machine goes
	Feed     float64 // mm/min, of a move that is not Rapid
	Tool     int     // number of the cutter in the spindle
	Speed    float64 // of the spindle, rev/min clockwise; 0 is stopped
	Dwell    float64 // waited before the move, spindle running, s
	Line     int     // of the text it was read from, from 1; 0 where it was not
}

// plan returns the move seen from above.
func (m Move) plan() arc.Segment {
	return arc.Segment{A: xy(m.From), B: xy(m.To), K: m.K}
}

// Length returns the length of the move in space, mm.
func (m Move) Length() float64 { return math.Hypot(m.plan().Length(), m.To.Z-m.From.Z) }

func xy(v r3.Vec) r2.Vec { return r2.Vec{X: v.X, Y: v.Y} }

func lift(p r2.Vec, z float64) r3.Vec { return r3.Vec{X: p.X, Y: p.Y, Z: z} }

// A Kind is what an operation cuts.
type Kind int

// The kinds, in the order of a program.
const (
	SlotCut Kind = iota
	PocketCut
	OpeningCut
	WasteCut // waste that would come loose, cut to chips
	BevelCut
	OutlineCut
)

// String returns "slot", "pocket", "opening", "waste", "bevel" or "outline".
func (k Kind) String() string {
	if k < 0 || k > OutlineCut {
		return "unknown"
	}
	return [...]string{"slot", "pocket", "opening", "waste", "bevel", "outline"}[k]
}

// An Operation is one cut: from over its start, down, along, and up again.
type Operation struct {
	Kind      Kind
	Placement int    // index in the job, -1 of waste
	Name      string // of the part and its copy, or "waste"
	Tool      int    // number of the cutter
	Depth     float64
	Tabs      int
	Moves     []Move

	group int // place in the program: groups are cut one after the other
}

// Start returns where the cutter comes down, and End where it goes up.
func (o Operation) Start() r2.Vec { return xy(o.Moves[0].To) }

// End returns where the cutter goes up.
func (o Operation) End() r2.Vec { return xy(o.Moves[len(o.Moves)-1].To) }

// A Beveled is a bevel that a program cuts, and how.
type Beveled struct {
	Placement int
	Name      string
	Side      string
	Angle     arc.Angle
	Made      Made
}

// Stepped returns how many bevels a program cuts in steps, how long that takes
// in minutes, and how far such a step stands off its face at most, mm.
func (p Program) Stepped() (edges int, minutes, stands float64) {
	for _, b := range p.Bevels {
		if b.Made.Way == BySteps {
			edges++
			minutes += b.Made.Minutes
			stands = math.Max(stands, b.Made.Stands)
		}
	}
	return edges, minutes, stands
}

// A Saw is a bevel left to be finished by saw.
type Saw struct {
	Placement int
	Name      string
	Side      string   // name of the edge, or the bevel's number
	Edge      arc.Path // on the sheet
	Angle     arc.Angle
	Why       string
}

// A Rest is an inside corner that the cutter cannot reach into, to be finished
// by hand.
type Rest struct {
	Placement int
	Name      string
	Kind      Kind
	At        r2.Vec  // the corner, on the sheet
	Left      float64 // how far from the corner the cut stays, mm
}

// A Program is the cutting of one sheet.
type Program struct {
	Title                   string
	Sheet                   r2.Box // extent
	Thickness               float64
	Material                string
	Safe                    float64 // z of travel
	Through                 float64
	Hold                    Hold
	Skin                    float64 // that outlines leave, mm; 0 unless Hold is of a skin
	TabWidth, TabHeight     float64 // mm; 0 unless Hold is by tabs
	SpinUp                  float64 // waited after a cutter is changed and the spindle started, s
	Tools                   []Tool  // used, in the sequence of their first use
	Operations              []Operation
	Bevels                  []Beveled // that the program cuts
	Saw                     []Saw
	Rest                    []Rest
	Minutes                 float64 // estimate: moves, travel and changes of cutter, without the time to speed up and slow down
	CutLength, TravelLength float64 // mm
}

// Moves returns all moves with the travel between the operations.
func (p Program) Moves() []Move {
	var out []Move
	for _, o := range p.Operations {
		first := o.Moves[0]
		if len(out) > 0 {
			last := out[len(out)-1]
			if xy(last.To) != xy(first.To) {
				to := lift(xy(first.To), p.Safe)
				m := Move{From: last.To, To: to, Rapid: true, Tool: first.Tool, Speed: first.Speed}
				if last.Tool != m.Tool && m.Speed > 0 {
					m.Dwell = p.SpinUp
				}
				out = append(out, m)
			}
			first.From = out[len(out)-1].To
			first.From.Z = p.Safe
		}
		begun := len(out) == 0 || out[len(out)-1].Tool != first.Tool
		if begun && first.Speed > 0 {
			first.Dwell = p.SpinUp
		}
		out = append(out, first)
		out = append(out, o.Moves[1:]...)
	}
	return out
}
