package miter

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// An Edge is the cut edge of a blank along one run of its profile between
// folds, upward, in the axes of [Mark]. Show lies on the show face, Back on the
// back. Where the panel is cut square at its ends both cover the same developed
// length; at a fold the backs of two runs stop short of each other, or overlap
// where the back is the outside of the fold, which takes two boards.
type Edge struct {
	Show, Back arc.Path
}

// A cell is a stretch of height in which either face is one span.
type cell struct {
	span   [2]span
	lo, hi float64
}

// Edges returns the edges of both blanks, a run of the profile each from bottom
// to top, as lines and arcs that stay within tol mm, >= 1e-6, of the true
// edges, flat and bent; where both blanks are off the joint is off by up to
// twice that. It refuses a back that would have to meet the other beyond that one's
// level end ([ErrNoSeam]).
func (s Seam) Edges(tol float64) (first, second []Edge, err error) {
	const fn = "miter.Seam.Edges"
	if !finite(tol) || tol < 1e-6 {
		return nil, nil, fault(fn, "tol", tol, "mm", ">= 1e-6", arc.ErrRange)
	}
	if s.panel[0].show == nil {
		return nil, nil, fault(fn, "Seam", "zero", "", "a solved seam", arc.ErrEmpty)
	}
	var out [2][]Edge
	for i := range out {
		show := s.panel[i].show
		for run := show.find(s.Lower).run; run <= show.below(s.Upper).run; run++ {
			e, err := s.edge(i, run, tol)
			if err != nil {
				return nil, nil, err
			}
			out[i] = append(out[i], e)
		}
	}
	return out[0], out[1], nil
}

// edge returns panel i's edge along one run.
func (s Seam) edge(i, run int, tol float64) (Edge, error) {
	const fn = "miter.Seam.Edges"
	lo, hi := s.backEnds(i)
	for _, q := range s.panel {
		if q.back.bottom() > lo+slack || q.back.top() < hi-slack {
			return Edge{}, fault(fn, "Seam", [2]float64{lo, hi}, "mm", "backs that both reach these heights", ErrNoSeam)
		}
	}
	show, ok := s.fit(i, s.cells(faces.showFace, i, run, s.Lower, s.Upper), tol)
	back, ok2 := s.fit(i, s.cells(faces.backFace, i, run, lo, hi), tol)
	if !ok || !ok2 || len(show.V) == 0 || len(back.V) == 0 {
		return Edge{}, fault(fn, "tol", tol, "mm", "a tolerance that arcs can keep, and a run of some width", ErrTolerance)
	}
	return Edge{show, back}, nil
}

// backEnds returns the heights between which panel i has a back when it is cut
// square to its face at the ends of the seam.
func (s Seam) backEnds(i int) (lo, hi float64) {
	p := s.panel[i]
	behind := func(sp span, z float64) float64 {
		_, z, slope := sp.at(sp.rise(z - sp.z))
		return z + p.t*math.Cos(slope)
	}
	return behind(p.show.find(s.Lower), s.Lower), behind(p.show.below(s.Upper), s.Upper)
}

// below returns the span that comes up to height z, where find returns the one
// that goes up from it.
func (s section) below(z float64) span { return s.find(z - slack) }

// ofRun returns the spans of one run.
func (s section) ofRun(run int) section {
	at := func(run int) int {
		return sort.Search(len(s), func(i int) bool { return s[i].run >= run })
	}
	return s[at(run):at(run+1)]
}

// cells cuts the heights lo to hi, for one run of panel i, at the ends of every
// span of either face.
func (s Seam) cells(face func(faces) section, i, run int, lo, hi float64) []cell {
	var out []cell
	a, b := face(s.panel[i]).ofRun(run), face(s.panel[1-i])
	j := 0
	for _, own := range a {
		for j > 0 && b[j].z > own.z {
			j--
		}
		for ; j < len(b) && b[j].z < own.top(); j++ {
			c := cell{
				lo: math.Max(lo, math.Max(own.z, b[j].z)),
				hi: math.Min(hi, math.Min(own.top(), b[j].top())),
			}
			if c.hi-c.lo > slack {
				c.span[i], c.span[1-i] = own, b[j]
				out = append(out, c)
			}
		}
		j = max(0, j-1)
	}
	return out
}

// fit lays lines and arcs along the edge of panel i through the cells.
func (s Seam) fit(i int, cells []cell, tol float64) (arc.Path, bool) {
	f := fitter{ok: true}
	for _, c := range cells {
		// Bending stretches the back of a hollow panel, and its deviations.
		f.tol = tol / math.Max(1, c.span[i].m)
		f.add(s.curve(i, c))
	}
	return arc.Path{V: f.v}, f.ok
}

// curve returns panel i's edge through a cell. Height follows a half wave of
// the parameter, slow at both ends, so that an edge whose height stands still
// there, as at the top of a dome, still moves evenly.
func (s Seam) curve(i int, c cell) curve {
	return func(w float64) (r2.Vec, r2.Vec) {
		h := math.Sin(w * math.Pi / 2)
		m := s.cross(c.lo+(c.hi-c.lo)*h*h, c.span[0], c.span[1])
		return m.mark[i], s.tangent(i, c, m)
	}
}

// tangent returns the direction of panel i's edge: per mm of height the faces
// go out by the cotangents of their slopes and the developed length grows by
// 1/(m sin α), all multiplied by both sines. Where both faces come to stand
// level, the sines go to 0 as the roots of their curvatures.
func (s Seam) tangent(i int, c cell, m meeting) r2.Vec {
	var sin, cos [2]float64
	for j := range sin {
		sin[j], cos[j] = math.Sincos(m.slope[j])
	}
	if sin[0] < 1e-7 && sin[1] < 1e-7 {
		for j, sp := range c.span {
			sin[j] = math.Sqrt(math.Abs(sp.kappa) / sp.m)
		}
	}
	j := 1 - i
	return r2.Vec{
		X: (cos[j]*sin[i] - cos[i]*sin[j]*s.cos) / s.sin,
		Y: sin[j] / c.span[i].m,
	}
}
