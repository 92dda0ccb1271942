package proof

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/part"
	"gonum.org/v1/gonum/spatial/r2"
)

// Tabs claims that every tab sits in its slot with the play that is asked, that
// no cutter leaves wood where its corners go, and that no slot stands empty.
type Tabs struct {
	Boards    []Tabbed
	Mates     []Slotted
	Clearance float64
	Tool      float64 // diameter of the cutter that goes round
}

// A Tabbed is a board with tabs, and what has the slots for them.
type Tabbed struct{ Board, Mate string }

// A Slotted is a part with slots. Through says that its holes are slots but for
// so many openings.
type Slotted struct {
	Name     string
	Through  bool
	Openings int
}

// measure measures every tab in its slot, and looks for slots that have none.
func (c Tabs) measure(p *prover) {
	p.ways = map[string][]arc.Path{}
	count := map[string]int{} // slots of each part
	for _, t := range c.Boards {
		n, board := 0, p.parts[t.Board]
		for _, e := range board.Edges {
			if e.Name == "tab" {
				n++
				count[t.Mate]--
				c.tab(p, fmt.Sprintf("%s tab %d in %s: ", t.Board, n, t.Mate), board, e, p.parts[t.Mate])
			}
		}
	}
	for _, m := range c.Mates {
		if mate, ok := p.parts[m.Name]; ok {
			p.add(m.Name+": slots without a tab", math.Abs(float64(count[m.Name]+mate.countSlots(m))), 0, "")
		}
	}
}

// countSlots counts the slots of a part.
func (s placed) countSlots(m Slotted) int {
	n := 0
	if m.Through {
		n = len(s.Outline.Holes) - m.Openings
	}
	for _, e := range s.Edges {
		if e.Name == "slot" {
			n++
		}
	}
	for _, k := range s.Work.Pockets {
		if !part.Round(k.Area.Outer) {
			n++
		}
	}
	return n
}

// tab measures one tab: where it sits in its slot, its play, what the cutter
// leaves in the corners, and how far it goes in.
func (c Tabs) tab(p *prover, name string, board placed, e part.Edge, mate placed) {
	v := e.Show.V // relief, root, tip, tip, root, relief
	var section [4]r2.Vec
	tip, root := math.Inf(-1), 0.0
	for i, k := range [4]struct {
		v     int
		depth float64
	}{{1, 0}, {4, 0}, {4, board.Thickness}, {1, board.Thickness}} {
		section[i], root = mate.Pose.Local(board.Point(v[k.v].P, k.depth))
		_, tip = mate.Pose.Local(board.Point(v[[]int{0, 2, 0, 0, 3}[k.v]].P, k.depth))
	}
	middle := r2.Scale(0.5, r2.Add(section[0], section[2]))
	m, ok := c.mortiseAt(p, mate, middle)
	if !ok {
		p.add(name+"no slot", math.Inf(1), 0, "mm")
		return
	}
	off, play := m.fit(section, middle, c.Clearance)
	p.add(name+"off the middle", off, Rounding, "mm")
	p.add(name+"play off what is asked", play, Rounding, "mm")
	p.add(name+"corners in wood the cutter leaves", math.Max(c.left(m, section[:]), c.leftAtRoot(p, board, v)), 10*Rounding, "mm")
	short := math.Abs(tip - root - (mate.Thickness - c.Clearance))
	if m.floor >= 0 {
		short = math.Max(math.Abs(tip-m.floor-c.Clearance), math.Abs(root-mate.Thickness))
	}
	p.add(name+"length in it off what is asked", short, Rounding, "mm")
}

// fit returns how far the section of a tab is off the middle of its slot, and
// how far its play is off what is asked. The side toward an open mouth has no
// wall.
func (m mortise) fit(section [4]r2.Vec, middle r2.Vec, asked float64) (off, play float64) {
	var room [4]float64
	open := -1
	for i := range section {
		at := r2.Scale(0.5, r2.Add(section[i], section[(i+1)%4]))
		room[i] = m.loop.Distance(at)
		if !m.loop.Contains(at) {
			room[i] = -room[i]
		}
		if r2.Dot(r2.Unit(r2.Sub(at, middle)), m.mouth) > 0.5 {
			open = i
		}
	}
	for i := range 2 {
		a, b := room[i], room[i+2]
		switch open {
		case i:
			a = asked - b
		case i + 2:
			b = asked - a
		}
		off = math.Max(off, math.Abs(a-b)/2)
		play = math.Max(play, math.Abs(a+b-asked))
	}
	return off, play
}

// left returns how deep the corners of a tab stand in what a round cutter
// leaves of the wood around its slot.
func (c Tabs) left(m mortise, corners []r2.Vec) float64 {
	r, deep := c.Tool/2, 0.0
	for _, q := range corners {
		if !m.loop.Contains(q) || m.loop.Distance(q) < r {
			deep = math.Max(deep, beyond(m.ways, q, r))
		}
	}
	return deep
}

// leftAtRoot returns how deep the rims of the slot stand in what the cutter
// leaves beside the root of the tab.
func (c Tabs) leftAtRoot(p *prover, board placed, v []arc.Vertex) float64 {
	a, b := v[1].P, v[4].P
	rim := r2.Scale(c.Clearance/2, r2.Unit(r2.Sub(b, a)))
	ways, r := c.axis(p, board), c.Tool/2
	return math.Max(beyond(ways, r2.Sub(a, rim), r), beyond(ways, r2.Add(b, rim), r))
}

// beyond returns how far a point is out of reach of a cutter of a radius.
func beyond(ways []arc.Path, at r2.Vec, r float64) float64 {
	near := math.Inf(1)
	for _, w := range ways {
		near = math.Min(near, w.Distance(at))
	}
	return math.Max(0, near-r)
}
