package curve

import (
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// Flat is how far a curve has to leave its chord, a neck has to be narrower or
// a bevel has to fall back, mm, to be told from a straight line, a plumb side or
// a square edge: a tenth of what a fitted curve may leave its points, and a
// hundredth of what a saw or a router keeps. Below, they are straight, plumb
// and square, everywhere and from the start.
const Flat = fitTol / 10

// MaxPoints bounds the points of a curve and of a wall, as their tags do.
const MaxPoints = 100

// Settled returns a sweep between its ends, straight where it leaves their
// chord nowhere by flat or more.
func (w Sweep) Settled(e Ends) Sweep {
	n := len(w.Points)
	straight := w.TakesSag() && n == 0 && w.Sag >= 0 && w.Sag < Flat
	if w.Name() == "points" && w.Sag == 0 && n > 0 && n <= MaxPoints {
		from, to := e.show()
		p, err := w.path(from, to)
		straight = err == nil && Rises(p) && leaves(p, from, to) < Flat
	}
	if !straight {
		return w
	}
	return Sweep{Shape: "straight", Method: w.Method}
}

// leaves returns how far a path of minor arcs leaves a line at most. On the way
// from end to end of an arc that is no more than at the ends, and its sag.
func leaves(p arc.Path, from, to r2.Vec) float64 {
	line := arc.Segment{A: from, B: to}
	most := 0.0
	for i := range p.NumSegments() {
		s := p.Segment(i)
		most = math.Max(most, math.Max(line.Distance(s.A), line.Distance(s.B))+s.Sag())
	}
	return most
}
