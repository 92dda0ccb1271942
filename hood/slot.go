package hood

import (
	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// The shapes of tabs and slots. Inside corners are relieved along the longer
// side: a half circle of the relief's radius ends in the corner, in line with
// the shorter side, which so bears over all its length.

// easedSlot returns a slot from x0 to x1 and y0 to y1, counter-clockwise, with
// reliefs in the sides along x.
func easedSlot(x0, y0, x1, y1, relief float64) arc.Path {
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

// tabbed cuts a straight side into stretches with tabs between: mids are how
// far along it they have their middles, in rising order.
func tabbed(of side, mids []float64, width, length, relief float64) []side {
	return interrupted(of, "tab", mids, func(from, to r2.Vec, mid float64) arc.Path {
		at := func(s, d, turn float64) arc.Vertex { return arc.Vertex{P: along(from, to, mid+s, d), K: turn} }
		h, w := width/2, 2*relief
		return arc.Path{V: []arc.Vertex{
			at(-h-w, 0, -1), at(-h, 0, 0), at(-h, length, 0), at(h, length, 0), at(h, 0, -1), at(h+w, 0, 0),
		}}
	})
}

// slotted cuts a straight side into stretches with open slots between.
func slotted(of side, mids []float64, width, depth, relief float64) []side {
	return interrupted(of, "slot", mids, func(from, to r2.Vec, mid float64) arc.Path {
		at := func(s, d, turn float64) arc.Vertex { return arc.Vertex{P: along(from, to, mid+s, d), K: turn} }
		h, w := width/2, 2*relief
		return arc.Path{V: []arc.Vertex{
			at(-h, 0, 0), at(-h, -depth, -1), at(w-h, -depth, 0), at(h-w, -depth, -1), at(h, -depth, 0), at(h, 0, 0),
		}}
	})
}

// interrupted puts a run of another name into a straight side at each middle.
func interrupted(of side, name string, mids []float64, run func(from, to r2.Vec, mid float64) arc.Path) []side {
	from, to := of.path.V[0].P, of.path.V[len(of.path.V)-1].P
	at := from
	var out []side
	for _, m := range mids {
		p := run(from, to, m)
		out = append(out,
			side{name: of.name, path: arc.Polyline(at, p.V[0].P), bevel: of.bevel},
			side{name: name, path: p})
		at = p.V[len(p.V)-1].P
	}
	return append(out, side{name: of.name, path: arc.Polyline(at, to), bevel: of.bevel})
}
