package proof

import (
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/internal/rise"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A Level claims that a level board meets a back, the back faces of bent panels,
// and plumb sides or the dadoes in them.
type Level struct {
	Board, Back string
	Front       Meet
	Sides       []Meet
	Dado        float64 // play in a dado, in thickness and at its floor
}

// A Meet is an edge of a board and the part that it meets.
type Meet struct {
	On, With string
	Off      float64 // limit, where the part is bent
	Plumb    bool    // the part is not, and may have a dado for the board
}

// measure measures a level board against what is around it.
func (c Level) measure(p *prover) {
	board := p.parts[c.Board]
	ahead := p.back(c.Front.With)
	p.add(c.Board+" to "+c.Front.With, meets(board, c.Front.On, ahead), c.Front.Off, "mm")
	for _, m := range c.Sides {
		if m.Plumb {
			c.sideFit(p, board, m)
			continue
		}
		p.add(c.Board+" to "+m.With, meets(board, m.On, p.back(m.With)), m.Off, "mm")
	}
	c.toBack(p, board)
}

// toBack measures the rear edge of a level board against the back.
func (c Level) toBack(p *prover, board placed) {
	gap := 0.0
	for _, e := range board.Edges {
		if e.Name != "top" {
			continue
		}
		for _, v := range e.Show.V {
			_, depth := p.parts[c.Back].Pose.Local(board.Point(v.P, 0))
			gap = math.Max(gap, math.Abs(depth))
		}
	}
	p.add(board.Name+" to back", gap, Rounding, "mm")
}

// meets returns how far an edge of the deck is from the back face of a bent
// panel, below and above.
func meets(deck placed, name string, panel placed) float64 {
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

// sideFit measures a level board against a plumb side, or in its dado.
func (c Level) sideFit(p *prover, board placed, m Meet) {
	cheek := p.parts[m.With]
	edge, _ := board.Edge(m.On)
	at, depth := cheek.Pose.Local(board.Point(edge.Show.V[0].P, 0))
	over, _ := cheek.Pose.Local(board.Point(edge.Show.V[0].P, board.Thickness))
	under, top := math.Min(at.Y, over.Y), math.Max(at.Y, over.Y) // whichever face lies up
	floor := cheek.Thickness
	for _, s := range cheek.Work.Slots {
		if math.Abs((under+top)/2-s.From.Y) < s.Width/2 {
			floor -= s.Depth
			p.add(board.Name+" in its dado of "+cheek.Name+": play off what is asked",
				math.Abs(s.Width-board.Thickness-c.Dado), Rounding, "mm")
			low, high := s.From.Y-s.Width/2, s.From.Y+s.Width/2
			p.add(board.Name+" in its dado of "+cheek.Name+": stands over",
				math.Max(0, math.Max(low-under, top-high)), Rounding, "mm")
			depth -= c.Dado
			break
		}
	}
	p.add(board.Name+" to "+cheek.Name, math.Abs(depth-floor), Rounding, "mm")
}
