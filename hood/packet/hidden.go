package packet

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
	"example.com/sagitta/hood"
)

// What a view looks at, mm: its pixels, and how clearly a face has to lie before
// an edge to hide it, less than the web under a kerf.
const (
	viewPixel = 0.75
	hides     = 0.6
)

// A depthMap is how near the nearest face is, pixel by pixel of a view. What lies
// before the view's plane, with off above 0, is cut away.
type depthMap struct {
	x0, y0, w, h int
	near         []float64
}

func newDepthMap(solids []hood.Solid, at plane) depthMap {
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, s := range solids {
		for _, v := range s.Vertices {
			p, _ := at(v)
			x0, y0, x1, y1 = min(x0, p.X), min(y0, p.Y), max(x1, p.X), max(y1, p.Y)
		}
	}
	m := depthMap{x0: int(math.Floor(x0/viewPixel)) - 1, y0: int(math.Floor(y0/viewPixel)) - 1}
	m.w, m.h = int(math.Ceil(x1/viewPixel))-m.x0+2, int(math.Ceil(y1/viewPixel))-m.y0+2
	m.near = make([]float64, m.w*m.h)
	for i := range m.near {
		m.near[i] = math.Inf(-1)
	}
	for _, s := range solids {
		for _, t := range s.Triangles {
			m.triangle(s.Vertices[t[0]], s.Vertices[t[1]], s.Vertices[t[2]], at)
		}
	}
	return m
}

func (m depthMap) triangle(a, b, c r3.Vec, at plane) {
	var p [3]r3.Vec
	for i, v := range [3]r3.Vec{a, b, c} {
		q, off := at(v)
		p[i] = r3.Vec{X: q.X / viewPixel, Y: q.Y / viewPixel, Z: off}
	}
	area := (p[1].X-p[0].X)*(p[2].Y-p[0].Y) - (p[2].X-p[0].X)*(p[1].Y-p[0].Y)
	if math.Abs(area) < 1e-9 { // seen on edge
		return
	}
	for y := math.Ceil(min(p[0].Y, p[1].Y, p[2].Y)); y <= max(p[0].Y, p[1].Y, p[2].Y); y++ {
		lo, hi := math.Inf(1), math.Inf(-1)
		for i := range 3 {
			q, r := p[i], p[(i+1)%3]
			if (q.Y > y) != (r.Y > y) {
				x := q.X + (r.X-q.X)*(y-q.Y)/(r.Y-q.Y)
				lo, hi = min(lo, x), max(hi, x)
			}
		}
		for x := math.Ceil(lo); x <= hi; x++ {
			f := ((x-p[0].X)*(p[2].Y-p[0].Y) - (p[2].X-p[0].X)*(y-p[0].Y)) / area
			g := ((p[1].X-p[0].X)*(y-p[0].Y) - (x-p[0].X)*(p[1].Y-p[0].Y)) / area
			z := p[0].Z + f*(p[1].Z-p[0].Z) + g*(p[2].Z-p[0].Z)
			if i := (int(y)-m.y0)*m.w + int(x) - m.x0; z <= hides && z > m.near[i] {
				m.near[i] = z
			}
		}
	}
}

// sees reports whether a point is seen: no face clearly before it in any of the
// pixels around, so that an edge is not hidden by its own faces.
func (m depthMap) sees(p r2.Vec, off float64) bool {
	if off > hides {
		return false
	}
	x, y := int(math.Round(p.X/viewPixel))-m.x0, int(math.Round(p.Y/viewPixel))-m.y0
	for dy := -1; dy <= 1; dy++ {
		for dx := -1; dx <= 1; dx++ {
			i, j := x+dx, y+dy
			if i < 0 || j < 0 || i >= m.w || j >= m.h || m.near[j*m.w+i] < off+hides {
				return true
			}
		}
	}
	return false
}

// seen returns the sharp edges of the model as far as nothing hides them, scaled.
func seen(solids []hood.Solid, at plane, shrink float64) draw.Layer {
	l := draw.Layer{Name: "seen", Weight: 0.25, Color: ink}
	m := newDepthMap(solids, at)
	done := map[[4]int]bool{}
	for _, s := range solids {
		for _, e := range sharpEdges(s) {
			a, za := at(s.Vertices[e[0]])
			b, zb := at(s.Vertices[e[1]])
			n := int(math.Ceil(r2.Norm(r2.Sub(b, a)) / viewPixel))
			if n == 0 {
				continue
			}
			point := func(i int) (r2.Vec, float64) {
				f := float64(i) / float64(n)
				return r2.Add(a, r2.Scale(f, r2.Sub(b, a))), za + f*(zb-za)
			}
			for from := 0; from <= n; from++ {
				to := from - 1
				for to < n {
					if p, off := point(to + 1); !m.sees(p, off) {
						break
					}
					to++
				}
				if to > from {
					p, _ := point(from)
					q, _ := point(to)
					if k := lineKey(p, q); !done[k] {
						done[k] = true
						l.Paths = append(l.Paths, arc.Polyline(r2.Scale(shrink, p), r2.Scale(shrink, q)))
					}
				}
				from = max(from, to)
			}
		}
	}
	return l
}

// lineKey tells lines apart that differ on paper, whichever way they run.
func lineKey(p, q r2.Vec) [4]int {
	k := [4]int{int(math.Round(5 * p.X)), int(math.Round(5 * p.Y)), int(math.Round(5 * q.X)), int(math.Round(5 * q.Y))}
	if k[0] > k[2] || k[0] == k[2] && k[1] > k[3] {
		k = [4]int{k[2], k[3], k[0], k[1]}
	}
	return k
}
