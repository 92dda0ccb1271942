package cut

import (
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// A sweep is a piece of a move, short enough for its box to be tight.
type sweep struct {
	seg      arc.Segment
	u        r2.Vec // along, of a straight one
	l        float64
	z0, rise float64 // height at the start, and per mm
	low      float64
	line     int32
	level    circle // of an arc of one height; its zero value of anything else
}

// A circle is that of an arc of less than half a turn, with the arc's ends as
// seen from the center.
type circle struct {
	at, a, b r2.Vec
	rad, way float64 // way is 1 counter-clockwise, -1 clockwise
}

// Arcs flatter, or that turn farther, are measured by package arc.
const (
	farRadius = 1e6 // mm: a distance from such a center is good to 1e-9
	halfTurn  = 0.9 // as a K
)

func newCircle(s arc.Segment) circle {
	if s.K == 0 || math.Abs(s.K) > halfTurn || s.Radius() > farRadius {
		return circle{}
	}
	c := s.Center()
	return circle{at: c, a: r2.Sub(s.A, c), b: r2.Sub(s.B, c), rad: s.Radius(), way: math.Copysign(1, s.K)}
}

// distance returns how far a point is from the arc.
func (c *circle) distance(x, y float64) float64 {
	x, y = x-c.at.X, y-c.at.Y
	if (c.a.X*y-c.a.Y*x)*c.way >= 0 && (x*c.b.Y-y*c.b.X)*c.way >= 0 {
		return math.Abs(math.Sqrt(x*x+y*y) - c.rad)
	}
	ax, ay, bx, by := x-c.a.X, y-c.a.Y, x-c.b.X, y-c.b.Y
	return math.Sqrt(math.Min(ax*ax+ay*ay, bx*bx+by*by))
}

// cut lowers the probes that a move sweeps over.
func (r *replayer) cut(m *Move) { r.inPieces(m, r.sweep) }

// inPieces calls do for the pieces of a move.
func (r *replayer) inPieces(m *Move, do func(*sweep)) {
	s := m.plan()
	l := s.Length()
	n := int(math.Min(1e5, math.Max(1, math.Ceil(l/(3*r.size)))))
	for i := range n {
		w := sweep{seg: s, l: l, z0: m.From.Z, low: low(m), line: int32(m.Line)}
		if n > 1 {
			w.seg = sub(s, l*float64(i)/float64(n), l*float64(i+1)/float64(n))
			w.l = l / float64(n)
			w.z0 += (m.To.Z - m.From.Z) * float64(i) / float64(n)
		}
		if l > 0 {
			w.rise = (m.To.Z - m.From.Z) / l
			w.low = math.Min(w.z0, w.z0+w.rise*w.l)
		}
		if w.seg.K == 0 && w.l > 0 {
			w.u = r2.Scale(1/w.l, r2.Sub(w.seg.B, w.seg.A))
		} else if w.rise == 0 {
			w.level = newCircle(w.seg)
		}
		do(&w)
	}
}

// sweep lowers the probes in the tiles around a piece of a move.
func (r *replayer) sweep(w *sweep) {
	r.sheet.sweep(r, w)
	b := w.seg.Bounds()
	rad := r.radiusAt(r.top-w.low) + r.cell
	x0, x1 := r.column(b.Min.X-rad), r.column(b.Max.X+rad)
	y0, y1 := r.row(b.Min.Y-rad), r.row(b.Max.Y+rad)
	low := float32(w.low)
	for y := y0; y <= y1; y++ {
		from, to := r.first[y*r.nx+x0], r.first[y*r.nx+x1+1]
		for i := from; i < to; i++ {
			p := &r.probe[i]
			if p.z <= low {
				continue
			}
			if z := float32(r.height(w, p)); z < p.z {
				r.lower(p, z, w.line)
			}
		}
	}
}

// radiusAt returns how wide the cutter is at a height over its tip.
func (r *replayer) radiusAt(h float64) float64 {
	if !r.tool.V() {
		return r.tool.Diameter / 2
	}
	return math.Min(r.tool.Diameter/2, h*r.tool.slope())
}

// lower cuts a probe down to a height.
func (r *replayer) lower(p *probe, z float32, line int32) {
	took := float64(p.z - z)
	r.note(p, z, took, line)
	limit := r.tool.Step
	if r.tool.V() {
		// Beside the tip's last way a step down takes as much again, since the
		// tip steps outward too, and in a corner of 60 degrees twice that.
		limit *= 3
	}
	if p.grow == 0 && (p.station == 0 || !r.tool.V()) {
		r.rep.DeepestPass = math.Max(r.rep.DeepestPass, took)
		if took > limit+r.opt.Tolerance {
			q := &r.pieces[p.piece]
			r.book.add(Fault{Kind: DeepPass, Placement: q.at, Name: q.name, Feature: featureName(p.feature), At: p.at(), Z: took, Need: limit, Line: int(line)})
		}
	}
	p.z, p.line = z, line
}

// height returns how low the cutter comes over a probe, +Inf where it does not.
func (r *replayer) height(w *sweep, p *probe) float64 {
	var at, d float64
	if w.level.rad > 0 {
		d = w.level.distance(float64(p.x), float64(p.y))
	} else if w.seg.K == 0 {
		x, y := float64(p.x)-w.seg.A.X, float64(p.y)-w.seg.A.Y
		at = math.Max(0, math.Min(w.l, x*w.u.X+y*w.u.Y))
		x, y = x-at*w.u.X, y-at*w.u.Y
		d = math.Sqrt(x*x + y*y)
	} else {
		at, d, _ = foot(w.seg, p.at())
	}
	d -= float64(p.grow)
	rad := r.tool.Diameter / 2
	if d >= rad {
		return math.Inf(1)
	}
	if w.l == 0 {
		return w.low + r.flank(d)
	}
	if !r.tool.V() {
		if w.rise == 0 {
			return w.low
		}
		// The lowest place of the axis from which the cutter covers the probe.
		reach := math.Sqrt(rad*rad - math.Max(0, d)*math.Max(0, d))
		return math.Max(w.low, w.z0+w.rise*at-math.Abs(w.rise)*reach)
	}
	return math.Max(w.low, w.z0+w.rise*at) + r.flank(d)
}

// flank returns the height of a V cutter's flank over its tip, at a distance
// from the axis.
func (r *replayer) flank(d float64) float64 {
	if !r.tool.V() || d <= 0 {
		return 0
	}
	return d / r.tool.slope()
}

func (p *probe) at() r2.Vec { return r2.Vec{X: float64(p.x), Y: float64(p.y)} }
