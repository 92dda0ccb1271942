package proof

import (
	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// A mortise is what a tab goes into.
type mortise struct {
	loop  arc.Path
	mouth r2.Vec     // toward where it is open; 0 where it is closed
	ways  []arc.Path // of the cutter's axis
	floor float64    // depth from the show face; below 0 where it goes right through
}

// axis returns the ways of the cutter's axis around the outline of a part.
func (c Tabs) axis(p *prover, s placed) []arc.Path {
	if _, ok := p.ways[s.Name]; !ok {
		p.ways[s.Name] = c.around(s.Outline.Outer)
	}
	return p.ways[s.Name]
}

// around returns the ways of the cutter's axis to the right of a loop.
func (c Tabs) around(loop arc.Path) []arc.Path {
	ways, err := loop.Offset(c.Tool/2, arc.OffsetOptions{})
	if err != nil {
		return nil // what no way reaches is told as wood left
	}
	return ways
}

// mortiseAt returns the slot of a part around a point of it.
func (c Tabs) mortiseAt(p *prover, s placed, at r2.Vec) (mortise, bool) {
	holds := func(l arc.Path) bool {
		b := l.Bounds()
		return at.X > b.Min.X && at.X < b.Max.X && at.Y > b.Min.Y && at.Y < b.Max.Y
	}
	for _, e := range s.Edges {
		if e.Name == "slot" && holds(e.Show) {
			v := e.Show.V
			out := r2.Unit(r2.Sub(v[0].P, v[1].P))
			far := r2.Scale(4*c.Tool, out)
			loop := arc.Path{Closed: true, V: append(e.Show.Clone().V,
				arc.Vertex{P: r2.Add(v[len(v)-1].P, far)}, arc.Vertex{P: r2.Add(v[0].P, far)})}
			return mortise{loop, out, c.axis(p, s), -1}, true
		}
	}
	for _, h := range s.Outline.Holes {
		if holds(h) {
			return mortise{h, r2.Vec{}, c.around(h), -1}, true
		}
	}
	for _, k := range s.Work.Pockets {
		if holds(k.Area.Outer) {
			return mortise{k.Area.Outer, r2.Vec{}, c.around(k.Area.Outer.Reverse()), s.Thickness - k.Depth}, true
		}
	}
	return mortise{}, false
}
