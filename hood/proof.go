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
	front, skirt := "sweep", "skirt"
	if !b.plumb() {
		front, skirt = "sweep-front", "skirt-front"
	}
	p.panel(front, skirt, b.front, b.frontEnds(), r3.Vec{Y: 1})
	for _, s := range []struct {
		hand string
		f    flare
		e    ends
		out  r3.Vec
	}{{"left", b.left, b.leftEnds(), r3.Vec{X: -1}}, {"right", b.right, b.rightEnds(), r3.Vec{X: 1}}} {
		if s.f.flared() {
			p.panel("sweep-"+s.hand, "skirt-"+s.hand, s.f.section, s.e, s.out)
			p.seam(front, skirt, s.hand, s.f)
		} else {
			p.cheek(front, skirt, s.hand)
		}
		p.rabbet(s.hand, s.f)
	}
	p.deck(front)
	p.inside(front, skirt)
	return p.checks
}

// add reports a measured value against its limit.
func (p *proof) add(name string, value, limit float64, unit string) {
	p.checks = append(p.checks, Check{name, value, limit, unit, value <= limit})
}

// facet is the limit of a joint along a bent panel.
func (p *proof) facet(s placed) float64 {
	if !s.bent {
		return rounding
	}
	return p.b.Bend.Facet + rounding
}

// folded is what a fold between a flat and a curved board adds to a limit. The
// bevels are planes, and over their reach t·tan β the curve leaves its tangent
// by reach²/2R; where its offset meets the plane of the other board, that moves
// the corner by as much over sin 2β, which is up to t·reach/4R.
func (p *proof) folded(s section) float64 {
	radius := s.sweep.Segment(0).Radius() - p.b.t
	reach := p.b.t * math.Tan(math.Abs(float64(s.lower)))
	if p.b.Skirt == 0 || radius <= 0 {
		return 0
	}
	return reach * (reach + p.b.t/2) / radius
}

// spread is how much more than the clearance lies between two faces where they
// end or fold, square to them.
func (p *proof) spread(s section) float64 {
	low := math.Abs(float64(s.curve.Low))
	if p.b.Skirt > 0 { // a fold, not an end
		low /= 2
	}
	most := math.Max(low, math.Abs(float64(s.curve.High)))
	return p.b.Back.Clearance * (1/math.Cos(most) - 1)
}

// panel sets a sweep on its skirt by their bevels alone, and measures their
// joint, the other end, and how far the bent panel leaves its curve. Out is the
// direction outward in space.
func (p *proof) panel(name, skirtName string, s section, e ends, out r3.Vec) {
	sweep := p.parts[name]
	if skirt, ok := p.parts[skirtName]; ok {
		sweep = p.setOn(skirt, sweep)
		p.parts[name] = sweep
		p.skirtJoint(skirt, sweep)
	}
	x := sweep.Outline.Outer.V[0].P.X
	flat := func(y float64) r2.Vec {
		v := sweep.point(r2.Vec{X: x, Y: y}, 0)
		return r2.Vec{X: r3.Dot(v, out), Y: v.Z}
	}
	end := flat(sweep.breaks[len(sweep.breaks)-1])
	p.add(name+": upper edge off the neck", math.Hypot(end.X-e.top, end.Y-e.height), 10*rounding, "mm")
	if !sweep.bent {
		return
	}
	off := 0.0
	for _, y := range sweep.breaks {
		off = math.Max(off, distance(flat(y), s.sweep))
	}
	p.add(name+": off the true curve", off, p.facet(sweep), "mm")
	if m := s.curve.Kerfs.Mouth; m < 0 {
		p.add(name+": kerfs overlap when closed", -m, rounding, "mm")
	}
}

// cheek measures the corner of the front and a cheek.
func (p *proof) cheek(front, skirt, hand string) {
	cheek, sweep := p.parts["cheek-"+hand], p.parts[front]
	p.add(front+" to "+cheek.Name, p.corner(sweep, hand, cheek), p.facet(sweep), "mm")
	if s, ok := p.parts[skirt]; ok {
		p.add(skirt+" to "+cheek.Name, p.corner(s, hand, cheek), rounding+p.folded(p.b.front), "mm")
	}
}

// setOn returns the sweep with its lower show edge on the upper one of the
// skirt, turned back by the two bevels.
func (p *proof) setOn(skirt, sweep placed) placed {
	a, _ := skirt.Edge("top")
	b, _ := sweep.Edge("bottom")
	turn := float64(a.Bevel + b.Bevel)
	x := a.Show.V[0].P.X - b.Show.V[len(b.Show.V)-1].P.X
	sin, cos := math.Sincos(turn)
	up, in := skirt.pose.Up, skirt.pose.In
	sweep.pose = Pose{
		At:    skirt.point(r2.Vec{X: x, Y: a.Show.V[0].P.Y}, 0),
		Right: skirt.pose.Right,
		Up:    r3.Add(r3.Scale(cos, up), r3.Scale(sin, in)),
		In:    r3.Add(r3.Scale(cos, in), r3.Scale(-sin, up)),
	}
	return sweep
}

// skirtJoint measures the bevels of skirt and sweep, from the show faces as
// deep as the end of the sweep is flat: a steep bevel runs into the first kerf,
// and what lies deeper is filled with glue.
func (p *proof) skirtJoint(skirt, sweep placed) {
	a, _ := skirt.Edge("top")
	b, _ := sweep.Edge("bottom")
	f := 1.0
	if reach := math.Abs(b.Back.V[0].P.Y); reach > sweep.breaks[1] {
		f = sweep.breaks[1] / reach
	}
	between := func(e Edge, i int) r2.Vec { return r2.Add(r2.Scale(1-f, e.Show.V[i].P), r2.Scale(f, e.Back.V[i].P)) }
	gap := 0.0
	for i := range a.Back.V {
		one := skirt.point(between(a, i), f*skirt.Thickness)
		two := sweep.point(between(b, len(b.Back.V)-1-i), f*sweep.Thickness)
		gap = math.Max(gap, r3.Norm(r3.Sub(one, two)))
	}
	p.add(skirt.Name+" to "+sweep.Name, gap, (p.facet(sweep)+p.foldedMost())*(1+p.steepest()), "mm")
}

// foldedMost returns the largest of folded over the flared panels.
func (p *proof) foldedMost() float64 {
	if p.b.plumb() {
		return 0
	}
	most := p.folded(p.b.front)
	for _, f := range []flare{p.b.left, p.b.right} {
		if f.flared() {
			most = max(most, p.folded(f.section))
		}
	}
	return most
}

// steepest returns how far the end of a seam moves along a panel where its
// neighbor is off by one across: the tangent of the largest lean at the skirt,
// held to that of 80 degrees.
func (p *proof) steepest() float64 {
	most := arc.Angle(0)
	for _, s := range []section{p.b.left.section, p.b.right.section, p.b.front} {
		if !p.b.plumb() {
			most = max(most, s.curve.Low, -s.curve.Low)
		}
	}
	return math.Tan(float64(min(most, 80*arc.Degree)))
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

// rabbet measures the play of the back in the rabbet of a side, and how flush
// it lies.
func (p *proof) rabbet(hand string, f flare) {
	sides, more := []string{"cheek-" + hand}, 0.0
	if f.flared() {
		more = p.folded(f.section) + p.spread(f.section)
		sides = []string{"skirt-" + hand, "sweep-" + hand}
	}
	back := p.parts["back"]
	edge, _ := back.Edge(map[string]string{"left": "right", "right": "left"}[hand])
	for _, name := range sides {
		side, ok := p.parts[name]
		if !ok {
			continue
		}
		play, flush := side.rabbetPlay(back, edge.Show)
		p.add("back to rabbet of "+name+": play off what is asked", math.Abs(play-p.b.Back.Clearance), p.facet(side)+more, "mm")
		p.add("back to rabbet of "+name+": off flush", flush, rounding, "mm")
	}
}

// rabbetPlay returns the room between the edge of the back and the floor of
// the rabbet where it is farthest from none, and how far the back's front face
// is from the rabbet's shoulder.
func (side placed) rabbetPlay(back placed, edge arc.Path) (play, flush float64) {
	floor, shoulder := side.Thickness, 0.0
	if left, right := side.rabbets(); left+right > 0 {
		floor -= side.Work.Pockets[0].Depth
		shoulder = left
		if right > 0 {
			shoulder = side.Outline.Bounds().Max.X - right
		}
	} else {
		at, _ := side.pose.local(back.pose.At)
		shoulder = at.X
	}
	low, high := side.levels(floor)
	first := true
	for _, y := range side.breaks {
		y = clamp(y, low, high)
		v := side.point(r2.Vec{X: shoulder, Y: y}, floor)
		at, depth := back.pose.local(v)
		flush = math.Max(flush, math.Abs(depth))
		box := edge.Bounds()
		if at.Y < box.Min.Y || at.Y > box.Max.Y {
			continue
		}
		if d := distance(at, edge); first || d > play {
			play, first = d, false
		}
	}
	return play, flush
}

// deck measures the deck against the sides, the back and the bent front.
func (p *proof) deck(front string) {
	deck := p.parts["deck"]
	box := deck.Outline.Bounds()
	sweep := p.parts[front]
	p.add("deck to "+front, p.meets(deck, "bottom", sweep), p.facet(sweep), "mm")
	for _, hand := range []string{"left", "right"} {
		if side, ok := p.parts["sweep-"+hand]; ok {
			p.add("deck to "+side.Name, p.meets(deck, hand, side), p.facet(side), "mm")
			continue
		}
		edge, _ := deck.Edge(hand)
		cheek := p.parts["cheek-"+hand]
		_, depth := cheek.pose.local(deck.point(edge.Show.V[0].P, 0))
		p.add("deck to "+cheek.Name, math.Abs(depth-cheek.Thickness), rounding, "mm")
	}
	_, depth := p.parts["back"].pose.local(deck.point(r2.Vec{Y: box.Max.Y}, 0))
	p.add("deck to back", math.Abs(depth), rounding, "mm")
}

// meets returns how far an edge of the deck is from the back face of a bent
// panel, below and above.
func (p *proof) meets(deck placed, name string, panel placed) float64 {
	edge, _ := deck.Edge(name)
	low := deck.point(edge.Show.V[0].P, 0)
	high := deck.point(edge.Back.V[0].P, deck.Thickness)
	return math.Max(panel.offInner(low), panel.offInner(high))
}

// offInner returns how far a point is from the back face of a bent panel, run
// on straight beyond its upper end, and at its lower end to where its bevel
// leaves it.
func (p placed) offInner(v r3.Vec) float64 {
	back := p.back
	if !p.bent {
		back = arc.Polyline(r2.Vec{X: -p.Thickness}, r2.Vec{X: -p.Thickness, Y: p.breaks[len(p.breaks)-1]})
	}
	d := r3.Sub(v, p.pose.At)
	at := r2.Vec{X: -r3.Dot(d, p.pose.In), Y: r3.Dot(d, p.pose.Up)}
	long, ok := runOn(back, halfPlane{at, tangentAtEnd(back)})
	if !ok {
		long = back
	}
	if low, _ := p.levels(p.Thickness); low < 0 { // the blank is flat at its ends
		long.V = append([]arc.Vertex{{P: r2.Vec{X: -p.Thickness, Y: low}}}, long.V...)
	}
	return distance(at, long)
}

// tangentAtEnd returns the unit tangent at the end of a path.
func tangentAtEnd(p arc.Path) r2.Vec {
	_, n := endNormals(p.Segment(p.NumSegments() - 1))
	return r2.Vec{X: n.Y, Y: -n.X}
}
