package hood

import (
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/miter"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// seamTol is how far the lines and arcs of a seam's edges may leave the true
// edges, mm.
const seamTol = 1e-3

// A SeamPoint is a point of the seam between the front and a flared side. U is
// a developed length on the show face, before kerfs, up from the lower edge of
// the sweep. XBack and UFrontBack are where the back faces meet at the same
// height, if they do: next to its ends a panel cut square has no back.
type SeamPoint struct {
	Z             float64
	XShow, YShow  float64
	UFront, USide float64
	Bevel         arc.Angle // of both panels
	XBack         float64   // out from the middle plane, as XShow
	UFrontBack    float64
	HasBack       bool
}

// A flare is one flared side: its section, and its seam with the front.
type flare struct {
	section
	seam        miter.Seam
	front, side seamEdge    // of the sweeps, on the flat blanks, kerfs allowed for
	band        [2]seamEdge // of the skirts of front and side
	list        []SeamPoint
}

// A seamEdge is the edge of a blank at a seam, upward: x out from the middle
// plane or the wall, y up the blank.
type seamEdge struct {
	show, back arc.Path
	bevel      arc.Angle // the largest
	saw        bool      // it changes along the edge
}

// flared reports whether a side leans.
func (e ends) flared() bool { return e.bottom-e.top > 1e-9 }

// flare works out a flared side.
func (b *builder) flare(e ends) (flare, bool) {
	before := b.faults.count()
	f := flare{section: b.section("side_sweep", e, b.SideSweep)}
	if b.faults.count() > before {
		return f, false
	}
	pair := miter.Pair{
		First:  miter.Panel{Profile: b.front.show, Thickness: b.t},
		Second: miter.Panel{Profile: f.show, Thickness: b.t},
		Plan:   90 * arc.Degree,
	}
	seam, err := pair.Seam()
	if err != nil {
		b.faults.add("side_sweep", b.SideSweep.name(), "", "a side that meets the front: "+err.Error(), ErrPlace)
		return f, false
	}
	f.seam = seam
	first, second, err := seam.Edges(seamTol)
	if err != nil {
		b.faults.add("side_sweep", b.SideSweep.name(), "", "a side that meets the front: "+err.Error(), ErrPlace)
		return f, false
	}
	if !f.setEdges(b, first, second) {
		b.faults.add("side_sweep", b.SideSweep.name(), "", "a seam longer than the bevels at its ends", ErrPlace)
		return f, false
	}
	f.list = seamList(seam, b.Skirt, b.Height)
	f.front.bevel, f.side.bevel = f.bevel(), f.bevel()
	f.front.saw, f.side.saw = f.varies(), f.varies()
	return f, true
}

// setEdges takes the edges of the blanks from those of the seam.
func (f *flare) setEdges(b *builder, first, second []miter.Edge) bool {
	for _, e := range []struct {
		of    section
		runs  []miter.Edge
		sweep *seamEdge
		band  *seamEdge
	}{{b.front, first, &f.front, &f.band[0]}, {f.section, second, &f.side, &f.band[1]}} {
		s, low := e.of, b.t*math.Tan(float64(e.of.lower))
		high := s.curve.ShowLength - b.t*math.Tan(float64(s.upper))
		var ok bool
		if *e.sweep, ok = between(e.runs[len(e.runs)-1], b.Skirt, s.curve.ShowLength, low, high); !ok {
			return false
		}
		s.toBlank(e.sweep.show)
		s.toBlank(e.sweep.back)
		if b.Skirt == 0 {
			continue
		}
		if *e.band, ok = between(e.runs[0], 0, b.Skirt, 0, b.Skirt-low); !ok {
			return false
		}
		e.band.bevel = 45 * arc.Degree
	}
	return true
}

// between returns the stretch of an edge from u up by height, its back from
// low to high above u, moved so that u is at y = 0. A run without a fold holds
// skirt and sweep.
func between(e miter.Edge, u, height, low, high float64) (seamEdge, bool) {
	m := arc.Shift(r2.Vec{Y: -u})
	show, ok1 := trimmed(e.Show.Transform(m), 0, height)
	back, ok2 := trimmed(e.Back.Transform(m), low, high)
	return seamEdge{show: show, back: back}, ok1 && ok2
}

// trimmed returns a rising path cut off, or run on, at two heights.
func trimmed(p arc.Path, low, high float64) (arc.Path, bool) {
	p, ok1 := startAt(p, halfPlane{r2.Vec{Y: low}, r2.Vec{Y: -1}})
	p, ok2 := endAt(p, halfPlane{r2.Vec{Y: high}, r2.Vec{Y: 1}})
	return p, ok1 && ok2 && low < high
}

// toBlank moves a path from the developed show face to the flat blank.
func (s section) toBlank(p arc.Path) {
	for i := range p.V {
		p.V[i].P.Y = s.onBlank(p.V[i].P.Y)
	}
}

// onBlank returns where a developed length on the show face lies on the flat
// blank: every bend stretches alike.
func (s section) onBlank(u float64) float64 {
	if len(s.plan.Bends) == 0 {
		return u
	}
	at := 0.0 // on the show face
	flat := 0.0
	for _, b := range s.plan.Bends {
		straight := b.FlatAt - flat
		if u <= at+straight {
			break
		}
		at += straight
		flat = b.FlatAt
		show := 0.0
		for i := b.From; i < b.To; i++ {
			show += s.sweep.Segment(i).Length()
		}
		if u <= at+show {
			return flat + (u-at)*b.FlatLength/show
		}
		at += show
		flat += b.FlatLength
	}
	return flat + u - at
}

// seamRows is how many stretches a printed seam is cut into.
const seamRows = 24

func seamList(s miter.Seam, skirt, height float64) []SeamPoint {
	var out []SeamPoint
	for i := range seamRows + 1 {
		p, err := seamPoint(s, skirt, skirt+(height-skirt)*float64(i)/seamRows)
		if err == nil {
			out = append(out, p)
		}
	}
	return out
}

func seamPoint(s miter.Seam, skirt, z float64) (SeamPoint, error) {
	st, err := s.At(clamp(z, s.Lower, s.Upper))
	if err != nil {
		return SeamPoint{}, err
	}
	return SeamPoint{
		Z: z, XShow: st.Show.X, YShow: st.Show.Y,
		UFront: st.First.Show.Y - skirt, USide: st.Second.Show.Y - skirt,
		Bevel: st.First.Bevel, XBack: st.Back.X, UFrontBack: st.First.Back.Y - skirt,
		HasBack: st.HasBack,
	}, nil
}

// straightEdge is the edge of a blank at a plumb side: in line, mitered.
func (s section) straightEdge(x, t float64) seamEdge {
	low, high := t*math.Tan(float64(s.lower)), s.curve.FlatLength-t*math.Tan(float64(s.upper))
	return seamEdge{
		show:  arc.Polyline(r2.Vec{X: x}, r2.Vec{X: x, Y: s.curve.FlatLength}),
		back:  arc.Polyline(r2.Vec{X: x - t, Y: low}, r2.Vec{X: x - t, Y: high}),
		bevel: 45 * arc.Degree,
	}
}

// blank draws the blank of a sweep between two edges, both drawn outward from
// x = 0: one goes to the left of the drawing, one to the right. Bevels tell
// what each edge has.
func (b *builder) blank(name string, s section, left, right seamEdge) plate {
	p := b.board(name)
	p.cells = true
	mirror := arc.MirrorX()
	l := seamEdge{show: left.show.Transform(mirror).Reverse(), back: left.back.Transform(mirror).Reverse()}
	ends := func(p arc.Path) (a, b r2.Vec) { return p.V[0].P, p.V[len(p.V)-1].P }
	lHigh, lLow := ends(l.show)
	rLow, rHigh := ends(right.show)
	blHigh, blLow := ends(l.back)
	brLow, brHigh := ends(right.back)
	p.sides = []side{
		{name: "bottom", path: arc.Polyline(lLow, rLow), bevel: s.lower, back: arc.Polyline(blLow, brLow)},
		{name: "right", path: right.show, bevel: right.bevel, back: right.back, saw: right.saw},
		{name: "top", path: arc.Polyline(rHigh, lHigh), bevel: s.upper, back: arc.Polyline(brHigh, blHigh)},
		{name: "left", path: l.show, bevel: left.bevel, back: l.back, saw: left.saw},
	}
	p.kerfs = s.plan.Kerfs
	for _, k := range s.plan.Kerfs {
		from, to := math.Inf(1), math.Inf(-1) // over the whole width of the kerf
		for _, y := range [3]float64{k.At - b.Bend.KerfWidth/2, k.At, k.At + b.Bend.KerfWidth/2} {
			from, to = math.Min(from, outAtAny(l.show, y)), math.Max(to, outAt(right.show, y))
		}
		p.slots = append(p.slots, b.kerf(k.At, from, to))
	}
	return p
}

// flaredFront draws the front sweep between two corners, as seen from inside:
// the hood's left is on the right.
func (b *builder) flaredFront() plate {
	edge := func(f flare) seamEdge {
		if !f.flared() {
			return b.front.straightEdge(b.Width/2, b.t)
		}
		return f.front
	}
	p := b.blank("sweep-front", b.front, edge(b.right), edge(b.left))
	p.pose = b.front.pose(0)
	return p
}

func (f flare) flared() bool { return len(f.list) > 0 }

// bevel returns the bevel of the seam, or where it changes, its largest.
func (f flare) bevel() arc.Angle {
	most := arc.Angle(0)
	for _, p := range f.list {
		most = max(most, p.Bevel)
	}
	return most
}

// varies reports whether the bevel changes along the seam by more than a saw
// is set to.
func (f flare) varies() bool {
	least := f.bevel()
	for _, p := range f.list {
		least = min(least, p.Bevel)
	}
	return f.bevel()-least > 0.05*arc.Degree
}

// flaredSide draws the sweep of the right side as seen from inside: the wall on
// the left.
func (b *builder) flaredSide(f flare) plate {
	low, high := f.side.back.V[0].P.Y, f.side.back.V[len(f.side.back.V)-1].P.Y
	p := b.blank("sweep-right", f.section, b.rear(0, f.curve.FlatLength, low, high), f.side)
	in, _ := endNormals(f.sweep.Segment(0))
	p.pose = Pose{
		At: r3.Vec{X: b.Width / 2, Z: b.Skirt}, Right: r3.Vec{Y: 1},
		Up: r3.Vec{X: in.Y, Z: -in.X}, In: r3.Vec{X: in.X, Z: in.Y},
	}
	p.pockets = b.rearRabbet(f.curve.FlatLength)
	p.marks = mirroredMarks(b.scribeMarks(b.Skirt, b.Height, func(z float64) float64 { return f.onBlank(f.developed(z)) }))
	return p
}

// rear returns the edge of a side along the wall, with the scribe allowance.
// A left edge is drawn outward from x = 0, to the left.
func (b *builder) rear(low, high, backLow, backHigh float64) seamEdge {
	a := b.Scribe.Allowance
	return seamEdge{
		show: arc.Polyline(r2.Vec{X: a, Y: low}, r2.Vec{X: a, Y: high}),
		back: arc.Polyline(r2.Vec{X: a, Y: backLow}, r2.Vec{X: a, Y: backHigh}),
	}
}

// rearRabbet returns the rabbet for the back along x = 0, the part lying to
// the right of it.
func (b *builder) rearRabbet(height float64) []recess {
	r, tb, out, a := b.Back.Rabbet, b.backFace(), b.runOut(), b.Scribe.Allowance
	if r == 0 {
		return nil
	}
	return []recess{{
		region(arc.Rect(-a, 0, tb, height), nil), region(arc.Rect(-a-out, -out, tb, height+out), nil), r,
	}}
}

// band returns the section of the skirt below a section.
func (s section) band(skirt float64) section {
	return section{curve: Curve{FlatLength: skirt}, upper: s.curve.SkirtBevel}
}

// sideSkirt draws the skirt of the right side as seen from inside.
func (b *builder) sideSkirt(f flare) plate {
	rear := b.rear(0, b.Skirt, 0, b.Skirt-b.t*math.Tan(float64(f.lower)))
	p := b.blank("skirt-right", f.section.band(b.Skirt), rear, f.band[1])
	p.pose = Pose{At: r3.Vec{X: b.Width / 2}, Right: r3.Vec{Y: 1}, Up: r3.Vec{Z: 1}, In: r3.Vec{X: -1}}
	p.pockets = b.rearRabbet(b.Skirt)
	p.marks = mirroredMarks(b.scribeMarks(0, b.Skirt, func(z float64) float64 { return z }))
	return p
}

// frontSkirt draws the skirt between two corners of which one is flared.
func (b *builder) frontSkirt() plate {
	s := b.front.band(b.Skirt)
	edge := func(f flare) seamEdge {
		if !f.flared() {
			return s.straightEdge(b.Width/2, b.t)
		}
		return f.band[0]
	}
	p := b.blank("skirt-front", s, edge(b.right), edge(b.left))
	p.pose = Pose{At: r3.Vec{Y: b.Depth}, Right: r3.Vec{X: -1}, Up: r3.Vec{Z: 1}, In: r3.Vec{Y: -1}}
	return p
}

// otherSide mirrors a part of the right side into the plane x = 0.
func otherSide(p plate, name string) plate {
	q := p.mirrored(name)
	flip := func(v r3.Vec) r3.Vec { v.X = -v.X; return v }
	q.pose = Pose{At: flip(p.pose.At), Right: r3.Scale(-1, flip(p.pose.Right)), Up: flip(p.pose.Up), In: flip(p.pose.In)}
	return q
}
