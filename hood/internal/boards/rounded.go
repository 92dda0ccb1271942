package boards

import (
	"example.com/sagitta/arc"
	"example.com/sagitta/hood/part"
	"example.com/sagitta/internal/num"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Finished parts are rounded, for their last bits differ between processors, and
// all that is decided after them, on sheets and in programs, must not. Lengths in
// decimals and in fractions of an inch stay what they are.
const (
	lengthDecimals = 7               // of mm, a tenth of what a joint is measured to
	turnStep       = 1.0 / (1 << 40) // of angles, directions and K: 1e-9 mm over a meter
)

func roundLength(x float64) float64 { return num.Decimals(x, lengthDecimals) }

func roundAngle(a arc.Angle) arc.Angle { return arc.Angle(num.Round(float64(a), turnStep)) }

func roundPoint(p r2.Vec) r2.Vec { return r2.Vec{X: roundLength(p.X), Y: roundLength(p.Y)} }

func roundPath(p arc.Path) arc.Path {
	for i, v := range p.V {
		p.V[i] = arc.Vertex{P: roundPoint(v.P), K: num.Round(v.K, turnStep)}
	}
	return p
}

func roundRegion(r arc.Region) arc.Region {
	roundPath(r.Outer)
	for _, h := range r.Holes {
		roundPath(h)
	}
	return r
}

// roundPart rounds a part in place.
func roundPart(p *part.Part) {
	for _, r := range []arc.Region{p.Outline, p.Back, p.Blank} {
		roundRegion(r)
	}
	for i, k := range p.Kerfs {
		p.Kerfs[i].At, p.Kerfs[i].Turn = roundLength(k.At), roundAngle(k.Turn)
	}
	for i, s := range p.Bent {
		p.Bent[i] = part.Stretch{From: roundLength(s.From), To: roundLength(s.To), Turn: roundAngle(s.Turn)}
	}
	for i, e := range p.Edges {
		roundPath(e.Show)
		roundPath(e.Back)
		p.Edges[i].Bevel = roundAngle(e.Bevel)
	}
	for _, m := range p.Marks {
		roundPath(m.Path)
	}
	roundWork(p)
	p.Mass = num.Decimals(p.Mass, 9)
	p.Pose = part.Pose{
		At:    r3.Vec{X: roundLength(p.Pose.At.X), Y: roundLength(p.Pose.At.Y), Z: roundLength(p.Pose.At.Z)},
		Right: roundDirection(p.Pose.Right), Up: roundDirection(p.Pose.Up), In: roundDirection(p.Pose.In),
	}
}

func roundWork(p *part.Part) {
	for i, s := range p.Work.Slots {
		p.Work.Slots[i].From, p.Work.Slots[i].To = roundPoint(s.From), roundPoint(s.To)
	}
	for _, k := range p.Work.Pockets {
		roundRegion(k.Area)
	}
	for i, b := range p.Work.Bevels {
		roundPath(b.Edge)
		roundPath(b.Back)
		p.Work.Bevels[i].Angle = roundAngle(b.Angle)
	}
}

func roundDirection(v r3.Vec) r3.Vec {
	return r3.Vec{X: num.Round(v.X, turnStep), Y: num.Round(v.Y, turnStep), Z: num.Round(v.Z, turnStep)}
}
