package hood

import "example.com/sagitta/hood/internal/rise"

import (
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

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
		at, plies := side.recessed(back), p.plies(name)
		if len(plies) > 0 {
			side, at = recessedPlies(plies, back)
		}
		play, flush := side.rabbetPlay(back, edge.Show, at)
		flush = math.Max(flush, p.shoulder(plies, back))
		p.add("back to rabbet of "+name+": play off what is asked", math.Abs(play-p.b.Back.Clearance), p.facet(side)+more, "mm")
		p.add("back to rabbet of "+name+": off flush", flush, rounding, "mm")
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
		if at.Y < box.Min.Y-rounding || at.Y > box.Max.Y+rounding {
			continue
		}
		if d := edge.Distance(at); first || d > play {
			play, first = d, false
		}
	}
	return play, flush
}

// deck measures the deck against the sides, the back and the bent front.
func (p *proof) deck(front string) {
	deck := p.parts["deck"]
	sweep := p.back(front)
	p.add("deck to "+front, p.meets(deck, "bottom", sweep), p.facet(sweep), "mm")
	for _, hand := range []string{"left", "right"} {
		if side, ok := p.parts["sweep-"+hand]; ok {
			p.add("deck to "+side.Name, p.meets(deck, hand, p.back(side.Name)), p.facet(side), "mm")
			continue
		}
		p.sideFit(deck, hand)
	}
	p.toBack(deck)
}

// toBack measures the rear edge of a level board against the back.
func (p *proof) toBack(board placed) {
	gap := 0.0
	for _, e := range board.Edges {
		if e.Name != "top" {
			continue
		}
		for _, v := range e.Show.V {
			_, depth := p.parts["back"].Pose.Local(board.Point(v.P, 0))
			gap = math.Max(gap, math.Abs(depth))
		}
	}
	p.add(board.Name+" to back", gap, rounding, "mm")
}

// meets returns how far an edge of the deck is from the back face of a bent
// panel, below and above.
func (p *proof) meets(deck placed, name string, panel placed) float64 {
	edge, _ := deck.Edge(name)
	low := deck.Point(edge.Show.V[0].P, 0)
	high := deck.Point(edge.Back.V[0].P, deck.Thickness)
	return math.Max(panel.offInner(low), panel.offInner(high))
}

// offInner returns how far a point is from the back face of a bent panel, run
// on straight beyond its upper end, and at its lower end to where its bevel
// leaves it.
func (p placed) offInner(v r3.Vec) float64 {
	back := p.BackLine
	if !p.Curved {
		back = arc.Polyline(r2.Vec{X: -p.Thickness}, r2.Vec{X: -p.Thickness, Y: p.Breaks[len(p.Breaks)-1]})
	}
	d := r3.Sub(v, p.Pose.At)
	at := r2.Vec{X: -r3.Dot(d, p.Pose.In), Y: r3.Dot(d, p.Pose.Up)}
	long, ok := rise.RunOn(back, rise.HalfPlane{At: at, Out: tangentAtEnd(back)})
	if !ok {
		long = back
	}
	if low, _ := p.Levels(p.Thickness); low < 0 { // the blank is flat at its ends
		long.V = append([]arc.Vertex{{P: r2.Vec{X: -p.Thickness, Y: low}}}, long.V...)
	}
	return long.Distance(at)
}

// tangentAtEnd returns the unit tangent at the end of a path.
func tangentAtEnd(p arc.Path) r2.Vec {
	_, n := rise.EndNormals(p.Segment(p.NumSegments() - 1))
	return r2.Vec{X: n.Y, Y: -n.X}
}
