package miter

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"example.com/sagitta/arc"
)

// A Stand is how a board lies on a miter saw. The zero Stand is flat on the
// table, show face up, lower edge against the fence.
type Stand struct {
	OnEdge    bool // standing on an edge with a face against the fence
	ShowAway  bool // flat: show face down; on edge: show face against the fence
	UpperEdge bool // flat: upper edge against the fence; on edge: upper edge down
}

// String says the stand in a maker's words.
func (s Stand) String() string {
	edge := map[bool]string{false: "lower edge", true: "upper edge"}[s.UpperEdge]
	switch {
	case s.OnEdge && s.ShowAway:
		return edge + " down, show face against the fence"
	case s.OnEdge:
		return edge + " down, show face toward you"
	case s.ShowAway:
		return "flat, show face down, " + edge + " against the fence"
	}
	return "flat, show face up, " + edge + " against the fence"
}

// axes returns where the board's axes point at the saw: u to the right along
// the board as seen from the show face, v up its face, w out of it. At the saw
// x is to the operator's right, y toward the fence and z up.
func (s Stand) axes() (u, v, w r3.Vec) {
	v, w = r3.Vec{Y: -1}, r3.Vec{Z: 1}
	if s.OnEdge {
		v, w = r3.Vec{Z: 1}, r3.Vec{Y: -1}
	} else if s.ShowAway {
		// Turning the board over keeps the lower edge at the fence.
		w = r3.Vec{Z: -1}
	}
	if s.OnEdge && s.ShowAway {
		w = r3.Vec{Y: 1}
	}
	if s.UpperEdge {
		v = r3.Scale(-1, v)
	}
	return r3.Cross(v, w), v, w
}

// A Setting is what to set on a miter saw for one end of a board. Angles are
// not negative. MiterTo is the side to which the table's handle swings from a
// square cut, TiltTo the side to which the top of the blade leans, Keep the
// side of the blade on which the board lies, all as the operator faces the
// fence. Where an angle is 0 its side has no meaning.
type Setting struct {
	Stand           Stand
	Miter, Tilt     arc.Angle
	MiterTo, TiltTo Hand
	Keep            Hand
}

// normal returns the outward normal of the cut in the board's axes u, v, w.
func (e End) normal() r3.Vec {
	sm, cm := math.Sincos(float64(e.Miter))
	sb, cb := math.Sincos(float64(e.Bevel))
	n := r3.Vec{X: cb * cm, Y: cb * sm, Z: -sb}
	if e.Hand == Left {
		n.X = -n.X
	}
	return n
}

// Setting returns what to set for this end with the board standing as given.
//
// A table turned by m and a blade tilted by t cut a plane whose normal is
// (cos t cos m, cos t sin m, sin t) at the saw; the board flat this is its own
// miter and bevel, on edge the two trade places.
func (e End) Setting(s Stand) Setting {
	u, v, w := s.axes()
	b := e.normal()
	n := r3.Add(r3.Scale(b.X, u), r3.Add(r3.Scale(b.Y, v), r3.Scale(b.Z, w)))
	set := Setting{Stand: s, Keep: Left}
	if n.X < 0 {
		n, set.Keep = r3.Scale(-1, n), Right
	}
	set.Miter = arc.Angle(math.Atan2(math.Abs(n.Y), n.X))
	set.Tilt = arc.Angle(math.Atan2(math.Abs(n.Z), math.Hypot(n.X, n.Y)))
	if n.Y > 0 {
		set.MiterTo = Right
	}
	if n.Z < 0 {
		set.TiltTo = Right
	}
	return set
}

// LongPoint tells where the end reaches farthest: at the upper edge where it
// is upper, else the lower, and on the back where it is back, else the show
// face. A square cut reaches as far everywhere and gives false.
func (e End) LongPoint() (upper, back bool) { return e.Miter < 0, e.Bevel < 0 }
