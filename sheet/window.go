package sheet

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// windows keeps the windows of kinds of sheets; empty boxes stand for none.
type windows map[int]r2.Box

func (w windows) of(i int, s Stock, opt Options) (r2.Box, bool) {
	b, ok := w[i]
	if !ok {
		b, _ = s.window(opt.Margin, opt.Gap, opt.tolerance())
		w[i] = b
	}
	return b, area(b) > 0
}

func (r *run) window(i int) (r2.Box, bool) { return r.windows.of(i, r.stock[i], r.opt) }

// A clearing is where a rectangle is sought: what edges do not cross, around a
// point that is within the first loop and in none of the others.
type clearing struct {
	loops [][]r2.Vec
}

const windowWork = 2e5 // edges looked at, about

// window returns the largest rectangle along the axes of a sheet that keeps the
// margin from its edge and the gap from what is forbidden. It is exact where
// all edges run along the axes, and found by a search in steps down to a
// hundredth of the tolerance, or a nanometer, where they do not.
func (s Stock) window(margin, gap, tol float64) (r2.Box, bool) {
	if s.whole() {
		b := box(margin, margin, s.Length-margin, s.Width-margin)
		return b, area(b) > 0
	}
	edge, ok := grownLoop(s.Shape().Outer.Reverse(), margin, tol)
	if !ok {
		return r2.Box{}, false
	}
	c := clearing{loops: [][]r2.Vec{edge}}
	for _, h := range s.Outline.Holes {
		p, _ := grown(arc.Region{Outer: h.Reverse()}, margin, tol)
		c.loops = append(c.loops, p)
	}
	for _, f := range s.Forbidden {
		p, _ := grown(arc.Region{Outer: f.Outer}, gap, tol)
		c.loops = append(c.loops, p)
	}
	best := c.coarse()
	for step := (best.Max.X - best.Min.X) / 4; step > math.Max(tol, 1e-4)/100; step /= 2 {
		best = c.finer(best, step)
	}
	return best, area(best) > 0
}

// coarse tries pairs of the x where loops turn back, and of as many other
// vertices as there is work for, and some between all these where edges slant.
func (c *clearing) coarse() (best r2.Box) {
	var xs, more []float64
	for _, l := range c.loops {
		for i, v := range l {
			if a, b := l[(i+len(l)-1)%len(l)], l[(i+1)%len(l)]; (v.X-a.X)*(b.X-v.X) <= 0 {
				xs = append(xs, v.X)
			} else {
				more = append(more, v.X)
			}
		}
	}
	most := max(8, int(math.Sqrt(windowWork/float64(len(xs)+len(more)))))
	xs = thinned(xs, most)
	xs = thinned(append(xs, thinned(more, most-len(xs))...), most)
	if lo, hi := xs[0], xs[len(xs)-1]; c.slants() {
		for i := 1.0; i < 16; i++ {
			xs = append(xs, lo+(hi-lo)*i/16)
		}
		slices.Sort(xs)
	}
	for i, a := range xs {
		for _, b := range xs[i+1:] {
			best = larger(best, c.tallest(a, b))
		}
	}
	return best
}

// slants reports whether some edge does not run along an axis.
func (c *clearing) slants() bool {
	for _, l := range c.loops {
		for i, v := range l {
			if w := l[(i+1)%len(l)]; v.X != w.X && v.Y != w.Y {
				return true
			}
		}
	}
	return false
}

// thinned sorts values and returns at most n of them.
func thinned(v []float64, n int) []float64 {
	slices.Sort(v)
	v = slices.CompactFunc(v, func(a, b float64) bool { return math.Abs(a-b) < 1e-9 })
	if len(v) <= n {
		return v
	}
	var out []float64
	for i := range n {
		out = append(out, v[i*len(v)/n])
	}
	return out
}

func larger(a, b r2.Box) r2.Box {
	if area(b) > area(a) {
		return b
	}
	return a
}

// finer moves the sides of a rectangle by a step while that makes it larger.
func (c *clearing) finer(best r2.Box, step float64) r2.Box {
	for range 6 {
		from := area(best)
		for _, d := range [][2]float64{{-step, 0}, {0, step}, {step, 0}, {0, -step}, {-step, -step}, {step, step}, {-step, step}, {step, -step}} {
			best = larger(best, c.tallest(best.Min.X+d[0], best.Max.X+d[1]))
		}
		if area(best) <= from {
			break
		}
	}
	return best
}

// tallest returns the tallest rectangle between two x, empty where there is none.
func (c *clearing) tallest(x0, x1 float64) (best r2.Box) {
	if x1 <= x0 {
		return best
	}
	met := c.met(x0, x1)
	for i := 1; i < len(met); i++ {
		if b := box(x0, met[i-1].Y, x1, met[i].X); met[i].X > met[i-1].Y && area(b) > area(best) && c.holds(b) {
			best = b
		}
		met[i].Y = math.Max(met[i].Y, met[i-1].Y)
	}
	return best
}

// met lists the ranges in y, as X to Y, of the edges between two x.
func (c *clearing) met(x0, x1 float64) []r2.Vec {
	const beside = 1e-9
	var out []r2.Vec
	for _, l := range c.loops {
		p := l[len(l)-1]
		for _, q := range l {
			a, b := p, q
			if a.X > b.X {
				a, b = b, a
			}
			if b.X > x0+beside && a.X < x1-beside {
				y, z := heightAt(a, b, math.Max(x0, a.X)), heightAt(a, b, math.Min(x1, b.X))
				if a.X == b.X {
					y, z = a.Y, b.Y
				}
				out = append(out, r2.Vec{X: math.Min(y, z), Y: math.Max(y, z)})
			}
			p = q
		}
	}
	slices.SortFunc(out, func(a, b r2.Vec) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y)) })
	return out
}

func heightAt(a, b r2.Vec, x float64) float64 { return a.Y + (b.Y-a.Y)*((x-a.X)/(b.X-a.X)) }

// holds reports whether the middle of a rectangle is clear.
func (c *clearing) holds(b r2.Box) bool {
	m := r2.Scale(0.5, r2.Add(b.Min, b.Max))
	for i, l := range c.loops {
		in := false
		p := l[len(l)-1]
		for _, q := range l {
			if (p.Y > m.Y) != (q.Y > m.Y) && m.X < p.X+(q.X-p.X)*((m.Y-p.Y)/(q.Y-p.Y)) {
				in = !in
			}
			p = q
		}
		if in != (i == 0) {
			return false
		}
	}
	return true
}

// framing looks for offcuts within the windows.
func (w windows) framing(opt Options) framing {
	return func(i int, s Stock) r2.Box {
		b, _ := w.of(i, s, opt)
		return b
	}
}
