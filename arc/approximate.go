package arc

import (
	"context"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// A Curve gives the point and the direction of travel, of any length, for a
// parameter. It must be smooth: the direction turns without a jump and is
// nowhere zero.
type Curve func(t float64) (p, dir r2.Vec)

// Limits of Approximate: pieces, points at which a piece is held
// against the curve, and the part of the tolerance it may use at them, since
// between points the deviation can be a little larger. A piece deviates in at
// most four waves, so that 36 points are nine to a wave and the top of a wave
// is missed by at most 1 − cos(π/18) = 1.5 %.
const (
	maxPieces    = 1 << 12
	maxEven      = 1 << 8 // pieces up to which they are made even
	pieceSamples = 36
	pieceShare   = 0.985
)

// Approximate returns the path of tangent arcs that runs along the curve from
// t0 to t1 > t0 and leaves it by no more than tol. It has two arcs for each of
// the fewest pieces a walk along the curve finds, and where they are not many
// they share the deviation evenly; more than 4096 pieces are an error.
//
// Breaks are parameters at which a piece is to end, finite and in any order; what is
// not between t0 and t1 is left out. Give those of corners, where the curve keeps its
// corner, and, for few arcs, those of inflections and of most and least
// curvature.
//
// The curve is known at 37 points of a piece and by its direction at the ends.
// What it does between two points that it passes smoothly is missed: a wave
// shorter than a thirtieth of a piece, a corner, or a loop. A piece turns by at
// most 120 degrees; where a curve has finer detail than its turning shows, put
// breaks about as far apart as the detail is long.
func Approximate(c Curve, t0, t1, tol float64, breaks ...float64) (Path, error) {
	return ApproximateContext(context.Background(), c, t0, t1, tol, breaks...)
}

// ApproximateContext is [Approximate], stopped with the context's error when
// ctx is done.
func ApproximateContext(ctx context.Context, c Curve, t0, t1, tol float64, breaks ...float64) (Path, error) {
	const fn = "arc.Approximate"
	if err := needPositive(fn, "tol", tol, "mm"); err != nil {
		return Path{}, err
	}
	if c == nil {
		return Path{}, &ParamError{fn, "c", "nil", "", "a curve", ErrRange}
	}
	for _, t := range []float64{t0, t1, t1 - t0} {
		if err := needFinite(fn, "t", t, ""); err != nil {
			return Path{}, err
		}
	}
	for i, t := range breaks {
		if err := needFinite(fn, fmt.Sprintf("breaks[%d]", i), t, ""); err != nil {
			return Path{}, err
		}
	}
	if !(t1 > t0) {
		return Path{}, &ParamError{fn, "t1", t1, "", "> t0", ErrRange}
	}
	breaks = slices.DeleteFunc(slices.Clone(breaks), func(t float64) bool { return !(t > t0 && t < t1) })
	breaks = append(breaks, t0, t1)
	slices.Sort(breaks)
	breaks = slices.Compact(breaks)
	var out Path
	for i, to := range breaks[1:] {
		p, err := approximate(ctx, fn, oneSided(c, breaks[i], to, i > 0, i+2 < len(breaks)), breaks[i], to, tol)
		if err != nil {
			return Path{}, err
		}
		if out = join(out, p); len(out.V) > 2*maxPieces {
			return Path{}, &ParamError{fn, "tol", tol, "mm", "a tolerance that 4096 pieces can keep", ErrRange}
		}
	}
	return out, nil
}

// oneSided returns the curve between two breaks with its directions at these
// taken from within, where it may have a corner.
func oneSided(c Curve, t0, t1 float64, first, last bool) Curve {
	const near = 1e-7 // of the piece
	h := near * (t1 - t0)
	return func(t float64) (p, dir r2.Vec) {
		p, dir = c(t)
		switch {
		case first && t == t0 && t+h > t:
			dir = fromWithin(c, dir, t, h)
		case last && t == t1 && t-h < t:
			dir = fromWithin(c, dir, t, -h)
		}
		return p, dir
	}
}

// fromWithin returns the direction dir of the curve at t, or that at t + h where
// the two differ by more than a smooth curve turns on such a way.
func fromWithin(c Curve, dir r2.Vec, t, h float64) r2.Vec {
	_, in := c(t + h)
	if in == (r2.Vec{}) || !finite(in) {
		return dir
	}
	if dir == (r2.Vec{}) || !finite(dir) || !(r2.Dot(unitOf(in), unitOf(dir)) > 1-1e-8) {
		return in
	}
	return dir
}

func approximate(ctx context.Context, fn string, c Curve, t0, t1, tol float64) (Path, error) {
	tol *= pieceShare
	best, ok := walk(ctx, c, t0, t1, tol)
	if err := ctx.Err(); err != nil {
		return Path{}, err
	}
	if !ok {
		return Path{}, &ParamError{fn, "tol", tol, "mm", "a smooth curve, and a tolerance that 4096 pieces can keep", ErrRange}
	}
	// The last piece is shorter than the others: take the least tolerance that
	// needs no more pieces.
	lo, hi := tol/8, tol
	for range 10 {
		if len(best.V) > 2*maxEven {
			break
		}
		mid := (lo + hi) / 2
		if p, ok := walk(ctx, c, t0, t1, mid); ok && len(p.V) <= len(best.V) {
			best, hi = p, mid
		} else {
			lo = mid
		}
	}
	return best, ctx.Err()
}

// walk lays pieces along the curve, each as long as the tolerance lets it be.
func walk(ctx context.Context, c Curve, t0, t1, tol float64) (Path, bool) {
	p, _ := c(t0)
	out := Path{V: []Vertex{{P: p}}}
	step, off := t1-t0, 0.0
	for t := t0; ; {
		best, n, ok := longest(c, t, t1, step, off, tol)
		if !ok || len(out.V) > 2*maxPieces || ctx.Err() != nil {
			return Path{}, false
		}
		last := len(out.V) - 1
		out.V[last].K = best.pair[0].K
		out.V = append(out.V, Vertex{P: best.pair[0].B, K: best.pair[1].K}, Vertex{P: best.pair[1].B})
		if step, off = n, best.off; t+step >= t1 {
			return out, true
		}
		t += step
	}
}

// longest returns the longest piece from t that keeps the tolerance, and its
// step; first is where to start looking, off the angle of the path from the
// curve's direction at t. The deviation goes with the cube of the step, which
// the search uses to guess, between a step that keeps the tolerance and one
// that does not.
func longest(c Curve, t, t1, first, off, tol float64) (best piecing, step float64, ok bool) {
	good, bad := 0.0, math.Inf(1)
	try := math.Min(first, t1-t)
	for range 80 {
		p := pairAlong(c, t, t+try, t1, off)
		if p.dev <= tol {
			best, good = p, try
			if t+try >= t1 || p.dev >= 0.97*tol {
				break
			}
		} else {
			bad = try
		}
		if bad-good < 0.002*good {
			break
		}
		next := try * math.Min(4, math.Max(0.25, math.Cbrt(0.99*tol/math.Max(p.dev, tol*1e-3))))
		if !(next > good && next < bad) {
			next = good/2 + math.Min(bad, 4*try)/2
		}
		if t+next == t {
			break
		}
		try = math.Min(next, t1-t)
	}
	return best, good, good > 0
}

// A piecing is two arcs along a piece of curve, how far they leave it and the
// angle by which they end turned to the left of it.
type piecing struct {
	pair     [2]Segment
	dev, off float64
}

// pairAlong returns the two arcs along the curve from t to u < t1, or to t1,
// that start turned by off to the left of it. Where there are none the
// deviation is infinite.
//
// Along a curve whose curvature grows by g per length, arcs of length a that
// touch it at their ends and middles do best where they cross it at their ends
// by the angle g·a²/12: then they leave it by g·a³/125 to either side by
// turns, and not, as arcs tangent to it at every second end, by g·a³/40. The
// growth is taken from the pair tangent to the curve, whose curvatures differ
// by ⅔ of that over its length h = 2a, so that the angle is h/32 of the
// difference. At the end of the curve the path is tangent to it.
func pairAlong(c Curve, t, u, t1, off float64) piecing {
	none := piecing{dev: math.Inf(1)}
	u = math.Min(u, t1)
	a, ta := c(t)
	b, tb := c(u)
	if a == b || ta == (r2.Vec{}) || tb == (r2.Vec{}) {
		return none
	}
	ta, tb = unitOf(ta), unitOf(tb)
	pair, ok := biarc(a, ta, b, tb)
	// More than a third of a circle is not a piece: waves could hide in it.
	if !ok || !(r2.Dot(ta, tb) > -0.5) || math.Abs(pair[0].K) > 0.5 || math.Abs(pair[1].K) > 0.5 {
		return none
	}
	out := 0.0
	if u < t1 {
		out = -(pair[1].Curvature() - pair[0].Curvature()) * (pair[0].Length() + pair[1].Length()) / 32
	}
	if pair, ok = biarc(a, turned(ta, off), b, turned(tb, out)); !ok {
		return none
	}
	return piecing{pair, deviation(c, t, u, pair), out}
}

// deviation returns how far points of the curve from t to u are from the pair,
// each from the circle of the arc on its side of the normal where the arcs meet.
// A point whose foot lay beyond the end of its arc would be farther from the
// arc than from the circle; points between the ends have none, unless they are
// off by the distance of points, which is no small deviation either way.
func deviation(c Curve, t, u float64, pair [2]Segment) float64 {
	dev := 0.0
	first, second := ringOf(pair[0]), ringOf(pair[1])
	for i := 1; i < pieceSamples; i++ {
		p, _ := c(t + (u-t)*float64(i)/pieceSamples)
		near := first
		if r2.Dot(r2.Sub(p, second.at), second.dir) > 0 {
			near = second
		}
		d := near.distance(p)
		if math.IsNaN(d) {
			return math.Inf(1)
		}
		dev = math.Max(dev, d)
	}
	return dev
}
