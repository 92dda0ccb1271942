package plate

import (
	"math"
	"slices"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// The shapes of tabs and slots. Inside corners are relieved along the longer
// side: a half circle of the relief's radius ends in the corner, in line with
// the shorter side, which so bears over all its length.

// EasedSlot returns a slot from x0 to x1 and y0 to y1, counter-clockwise, with
// reliefs in the sides along x.
func EasedSlot(x0, y0, x1, y1, relief float64) arc.Path {
	w := 2 * relief
	return arc.Path{Closed: true, V: []arc.Vertex{
		arc.V(x0, y0, 1), arc.V(x0+w, y0, 0), arc.V(x1-w, y0, 1), arc.V(x1, y0, 0),
		arc.V(x1, y1, 1), arc.V(x1-w, y1, 0), arc.V(x0+w, y1, 1), arc.V(x0, y1, 0),
	}}
}

// along returns the point s along a line from a toward b and d to the right of
// it.
func along(a, b r2.Vec, s, d float64) r2.Vec {
	u := r2.Unit(r2.Sub(b, a))
	return r2.Add(a, r2.Add(r2.Scale(s, u), r2.Scale(d, r2.Vec{X: u.Y, Y: -u.X})))
}

// Tabbed cuts a straight side into stretches with tabs between: mids are how
// far along it they have their middles, in rising order.
func Tabbed(of Side, mids []float64, width, length, relief float64) []Side {
	return interrupted(of, "tab", mids, func(from, to r2.Vec, mid float64) arc.Path {
		at := func(s, d, turn float64) arc.Vertex { return arc.Vertex{P: along(from, to, mid+s, d), K: turn} }
		h, w := width/2, 2*relief
		return arc.Path{V: []arc.Vertex{
			at(-h-w, 0, -1), at(-h, 0, 0), at(-h, length, 0), at(h, length, 0), at(h, 0, -1), at(h+w, 0, 0),
		}}
	})
}

// slotted cuts a straight side into stretches with open slots between.
func slotted(of Side, mids []float64, width, depth, relief float64) []Side {
	return interrupted(of, "slot", mids, func(from, to r2.Vec, mid float64) arc.Path {
		at := func(s, d, turn float64) arc.Vertex { return arc.Vertex{P: along(from, to, mid+s, d), K: turn} }
		h, w := width/2, 2*relief
		return arc.Path{V: []arc.Vertex{
			at(-h, 0, 0), at(-h, -depth, -1), at(w-h, -depth, 0), at(h-w, -depth, -1), at(h, -depth, 0), at(h, 0, 0),
		}}
	})
}

// interrupted puts a run of another name into a straight side at each middle.
func interrupted(of Side, name string, mids []float64, run func(from, to r2.Vec, mid float64) arc.Path) []Side {
	from, to := of.Path.V[0].P, of.Path.V[len(of.Path.V)-1].P
	at := from
	var out []Side
	for _, m := range mids {
		p := run(from, to, m)
		out = append(out,
			Side{Name: of.Name, Path: arc.Polyline(at, p.V[0].P), Bevel: of.Bevel},
			Side{Name: name, Path: p})
		at = p.V[len(p.V)-1].P
	}
	return append(out, Side{Name: of.Name, Path: arc.Polyline(at, to), Bevel: of.Bevel})
}

// A Notch is cut into an edge along x, from x0 to x1 and y deep.
type Notch struct{ X0, X1, Y float64 }

// Notched cuts notches into a side along y = 0. The walls of a notch are cut
// square.
func Notched(s Side, notches []Notch) []Side {
	var out []Side
	at := s.Path.V[0].P
	for _, n := range notches {
		in := r2.Vec{X: n.X0}
		out = append(out,
			Side{Name: s.Name, Path: arc.Polyline(at, in), Bevel: s.Bevel},
			Side{Name: "notch", Path: arc.Polyline(in, r2.Vec{X: n.X0, Y: n.Y}, r2.Vec{X: n.X1, Y: n.Y}, r2.Vec{X: n.X1})})
		at = r2.Vec{X: n.X1}
	}
	return append(out, Side{Name: s.Name, Path: arc.Polyline(at, s.Path.V[1].P), Bevel: s.Bevel})
}

// OpenSlots cuts slots at x to the right of the hood's middle into the lower
// or the upper edge of the back.
func (p *Plate) OpenSlots(name string, xs []float64, wide, deep, relief float64) {
	for i, s := range p.Sides {
		if s.Name != name {
			continue
		}
		var mids []float64
		for _, x := range xs { // x runs to the left
			mids = append(mids, math.Abs(-x-s.Path.V[0].P.X))
		}
		slices.Sort(mids)
		p.Sides = slices.Concat(p.Sides[:i], slotted(s, mids, wide, deep, relief), p.Sides[i+1:])
		return
	}
}
