package hood

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/spatial/r3"
)

// gravity is the standard acceleration of free fall, m/s².
const gravity = 9.80665

// A Hang is what has to be known to hang a hood. The insert, the blower, the
// duct and the finish are not in it.
type Hang struct {
	Mass     float64 // of what hangs, kg: all parts but those fixed to the wall
	Center   r3.Vec  // of gravity
	Load     float64 // weight on the cleat, N
	PerMeter float64 // of cleat, N/m; 0 without a cleat
	Pull     float64 // away from the wall at the top of the cleat, the bottom edge bearing on the wall, N
	Cleat    float64 // length of the cleat, mm; 0 without one
	Heaviest string  // the heaviest part
	Lift     float64 // its mass, kg
	Size     r3.Vec  // of the assembled hood, without chimney, mm
	Passes   bool    // it goes through the doorway; true where none is given
}

// Hang returns masses, center of gravity and pull, worked out from the meshes
// of the bent parts. A design that was not built has none.
func (d Design) Hang() (Hang, error) {
	if d.made == nil {
		return Hang{}, nil
	}
	d.made.weigh.Do(func() { d.made.hang = d.weigh() })
	return d.made.hang, nil
}

func (d Design) weigh() Hang {
	h := Hang{Passes: true}
	low, high := r3.Vec{X: math.Inf(1), Y: math.Inf(1), Z: math.Inf(1)}, r3.Vec{X: math.Inf(-1), Y: math.Inf(-1), Z: math.Inf(-1)}
	panel, lift := "", 0.0 // plies are lifted as one, glued up
	for i, s := range d.solids() {
		p := d.made.folded[i].Part
		if p.Panel != panel {
			panel, lift = p.Panel, 0
		}
		if lift += p.Mass; lift > h.Lift {
			h.Heaviest, h.Lift = panel, lift
		}
		if p.Kind == KindCleat {
			size := p.Outline.Bounds()
			h.Cleat = size.Max.X - size.Min.X
		}
		if p.Kind == KindWallCleat {
			continue
		}
		h.Mass += p.Mass
		h.Center = r3.Add(h.Center, r3.Scale(p.Mass, s.Centroid()))
		if p.Kind == KindChimneySide || p.Kind == KindChimneyFront {
			continue
		}
		for _, v := range s.Vertices {
			low = r3.Vec{X: math.Min(low.X, v.X), Y: math.Min(low.Y, v.Y), Z: math.Min(low.Z, v.Z)}
			high = r3.Vec{X: math.Max(high.X, v.X), Y: math.Max(high.Y, v.Y), Z: math.Max(high.Z, v.Z)}
		}
	}
	h.Center = r3.Scale(1/h.Mass, h.Center)
	h.Size = r3.Sub(high, low)
	h.Load = h.Mass * gravity
	h.Pull = h.Load * h.Center.Z / hook(d.Spec)
	if h.Cleat > 0 {
		h.PerMeter = h.Load / h.Cleat * 1000
	}
	if w := d.Spec.Doorway; w.Width > 0 && w.Height > 0 {
		h.Passes = passes(h.Size, w)
	}
	return h
}

// passes reports whether a box goes through an opening with one of its sides
// first and its edges upright.
func passes(size r3.Vec, w Doorway) bool {
	s := []float64{size.X, size.Y, size.Z}
	sort.Float64s(s)
	return s[0] < math.Min(w.Width, w.Height) && s[1] < math.Max(w.Width, w.Height)
}

// hook returns the height at which the hood is held: the cleat, or the deck
// where it has none.
func hook(s Spec) float64 {
	if s.Cleat.Height > 0 {
		return s.Height - s.Board.Thickness - s.Cleat.Height + s.Board.Thickness/2
	}
	return s.Height - s.Board.Thickness
}
