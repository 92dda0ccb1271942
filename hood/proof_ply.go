package hood

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/bend"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// roll bends a part evenly along its stretches, its middle keeping its length.
func (p placed) roll(length float64) (placed, error) {
	p.bent, p.web = true, p.Thickness
	at, heading, y := r2.Vec{X: -p.web / 2}, math.Pi/2, 0.0
	p.neutral = arc.Path{V: []arc.Vertex{{P: at}}}
	run := func(to, turn float64) {
		l := to - y
		if l <= 1e-12*length {
			return
		}
		p.neutral.V[len(p.neutral.V)-1].Turn = math.Tan(turn / 4)
		chord := l
		if turn != 0 {
			chord = l * math.Sin(turn/2) / (turn / 2)
		}
		sin, cos := math.Sincos(heading + turn/2)
		at = r2.Add(at, r2.Vec{X: chord * cos, Y: chord * sin})
		p.neutral.V = append(p.neutral.V, arc.Vertex{P: at})
		p.starts = append(p.starts, y)
		heading += turn
		y = to
	}
	for _, s := range p.Bent {
		run(s.From, 0)
		run(s.To, float64(s.Turn))
		p.bendRows(s)
	}
	run(length, 0)
	p.breaks = append(p.breaks, length)
	back, ok := parallel(p.neutral, p.web/2)
	if !ok {
		return p, fmt.Errorf("%s: %w", p.Name, bend.ErrTooTight)
	}
	p.back = back
	return p, nil
}

// bendRows adds the heights at which a stretch is measured and meshed.
func (p *placed) bendRows(s Stretch) {
	radius := (s.To - s.From) / math.Abs(float64(s.Turn))
	n, err := arc.Facets(radius+p.Thickness, s.Turn, meshTol)
	if err != nil {
		n = 1
	}
	n = max(n, 4)
	for i := range n + 1 {
		if y := s.From + (s.To-s.From)*float64(i)/float64(n); y > p.breaks[len(p.breaks)-1] {
			p.breaks = append(p.breaks, y)
		}
	}
}

// exact is the limit of what a rolled part keeps but for rounding, which over
// its many arcs comes to more than a joint's, mm.
const exact = 10 * rounding

// frame returns the directions up and in at a height of a bent part.
func (p placed) frame(y float64) (up, in r3.Vec) {
	_, left := p.onNeutral(y)
	t := r2.Vec{X: left.Y, Y: -left.X}
	turned := func(v r2.Vec) r3.Vec { return r3.Sub(r3.Scale(v.Y, p.pose.Up), r3.Scale(v.X, p.pose.In)) }
	return turned(t), turned(left)
}

// setAt moves a bent part so that a point of its show face comes to lie in a
// place, with the directions up and in of its frame there.
func (p placed) setAt(point r2.Vec, at, up, in r3.Vec) placed {
	q, left := p.onNeutral(point.Y)
	q = r2.Sub(q, r2.Scale(p.web/2, left))
	t := r2.Vec{X: left.Y, Y: -left.X}
	p.pose.Up = r3.Add(r3.Scale(t.Y, up), r3.Scale(t.X, in))
	p.pose.In = r3.Sub(r3.Scale(t.Y, in), r3.Scale(t.X, up))
	at = r3.Sub(at, r3.Scale(point.X, p.pose.Right))
	p.pose.At = r3.Add(r3.Sub(at, r3.Scale(q.Y, p.pose.Up)), r3.Scale(q.X, p.pose.In))
	return p
}

// plies returns the bent parts of a panel, from its show face in: plies, or one
// sheet; none where it is kerfed or straight.
func (p *proof) plies(name string) []placed {
	if one, ok := p.parts[name]; ok && !one.Ply {
		if len(one.Bent) > 0 {
			return []placed{one}
		}
		return nil
	}
	var out []placed
	for {
		ply, ok := p.parts[plyName(name, len(out), 2)]
		if !ok {
			return out
		}
		out = append(out, ply)
	}
}

// lineUpAt returns where the mark is by which a ply is stacked.
func (p placed) lineUpAt() r2.Vec {
	for _, m := range p.Marks {
		if m.Name == lineUp {
			return m.Path.V[1].P
		}
	}
	return r2.Vec{}
}

// stack lays each ply on the one before, mark on mark.
func stack(plies []placed) {
	for i := 1; i < len(plies); i++ {
		below := plies[i-1]
		at := below.lineUpAt()
		up, in := below.frame(at.Y)
		plies[i] = plies[i].setAt(plies[i].lineUpAt(), below.point(at, below.Thickness), up, in)
	}
}

// rolled is panel for one that is laminated or bent as it is. It reports false
// where it is neither.
func (p *proof) rolled(name, skirtName string, s section, e ends, out r3.Vec) bool {
	plies := p.plies(name)
	if len(plies) == 0 {
		return false
	}
	stack(plies)
	skirt, onSkirt := p.parts[skirtName]
	if onSkirt {
		p.setRolled(skirt, plies)
	}
	for i := range plies {
		p.parts[plies[i].Name] = plies[i]
	}
	first, last := plies[0], plies[len(plies)-1]
	first.Name, last.Name = name, name
	p.parts[name], p.inner[name] = first, last
	if onSkirt {
		p.rolledJoint(name, skirt, plies)
	}
	p.trueCurve(first, s, e, out)
	for i := 1; i < len(plies); i++ {
		p.glueLine(plies[i-1], plies[i], s.depth(p.b.t, float64(i)))
	}
	for _, ply := range plies {
		if ply.Ply {
			p.add(ply.Name+": short of the trimmed panel", ply.short(), rounding, "mm")
		}
	}
	limit := s.curve.Plies
	p.add(name+": share used of what the material stands", limit.Use, 1, "")
	return true
}

// setRolled stands stacked plies on a skirt, whose bevel their trimmed ends
// take up: turned back by both bevels, as they are in the bent panel.
func (p *proof) setRolled(skirt placed, plies []placed) {
	first, last := plies[0], plies[len(plies)-1]
	a, _ := skirt.Edge("top")
	show, back := corner0(first, true), corner0(last, false)
	low := first.point(show, 0)
	up, in := first.frame(show.Y)
	d := r3.Sub(last.point(back, last.Thickness), low)
	turn := float64(a.Bevel) + math.Atan2(r3.Dot(d, up), r3.Dot(d, in))
	sin, cos := math.Sincos(turn)
	up, in = skirt.pose.Up, skirt.pose.In
	at := skirt.point(a.Show.V[0].P, 0)
	at = r3.Add(at, r3.Scale(-r3.Dot(r3.Sub(at, first.point(show, 0)), skirt.pose.Right), skirt.pose.Right))
	plies[0] = first.setAt(show, at,
		r3.Add(r3.Scale(cos, up), r3.Scale(sin, in)),
		r3.Add(r3.Scale(cos, in), r3.Scale(-sin, up)))
	stack(plies)
}

// corner0 returns the left end of the lower edge on the show face or the back.
func corner0(p placed, show bool) r2.Vec {
	e, _ := p.Edge("bottom")
	if show {
		return e.Show.V[0].P
	}
	return e.Back.V[0].P
}

// rolledJoint measures the trimmed lower ends of all plies against the bevel of
// the skirt.
func (p *proof) rolledJoint(name string, skirt placed, plies []placed) {
	a, _ := skirt.Edge("top")
	upper := [2]r3.Vec{skirt.point(a.Show.V[0].P, 0), skirt.point(a.Back.V[0].P, skirt.Thickness)}
	gap := 0.0
	for _, ply := range plies {
		for _, q := range [2]r3.Vec{ply.point(corner0(ply, true), 0), ply.point(corner0(ply, false), ply.Thickness)} {
			for i := range upper { // along the hood both are level
				upper[i] = r3.Add(upper[i], r3.Scale(r3.Dot(r3.Sub(q, upper[i]), skirt.pose.Right), skirt.pose.Right))
			}
			gap = math.Max(gap, toChord(q, upper[0], upper[1]))
		}
	}
	p.add(skirt.Name+" to "+name, gap, p.facet(plies[0])+p.foldedMost()*(1+p.steepest()), "mm")
}

// trueCurve measures the outside of a rolled panel against the design.
func (p *proof) trueCurve(first placed, s section, e ends, out r3.Vec) {
	top, _ := first.Edge("top")
	show := top.Show.V[0].P
	flat := func(y float64) r2.Vec {
		v := first.point(r2.Vec{X: show.X, Y: y}, 0)
		return r2.Vec{X: r3.Dot(v, out), Y: v.Z}
	}
	end := flat(show.Y)
	p.add(first.Name+": upper edge off the neck", math.Hypot(end.X-e.top, end.Y-e.height), exact, "mm")
	off := 0.0
	for _, y := range first.breaks {
		if y >= corner0(first, true).Y && y <= show.Y {
			off = math.Max(off, distance(flat(y), s.sweep))
		}
	}
	p.add(first.Name+": off the true curve", off, exact, "mm")
}

// glueLine measures two neighboring plies that meet at a depth: how far their
// faces are apart, and how far from flush their trimmed sides are.
func (p *proof) glueLine(a, b placed, depth float64) {
	first := p.b.inRabbet(depth) && !p.b.inRabbet(depth-b.Thickness) // of those in the rabbet for the back
	face, ok := parallel(b.neutral, -b.web/2)
	if !ok {
		p.add(a.Name+" to "+b.Name, math.Inf(1), rounding, "mm")
		return
	}
	low, high := a.levels(a.Thickness)
	gap := 0.0
	for _, y := range a.breaks {
		if y < low || y > high {
			continue
		}
		d := r3.Sub(a.point(r2.Vec{Y: y}, a.Thickness), b.pose.At)
		gap = math.Max(gap, distance(r2.Vec{X: -r3.Dot(d, b.pose.In), Y: r3.Dot(d, b.pose.Up)}, face))
	}
	p.add(a.Name+" to "+b.Name, gap, exact, "mm")
	off := 0.0
	for _, name := range []string{"bottom", "right", "top", "left"} {
		e, _ := a.Edge(name)
		f, _ := b.Edge(name)
		if first && step(a, e, b, f) {
			continue
		}
		for i, j := range [2]int{0, len(e.Back.V) - 1} {
			k := [2]int{0, len(f.Show.V) - 1}[i]
			d := r3.Sub(a.point(e.Back.V[j].P, a.Thickness), b.point(f.Show.V[k].P, 0))
			if name == "bottom" || name == "top" { // how far along the corner is, the upright edges tell
				d = r3.Sub(d, r3.Scale(r3.Dot(d, a.pose.Right), a.pose.Right))
			}
			off = math.Max(off, r3.Norm(d))
		}
	}
	p.add(a.Name+" to "+b.Name+": trimmed edges off flush", off, exact, "mm")
}

// aboveFold returns the edge of a panel at a depth in space. That of a rolled
// one begins where the panel has left the skirt: what its bevel takes there
// belongs to the joint with the skirt, which is measured for itself.
func (s section) aboveFold(p placed, edge arc.Path, on, depth float64) []r3.Vec {
	chain := p.curve(edge, on)
	if s.plies == 0 || s.skirt == 0 || !s.fold(s.ends(), depth) {
		return chain
	}
	fold := s.inner.V[1].P.Y
	for len(chain) > 2 && chain[1].Z < fold {
		chain = chain[1:]
	}
	if chain[0].Z < fold && chain[1].Z > chain[0].Z {
		f := (fold - chain[0].Z) / (chain[1].Z - chain[0].Z)
		chain[0] = r3.Add(chain[0], r3.Scale(f, r3.Sub(chain[1], chain[0])))
	}
	return chain
}

// seamInside measures the seam of two panels of equally many plies where they
// are glued, between their faces.
func (p *proof) seamInside(front, side []placed, onFront, onSide string, f flare) {
	if len(front) < 2 || len(front) != len(side) {
		return
	}
	gap := 0.0
	for i := 1; i < len(front); i++ {
		a, _ := front[i].Edge(onFront)
		b, _ := side[i].Edge(onSide)
		depth := p.b.t * float64(i) / float64(len(front))
		gap = math.Max(gap, apart(p.b.front.aboveFold(front[i], a.Show, 0, depth), f.aboveFold(side[i], b.Show, 0, depth)))
	}
	p.add(front[0].Panel()+" to "+side[0].Panel()+": between their plies", gap, p.b.joint(), "mm")
}

// step reports whether the later of two plies stops short of the other along an
// upright edge in a straight line, as it does in the rabbet for the back.
func step(a placed, e Edge, b placed, f Edge) bool {
	if e.Name == "bottom" || e.Name == "top" || e.Bevel != 0 || f.Bevel != 0 {
		return false
	}
	in := func(p placed, q r2.Vec) float64 { return r3.Dot(p.point(q, 0), a.pose.Right) }
	low := in(b, f.Show.V[0].P) - in(a, e.Back.V[0].P)
	high := in(b, f.Show.V[1].P) - in(a, e.Back.V[1].P)
	return math.Abs(low-high) < rounding && math.Abs(low) > rounding
}

// short returns how far the edges of the trimmed panel lie outside what is cut
// of a ply.
func (p placed) short() float64 {
	most := 0.0
	for i := range p.Outline.Outer.NumSegments() { // which is convex
		cut := p.Outline.Outer.Segment(i)
		in, _ := endNormals(cut)
		for _, e := range p.Edges {
			for _, path := range []arc.Path{e.Show, e.Back} {
				for _, v := range path.V {
					most = math.Max(most, -r2.Dot(r2.Sub(v.P, cut.A), in))
				}
			}
		}
	}
	return most
}

// recessedPlies returns the ply that has the floor of the rabbet for the back,
// and where the rabbet is on it: a groove in the ply, or where the next one
// stops short. The next one's edge then is the shoulder.
func recessedPlies(plies []placed, back placed) (placed, recessed) {
	for i, ply := range plies {
		if left, right := ply.rabbets(); left+right > 0 {
			return ply, ply.recessed(back)
		}
		if i == 0 {
			continue
		}
		rear, before := ply.rearAt(), plies[i-1].rearAt()
		if math.Abs(r3.Dot(r3.Sub(rear, before), ply.pose.Right)) > rounding {
			in := r3.Dot(r3.Sub(rear, plies[i-1].pose.At), ply.pose.Right)
			return plies[i-1], recessed{plies[i-1].Thickness, in}
		}
	}
	last := plies[len(plies)-1]
	return last, last.recessed(back)
}

// shoulder returns how far the plies that stop at the back's rabbet are off its
// front face.
func (p *proof) shoulder(plies []placed, back placed) float64 {
	off := 0.0
	for i, ply := range plies {
		if len(plies) > 1 && p.b.inRabbet(p.b.t*float64(i)/float64(len(plies))) {
			_, depth := back.pose.local(ply.rearAt())
			off = math.Max(off, math.Abs(depth))
		}
	}
	return off
}

// rearAt returns a point of the edge of a side's ply that is nearest to the wall.
func (p placed) rearAt() r3.Vec {
	a := p.point(p.Edges[1].Show.V[0].P, 0)
	b := p.point(p.Edges[3].Show.V[0].P, 0)
	if a.Y < b.Y {
		return a
	}
	return b
}

// forms lets each form go: bent on it, the pack springs back to what its plies
// are marked to bend to.
func (p *proof) forms() {
	for _, rib := range p.b.parts {
		if !rib.Form {
			continue
		}
		plies := p.plies(formOf(rib.Name, p.b.plumb()))
		off := math.Inf(1)
		if n := len(plies); n > 1 {
			off = springOff(rib, plies)
		}
		p.add(rib.Name+": springs back off the curve", off, exact, "mm")
	}
}

// springOff returns how far the ends of any stretch of the pack come to lie off
// after springing back, in length and by its turn over its length.
func springOff(rib Part, plies []placed) float64 {
	face, _ := rib.Edge("face")
	var arcs []arc.Segment
	for i := range face.Show.NumSegments() {
		if s := face.Show.Segment(i); s.Turn != 0 {
			arcs = append(arcs, s)
		}
	}
	if len(arcs) != len(plies[0].Bent) {
		return math.Inf(1)
	}
	off, n := 0.0, float64(len(plies))
	for i, s := range arcs {
		half, length := 0.0, 0.0
		for _, ply := range plies {
			half += ply.Thickness / 2
			length += (ply.Bent[i].To - ply.Bent[i].From) / n
		}
		middle := s.Radius() + math.Copysign(half, s.Turn)
		turn := float64(s.Angle())
		off = math.Max(off, math.Abs(middle*math.Abs(turn)-length))
		released, err := bend.Springback(middle, len(plies))
		if err != nil {
			return math.Inf(1)
		}
		off = math.Max(off, math.Abs(math.Copysign(length/released, turn)-float64(plies[0].Bent[i].Turn))*length)
	}
	return off
}

// formOf names the panel that is bent on a form.
func formOf(rib string, plumb bool) string {
	switch {
	case plumb:
		return "sweep"
	case rib == "form-rib-sides":
		return "sweep-right"
	}
	return "sweep" + rib[len("form-rib"):]
}
