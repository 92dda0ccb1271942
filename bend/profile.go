package bend

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// A piece is part of a profile told from the profile alone, with no place: an
// arc, or the slight corner between two segments where the radius is 0.
type piece struct {
	turn   float64 // radians; the bend it is in counts its own sense positive
	radius float64
	vertex int // of the profile, where it begins
}

// A curve is a stretch of profile that bends one way, between straights,
// changes of sense or ends.
type curve struct {
	pieces []piece
	sense  float64 // +1 turning left: the show face is convex and kerfs close
	turn   float64 // of all pieces together, > 0
	to     int     // vertex at which it ends

	before, after float64 // straight lengths beside it
	first, last   bool    // nothing bent before, after it
}

// straightTurn is the turn below which an arc is a line: end tangents off by
// this are well within what a plan promises.
const straightTurn = 1e-10

// maxSegments bounds the work a profile can ask for.
const maxSegments = 1000

type element struct {
	arc.Segment
	turn float64 // signed, 0 for a line
	from int     // vertex it begins at
	to   int
	kink int // vertex of a slight corner inside a line joined of several, 0 for none
	by   arc.Angle
}

// elements returns the segments of a profile that have a length, flat ones as
// lines, and lines that run on into each other joined into one.
func elements(fn string, p arc.Path, corner float64) ([]element, error) {
	out := make([]element, 0, len(p.V))
	for i := range p.NumSegments() {
		e := element{Segment: p.Segment(i), from: i, to: i + 1}
		if e.A == e.B {
			continue
		}
		if e.turn = float64(e.Angle()); math.Abs(e.turn) <= straightTurn {
			e.turn, e.K = 0, 0
		}
		if n := len(out); n > 0 {
			last := &out[n-1]
			c := cornerAngle(*last, e)
			if math.Abs(c) > corner {
				return nil, fault(fn, fmt.Sprintf("profile corner at vertex %d", i), arc.Angle(c), "",
					fmt.Sprintf("at most %.3g rad (Limits.Corner)", corner), ErrCorner)
			}
			if last.turn == 0 && e.turn == 0 {
				last.B, last.to = e.B, e.to
				if math.Abs(c) > straightTurn {
					last.kink, last.by = i, arc.Angle(c)
				}
				continue
			}
		}
		out = append(out, e)
	}
	if len(out) == 0 {
		return nil, fault(fn, "profile length", 0.0, "mm", "> 0", ErrRange)
	}
	// Between bends the kerfs beside a kinked line make up for it; at an end
	// of the profile nothing does.
	for _, e := range []element{out[0], out[len(out)-1]} {
		if e.kink > 0 {
			return nil, fault(fn, fmt.Sprintf("profile corner at vertex %d", e.kink), e.by, "",
				"none in a straight at an end of the profile", ErrCorner)
		}
	}
	return out, nil
}

// cornerAngle returns the signed angle from the end tangent of a to the start
// tangent of b.
func cornerAngle(a, b element) float64 {
	u, v := r2.Sub(a.B, a.A), r2.Sub(b.B, b.A)
	return math.Remainder(math.Atan2(r2.Cross(u, v), r2.Dot(u, v))-(a.turn+b.turn)/2, 2*math.Pi)
}

// curves cuts a profile into its bent stretches.
func curves(es []element) (cs []curve, start float64) {
	straight := 0.0
	for i, e := range es {
		if e.turn == 0 {
			straight += e.Chord()
			if n := len(cs); n > 0 {
				cs[n-1].after = e.Chord()
				if c := cornerAngle(es[i-1], e); c != 0 {
					cs[n-1].add(piece{c, 0, e.from}, e.from)
				}
			}
			continue
		}
		sense := math.Copysign(1, e.turn)
		c := 0.0
		if i > 0 {
			c = cornerAngle(es[i-1], e)
		}
		joined := len(cs) > 0 && straight == 0
		if joined && c != 0 {
			cs[len(cs)-1].add(piece{c, 0, e.from}, e.from)
		}
		if !joined || cs[len(cs)-1].sense != sense {
			cs = append(cs, curve{sense: sense, before: straight})
			if !joined && c != 0 {
				cs[len(cs)-1].add(piece{c, 0, e.from}, e.from)
			}
		}
		cs[len(cs)-1].add(piece{e.turn, e.Radius(), e.from}, e.to)
		straight = 0
	}
	if len(cs) == 0 {
		return nil, straight
	}
	cs[0].first, cs[len(cs)-1].last = true, true
	return cs, cs[0].before
}

// add appends a piece whose turn is signed as in the profile.
func (c *curve) add(p piece, to int) {
	p.turn *= c.sense
	c.pieces = append(c.pieces, p)
	c.turn += p.turn
	c.to = to
}

// length returns the length of the curve on the show face.
func (c *curve) length() float64 {
	sum := 0.0
	for _, p := range c.pieces {
		sum += p.turn * p.radius
	}
	return sum
}
