package proof

import (
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A Rabbet claims that a back stands in the rabbets of a side with the play that
// is asked, and flush.
type Rabbet struct {
	Back, On  string   // the back and its edge
	Sides     []string // what has the rabbet; what is not there is left out
	Clearance float64
	Off       []float64 // limit of the play, of each side
	Thickness float64   // of the sides
	Step      float64   // depth from which plies stop short, as in Panel
}

// measure measures the play of the back in the rabbet of a side, and how flush
// it lies.
func (c Rabbet) measure(p *prover) {
	back := p.parts[c.Back]
	edge, _ := back.Edge(c.On)
	for i, name := range c.Sides {
		side, ok := p.parts[name]
		if !ok {
			continue
		}
		at, plies := side.recessed(back), p.plies(name)
		if len(plies) > 0 {
			side, at = recessedPlies(plies, back)
		}
		play, flush := side.rabbetPlay(back, edge.Show, at)
		flush = math.Max(flush, c.shoulder(plies, back))
		p.add("back to rabbet of "+name+": play off what is asked", math.Abs(play-c.Clearance), c.Off[i], "mm")
		p.add("back to rabbet of "+name+": off flush", flush, Rounding, "mm")
	}
}

// A recessed is where a side's rabbet is: the depth of its floor, and where
// across the part its shoulder stands.
type recessed struct{ floor, shoulder float64 }

// recessed returns where the rabbet of a side is, or without one its back face.
func (side placed) recessed(back placed) recessed {
	at := recessed{floor: side.Thickness}
	if left, right := side.Rabbets(); left+right > 0 {
		at.floor -= side.Work.Pockets[0].Depth
		at.shoulder = left
		if box := side.TrimmedBox(); right > 0 {
			at.shoulder = box.Max.X - right
		} else if side.Ply > 0 {
			at.shoulder = box.Min.X + left
		}
	} else {
		in, _ := side.Pose.Local(back.Pose.At)
		at.shoulder = in.X
	}
	return at
}

// rabbetPlay returns the room between the edge of the back and the floor of
// the rabbet where it is farthest from none, and how far the back's front face
// is from the rabbet's shoulder.
func (side placed) rabbetPlay(back placed, edge arc.Path, in recessed) (play, flush float64) {
	floor, shoulder := in.floor, in.shoulder
	low, high := side.Levels(floor)
	first := true
	for _, y := range side.Breaks {
		y = max(low, min(y, high))
		v := side.Point(r2.Vec{X: shoulder, Y: y}, floor)
		at, depth := back.Pose.Local(v)
		flush = math.Max(flush, math.Abs(depth))
		box := edge.Bounds()
		if at.Y < box.Min.Y-Rounding || at.Y > box.Max.Y+Rounding {
			continue
		}
		if d := edge.Distance(at); first || d > play {
			play, first = d, false
		}
	}
	return play, flush
}

// recessedPlies returns the ply that has the floor of the rabbet for the back,
// and where the rabbet is on it: a groove in the ply, or where the next one
// stops short. The next one's edge then is the shoulder.
func recessedPlies(plies []placed, back placed) (placed, recessed) {
	for i, ply := range plies {
		if left, right := ply.Rabbets(); left+right > 0 {
			return ply, ply.recessed(back)
		}
		if i == 0 {
			continue
		}
		rear, before := ply.rearAt(), plies[i-1].rearAt()
		if math.Abs(r3.Dot(r3.Sub(rear, before), ply.Pose.Right)) > Rounding {
			in := r3.Dot(r3.Sub(rear, plies[i-1].Pose.At), ply.Pose.Right)
			return plies[i-1], recessed{plies[i-1].Thickness, in}
		}
	}
	last := plies[len(plies)-1]
	return last, last.recessed(back)
}

// shoulder returns how far the plies that stop at the back's rabbet are off its
// front face.
func (c Rabbet) shoulder(plies []placed, back placed) float64 {
	off := 0.0
	for i, ply := range plies {
		if len(plies) > 1 && stepsAt(c.Step, c.Thickness*float64(i)/float64(len(plies))) {
			_, depth := back.Pose.Local(ply.rearAt())
			off = math.Max(off, math.Abs(depth))
		}
	}
	return off
}

// rearAt returns a point of the edge of a side's ply that is nearest to the wall.
func (p placed) rearAt() r3.Vec {
	a := p.Point(p.Edges[1].Show.V[0].P, 0)
	b := p.Point(p.Edges[3].Show.V[0].P, 0)
	if a.Z < b.Z {
		return a
	}
	return b
}
