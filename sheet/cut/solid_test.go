package cut_test

import (
	"math"

	"example.com/sagitta/sheet/cut"
	"gonum.org/v1/gonum/spatial/r2"
)

// A carved is the board that moves leave, asked at points: the lowest place of
// any cutter that comes over it. It shares nothing with Plan or Replay: arcs are
// chords of its own, and the heights come from the moves alone.
type carved struct {
	top   float64
	cells map[[2]int][]chord
}

type chord struct {
	a, b   r2.Vec
	za, zb float64
	r      float64
	slope  float64 // radius a millimeter above the tip of a pointed cutter, else 0
}

const carvedCell = 4.0

func carve(moves []cut.Move, tools []cut.Tool, top float64) *carved {
	c := &carved{top: top, cells: map[[2]int][]chord{}}
	for _, m := range moves {
		if m.From.Z >= top && m.To.Z >= top {
			continue
		}
		var t cut.Tool
		for _, x := range tools {
			if x.Number == m.Tool {
				t = x
			}
		}
		slope := 0.0
		if t.Angle > 0 {
			slope = math.Tan(float64(t.Angle) / 2)
		}
		a, b := r2.Vec{X: m.From.X, Y: m.From.Y}, r2.Vec{X: m.To.X, Y: m.To.Y}
		pts := chords(a, b, m.K)
		for i := 1; i < len(pts); i++ {
			f, g := float64(i-1)/float64(len(pts)-1), float64(i)/float64(len(pts)-1)
			c.add(chord{pts[i-1], pts[i], m.From.Z + f*(m.To.Z-m.From.Z), m.From.Z + g*(m.To.Z-m.From.Z), t.Diameter / 2, slope})
		}
	}
	return c
}

// chords returns points along an arc of bulge k, their chords off it by less
// than 0.0005 mm.
func chords(a, b r2.Vec, k float64) []r2.Vec {
	if k == 0 || a == b {
		return []r2.Vec{a, b}
	}
	turn := 4 * math.Atan(k)
	d := r2.Sub(b, a)
	l := r2.Norm(d)
	rad := l / 2 / math.Sin(math.Abs(turn)/2)
	n := 1 + int(math.Abs(turn)/2/math.Acos(1-math.Min(1, 0.0005/rad)))
	mid := r2.Scale(0.5, r2.Add(a, b))
	// The center lies to the left of a left turn of less than a half circle.
	out := r2.Scale(1/l, r2.Vec{X: -d.Y, Y: d.X})
	center := r2.Add(mid, r2.Scale(l/2/math.Tan(turn/2), out))
	s := math.Atan2(a.Y-center.Y, a.X-center.X)
	pts := []r2.Vec{a}
	for i := 1; i < n; i++ {
		sin, cos := math.Sincos(s + turn*float64(i)/float64(n))
		pts = append(pts, r2.Vec{X: center.X + rad*cos, Y: center.Y + rad*sin})
	}
	return append(pts, b)
}

func (c *carved) add(h chord) {
	x0, x1 := math.Min(h.a.X, h.b.X)-h.r, math.Max(h.a.X, h.b.X)+h.r
	y0, y1 := math.Min(h.a.Y, h.b.Y)-h.r, math.Max(h.a.Y, h.b.Y)+h.r
	for x := int(math.Floor(x0 / carvedCell)); x <= int(math.Floor(x1/carvedCell)); x++ {
		for y := int(math.Floor(y0 / carvedCell)); y <= int(math.Floor(y1/carvedCell)); y++ {
			mid := r2.Vec{X: (float64(x) + .5) * carvedCell, Y: (float64(y) + .5) * carvedCell}
			if _, d := nearestOn(h.a, h.b, mid); d < h.r+carvedCell {
				c.cells[[2]int{x, y}] = append(c.cells[[2]int{x, y}], h)
			}
		}
	}
}

// nearestOn returns where on a chord, as a share of it, a point is nearest, and
// how near.
func nearestOn(a, b, p r2.Vec) (f, d float64) {
	u := r2.Sub(b, a)
	if n := r2.Dot(u, u); n > 0 {
		f = math.Max(0, math.Min(1, r2.Dot(r2.Sub(p, a), u)/n))
	}
	return f, r2.Norm(r2.Sub(p, r2.Add(a, r2.Scale(f, u))))
}

// at returns the height left at a point.
func (c *carved) at(p r2.Vec) float64 {
	z := c.top
	for _, h := range c.cells[[2]int{int(math.Floor(p.X / carvedCell)), int(math.Floor(p.Y / carvedCell))}] {
		if math.Min(h.za, h.zb) >= z {
			continue
		}
		f, d := nearestOn(h.a, h.b, p)
		if d >= h.r {
			continue
		}
		if h.slope > 0 {
			z = math.Min(z, h.za+f*(h.zb-h.za)+d/h.slope)
			continue
		}
		l := r2.Norm(r2.Sub(h.b, h.a))
		reach := 0.0
		if l > 0 {
			// From this far on either side of the foot the cutter still covers
			// the point.
			along := r2.Dot(r2.Sub(p, h.a), r2.Sub(h.b, h.a)) / l
			side := math.Abs(r2.Cross(r2.Sub(h.b, h.a), r2.Sub(p, h.a))) / l
			half := math.Sqrt(math.Max(0, h.r*h.r-side*side))
			from, to := math.Max(0, along-half)/l, math.Min(l, along+half)/l
			z = math.Min(z, math.Min(h.za+from*(h.zb-h.za), h.za+to*(h.zb-h.za)))
			continue
		}
		z = math.Min(z, math.Min(h.za, h.zb)+reach)
	}
	return z
}

// A wall is one edge of the true part: a line, or an arc of bulge k, run with
// the part on its left, and how it leans in.
type wall struct {
	a, b r2.Vec
	k    float64
	lean float64 // rad off square, in from the show face at the bottom
	back *wall   // of one whose lean changes: its edge on the back face, as far out at every y
}

// inset returns how far inside a wall a point is.
func (w wall) inset(p r2.Vec) float64 {
	d := r2.Sub(w.b, w.a)
	if w.k == 0 {
		return r2.Cross(d, r2.Sub(p, w.a)) / r2.Norm(d)
	}
	center, rad := w.circle()
	return rad - math.Copysign(r2.Norm(r2.Sub(p, center)), rad)
}

// circle returns the circle of a bent wall, its radius > 0 where it turns left.
func (w wall) circle() (r2.Vec, float64) {
	d := r2.Sub(w.b, w.a)
	l := r2.Norm(d)
	turn := 4 * math.Atan(w.k)
	out := r2.Scale(1/l, r2.Vec{X: -d.Y, Y: d.X})
	return r2.Add(r2.Scale(0.5, r2.Add(w.a, w.b)), r2.Scale(l/2/math.Tan(turn/2), out)), l / 2 / math.Sin(turn/2)
}

// out returns x of an upright wall on the right of its part at a height y.
func (w wall) out(y float64) float64 {
	if w.k == 0 {
		return w.a.X + (y-w.a.Y)/(w.b.Y-w.a.Y)*(w.b.X-w.a.X)
	}
	c, rad := w.circle()
	return c.X + math.Copysign(math.Sqrt(rad*rad-(y-c.Y)*(y-c.Y)), rad)
}

// leanAt returns how a wall leans where its face is met at a point.
func (m model) leanAt(i int, p r2.Vec) float64 {
	w := m.walls[i]
	if w.back == nil {
		return w.lean
	}
	show, back := w.out(p.Y), w.back.out(p.Y)
	slope := (w.out(p.Y+0.01) - w.out(p.Y-0.01)) / 0.02
	return math.Atan((show - back) / math.Hypot(1, slope) / m.top)
}

// A model is the true part: walls around it.
type model struct {
	top   float64
	walls []wall
}

// height returns how high the true part is at a point, and which wall's face
// is met there, -1 for the top; 0 off the part.
func (m model) height(p r2.Vec) (float64, int) {
	h, at := m.top, -1
	for i, w := range m.walls {
		in := w.inset(p)
		if in <= 0 {
			return 0, i
		}
		if w.back != nil {
			show, back := w.out(p.Y), w.back.out(p.Y)
			if z := m.top * (show - p.X) / (show - back); z < h {
				h, at = z, i
			}
			continue
		}
		if w.lean > 0 {
			if z := in / math.Tan(w.lean); z < h {
				h, at = z, i
			}
		}
	}
	return h, at
}
