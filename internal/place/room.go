package place

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

const (
	roomKinds = 16  // sizes of containers that are looked at
	roomScan  = 360 // angles over half a turn, between which the best is sought
)

// rooms lists the different sizes of the boxes of containers.
func rooms(containers []Container) []r2.Vec {
	var out []r2.Vec
	for _, c := range containers {
		lo, hi := c.frame()
		if d := r2.Sub(hi, lo); len(out) < roomKinds && !slices.Contains(out, d) {
			out = append(out, d)
		}
	}
	return out
}

// roomAngles returns, for each room in which the item fits at none of the
// angles, the one at which it comes nearest to fitting.
func (it Item) roomAngles(angles []float64, rooms []r2.Vec) []float64 {
	var out []float64
	for _, room := range rooms {
		fill := func(a float64) float64 { return it.fill(a, room) }
		if !slices.ContainsFunc(slices.Concat(angles, out), func(a float64) bool { return fill(a) <= 1 }) {
			out = append(out, it.tightest(fill))
		}
	}
	return out
}

// fill returns by what factor the room has to grow to hold the item's box.
func (it Item) fill(a float64, room r2.Vec) float64 {
	lo, hi := bounds(applyAll(Placement{Rotation: a}, it.Outer))
	return math.Max((hi.X-lo.X)/room.X, (hi.Y-lo.Y)/room.Y)
}

// tightest minimizes fill. Between two neighbors of the scan it has one
// minimum, or as good as one, where an edge comes to lie along an axis or both
// sides are equally tight.
func (it Item) tightest(fill func(float64) float64) float64 {
	best, least := 0.0, math.Inf(1)
	try := func(a float64) {
		if v := fill(a); v < least {
			best, least = a, v
		}
	}
	const step = math.Pi / roomScan
	for k := range roomScan {
		try(float64(k) * step)
	}
	for i, v := range it.Outer[:min(len(it.Outer), roomScan)] {
		d := r2.Sub(at(it.Outer, i+1), v)
		try(-math.Atan2(d.Y, d.X))
		try(math.Pi/2 - math.Atan2(d.Y, d.X))
	}
	for s := step; s > 1e-12; s *= 0.7 {
		c := best
		try(c - s)
		try(c + s)
	}
	return best
}
