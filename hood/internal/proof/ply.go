package proof

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// LineUp names the mark by which plies are stacked.
const LineUp = "line up plies and form here"

// plies returns the bent parts of a panel, from its show face in: plies, or one
// sheet; none where it is kerfed or straight.
func (p *prover) plies(name string) []placed {
	if one, ok := p.parts[name]; ok && one.Ply == 0 {
		if len(one.Bent) > 0 {
			return []placed{one}
		}
		return nil
	}
	var out []placed
	for _, flat := range p.flat {
		if flat.Panel == name && flat.Ply > 0 {
			out = append(out, p.parts[flat.Name])
		}
	}
	return out
}

// lineUpAt returns where the mark is by which a ply is stacked.
func (p placed) lineUpAt() r2.Vec {
	for _, m := range p.Marks {
		if m.Name == LineUp {
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
		up, in := below.Frame(at.Y)
		plies[i].Folded = plies[i].SetAt(plies[i].lineUpAt(), below.Point(at, below.Thickness), up, in)
	}
}

// rolled is measure for a panel that is laminated or bent as it is.
func (c Panel) rolled(p *prover, plies []placed) {
	name := c.Name
	stack(plies)
	skirt, onSkirt := p.parts[c.Skirt]
	if onSkirt {
		setRolled(skirt, plies)
	}
	for i := range plies {
		p.parts[plies[i].Name] = plies[i]
	}
	first, last := plies[0], plies[len(plies)-1]
	first.Name, last.Name = name, name
	p.parts[name], p.inner[name] = first, last
	if onSkirt {
		c.rolledJoint(p, skirt, plies)
	}
	c.trueCurve(p, first)
	for i := 1; i < len(plies); i++ {
		c.glueLine(p, plies[i-1], plies[i], c.Thickness*float64(i)/float64(len(plies)))
	}
	for _, ply := range plies {
		if ply.Ply > 0 {
			p.add(ply.Name+": short of the trimmed panel", ply.short(), Rounding, "mm")
		}
	}
	p.add(name+": share used of what the material stands", c.Use, 1, "")
}

// setRolled stands stacked plies on a skirt, whose bevel their trimmed ends
// take up: turned back by both bevels, as they are in the bent panel.
func setRolled(skirt placed, plies []placed) {
	first, last := plies[0], plies[len(plies)-1]
	a, _ := skirt.Edge("top")
	show, back := corner0(first, true), corner0(last, false)
	low := first.Point(show, 0)
	up, in := first.Frame(show.Y)
	d := r3.Sub(last.Point(back, last.Thickness), low)
	turn := float64(a.Bevel) + math.Atan2(r3.Dot(d, up), r3.Dot(d, in))
	sin, cos := math.Sincos(turn)
	up, in = skirt.Pose.Up, skirt.Pose.In
	at := skirt.Point(a.Show.V[0].P, 0)
	at = r3.Add(at, r3.Scale(-r3.Dot(r3.Sub(at, first.Point(show, 0)), skirt.Pose.Right), skirt.Pose.Right))
	plies[0].Folded = first.SetAt(show, at,
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
func (c Panel) rolledJoint(p *prover, skirt placed, plies []placed) {
	a, _ := skirt.Edge("top")
	upper := [2]r3.Vec{skirt.Point(a.Show.V[0].P, 0), skirt.Point(a.Back.V[0].P, skirt.Thickness)}
	gap := 0.0
	for _, ply := range plies {
		for _, q := range [2]r3.Vec{ply.Point(corner0(ply, true), 0), ply.Point(corner0(ply, false), ply.Thickness)} {
			for i := range upper { // along the hood both are level
				upper[i] = r3.Add(upper[i], r3.Scale(r3.Dot(r3.Sub(q, upper[i]), skirt.Pose.Right), skirt.Pose.Right))
			}
			gap = math.Max(gap, toChord(q, upper[0], upper[1]))
		}
	}
	p.add(skirt.Name+" to "+c.Name, gap, c.OnSkirt, "mm")
}

// trueCurve measures the outside of a rolled panel against the design.
func (c Panel) trueCurve(p *prover, first placed) {
	top, _ := first.Edge("top")
	show := top.Show.V[0].P
	flat := func(y float64) r2.Vec {
		v := first.Point(r2.Vec{X: show.X, Y: y}, 0)
		return r2.Vec{X: r3.Dot(v, c.Out), Y: v.Y}
	}
	end := flat(show.Y)
	p.add(first.Name+": upper edge off the neck", r2.Norm(r2.Sub(end, c.top())), Exact, "mm")
	off := 0.0
	for _, y := range first.Breaks {
		if y >= corner0(first, true).Y && y <= show.Y {
			off = math.Max(off, c.Curve.Distance(flat(y)))
		}
	}
	p.add(first.Name+": off the true curve", off, Exact, "mm")
}
