package hood

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// tabs measures every tab in its slot, and looks for slots that have none.
func (p *proof) tabs() {
	if p.b.Tabs.Width == 0 {
		return
	}
	p.ways = map[string][]arc.Path{}
	count := map[string]int{} // slots of each part
	for _, part := range p.b.parts {
		mate := "back"
		switch part.Kind {
		case KindRib:
			mate = "liner-shelf"
		case KindDeck, KindShelf:
		default:
			continue
		}
		n := 0
		for _, e := range part.Edges {
			if e.Name == "tab" {
				n++
				count[mate]--
				p.tab(fmt.Sprintf("%s tab %d in %s: ", part.Name, n, mate), p.parts[part.Name], e, p.parts[mate])
			}
		}
	}
	for _, name := range []string{"back", "liner-shelf"} {
		if part, ok := p.parts[name]; ok {
			p.add(name+": slots without a tab", math.Abs(float64(count[name]+part.countSlots(p.b))), 0, "")
		}
	}
}

// countSlots counts the slots of a part.
func (s placed) countSlots(b *builder) int {
	n := 0
	if s.Kind == KindBack {
		n = len(s.Outline.Holes) - len(b.Back.Openings)
	}
	for _, e := range s.Edges {
		if e.Name == "slot" {
			n++
		}
	}
	for _, k := range s.Work.Pockets {
		if !round(k.Area.Outer) {
			n++
		}
	}
	return n
}

// tab measures one tab: where it sits in its slot, its play, what the cutter
// leaves in the corners, and how far it goes in.
func (p *proof) tab(name string, board placed, e Edge, mate placed) {
	v := e.Show.V // relief, root, tip, tip, root, relief
	var section [4]r2.Vec
	tip, root := math.Inf(-1), 0.0
	for i, c := range [4]struct {
		v     int
		depth float64
	}{{1, 0}, {4, 0}, {4, board.Thickness}, {1, board.Thickness}} {
		section[i], root = mate.Pose.Local(board.Point(v[c.v].P, c.depth))
		_, tip = mate.Pose.Local(board.Point(v[[]int{0, 2, 0, 0, 3}[c.v]].P, c.depth))
	}
	middle := r2.Scale(0.5, r2.Add(section[0], section[2]))
	m, ok := p.mortiseAt(mate, middle)
	if !ok {
		p.add(name+"no slot", math.Inf(1), 0, "mm")
		return
	}
	off, play := m.fit(section, middle, p.b.Tabs.Clearance)
	p.add(name+"off the middle", off, rounding, "mm")
	p.add(name+"play off what is asked", play, rounding, "mm")
	p.add(name+"corners in wood the cutter leaves", math.Max(p.left(m, section[:]), p.leftAtRoot(board, v)), 10*rounding, "mm")
	short := math.Abs(tip - root - (mate.Thickness - p.b.Tabs.Clearance))
	if m.floor >= 0 {
		short = math.Max(math.Abs(tip-m.floor-p.b.Tabs.Clearance), math.Abs(root-mate.Thickness))
	}
	p.add(name+"length in it off what is asked", short, rounding, "mm")
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
func (p *proof) left(m mortise, corners []r2.Vec) float64 {
	r, deep := p.b.Cut.Tool/2, 0.0
	for _, c := range corners {
		if !m.loop.Contains(c) || m.loop.Distance(c) < r {
			deep = math.Max(deep, beyond(m.ways, c, r))
		}
	}
	return deep
}

// leftAtRoot returns how deep the rims of the slot stand in what the cutter
// leaves beside the root of the tab.
func (p *proof) leftAtRoot(board placed, v []arc.Vertex) float64 {
	a, b := v[1].P, v[4].P
	rim := r2.Scale(p.b.Tabs.Clearance/2, r2.Unit(r2.Sub(b, a)))
	ways, r := p.axis(board), p.b.Cut.Tool/2
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
