package cut

import (
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// clear cuts an island to chips while it still hangs together with the parts
// around it: row by row, to and fro, the axis over the island's own cells only.
func (h *holder) clear(c *island) {
	tabbed := h.tabbed()
	every := max(1, int(h.opt.Step*h.mill.Diameter/h.g.cell))
	first, last := int32(-1), int32(0)
	rows := map[int32][]run{}
	for i, v := range h.g.wood.runs {
		if h.g.wood.root(int32(i)) == c.root {
			y := v.from / int32(h.g.nx)
			if first < 0 {
				first = y
			}
			last = y
			rows[y] = append(rows[y], v)
		}
	}
	var open, done []*rower
	for y := first; y <= last; y = min(y+int32(every), max(last, y+1)) {
		open, done = h.row(rows[y], every, c.root, tabbed, open, done)
	}
	for _, r := range append(done, open...) {
		h.chip(r.way)
	}
}

// A rower goes to and fro over the rows of an island.
type rower struct {
	way []r2.Vec
	run run // where it is
}

// row takes the rowers on to the next row. Each goes on to the first run that
// it can go straight to; where no rower comes, one starts.
func (h *holder) row(runs []run, every int, root int32, tabbed map[int]bool, open, done []*rower) (next, ended []*rower) {
	taken := map[*rower]bool{}
	for _, v := range runs {
		for _, u := range h.safe(v, root, tabbed) {
			var r *rower
			for _, o := range open {
				if d := int32(every); !taken[o] && o.run.from%int32(h.g.nx) < u.to%int32(h.g.nx)+d && u.from%int32(h.g.nx) < o.run.to%int32(h.g.nx)+d && h.straight(o.way[len(o.way)-1], u, root, tabbed) {
					r = o
					break
				}
			}
			if r == nil {
				r = &rower{}
			}
			taken[r] = true
			r.run = u
			r.over(h, u)
			next = append(next, r)
		}
	}
	for _, o := range open {
		if !taken[o] {
			done = append(done, o)
		}
	}
	return next, done
}

// ends returns where a rower runs over a run: along it, or through its middle
// where the cutter is twice as wide.
func (h *holder) ends(u run) (a, b r2.Vec) {
	a, b = h.g.at(int(u.from)), h.g.at(int(u.to)-1)
	if b.X-a.X < h.mill.Diameter/2 {
		a = r2.Scale(0.5, r2.Add(a, b))
		b = a
	}
	return a, b
}

// nearEnd returns the end of a run from which a rower that comes from a point
// goes over it, and the other.
func (h *holder) nearEnd(at r2.Vec, u run) (a, b r2.Vec) {
	a, b = h.ends(u)
	if r2.Norm2(r2.Sub(at, b)) < r2.Norm2(r2.Sub(at, a)) {
		a, b = b, a
	}
	return a, b
}

func (r *rower) over(h *holder, u run) {
	a, b := h.ends(u)
	if n := len(r.way); n > 0 {
		a, b = h.nearEnd(r.way[n-1], u)
	}
	r.way = append(r.way, a)
	if a != b {
		r.way = append(r.way, b)
	}
}

// straight reports whether the cutter can go straight on to a run.
func (h *holder) straight(at r2.Vec, u run, root int32, tabbed map[int]bool) bool {
	to, _ := h.nearEnd(at, u)
	n := int(math.Ceil(r2.Norm(r2.Sub(to, at)) / h.g.cell))
	for i := range n {
		c := h.g.cellOf(r2.Add(at, r2.Scale(float64(i)/float64(n), r2.Sub(to, at))))
		if c < 0 || !h.clearOf(c, root, tabbed) {
			return false
		}
	}
	return true
}

// safe returns the pieces of a run over which the cutter may go.
func (h *holder) safe(v run, root int32, tabbed map[int]bool) []run {
	var out []run
	for c := v.from; c < v.to; c++ {
		switch n := len(out); {
		case !h.clearOf(int(c), root, tabbed):
		case n > 0 && out[n-1].to == c:
			out[n-1].to++
		default:
			out = append(out, run{from: c, to: c + 1})
		}
	}
	return out
}

// clearOf reports whether the cutter over a cell cuts neither a part, nor a
// tab, nor waste that stays, nor meets what is forbidden.
func (h *holder) clearOf(c int, root int32, tabbed map[int]bool) bool {
	g := h.g
	reach := h.mill.Diameter/2 + 0.75*g.cell
	n := int(reach / g.cell)
	for y := -n; y <= n; y++ {
		for x := -n; x <= n; x++ {
			cx, cy := c%g.nx+x, c/g.nx+y
			if cx < 0 || cy < 0 || cx >= g.nx || cy >= g.ny || math.Hypot(float64(x), float64(y))*g.cell > reach {
				continue
			}
			k := cy*g.nx + cx
			if g.who[k] > 0 || tabbed[k] || g.who[k] == 0 && g.died[k] == stands && g.wood.root(g.wood.of(k)) != root {
				return false
			}
		}
	}
	for _, f := range h.job.Stock.Forbidden {
		if depth(loopsOf(f), g.at(c), reach+1) > -reach {
			return false
		}
	}
	return true
}

// tabbed returns the cells that tabs keep.
func (h *holder) tabbed() map[int]bool {
	out := map[int]bool{}
	half, rad, step := h.opt.TabWidth/2, h.mill.Diameter/2, h.g.cell/2
	for _, v := range h.rounds {
		for _, s := range v.way.tabs {
			for a := -half; a <= half; a += step {
				axis, away := h.outward(v, s+a)
				for d := -rad; d <= rad; d += step {
					if c := h.g.cellOf(r2.Add(axis, r2.Scale(d, away))); c >= 0 {
						out[c] = true
					}
				}
			}
		}
	}
	return out
}

// leastWay is the shortest way worth going down for, mm.
const leastWay = 1.0

// chip cuts all of the sheet along a way.
func (h *holder) chip(way []r2.Vec) {
	t := newTrack(arc.Polyline(straightened(way)...))
	if t.length() < leastWay {
		return
	}
	w := h.pen(h.mill)
	w.tool.Feed *= Slowing(h.mill.Diameter, h.top)
	w.backAndForth(t, -h.opt.Through)
	h.keep(w, &piece{at: -1, name: "waste"}, WasteCut, h.top+h.opt.Through, 0)
}

// straightened leaves out points that lie on the way between their neighbors.
func straightened(p []r2.Vec) []r2.Vec {
	var out []r2.Vec
	for _, v := range p {
		for n := len(out); n > 1; n = len(out) {
			a, b := r2.Sub(out[n-1], out[n-2]), r2.Sub(v, out[n-1])
			if math.Abs(r2.Cross(a, b)) > 1e-9 || r2.Dot(a, b) < 0 {
				break
			}
			out = out[:n-1]
		}
		out = append(out, v)
	}
	return out
}
