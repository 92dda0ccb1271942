package hood

import (
	"fmt"
	"strings"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet/cut"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A builder holds what the parts of one hood share.
type builder struct {
	Spec
	t      float64 // of the board
	front  section
	right  flare // outward from x = 0; the zero flare where plumb
	left   flare
	parts  []Part
	faults checker
}

// covers tell the corner joint.
func (s Spec) corner() string {
	if s.Corner == "" {
		return "miter"
	}
	return s.Corner
}

// neckWidth returns the width of the neck.
func (s Spec) neckWidth() float64 {
	if s.Neck.Width == 0 {
		return s.Width
	}
	return s.Neck.Width
}

// plumb reports whether neither side is flared.
func (s Spec) plumb() bool { return s.neckWidth() == s.Width }

// curved reports whether any panel has to be bent.
func (s Spec) curved() bool { return s.Sweep.curved() || !s.plumb() && s.SideSweep.curved() }

func (s Spec) frontEnds() ends { return ends{s.Depth, s.Neck.Depth, s.Skirt, s.Height} }

// rightEnds and leftEnds measure outward from the middle plane of the hood.
func (s Spec) rightEnds() ends {
	return ends{s.Width / 2, s.neckWidth()/2 + s.Neck.Offset, s.Skirt, s.Height}
}

func (s Spec) leftEnds() ends {
	return ends{s.Width / 2, s.neckWidth()/2 - s.Neck.Offset, s.Skirt, s.Height}
}

// Build works out the hood and proves that it closes. The error is Faults of
// the spec.
func Build(s Spec) (Design, error) {
	if err := s.Validate(); err != nil {
		return Design{}, err
	}
	b := builder{Spec: s.clone(), t: s.Board.Thickness, faults: checker{fn: "hood.Build"}}
	b.sections()
	if b.faults.count() == 0 {
		b.shell()
	}
	if err := b.faults.err(); err != nil {
		return Design{}, err
	}
	d := Design{Spec: b.Spec, Front: b.front.curve, Parts: b.parts}
	d.Side, d.Seam = b.right.curve, b.right.list
	if !b.right.flared() {
		d.Side, d.Seam = b.left.curve, b.left.list
	}
	d.Checks = b.prove()
	for _, c := range d.Checks {
		switch {
		case c.OK:
		case c.Limit == s.joint():
			b.faults.add("joint", c.Limit, "mm", fmt.Sprintf("at least %.3g for %s, or a smaller bend.facet", c.Value, c.Name), ErrBend)
		default:
			b.faults.add("proof: "+c.Name, c.Value, c.Unit, fmt.Sprintf("at most %.6g %s", c.Limit, c.Unit), ErrOpen)
		}
	}
	if err := b.faults.err(); err != nil {
		return Design{}, err
	}
	for _, p := range d.Parts {
		d.Mass += p.Mass * float64(p.Copies())
	}
	d.Cautions = s.cautions(d)
	return d, nil
}

func (s Spec) clone() Spec {
	s.Back.Openings = append([]Opening(nil), s.Back.Openings...)
	s.Board.Sheets = append([]Sheet(nil), s.Board.Sheets...)
	s.Back.Sheets = append([]Sheet(nil), s.Back.Sheets...)
	s.Sweep.Points = append([][2]float64(nil), s.Sweep.Points...)
	s.SideSweep.Points = append([][2]float64(nil), s.SideSweep.Points...)
	return s
}

// sections works out the sections and their blanks.
func (b *builder) sections() {
	b.front = b.section("sweep", b.frontEnds(), b.Sweep)
	if b.faults.count() > 0 {
		return
	}
	for _, f := range []struct {
		ends
		to *flare
	}{{b.rightEnds(), &b.right}, {b.leftEnds(), &b.left}} {
		if f.flared() {
			*f.to, _ = b.flare(f.ends)
		}
	}
}

func (b *builder) section(path string, e ends, w Sweep) section {
	s, err := e.sketch(w)
	if err != nil {
		b.faults.add(path, w.name(), "", err.Error(), ErrBend)
		return s
	}
	if !s.fold(e, b.t) {
		b.faults.add(path, w.name(), "", "a curve wider than the board is thick, as its back folds over", ErrBend)
		return s
	}
	if err := s.bend(b.Bend, b.t); err != nil {
		b.faults.add(path, w.name(), "", "a curve the board can take: "+err.Error(), ErrBend)
	}
	return s
}

// add finishes a plate and keeps it.
func (b *builder) add(p plate) {
	part, ok := p.finish()
	if !ok {
		b.faults.add(p.name, p.thickness, "mm", "a board thin enough for its bevels", ErrPlace)
		return
	}
	b.parts = append(b.parts, part)
}

// board returns an empty plate of the board.
func (b *builder) board(name string) plate {
	return plate{
		name: name, material: b.Board.Material, thickness: b.t,
		density: density(b.Board.Material, b.Board.Density),
	}
}

// shell makes the parts of the case.
func (b *builder) shell() {
	b.sides()
	if b.plumb() {
		if b.Skirt > 0 {
			b.add(b.skirtPlate())
		}
		b.add(b.sweepPlate())
	} else {
		if b.Skirt > 0 {
			b.add(b.frontSkirt())
		}
		b.add(b.flaredFront())
	}
	b.add(b.backPlate())
	b.add(b.deckPlate())
	if b.Liner.Length > 0 {
		b.checkShelf()
		b.add(b.shelfPlate())
	}
	b.addRibs()
	b.addCleat()
	b.addBlocks()
	b.addChimney()
}

// sides makes the left and the right side, each plumb or flared.
func (b *builder) sides() {
	cheek := b.cheek()
	if b.left.flared() {
		b.addFlared("left", b.left)
	} else {
		b.add(cheek)
	}
	if b.right.flared() {
		b.addFlared("right", b.right)
		return
	}
	right := cheek.mirrored("cheek-right")
	right.pose = Pose{At: r3.Vec{X: b.Width / 2}, Right: r3.Vec{Y: 1}, Up: r3.Vec{Z: 1}, In: r3.Vec{X: -1}}
	b.add(right)
}

func (b *builder) addFlared(hand string, f flare) {
	plates := []plate{b.flaredSide(f)}
	if b.Skirt > 0 {
		plates = []plate{b.sideSkirt(f), plates[0]}
	}
	for _, p := range plates {
		if hand == "left" {
			p = otherSide(p, strings.Replace(p.name, "right", "left", 1))
		}
		b.add(p)
	}
}

// frontBevel returns the bevel between front and cheeks.
func (b *builder) frontBevel() arc.Angle {
	if b.corner() == "miter" {
		return 45 * arc.Degree
	}
	return 0
}

// frontWidth returns the width of skirt and sweep.
func (b *builder) frontWidth() float64 {
	if b.corner() == "cheek-covers" {
		return b.Width - 2*b.t
	}
	return b.Width
}

// backFace returns how far from the wall the front face of the back stands:
// behind it is the back, and the cleat where there is one.
func (s Spec) backFace() float64 {
	if s.Cleat.Height > 0 {
		return s.Back.Thickness + s.Board.Thickness
	}
	return s.Back.Thickness
}

// cheek draws the left cheek: x to the wall, y up.
func (b *builder) cheek() plate {
	p := b.board("cheek-left")
	p.cells = true
	edge := b.front.show
	if b.corner() == "front-covers" {
		edge = b.front.inner
	}
	// Mirrored in x, the front's path runs down the left side.
	edge = edge.Transform(arc.MirrorX()).Reverse()
	n := len(edge.V) - 1
	high, low := edge.V[0].P, edge.V[n].P
	h, a := b.Height, b.Scribe.Allowance
	p.sides = []side{
		{name: "bottom", path: arc.Polyline(low, r2.Vec{X: a})},
		{name: "back", path: arc.Polyline(r2.Vec{X: a}, r2.Vec{X: a, Y: h})},
		{name: "top", path: arc.Polyline(r2.Vec{X: a, Y: h}, high)},
		{name: "front", path: edge, bevel: b.frontBevel()},
	}
	if _, ok := p.faces(); !ok { // the bevel takes a whole arc at the fold
		b.innerEdges(&p)
	}
	p.pose = Pose{At: r3.Vec{X: -b.Width / 2}, Right: r3.Vec{Y: -1}, Up: r3.Vec{Z: 1}, In: r3.Vec{X: 1}}
	p.marks = b.scribeMarks(0, h, func(z float64) float64 { return z })
	if b.Back.Rabbet > 0 {
		p.pockets = b.rearRabbet(h)
		for i, k := range p.pockets {
			m := arc.MirrorX()
			p.pockets[i].area, p.pockets[i].run = k.area.Transform(m), k.run.Transform(m)
		}
	}
	return p
}

// innerEdges gives a mitered cheek the inner face of the front as the edge of
// its back.
func (b *builder) innerEdges(p *plate) {
	inner := b.front.inner.Transform(arc.MirrorX()).Reverse()
	n := len(inner.V) - 1
	for i := range p.sides {
		p.sides[i].back = p.sides[i].path.Clone()
	}
	p.sides[0].back.V[0].P = inner.V[n].P
	p.sides[2].back.V[1].P = inner.V[0].P
	p.sides[3].back = inner
}

// runOut returns how far a groove leaves a part: as wide as the cutter for
// outlines, which so finds room in any groove, and stands clear at its ends.
func (b *builder) runOut() float64 { return b.Cut.Tool }

// rectangle returns the sides of a rectangle with one bevel each: bottom,
// right, top, left.
func rectangle(x0, y0, x1, y1 float64, bevels [4]arc.Angle) []side {
	c := [5]r2.Vec{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}, {X: x0, Y: y0}}
	names := [4]string{"bottom", "right", "top", "left"}
	out := make([]side, 4)
	for i := range out {
		out[i] = side{name: names[i], path: arc.Polyline(c[i], c[i+1]), bevel: bevels[i]}
	}
	return out
}

func (b *builder) skirtPlate() plate {
	p := b.board("skirt")
	p.cells = true
	w, m := b.frontWidth(), b.frontBevel()
	p.sides = rectangle(0, 0, w, b.Skirt, [4]arc.Angle{0, m, b.front.curve.SkirtBevel, m})
	p.pose = Pose{At: r3.Vec{X: w / 2, Y: b.Depth}, Right: r3.Vec{X: -1}, Up: r3.Vec{Z: 1}, In: r3.Vec{Y: -1}}
	return p
}

// sweepPlate draws the blank of a sweep between cheeks, x to the left as one
// faces the hood, y up along the blank.
func (b *builder) sweepPlate() plate {
	p := b.board("sweep")
	p.cells = true
	w, m, f := b.frontWidth(), b.frontBevel(), b.front
	p.sides = rectangle(0, 0, w, f.curve.FlatLength, [4]arc.Angle{f.lower, m, f.upper, m})
	p.pose = f.pose(w / 2)
	p.kerfs = f.plan.Kerfs
	for _, k := range f.plan.Kerfs {
		p.slots = append(p.slots, b.kerf(k.At, 0, w))
	}
	return p
}

// kerf returns the kerf across a blank at a height.
func (b *builder) kerf(at, from, to float64) cut.Slot {
	return cut.Slot{
		From: r2.Vec{X: from, Y: at}, To: r2.Vec{X: to, Y: at},
		Width: b.Bend.KerfWidth, Depth: b.t - b.Bend.Web,
	}
}

// pose returns where a front panel's blank begins to bend.
func (s section) pose(right float64) Pose {
	e := s.sweep.V[0].P
	in, _ := endNormals(s.sweep.Segment(0))
	return Pose{
		At:    r3.Vec{X: right, Y: e.X, Z: e.Y},
		Right: r3.Vec{X: -1},
		Up:    r3.Vec{Y: in.Y, Z: -in.X},
		In:    r3.Vec{Y: in.X, Z: in.Y},
	}
}

// inside returns the path of a side's inner face at a depth from its show
// face, outward from the middle plane.
func (b *builder) inside(f flare, e ends, depth float64) arc.Path {
	if !f.flared() {
		x := e.bottom - depth
		return arc.Polyline(r2.Vec{X: x}, r2.Vec{X: x, Y: b.Height})
	}
	s := f.section
	if !s.fold(e, depth) {
		b.faults.add("side_sweep", b.SideSweep.name(), "", "a side that leaves a back", ErrPlace)
	}
	return s.inner
}

// backPlate draws the back as seen from the wall: x to the left as one faces
// the hood. It reaches the floors of the rabbets less the clearance.
func (b *builder) backPlate() plate {
	depth := b.t - b.Back.Rabbet + b.Back.Clearance
	right := b.inside(b.right, b.rightEnds(), depth).Transform(arc.MirrorX())
	left := b.inside(b.left, b.leftEnds(), depth)
	first, last := func(p arc.Path) r2.Vec { return p.V[0].P }, func(p arc.Path) r2.Vec { return p.V[len(p.V)-1].P }
	p := plate{
		name: "back", material: b.Back.Material, thickness: b.Back.Thickness,
		density: density(b.Back.Material, b.Back.Density),
		sides: []side{
			{name: "bottom", path: arc.Polyline(first(right), first(left))},
			{name: "right", path: left},
			{name: "top", path: arc.Polyline(last(left), last(right))},
			{name: "left", path: right.Reverse()},
		},
		pose: Pose{At: r3.Vec{Y: b.backFace()}, Right: r3.Vec{X: -1}, Up: r3.Vec{Z: 1}, In: r3.Vec{Y: -1}},
	}
	for _, o := range b.Back.Openings {
		p.holes = append(p.holes, o.loop(0).Reverse())
	}
	return p
}

// loop returns the outline of the opening as seen from the wall, where the
// middle of the hood is at x = middle.
func (o Opening) loop(middle float64) arc.Path {
	x, z := middle-o.X, o.Z
	if o.Shape == "circle" {
		return arc.Circle(r2.Vec{X: x, Y: z}, o.Diameter/2)
	}
	return arc.Rect(x-o.Width/2, z-o.Height/2, x+o.Width/2, z+o.Height/2)
}
