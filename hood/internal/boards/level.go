package boards

import (
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/curve"
	"example.com/sagitta/hood/internal/rise"
	"example.com/sagitta/hood/spec"
	"example.com/sagitta/sheet/cut"
	"gonum.org/v1/gonum/spatial/r2"
)

// A level is a board that lies level between the sides, from the back to the
// front: how far the inner faces stand off at its lower and its upper face.
type level struct {
	front, left, right [2]float64 // lower, upper; outward
}

// levelAt measures the room for a level board with its lower face at a height.
func (b *builder) levelAt(height float64) level {
	at := func(p arc.Path) [2]float64 { return [2]float64{rise.OutAt(p, height), rise.OutAt(p, height+b.t)} }
	return level{
		front: at(b.front.Inner),
		left:  at(b.inside(b.left, b.LeftEnds(), b.t)),
		right: at(b.inside(b.right, b.RightEnds(), b.t)),
	}
}

// ductAt returns the middle of the duct in the deck.
func (b *builder) ductAt(l level) r2.Vec {
	x, r := b.Neck.Offset+b.Duct.X, b.Duct.Diameter/2
	z := b.Duct.Z
	if z == 0 {
		z = b.behindRibs((b.BackFace()+l.front[1])/2, x, r2.Vec{X: r, Y: r}, b.Height-b.t-r, b.Height-b.t)
	}
	return r2.Vec{X: x, Y: l.front[0] - z}
}

// behindRibs returns how far out of the wall the middle of an opening lies that is
// not told: where it would be without ribs, or as much nearer to the wall as ribs
// beside it need between two heights, where that leaves it off the back.
func (b *builder) behindRibs(z, x float64, half r2.Vec, low, high float64) float64 {
	rear, ok := b.ribRear()
	if !ok {
		return z
	}
	to := z
	for _, r := range b.ribs() {
		if math.Abs(r.x-x) < half.X+b.t/2 && r.high > low && r.low < high {
			for _, y := range [3]float64{max(low, r.low), (max(low, r.low) + min(high, r.high)) / 2, min(high, r.high)} {
				to = math.Min(to, rise.OutAt(rear, y)-half.Y-clearance)
			}
		}
	}
	if to < b.BackFace()+half.Y+clearance {
		return z
	}
	return to
}

// linerAt returns the opening for the liner in its shelf, y from the front.
func (b *builder) linerAt(l level) spec.Opening {
	z := b.Liner.Z
	if z == 0 {
		half := r2.Vec{X: b.Liner.Length / 2, Y: b.Liner.Width / 2}
		z = b.behindRibs((b.BackFace()+l.front[1])/2, b.Liner.X, half, b.Liner.Y+b.t, b.Liner.Y+2*b.t)
	}
	return spec.Opening{Shape: "rectangle", X: b.Liner.X, Y: l.front[0] - z, Width: b.Liner.Length, Height: b.Liner.Width}
}

// slope returns the angle off square of an edge that falls back by run over a
// height.
func slope(run, height float64) arc.Angle { return arc.Angle(math.Atan2(run, height)) }

// inside returns the path of a side's inner face at a depth from its show
// face, outward from the middle plane.
func (b *builder) inside(f flare, e curve.Ends, depth float64) arc.Path {
	if !f.flared() {
		x := e.Bottom - depth
		return arc.Polyline(r2.Vec{X: x}, r2.Vec{X: x, Y: b.Height})
	}
	s := f.Section
	if !s.Fold(e, depth) {
		b.faults.Add(f.at, f.shape, "", "a side that leaves a back", spec.ErrPlace)
	}
	return s.Inner
}

// dadoes returns the grooves of the left cheek, drawn mirrored in x, from the
// front edge to the rear one: for the deck, level with the top, and for the
// liner shelf.
func (b *builder) dadoes(front arc.Path) []cut.Slot {
	if b.Dado.Depth == 0 {
		return nil
	}
	wide := b.t + b.Dado.Clearance
	mids := []float64{b.Height - wide/2}
	if b.Liner.Length > 0 {
		// Not below the bottom edge.
		mids = append(mids, math.Max(b.Liner.Y+b.t/2, wide/2))
	}
	var out []cut.Slot
	for _, mid := range mids {
		reach := 0.0
		for _, y := range [3]float64{mid - wide/2, mid, mid + wide/2} {
			reach = math.Max(reach, rise.OutAt(front, y))
		}
		out = append(out, cut.Slot{
			From: r2.Vec{X: -reach, Y: mid}, To: r2.Vec{X: b.Scribe.Allowance, Y: mid},
			Width: wide, Depth: b.Dado.Depth,
		})
	}
	return out
}

// tongue returns how far a level board goes into the dado of a side.
func (b *builder) tongue(f flare) float64 {
	if f.flared() || b.Dado.Depth == 0 {
		return 0
	}
	return b.Dado.Depth - b.Dado.Clearance
}
