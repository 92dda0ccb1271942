package plate

import (
	"math"
	"strings"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/say"
	"example.com/sagitta/hood/internal/rise"
	"gonum.org/v1/gonum/spatial/r2"
)

// MiddleAt returns the middle between the left and the right edge at a height.
func (p Plate) MiddleAt(y float64) float64 {
	return (rise.OutAt(p.Sides[1].Path, y) + rise.OutAt(p.Sides[3].Path, y)) / 2
}

// TrimLine joins one face of all sides.
func (p Plate) TrimLine(of func(Side) arc.Path) arc.Path {
	out := arc.Path{Closed: true}
	for _, q := range p.Sides {
		path := of(q)
		out.V = append(out.V, path.V[:len(path.V)-1]...)
	}
	return out
}

// trimmedAreas returns the areas of a ply's faces, and half way between, after
// trimming.
func (p Plate) trimmedAreas() (show, mid, back float64) {
	middle := func(q Side) arc.Path {
		out := q.Path.Clone()
		for i, v := range q.Back.V {
			out.V[i].P = r2.Scale(0.5, r2.Add(out.V[i].P, v.P))
			out.V[i].K = (out.V[i].K + v.K) / 2
		}
		return out
	}
	show = p.TrimLine(func(q Side) arc.Path { return q.Path }).Area()
	back = p.TrimLine(func(q Side) arc.Path { return q.Back }).Area()
	for _, q := range p.Sides {
		if len(q.Path.V) != len(q.Back.V) { // the fold is on one of the faces only
			return show, (show + back) / 2, back
		}
	}
	return show, p.TrimLine(middle).Area(), back
}

// Cover returns where a straight line stands, low and high, that runs as the
// side does, all of which and what is at least wanted lie within it by trim.
func (s Side) Cover(low, high, out, least, trim float64) (x0, x1 float64) {
	lowest, highest := s.Path.V[0].P, s.Path.V[len(s.Path.V)-1].P
	if lowest.Y > highest.Y {
		lowest, highest = highest, lowest
	}
	slope := (highest.X - lowest.X) / (highest.Y - lowest.Y)
	most := math.Inf(-1) // outward of the line through x = 0 at y = 0
	if least > 0 {
		most = least
	}
	steep := math.Hypot(1, slope)
	for _, path := range []arc.Path{s.Path, s.Back} {
		for i, v := range path.V {
			bulge := 0.0
			if i < path.NumSegments() {
				seg := path.Segment(i)
				bulge = math.Abs(seg.K) * seg.Chord() / 2
			}
			for _, q := range [2]r2.Vec{v.P, path.V[min(i+1, len(path.V)-1)].P} {
				most = math.Max(most, out*(q.X-slope*q.Y)+bulge*steep)
			}
		}
	}
	most += trim * steep
	return out*most + slope*low, out*most + slope*high
}

// trimNote tells how the glued panel is trimmed.
func (p Plate) trimNote() string {
	var cuts []string
	for _, q := range p.Sides {
		if q.Saw {
			cuts = append(cuts, q.Name+" "+say.Program(q.Bevel))
		}
	}
	if len(cuts) == 0 {
		return "nothing to trim after glue-up"
	}
	return "finish by saw after glue-up: " + strings.Join(cuts, ", ") + " off square"
}
