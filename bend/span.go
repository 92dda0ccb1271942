package bend

import "math"

// A span is the part of a curve that one kerf turns: pieces of it, told from
// the tangent at its start. The lands on both sides of the kerf lie on the
// tangents at its two ends, so a chain of spans lands exactly where the curve
// does, whatever its radii.
type span struct {
	part []part
	turn float64
}

type part struct {
	at, turn, radius float64 // begins at angle at from the start tangent
}

// tangents returns the distances from the two ends of the span to the point
// where its end tangents meet. Across each tangent stands the sum of what the
// chords rise from it, so nothing cancels and no coordinates enter.
func (s *span) tangents() (in, out float64) {
	for _, p := range s.part {
		chord := 2 * p.radius * math.Sin(p.turn/2)
		mid := p.at + p.turn/2
		in += chord * math.Sin(s.turn-mid)
		out += chord * math.Sin(mid)
	}
	sin := math.Sin(s.turn)
	return in / sin, out / sin
}

// facet returns the largest distance between the curve and the two tangents
// joined by an arc of radius r that begins at length "in" less r·tan(turn/2)
// along the first.
//
// Both are convex with common end tangents, so the distance is the largest
// difference of their extents in any direction between the end normals. Inside
// one arc of the curve that difference is a sinusoid plus a constant.
func (s *span) facet(in, r float64) float64 {
	x0 := in - r*math.Tan(s.turn/2) // the bent web begins at x0, 0
	most := 0.0
	x, y := 0.0, 0.0 // where the part begins
	for _, p := range s.part {
		if p.turn > 0 {
			most = math.Max(most, p.offset(x, y, x0, r))
		}
		chord := 2 * p.radius * math.Sin(p.turn/2)
		sin, cos := math.Sincos(p.at + p.turn/2)
		x, y = x+chord*cos, y+chord*sin
	}
	return most
}

// offset returns the largest distance of the part, beginning at x, y, from the
// web's arc, over the normals of the part.
func (p part) offset(x, y, x0, r float64) float64 {
	// Seen from the part's beginning, f(h) with the normal turned by h > 0
	// from there: the arc reaches u·sin h − v·cos h + r, the part R(1 − cos h).
	sin, cos := math.Sincos(p.at)
	cx, cy := x0-x, r-y // center of the web's arc
	u, v := cx*cos+cy*sin, cy*cos-cx*sin
	f := func(h float64) float64 {
		q := math.Sin(h / 2)
		return math.Abs(u*math.Sin(h) - (v - r) + 2*(v-p.radius)*q*q)
	}
	most := math.Max(f(0), f(p.turn))
	// The slope, u·cos h + (v − R)·sin h, is zero where h is the angle of
	// (R − v, u), or half a turn on.
	h := math.Atan2(u, p.radius-v)
	if h < 0 {
		h += math.Pi
	}
	if h < p.turn {
		most = math.Max(most, f(h))
	}
	return most
}

// A walker deals out the spans of a curve turned equally by n kerfs.
type walker struct {
	c    *curve
	i    int     // piece
	used float64 // of piece i
	at   float64 // absolute angle reached
	span span
}

// next returns the span between the absolute angles from and to, all that is
// left where last is set. The span is good until the next call.
func (w *walker) next(from, to float64, last bool) *span {
	w.span.part = w.span.part[:0]
	w.span.turn = to - from
	for w.i < len(w.c.pieces) {
		p := w.c.pieces[w.i]
		left := p.turn - w.used
		if !last && w.at >= to {
			break
		}
		if !last && left > 0 && w.at+left > to {
			take := to - w.at
			w.span.part = append(w.span.part, part{w.at - from, take, p.radius})
			w.used += take
			w.at = to
			break
		}
		w.span.part = append(w.span.part, part{w.at - from, left, p.radius})
		w.at += left
		w.i++
		w.used = 0
	}
	return &w.span
}
