package arc

import (
	"context"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// A Gap is how near two paths, or two regions, come to each other, and where.
type Gap struct {
	Distance float64 // mm, 0 where they meet
	P, Q     r2.Vec  // the points of the first and of the second
	// AtP and AtQ are the lengths there along the two paths; of regions along
	// the loops LoopP and LoopQ, numbered as in [Region.Loops].
	AtP, AtQ     float64
	LoopP, LoopQ int
}

// Gap returns how near p comes to q. Paths are lines here and enclose nothing.
func (p Path) Gap(q Path) (Gap, error) { return p.GapContext(context.Background(), q) }

// GapContext is [Path.Gap], stopped with the context's error when ctx is done.
func (p Path) GapContext(ctx context.Context, q Path) (Gap, error) {
	return gapOf(ctx, "arc.Path.Gap", []Path{p}, []Path{q})
}

// Gap returns how near r comes to s. It is 0 where they have a point in common,
// P and Q then being a point of both to within rounding: where their boundaries
// meet, or the first vertex of the one that lies in the other, with the place on
// the other's boundary that is nearest to it.
func (r Region) Gap(s Region) (Gap, error) { return r.GapContext(context.Background(), s) }

// GapContext is [Region.Gap], stopped with the context's error when ctx is
// done.
func (r Region) GapContext(ctx context.Context, s Region) (Gap, error) {
	const fn = "arc.Region.Gap"
	if _, err := loopsOf(fn, []Region{r}, []Region{s}); err != nil {
		return Gap{}, err
	}
	g, err := gapOf(ctx, fn, r.Loops(), s.Loops())
	if err != nil || g.Distance == 0 {
		return g, err
	}
	// The boundaries do not meet: one is within the other, or beside it.
	if v := r.Outer.V[0].P; s.Contains(v) {
		g = Gap{P: v, Q: v}
		g.LoopQ, g.AtQ, _ = s.Closest(v)
	} else if v := s.Outer.V[0].P; r.Contains(v) {
		g = Gap{P: v, Q: v}
		g.LoopP, g.AtP, _ = r.Closest(v)
	}
	return g, nil
}

// A reached is a piece of paths, with the loop it is of and the length before it.
type reached struct {
	Segment
	loop int
	sum  float64
	box  r2.Box
}

func reachedOf(fn string, paths []Path) ([]reached, error) {
	var out []reached
	for l, p := range paths {
		if err := p.Usable(); err != nil {
			return nil, err
		}
		if e := leastTolerance(p.Bounds(), 0) / leastTol; !(e < maxExtent) {
			return nil, &ParamError{fn, "extent", e, "mm", "below 1e140", ErrRange}
		}
		sum := 0.0
		for i := range p.NumSegments() {
			s := p.Segment(i)
			out = append(out, reached{s, l, sum, s.Bounds()})
			sum += s.Length()
		}
	}
	return out, nil
}

func gapOf(ctx context.Context, fn string, p, q []Path) (Gap, error) {
	a, err := reachedOf(fn, p)
	if err != nil {
		return Gap{}, err
	}
	b, err := reachedOf(fn, q)
	if err != nil {
		return Gap{}, err
	}
	boxes := make([]r2.Box, len(b))
	for i := range b {
		boxes[i] = b[i].box
	}
	s := nearest{index: newIndex(boxes), b: b, best: Gap{Distance: math.Inf(1)}}
	for i := range a {
		if i&63 == 0 && ctx.Err() != nil {
			return Gap{}, ctx.Err()
		}
		s.a = &a[i]
		top := len(s.level) - 2
		s.search(top, s.level[top], s.level[top+1])
		if s.best.Distance == 0 {
			break
		}
	}
	return s.best, nil
}

// nearest searches an index for the segment of b nearest to a.
type nearest struct {
	*index
	a    *reached
	b    []reached
	best Gap
}

// boxGap returns the distance of two boxes.
func boxGap(a, b *r2.Box) float64 {
	dx := math.Max(0, math.Max(a.Min.X-b.Max.X, b.Min.X-a.Max.X))
	dy := math.Max(0, math.Max(a.Min.Y-b.Max.Y, b.Min.Y-a.Max.Y))
	return math.Hypot(dx, dy)
}

// search looks into the boxes from i to j of a level, the nearest first, and
// leaves out those that are farther than the best found.
func (s *nearest) search(level, i, j int) {
	type near struct {
		d  float64
		at int
	}
	var order [fan]near
	list := order[:0]
	for k := i; k < j; k++ {
		n := near{boxGap(&s.a.box, &s.box[k]), k}
		if n.d >= s.best.Distance {
			continue
		}
		list = append(list, n)
		for m := len(list) - 1; m > 0 && list[m].d < list[m-1].d; m-- {
			list[m], list[m-1] = list[m-1], list[m]
		}
	}
	for _, n := range list {
		switch {
		case n.d >= s.best.Distance:
			return
		case level == 0:
			s.try(&s.b[s.item[n.at]])
		default:
			first := s.level[level-1] + (n.at-s.level[level])*fan
			s.search(level-1, first, min(first+fan, s.level[level]))
		}
	}
}

func (s *nearest) try(b *reached) {
	d, l, m := gapOfSegments(s.a.Segment, b.Segment)
	if d < s.best.Distance {
		p, _ := s.a.At(l)
		q, _ := b.At(m)
		s.best = Gap{d, p, q, s.a.sum + l, b.sum + m, s.a.loop, b.loop}
	}
}

// gapOfSegments returns the distance of two segments and the lengths along them
// where it is: 0 where they cross; or else it is at an end of one, or where the
// line between the two is square to both, through the centers of arcs.
func gapOfSegments(s, t Segment) (d, l, m float64) {
	d = math.Inf(1)
	try := func(x, y float64) {
		p, _ := s.At(x)
		q, _ := t.At(y)
		if g := math.Hypot(q.X-p.X, q.Y-p.Y); g < d {
			d, l, m = g, x, y
		}
	}
	for _, x := range [2]float64{0, s.Length()} {
		p, _ := s.At(x)
		y, _ := t.Closest(p)
		try(x, y)
	}
	for _, y := range [2]float64{0, t.Length()} {
		q, _ := t.At(y)
		x, _ := s.Closest(q)
		try(x, y)
	}
	if s.A == s.B || t.A == t.B {
		return d, l, m
	}
	for _, hit := range crossingsOf(s, t) {
		x, _ := s.Closest(hit)
		y, _ := t.Closest(hit)
		return 0, x, y
	}
	for _, p := range squares(s, t) {
		// Going to and fro mends what the far center of a flat arc lost.
		var x, y float64
		for range 3 {
			y, p = t.Closest(p)
			x, p = s.Closest(p)
		}
		try(x, y)
	}
	return d, l, m
}

// crossingsOf returns the points inside two segments at which they cross.
func crossingsOf(s, t Segment) []r2.Vec {
	var hits []hit
	for _, e := range appendStrands(nil, s, 0, [2]int8{}) {
		for _, f := range appendStrands(nil, t, 0, [2]int8{}) {
			hits = e.cross(hits, &f.edge, 0)
		}
	}
	out := make([]r2.Vec, len(hits))
	for i, h := range hits {
		out[i] = h.p
	}
	return out
}

// squares returns the points of the line or circle of s from which a line square
// to it is square to that of t too.
func squares(s, t Segment) []r2.Vec {
	x, ok := rimOf(s)
	y, ok2 := rimOf(t)
	if !ok || !ok2 || x.r == 0 && y.r == 0 {
		return nil
	}
	if x.r == 0 {
		return []r2.Vec{r2.Add(x.p, r2.Scale(r2.Dot(r2.Sub(y.p, x.p), x.u), x.u))}
	}
	u := rightOf(y.u)
	if y.r != 0 {
		u = r2.Sub(y.p, x.p)
	}
	n := r2.Norm(u)
	if n == 0 {
		return nil
	}
	u = r2.Scale(x.r/n, u)
	return []r2.Vec{r2.Add(x.p, u), r2.Sub(x.p, u)}
}
