package proof

import (
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// A Joint is how a front and a cheek meet.
type Joint int

// The joints.
const (
	Miter Joint = iota
	FrontCovers
	CheekCovers
)

// A Corner claims that a front panel, and the skirt below it, meet a cheek.
type Corner struct {
	Front, Skirt, Cheek string // no skirt where it is empty
	On                  string // the edge of the front
	Joint               Joint
	Off, SkirtOff       float64 // limits
}

// measure measures the corner of the front and a cheek.
func (c Corner) measure(p *prover) {
	cheek, sweep := p.parts[c.Cheek], p.parts[c.Front]
	p.addFor("joint", c.Front+" to "+cheek.Name, c.gap(sweep, p.back(c.Front), cheek), c.Off, "mm")
	if s, ok := p.parts[c.Skirt]; ok {
		p.addFor("joint", c.Skirt+" to "+cheek.Name, c.gap(s, s, cheek), c.SkirtOff, "mm")
	}
}

// gap measures the joint of a front panel and a cheek: how far the line in
// which the front should touch the cheek's front edge is from it, on the
// cheek's show face and on its back. Rear is the part of the panel that has its
// back face.
func (c Corner) gap(front, rear, cheek placed) float64 {
	t, deep := cheek.Thickness, rear.Thickness
	edge, _ := cheek.Edge("front")
	side, _ := front.Edge(c.On)
	behind, _ := rear.Edge(c.On)
	inward := 1.0 // along the front's x, from the side in toward the middle
	if c.On == "right" {
		inward = -1
	}
	switch c.Joint {
	case FrontCovers:
		// The cheek's front edge stands against the back face.
		in := behind.Back.Transform(arc.Shift(r2.Vec{X: inward * t}))
		return math.Max(
			contact(rear, behind.Back, deep, cheek, edge.Show, 0),
			contact(rear, in, deep, cheek, edge.Back, t))
	case CheekCovers:
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
