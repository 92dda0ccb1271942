package arc

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// A Frame is a rectangle in any position.
type Frame struct {
	Corner        r2.Vec  // the lower left one, seen along the length
	Along         Angle   // the direction of the length, from the x axis
	Length, Width float64 // mm, Length >= Width
}

// Area returns the area of the frame in mm².
func (f Frame) Area() float64 { return f.Length * f.Width }

// Path returns the frame as a counter-clockwise loop from its corner.
func (f Frame) Path() Path {
	return Rect(0, 0, f.Length, f.Width).Transform(Rotate(f.Along).Then(Shift(f.Corner)))
}

// SmallestFrame returns the rectangle of least area around the paths. Of a
// polygon's a side lies along the hull; where arcs touch the sides, the turn
// is searched between the turns at which what touches changes.
func SmallestFrame(paths ...Path) (Frame, error) {
	hull, err := ConvexHull(paths...)
	if err != nil {
		return Frame{}, err
	}
	var best Frame
	least := math.Inf(1)
	try := func(turn float64) float64 {
		f := frameAt(hull, turn)
		if f.Area() < least {
			best, least = f, f.Area()
		}
		return f.Area()
	}
	turns := quarterTurns(hull)
	for i, t := range turns {
		try(t)
		next := turns[0] + math.Pi/2
		if i+1 < len(turns) {
			next = turns[i+1]
		}
		searchMin(t, next, try)
	}
	return best, nil
}

// quarterTurns returns, within a quarter turn, all at which a side of a frame
// passes from one part of the hull to the next: its tangents at the vertices.
func quarterTurns(hull Path) []float64 {
	var out []float64
	for i := range hull.NumSegments() {
		s := hull.Segment(i)
		for _, l := range [2]float64{0, s.Length()} {
			_, u := s.At(l)
			t := math.Mod(math.Atan2(u.Y, u.X)+2*math.Pi, math.Pi/2)
			out = append(out, t)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// searchMin tries a few points between a and b and, between the neighbors of
// the best, narrows in by the golden section.
func searchMin(a, b float64, try func(x float64) float64) {
	const n = 4
	if b-a < 1e-9 {
		return
	}
	at, least := 0, math.Inf(1)
	for i := 1; i < n; i++ {
		if y := try(a + (b-a)*float64(i)/n); y < least {
			at, least = i, y
		}
	}
	lo, hi := a+(b-a)*float64(at-1)/n, a+(b-a)*float64(at+1)/n
	const golden = 0.6180339887498949
	x, y := hi-golden*(hi-lo), lo+golden*(hi-lo)
	fx, fy := try(x), try(y)
	for range 40 {
		if fx < fy {
			hi, y, fy = y, x, fx
			x = hi - golden*(hi-lo)
			fx = try(x)
		} else {
			lo, x, fx = x, y, fy
			y = lo + golden*(hi-lo)
			fy = try(y)
		}
	}
}

// frameAt returns the frame around a hull with a side at the given turn.
func frameAt(hull Path, turn float64) Frame {
	a := Angle(turn)
	b := hull.Transform(Rotate(-a)).Bounds()
	f := Frame{Along: a, Length: b.Max.X - b.Min.X, Width: b.Max.Y - b.Min.Y}
	f.Corner = Rotate(a).Apply(b.Min)
	if f.Width > f.Length {
		f.Corner = Rotate(a).Apply(r2.Vec{X: b.Max.X, Y: b.Min.Y})
		f.Along, f.Length, f.Width = a+Angle(math.Pi/2), f.Width, f.Length
	}
	return f
}
