package hood

import (
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// rounding is the limit of a joint that has to close but for rounding, mm.
const rounding = 1e-6

// A proof measures how the folded parts of a hood meet.
type proof struct {
	b      *builder
	parts  map[string]placed
	checks []Check
}

// prove folds every part back and measures the joints.
func (b *builder) prove() []Check {
	p := proof{b: b, parts: map[string]placed{}}
	for _, part := range b.parts {
		f, err := fold(part)
		if err != nil {
			p.add("fold "+part.Name, math.Inf(1), 0, "mm")
			return p.checks
		}
		p.parts[part.Name] = f
	}
	p.kerfs()
	p.front()
	p.backRabbets()
	p.deck()
	return p.checks
}

// add reports a measured value against its limit.
func (p *proof) add(name string, value, limit float64, unit string) {
	p.checks = append(p.checks, Check{name, value, limit, unit, value <= limit})
}

// facet is the limit of a joint along a bent panel.
func (p *proof) facet() float64 { return p.b.Bend.Facet + rounding }

// kerfs tells how far the bent panel leaves its curve and, where kerfs close,
// that none closes before its turn is made.
func (p *proof) kerfs() {
	s, ok := p.parts["sweep"]
	if !ok || !s.bent {
		return
	}
	off := 0.0
	for _, y := range s.breaks {
		v := s.point(r2.Vec{Y: y}, 0)
		off = math.Max(off, distance(r2.Vec{X: v.Y, Y: v.Z}, p.b.front.sweep))
	}
	p.add("sweep: off the true curve", off, p.facet(), "mm")
	if p.b.front.curve.Kerfs.Mouth < 0 {
		p.add("sweep: kerfs overlap when closed", -p.b.front.curve.Kerfs.Mouth, rounding, "mm")
	}
}

// front sets the sweep on the skirt by their bevels alone and measures its
// other end and both corners.
func (p *proof) front() {
	sweep := p.parts["sweep"]
	if skirt, ok := p.parts["skirt"]; ok {
		sweep = p.setOn(skirt, sweep)
		p.parts["sweep"] = sweep
		p.skirtJoint(skirt, sweep)
	}
	end := sweep.point(r2.Vec{Y: sweep.breaks[len(sweep.breaks)-1]}, 0)
	off := math.Hypot(end.Y-p.b.Neck.Depth, end.Z-p.b.Height)
	p.add("sweep: upper edge off the neck", off, rounding, "mm")
	for _, hand := range []string{"left", "right"} {
		cheek := p.parts["cheek-"+hand]
		limit := p.facet()
		if !sweep.bent {
			limit = rounding
		}
		p.add("sweep to cheek-"+hand, p.corner(sweep, hand, cheek), limit, "mm")
		if skirt, ok := p.parts["skirt"]; ok {
			p.add("skirt to cheek-"+hand, p.corner(skirt, hand, cheek), rounding, "mm")
		}
	}
}

// setOn returns the sweep with its lower show edge on the upper one of the
// skirt, turned back by the two bevels.
func (p *proof) setOn(skirt, sweep placed) placed {
	a, _ := skirt.Edge("top")
	b, _ := sweep.Edge("bottom")
	turn := float64(a.Bevel + b.Bevel)
	sin, cos := math.Sincos(turn)
	up, in := skirt.pose.Up, skirt.pose.In
	sweep.pose = Pose{
		At:    skirt.point(r2.Vec{Y: a.Show.V[0].P.Y}, 0),
		Right: skirt.pose.Right,
		Up:    r3.Add(r3.Scale(cos, up), r3.Scale(sin, in)),
		In:    r3.Add(r3.Scale(cos, in), r3.Scale(-sin, up)),
	}
	return sweep
}

// skirtJoint measures the bevels of skirt and sweep on the back faces.
func (p *proof) skirtJoint(skirt, sweep placed) {
	a, _ := skirt.Edge("top")
	b, _ := sweep.Edge("bottom")
	gap := 0.0
	for i := range a.Back.V {
		j := len(b.Back.V) - 1 - i
		one := skirt.point(a.Back.V[i].P, skirt.Thickness)
		two := sweep.point(b.Back.V[j].P, sweep.Thickness)
		gap = math.Max(gap, r3.Norm(r3.Sub(one, two)))
	}
	p.add("skirt to sweep", gap, p.facet(), "mm")
}

// corner measures the joint of a front panel and a cheek: how far the line in
// which the front should touch the cheek's front edge is from it, on the
// cheek's show face and on its back.
func (p *proof) corner(front placed, hand string, cheek placed) float64 {
	t := front.Thickness
	edge, _ := cheek.Edge("front")
	side, _ := front.Edge(map[string]string{"left": "right", "right": "left"}[hand])
	inward := 1.0 // along the front's x, from the side in toward the middle
	if hand == "left" {
		inward = -1
	}
	switch p.b.corner() {
	case "front-covers":
		// The cheek's front edge stands against the back face.
		in := side.Back.Transform(arc.Shift(r2.Vec{X: inward * t}))
		return math.Max(
			contact(front, side.Back, t, cheek, edge.Show, 0),
			contact(front, in, t, cheek, edge.Back, t))
	case "cheek-covers":
		// The front's edge stands against the cheek's back, flush with its edge.
		return contact(front, side.Show, 0, cheek, edge.Back, t)
	}
	return math.Max(
		contact(front, side.Show, 0, cheek, edge.Show, 0),
		contact(front, side.Back, t, cheek, edge.Back, t))
}

// contact returns the largest distance of a line on one part, drawn flat at a
// depth of its own, from a path on an unbent part at a depth of that.
func contact(a placed, line arc.Path, depth float64, b placed, path arc.Path, on float64) float64 {
	gap := 0.0
	low, high := line.V[0].P, line.V[len(line.V)-1].P
	if low.Y > high.Y {
		low, high = high, low
	}
	try := func(y float64) {
		f := (y - low.Y) / (high.Y - low.Y)
		x := low.X + f*(high.X-low.X)
		at, d := b.pose.local(a.point(r2.Vec{X: x, Y: y}, depth))
		gap = math.Max(gap, math.Hypot(distance(at, path), d-on))
	}
	try(low.Y)
	try(high.Y)
	for _, y := range a.breaks {
		if y > low.Y && y < high.Y {
			try(y)
		}
	}
	return gap
}

// backRabbets measures the play of the back in the rabbets and how flush it
// lies.
func (p *proof) backRabbets() {
	back := p.parts["back"]
	box := back.Outline.Bounds()
	for _, hand := range []string{"left", "right"} {
		cheek := p.parts["cheek-"+hand]
		x := box.Max.X
		if hand == "right" {
			x = 0
		}
		at, depth := cheek.pose.local(back.point(r2.Vec{X: x, Y: box.Max.Y / 2}, 0))
		floor, shoulder := cheek.Thickness, at.X
		for _, k := range cheek.Work.Pockets {
			floor = cheek.Thickness - k.Depth
			shoulder = nearest(at.X, k.Area.Bounds())
		}
		play := depth - floor
		p.add("back to rabbet of cheek-"+hand+": play off what is asked", math.Abs(play-p.b.Back.Clearance), rounding, "mm")
		p.add("back to rabbet of cheek-"+hand+": off flush", math.Abs(at.X-shoulder), rounding, "mm")
	}
}

// nearest returns the side of a box, left or right, nearest to x.
func nearest(x float64, b r2.Box) float64 {
	if math.Abs(x-b.Min.X) < math.Abs(x-b.Max.X) {
		return b.Min.X
	}
	return b.Max.X
}

// deck measures the deck against cheeks, back and the bent inner face.
func (p *proof) deck() {
	deck := p.parts["deck"]
	box := deck.Outline.Bounds()
	mid := box.Max.Y / 2
	for _, hand := range []string{"left", "right"} {
		x := 0.0
		if hand == "right" {
			x = box.Max.X
		}
		cheek := p.parts["cheek-"+hand]
		_, depth := cheek.pose.local(deck.point(r2.Vec{X: x, Y: mid}, 0))
		p.add("deck to cheek-"+hand, math.Abs(depth-cheek.Thickness), rounding, "mm")
	}
	_, depth := p.parts["back"].pose.local(deck.point(r2.Vec{Y: box.Max.Y}, 0))
	p.add("deck to back", math.Abs(depth), rounding, "mm")
	edge, _ := deck.Edge("bottom")
	low := deck.point(edge.Show.V[0].P, 0)
	high := deck.point(edge.Back.V[0].P, deck.Thickness)
	gap := math.Max(p.offInner(low), p.offInner(high))
	p.add("deck to front", gap, p.facet(), "mm")
}

// offInner returns how far a point is from the back face of the bent front,
// run on straight beyond its upper end.
func (p *proof) offInner(v r3.Vec) float64 {
	sweep := p.parts["sweep"]
	back := sweep.back
	if !sweep.bent {
		l := sweep.breaks[len(sweep.breaks)-1]
		back = arc.Polyline(r2.Vec{X: -sweep.Thickness}, r2.Vec{X: -sweep.Thickness, Y: l})
	}
	d := r3.Sub(v, sweep.pose.At)
	at := r2.Vec{X: -r3.Dot(d, sweep.pose.In), Y: r3.Dot(d, sweep.pose.Up)}
	long, ok := runOn(back, halfPlane{at, tangentAtEnd(back)})
	if !ok {
		long = back
	}
	return distance(at, long)
}

// tangentAtEnd returns the unit tangent at the end of a path.
func tangentAtEnd(p arc.Path) r2.Vec {
	_, n := endNormals(p.Segment(p.NumSegments() - 1))
	return r2.Vec{X: n.Y, Y: -n.X}
}
