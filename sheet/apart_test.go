package sheet_test

import (
	"math"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
)

// A cloud is a region as points on its outline, measured against the true lines
// and arcs of others.
type cloud struct {
	box    r2.Box
	edges  []arc.Segment
	points []r2.Vec
	facets [][]r2.Vec // loops with arcs in 64 pieces, to tell inside from outside
}

func cloudOf(g arc.Region) cloud {
	const step = 3.0
	c := cloud{box: g.Bounds()}
	for _, l := range g.Loops() {
		var loop []r2.Vec
		for i := range l.NumSegments() {
			s := l.Segment(i)
			c.edges = append(c.edges, s)
			for d := 0.0; d < s.Length(); d += step {
				p, _ := s.At(d)
				c.points = append(c.points, p)
			}
			n := 1
			if s.K != 0 {
				n = 64
			}
			for k := range n {
				p, _ := s.At(s.Length() * float64(k) / float64(n))
				loop = append(loop, p)
			}
		}
		c.facets = append(c.facets, loop)
	}
	return c
}

// distance returns that of a point from the outline: from ends, from lines by
// projection, and from arcs where the point is seen from the center within the
// arc, by its power over twice the radius or so. An arc flatter than 1e-7 mm is
// a line.
func (c cloud) distance(p r2.Vec) float64 {
	least := math.Inf(1)
	for _, s := range c.edges {
		least = math.Min(least, math.Min(r2.Norm(r2.Sub(p, s.A)), r2.Norm(r2.Sub(p, s.B))))
		q := r2.Sub(p, s.A)
		if math.Abs(s.K) < 1e-9 {
			d := r2.Unit(r2.Sub(s.B, s.A))
			if t := r2.Dot(q, d); t > 0 && t < s.Length() {
				least = math.Min(least, math.Abs(r2.Cross(d, q)))
			}
			continue
		}
		o := s.Center()
		a, b := r2.Sub(s.A, o), r2.Sub(p, o)
		turn := math.Atan2(r2.Cross(a, b), r2.Dot(a, b))
		if full := float64(s.Angle()); math.Mod(turn*math.Copysign(1, full)+2*math.Pi, 2*math.Pi) < math.Abs(full) {
			least = math.Min(least, math.Abs(r2.Norm2(q)+2*r2.Dot(q, a))/(r2.Norm(b)+r2.Norm(a)))
		}
	}
	return least
}

// inside counts the edges to the right of a point.
func (c cloud) inside(p r2.Vec) bool {
	in := false
	for _, l := range c.facets {
		a := l[len(l)-1]
		for _, b := range l {
			if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(b.X-a.X)*(p.Y-a.Y)/(b.Y-a.Y) {
				in = !in
			}
			a = b
		}
	}
	return in
}

// requireClear demands that the points of a keep a distance from b, and are
// inside of it or not.
func requireClear(t require.TestingT, a, b cloud, need float64, inside bool) {
	const deep = 1 // mm, where facets tell the side
	box := b.box
	if !inside && (a.box.Min.X > box.Max.X+need || box.Min.X > a.box.Max.X+need || a.box.Min.Y > box.Max.Y+need || box.Min.Y > a.box.Max.Y+need) {
		return
	}
	for _, p := range a.points {
		if !inside && (p.X < box.Min.X-need || p.X > box.Max.X+need || p.Y < box.Min.Y-need || p.Y > box.Max.Y+need) {
			continue
		}
		d := b.distance(p)
		require.GreaterOrEqual(t, d, need-1.1e-6, "%v", p)
		if d > deep {
			require.Equal(t, inside, b.inside(p), "%v", p)
		}
	}
}

// requireApart measures a sheet by points on the outlines, knowing nothing of
// Check: the gap between parts and from what is forbidden, the margin, and that
// nothing lies in anything.
func requireApart(t require.TestingT, parts []sheet.Part, stock []sheet.Stock, s sheet.Sheet, opt sheet.Options) {
	var all []cloud
	for _, f := range stock[s.Stock].Forbidden {
		all = append(all, cloudOf(f))
	}
	edge, fixed := cloudOf(stock[s.Stock].Shape()), len(all)
	for _, p := range s.Placements {
		all = append(all, cloudOf(parts[p.Part].Outline.Transform(p.Motion())))
	}
	for i, a := range all[fixed:] {
		requireClear(t, a, edge, opt.Margin, true)
		requireClear(t, edge, a, opt.Margin, false)
		for _, b := range all[:fixed+i] {
			requireClear(t, a, b, opt.Gap, false)
			requireClear(t, b, a, opt.Gap, false)
		}
	}
}
