package hood

import (
	"math"
	"slices"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A plyEdge gives an edge of a ply whose faces lie at two depths, its middle at
// another and its faces between two spans: outward and upward, as a seamEdge.
type plyEdge func(depth [2]float64, mid float64, faces [2]span) (seamEdge, bool)

// plumbEdge is the edge of a panel at plumb cheeks, wide over both.
func plumbEdge(wide float64, bevel arc.Angle) plyEdge {
	return func(depth [2]float64, _ float64, faces [2]span) (seamEdge, bool) {
		upright := func(i int) arc.Path {
			x := wide/2 - depth[i]*math.Tan(float64(bevel))
			return arc.Polyline(r2.Vec{X: x, Y: faces[i].low}, r2.Vec{X: x, Y: faces[i].high})
		}
		return seamEdge{show: upright(0), back: upright(1), bevel: bevel}, true
	}
}

// rearEdge is the edge of a flared side along the wall. What lies in the rabbet
// for the back stops at its shoulder.
func (b *builder) rearEdge() plyEdge {
	return func(depth [2]float64, _ float64, faces [2]span) (seamEdge, bool) {
		x := b.Scribe.Allowance
		if b.inRabbet(depth[0]) {
			x = -b.backFace()
		}
		upright := func(i int) arc.Path {
			return arc.Polyline(r2.Vec{X: x, Y: faces[i].low}, r2.Vec{X: x, Y: faces[i].high})
		}
		return seamEdge{show: upright(0), back: upright(1)}, true
	}
}

// inRabbet reports whether what lies deeper than a depth is taken by the rabbet
// for the back.
func (b *builder) inRabbet(depth float64) bool {
	return b.Back.Rabbet > 0 && depth > b.t-b.Back.Rabbet-rounding
}

// cornerEdge is the edge of a panel at its seam with the other. The glued panel
// is cut straight from the line on its show face to that on its back.
func (b *builder) cornerEdge(s section, f flare, front bool) plyEdge {
	of := f.side
	if front {
		of = f.front
	}
	var rules []ruling
	return func(depth [2]float64, mid float64, _ [2]span) (seamEdge, bool) {
		e := seamEdge{bevel: of.bevel, saw: of.saw}
		for i, to := range [2]*arc.Path{&e.show, &e.back} {
			var path arc.Path
			switch d := depth[i]; {
			case d < rounding:
				path = of.show.Clone()
			case d > b.t-rounding:
				path = of.back.Clone()
			default:
				if rules == nil {
					rules = f.rulings(b, front)
				}
				path = between2(rules, d/b.t)
			}
			low, ok1 := s.cutBack(false, depth[i])
			high, ok2 := s.cutBack(true, depth[i])
			if len(path.V) < 2 || !ok1 || !ok2 {
				return e, false
			}
			path, ok := trimmed(path, low, s.curve.ShowLength-high)
			if !ok {
				return e, false
			}
			for j := range path.V {
				path.V[j].P.Y = s.along(path.V[j].P.Y, mid)
			}
			*to = path
		}
		return e, true
	}
}

// A ruling is where the cut of a seam meets both faces of one panel at a
// height: x out, y developed on the show face from the sweep's lower end.
type ruling struct{ show, back r2.Vec }

// rulingCount is how many a seam is told by: their chords leave a seam's edge by
// some hundredths of a millimetre.
const rulingCount = 48

// rulings returns those of the sweep, upward. Next to its ends, where a face
// lies on the skirt or is cut off, there are none.
func (f flare) rulings(b *builder, front bool) []ruling {
	low := b.Skirt
	for _, s := range []section{b.front, f.section} {
		if b.Skirt > 0 && len(s.inner.V) > 2 {
			low = math.Max(low, s.inner.V[1].P.Y)
		}
	}
	var out []ruling
	for i := range rulingCount + 1 {
		z := low + (b.Height-low)*(float64(i)+0.01)/(rulingCount+0.02)
		st, err := f.seam.At(clamp(z, f.seam.Lower, f.seam.Upper))
		if err != nil || !st.HasBack {
			continue
		}
		m := st.Second
		if front {
			m = st.First
		}
		r := ruling{m.Show, m.Back}
		r.show.Y -= b.Skirt
		r.back.Y -= b.Skirt
		if n := len(out); n == 0 || r.show.Y > out[n-1].show.Y+rounding && r.back.Y > out[n-1].back.Y+rounding {
			out = append(out, r)
		}
	}
	return out
}

// between2 returns the line that lies a share of the way from the show face to
// the back on all rulings.
func between2(rules []ruling, share float64) arc.Path {
	p := arc.Path{V: make([]arc.Vertex, len(rules))}
	for i, r := range rules {
		p.V[i].P = r2.Add(r2.Scale(1-share, r.show), r2.Scale(share, r.back))
	}
	return p
}

// flaredFronts draws the front sweep between two corners, or its plies.
func (b *builder) flaredFronts() []plate {
	if b.front.plies == 0 {
		return []plate{b.flaredFront()}
	}
	edge := func(f flare) plyEdge {
		if !f.flared() {
			return plumbEdge(b.Width, 45*arc.Degree)
		}
		return b.cornerEdge(b.front, f, true)
	}
	out := b.rolled("sweep-front", b.front, edge(b.right), edge(b.left), b.front.pose(0))
	for _, f := range []flare{b.left, b.right} {
		if note := b.seamNote(f); f.flared() && f.varies() && len(out) > 0 && !slices.Contains(out[0].notes, note) {
			out[0].notes = append(out[0].notes, note)
		}
	}
	return out
}

// flaredSides draws the sweep of the right side, or its plies.
func (b *builder) flaredSides(f flare) []plate {
	if f.plies == 0 {
		return []plate{b.flaredSide(f)}
	}
	in, _ := endNormals(f.sweep.Segment(0))
	out := b.rolled("sweep-right", f.section, b.rearEdge(), b.cornerEdge(f.section, f, false), Pose{
		At: r3.Vec{X: b.Width / 2, Z: b.Skirt}, Right: r3.Vec{Y: 1},
		Up: r3.Vec{X: in.Y, Z: -in.X}, In: r3.Vec{X: in.X, Z: in.Y},
	})
	for i := range out {
		d0, d1 := f.depth(b.t, float64(i)), f.depth(b.t, float64(i+1))
		mid := (d0 + d1) / 2
		if i == 0 && f.varies() {
			out[i].notes = append(out[i].notes, b.seamNote(f))
		}
		switch floor := b.t - b.Back.Rabbet; {
		case b.inRabbet(d0):
			out[i].notes = append(out[i].notes, "its rear edge is the shoulder of the rabbet for the back: keep it to the line in glue-up")
		case b.inRabbet(d1) && d1-floor > rounding:
			out[i].pockets = b.plyRabbet(out[i], d1-floor)
		}
		if !b.inRabbet(d0) {
			out[i].marks = append(out[i].marks, mirroredMarks(b.scribeMarks(b.Skirt, b.Height, func(z float64) float64 {
				return f.along(f.developed(z), mid)
			}))...)
		}
	}
	return out
}

// plyRabbet is the rabbet for the back in a ply that it goes part of the way
// into.
func (b *builder) plyRabbet(p plate, depth float64) []recess {
	box, out, a, tb := p.blank.Bounds(), b.runOut(), b.Scribe.Allowance, b.backFace()
	e := p.sides[3].back.Bounds()
	return []recess{{
		region(arc.Rect(-a, e.Min.Y, tb, e.Max.Y), nil),
		region(arc.Rect(box.Min.X-out, box.Min.Y-out, tb, box.Max.Y+out), nil), depth,
	}}
}
