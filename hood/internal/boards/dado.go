package boards

import (
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/internal/rise"
	"example.com/sagitta/sheet/cut"
	"gonum.org/v1/gonum/spatial/r2"
)

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
