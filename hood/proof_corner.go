package hood

import (
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// cheek measures the corner of the front and a cheek.
func (p *proof) cheek(front, skirt, hand string) {
	cheek, sweep := p.parts["cheek-"+hand], p.parts[front]
	p.add(front+" to "+cheek.Name, p.corner(sweep, p.back(front), hand, cheek), p.facet(sweep), "mm")
	if s, ok := p.parts[skirt]; ok {
		p.add(skirt+" to "+cheek.Name, p.corner(s, s, hand, cheek), rounding+p.folded(p.b.front), "mm")
	}
}

// corner measures the joint of a front panel and a cheek: how far the line in
// which the front should touch the cheek's front edge is from it, on the
// cheek's show face and on its back. Rear is the part of the panel that has its
// back face.
func (p *proof) corner(front, rear placed, hand string, cheek placed) float64 {
	t, deep := cheek.Thickness, rear.Thickness
	edge, _ := cheek.Edge("front")
	name := map[string]string{"left": "right", "right": "left"}[hand]
	side, _ := front.Edge(name)
	behind, _ := rear.Edge(name)
	inward := 1.0 // along the front's x, from the side in toward the middle
	if hand == "left" {
		inward = -1
	}
	switch p.b.corner() {
	case "front-covers":
		// The cheek's front edge stands against the back face.
		in := behind.Back.Transform(arc.Shift(r2.Vec{X: inward * t}))
		return math.Max(
			contact(rear, behind.Back, deep, cheek, edge.Show, 0),
			contact(rear, in, deep, cheek, edge.Back, t))
	case "cheek-covers":
		// The front's edge stands against the cheek's back, flush with its edge.
		return contact(front, side.Show, 0, cheek, edge.Back, t)
	}
	return math.Max(
		contact(front, side.Show, 0, cheek, edge.Show, 0),
		contact(rear, behind.Back, deep, cheek, edge.Back, t))
}

// contact returns the largest distance of a line on one part, drawn flat at a
// depth of its own, from a path on an unbent part at a depth of that.
func contact(a placed, line arc.Path, depth float64, b placed, path arc.Path, on float64) float64 {
	gap := 0.0
	low, high := line.V[0].P, line.V[len(line.V)-1].P
	if low.Y > high.Y {
		low, high = high, low
	}
	try := func(y, allow float64) {
		f := (y - low.Y) / (high.Y - low.Y)
		x := low.X + f*(high.X-low.X)
		at, d := b.Pose.Local(a.Point(r2.Vec{X: x, Y: y}, depth))
		gap = math.Max(gap, math.Hypot(path.Distance(at), d-on)-allow)
	}
	for _, y := range [2]float64{low.Y, high.Y} {
		if depth == 0 || !a.InSlot(y) { // else a kerf has taken the corner
			try(y, depth*math.Sin(a.turned(y)))
		}
	}
	for _, y := range a.Breaks {
		if y > low.Y && y < high.Y {
			try(y, 0)
		}
	}
	return gap
}

// turned returns what the kerfs turn between a height on the blank and the
// nearer end. A steep bevel that passes kerfs is a plane on the flat blank; bent
// it is off that plane by as much, times the depth.
func (p placed) turned(y float64) float64 {
	middle := p.Breaks[len(p.Breaks)-1] / 2
	sum := 0.0
	for _, k := range p.Kerfs {
		if k.At < y && y < middle || k.At > y && y > middle {
			sum += float64(k.Turn)
		}
	}
	return math.Abs(sum)
}
