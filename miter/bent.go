package miter

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A bentLine is a line of the cut face in space with the board's outward
// normal at each point.
type bentLine struct {
	p, n []r3.Vec
}

// lines returns the lines of the cut faces at a part of the depth.
func (b bender) lines(depth float64) []bentLine {
	out := make([]bentLine, len(b.faces))
	for i, f := range b.faces {
		flat := f.slice(depth)
		out[i] = bentLine{make([]r3.Vec, 0, len(flat)), make([]r3.Vec, 0, len(flat))}
		for _, q := range flat {
			p, n := b.bend(f.run, q, depth*b.t)
			out[i].p = append(out[i].p, p)
			out[i].n = append(out[i].n, n)
		}
	}
	return out
}

// bend returns where a point of the blank at depth d comes to lie, and the
// board's outward normal there. Beyond the ends of its run the board is flat.
func (b bender) bend(r flatRun, q r2.Vec, d float64) (p, normal r3.Vec) {
	l := q.Y - r.u
	on := math.Max(0, math.Min(r.n, l))
	s, t := r.at(on)
	s = r2.Add(s, r2.Scale(l-on, t))
	// The board lies on the left of travel, its outward normal on the right.
	normal = r3.Add(r3.Scale(t.Y, b.out), r3.Vec{Z: -t.X})
	p = r3.Add(r3.Scale(q.X, b.along), r3.Scale(s.X, b.out))
	p.Z = s.Y
	return r3.Sub(p, r3.Scale(d, normal)), normal
}

// slice returns the line of the cut face at a part of the depth. A blade that
// follows the show edge stands square to it and meets the back edge where that
// passes the same normal; points whose normal misses the back edge are left
// out.
func (f cutFace) slice(depth float64) []r2.Vec {
	switch depth {
	case 0:
		return points(f.show)
	case 1:
		return points(f.back)
	}
	out := make([]r2.Vec, 0, len(f.show))
	j := 0
	for _, e := range f.show {
		ahead := func(i int) float64 { return r2.Dot(r2.Sub(f.back[i].p, e.p), e.dir) }
		for j+2 < len(f.back) && ahead(j+1) < 0 {
			j++
		}
		for j > 0 && ahead(j) > 0 {
			j--
		}
		a, b := ahead(j), ahead(j+1)
		if a > 0 || b < 0 || a == b {
			continue
		}
		q := r2.Add(f.back[j].p, r2.Scale(-a/(b-a), r2.Sub(f.back[j+1].p, f.back[j].p)))
		out = append(out, r2.Add(e.p, r2.Scale(depth, r2.Sub(q, e.p))))
	}
	return out
}

func points(e []edgePoint) []r2.Vec {
	out := make([]r2.Vec, len(e))
	for i := range e {
		out[i] = e[i].p
	}
	return out
}

// measurePoints is about how many points of the lines are measured.
const measurePoints = 800

// measure raises d by the distances of the points of the lines a from the
// lines b at the same heights, and returns how many points had one. The miter
// stands square to the difference of the boards' normals: a point beyond the
// other board's along it, as its own board runs, is wood in the way, one short
// of it leaves a gap.
func measure(a, b []bentLine, along r3.Vec, d *Deviation) int {
	count := 0
	for _, line := range a {
		step := 1 + len(line.p)*len(a)/measurePoints
		for i := 0; i < len(line.p); i += step {
			off, normal, ok := nearest(b, line.p[i])
			if !ok {
				continue
			}
			count++
			dist, square := r3.Norm(off), r3.Sub(normal, line.n[i])
			if r3.Dot(off, square)*r3.Dot(along, square) >= 0 {
				d.Overlap = math.Max(d.Overlap, dist)
			} else {
				d.Gap = math.Max(d.Gap, dist)
			}
		}
	}
	return count
}

// nearest returns how far p is from the nearest point of the lines, and their
// board's normal there, where a line passes the height of p.
func nearest(lines []bentLine, p r3.Vec) (off, normal r3.Vec, ok bool) {
	least := math.Inf(1)
	for _, l := range lines {
		n := len(l.p)
		if n < 2 || p.Z < l.p[0].Z || p.Z > l.p[n-1].Z {
			continue
		}
		// From the chord at the same height, walk to where it gets no nearer.
		i := l.chordAt(p.Z)
		o := l.toChord(i, p)
		for _, dir := range [2]int{-1, 1} {
			for j := i + dir; j >= 0 && j < n-1; j += dir {
				oj := l.toChord(j, p)
				if r3.Norm2(oj) > r3.Norm2(o) {
					break
				}
				o, i = oj, j
			}
		}
		if d := r3.Norm2(o); d < least {
			least, off, normal, ok = d, o, l.n[i], true
		}
	}
	return off, normal, ok
}

// chordAt returns the chord that passes height z.
func (l bentLine) chordAt(z float64) int {
	lo, hi := 0, len(l.p)-1
	for hi-lo > 1 {
		if mid := (lo + hi) / 2; l.p[mid].Z <= z {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// toChord returns the way to p from the nearest point of chord i.
func (l bentLine) toChord(i int, p r3.Vec) r3.Vec {
	a, v := l.p[i], r3.Sub(l.p[i+1], l.p[i])
	w := 0.0
	if vv := r3.Norm2(v); vv > 0 {
		w = math.Max(0, math.Min(1, r3.Dot(r3.Sub(p, a), v)/vv))
	}
	return r3.Sub(p, r3.Add(a, r3.Scale(w, v)))
}
