package miter

import (
	"math"

	"example.com/sagitta/arc"
)

// chordStep returns a chord that leaves an arc by half of refitSag; an edge
// that is bent curves with its own arcs and with its profile.
func chordStep(radius float64) float64 {
	return math.Sqrt(4 * refitSag * math.Min(radius, 1e4))
}

// leastRadius returns the radius of the sharpest arc of a path.
func leastRadius(p arc.Path) float64 {
	least := math.Inf(1)
	for i := range p.NumSegments() {
		least = math.Min(least, p.Segment(i).Radius())
	}
	return least
}

// maxChords bounds what an edge is cut into.
const maxChords = 1 << 20

// perSegment returns how many chords a segment is cut into.
func perSegment(s arc.Segment, radius float64) float64 {
	return math.Ceil(s.Length()/chordStep(math.Min(radius, s.Radius()))) + 1
}

// numChords returns how many chords a path is cut into.
func numChords(p arc.Path, radius float64) float64 {
	sum := 0.0
	for i := range p.NumSegments() {
		sum += perSegment(p.Segment(i), radius)
	}
	return sum
}

// chords returns points along a path close enough for it to be bent over a
// profile of the given radius.
func chords(p arc.Path, radius float64) []edgePoint {
	var out []edgePoint
	for i := range p.NumSegments() {
		s := p.Segment(i)
		l := s.Length()
		n := int(perSegment(s, radius))
		for j := range n {
			q, dir := s.At(l * float64(j) / float64(n))
			out = append(out, edgePoint{q, dir})
		}
	}
	q, dir := p.At(p.Length())
	return append(out, edgePoint{q, dir})
}

// climbs reports whether no point lies below the one before.
func climbs(e []edgePoint) bool {
	for i := 1; i < len(e); i++ {
		if !(e[i].p.Y >= e[i-1].p.Y-slack) {
			return false
		}
	}
	return true
}
