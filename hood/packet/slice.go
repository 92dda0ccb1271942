package packet

import (
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood"
)

// A plane gives a point of hood space its place on a drawing and its distance
// from the plane of the drawing.
type plane func(r3.Vec) (p r2.Vec, off float64)

// upright is the plane square to the wall at x, seen from the right: the wall
// is at the right-hand side.
func upright(x float64) plane {
	return func(v r3.Vec) (r2.Vec, float64) { return r2.Vec{X: -v.Z, Y: v.Y}, v.X - x }
}

// level is the plane at a height, seen from above with the wall at the top.
func level(height float64) plane {
	return func(v r3.Vec) (r2.Vec, float64) { return r2.Vec{X: v.X, Y: -v.Z}, v.Y - height }
}

// slice returns where a plane cuts a mesh, as closed polygons. The plane is
// taken a hair off vertices that lie in it. In a closed mesh each edge that
// crosses the plane is run once each way by its two triangles, so the pieces
// chain by those edges alone.
func slice(s hood.Solid, at plane) []arc.Path {
	pts, off := make([]r2.Vec, len(s.Vertices)), make([]float64, len(s.Vertices))
	first, weld := map[r3.Vec]int{}, make([]int, len(s.Vertices))
	for i, v := range s.Vertices {
		if _, ok := first[v]; !ok {
			first[v] = i
		}
		weld[i] = first[v]
		pts[i], off[i] = at(v)
		if off[i] == 0 {
			off[i] = 1e-9
		}
	}
	type edge [2]int
	next, where := map[edge]edge{}, map[edge]r2.Vec{}
	var starts []edge
	cross := func(i, j int) edge {
		e := edge{min(i, j), max(i, j)}
		f := off[e[0]] / (off[e[0]] - off[e[1]])
		where[e] = r2.Add(pts[e[0]], r2.Scale(f, r2.Sub(pts[e[1]], pts[e[0]])))
		return e
	}
	for _, t := range s.Triangles {
		var from, to edge
		n := 0
		for k := range 3 {
			i, j := weld[t[k]], weld[t[(k+1)%3]]
			switch {
			case off[i] < 0 && off[j] > 0:
				from = cross(i, j)
				n++
			case off[i] > 0 && off[j] < 0:
				to = cross(i, j)
				n++
			}
		}
		if n == 2 && from != to { // else it has no area: two of its corners are one
			next[from] = to
			starts = append(starts, from)
		}
	}
	var out []arc.Path
	done := map[edge]bool{}
	for _, e := range starts {
		p := arc.Path{Closed: true}
		for !done[e] {
			done[e] = true
			p.V = append(p.V, arc.Vertex{P: where[e]})
			to, ok := next[e]
			if !ok {
				break
			}
			e = to
		}
		if len(p.V) > 2 {
			out = append(out, p)
		}
	}
	return out
}
