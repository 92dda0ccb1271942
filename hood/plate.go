package hood

import (
	"math"
	"slices"

	"example.com/sagitta/arc"
	"example.com/sagitta/bend"
	"example.com/sagitta/sheet"
	"example.com/sagitta/sheet/cut"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A side is a stretch of a part's outline with one bevel.
type side struct {
	name  string
	path  arc.Path // open; the next side begins where it ends
	bevel arc.Angle
	back  arc.Path // its edge on the back face, where that does not follow from the bevel
	saw   bool     // the bevel changes along it, which takes a saw or a plane
}

// A recess is a pocket: the area it takes from the part, and the area to run
// the cutter over.
type recess struct {
	area, run arc.Region
	depth     float64
}

// A plate is a part in the making, in any coordinates in which its sides run
// counter-clockwise as the machine sees it.
type plate struct {
	name, material string
	thickness      float64
	density        float64
	grain          sheet.Grain
	sides          []side
	holes          []arc.Path // clockwise
	slots          []cut.Slot // from edge to edge
	pockets        []recess
	kerfs          []bend.Kerf
	pose           Pose // of the coordinates the plate is drawn in
	notes          []string
	marks          []Mark
	cells          bool // bottom, right, top and left, with grooves along and across
}

// outline joins the sides. It also returns the bevel of each segment.
func (p plate) outline() (arc.Path, []arc.Angle) {
	out := arc.Path{Closed: true}
	var bevels []arc.Angle
	for _, s := range p.sides {
		for _, v := range s.path.V[:len(s.path.V)-1] {
			out.V = append(out.V, v)
			bevels = append(bevels, s.bevel)
		}
	}
	return out, bevels
}

// atDepth returns the outline a depth from the show face, counting only the
// bevels that keep lets through.
func atDepth(outline arc.Path, bevels []arc.Angle, depth float64, keep func(arc.Angle) bool) (arc.Path, bool) {
	at := make([]float64, len(bevels))
	all := true
	for i, b := range bevels {
		if b != 0 && keep(b) {
			at[i] = depth * math.Tan(float64(b))
			all = false
		}
	}
	if all {
		return outline.Clone(), true
	}
	return inset(outline, at)
}

func anyBevel(arc.Angle) bool                    { return true }
func undercut(a arc.Angle) bool                  { return a < 0 }
func (s side) undercuts() bool                   { return s.bevel < 0 }
func (s side) fromAbove() bool                   { return s.bevel > 0 }
func region(o arc.Path, h []arc.Path) arc.Region { return arc.Region{Outer: o, Holes: h} }

// finish draws the part with its origin at the lower left and works out its
// other faces and its mass. It returns false where a bevel takes all of a
// side.
func (p plate) finish() (Part, bool) {
	p.toOrigin()
	t := p.thickness
	f, ok := p.faces()
	if !ok {
		return Part{}, false
	}
	out := Part{
		Part: sheet.Part{
			Name: p.name, Qty: 1, Material: p.material, Thickness: t,
			Outline: region(f.show, p.holes), Grain: p.grain, Turns: sheet.RightAngles,
		},
		Back: region(f.back, clonePaths(p.holes)), Blank: region(f.blank, clonePaths(p.holes)),
		Kerfs: slices.Clone(p.kerfs),
		Work:  p.work(), Label: p.name, Notes: p.notes, Marks: p.marks, Pose: p.pose, cells: p.cells,
	}
	out.setEdges(p.sides)
	// The area at a depth is a polynomial of second degree in it, or all but,
	// so that Simpson's rule is exact.
	mid := region(f.mid, p.holes).Area()
	if p.ruled() {
		mid = out.areaAt(t / 2)
	}
	volume := t * (out.Outline.Area() + 4*mid + out.Back.Area()) / 6
	out.Mass = (volume - p.cutAway(out)) * p.density * 1e-9
	return out, true
}

// outlines are those of a part: show face, half way, back face and blank.
type outlines struct{ show, mid, back, blank arc.Path }

// ruled reports whether the back edges are given.
func (p plate) ruled() bool { return len(p.sides[0].back.V) > 0 }

// faces works out the outlines.
func (p plate) faces() (outlines, bool) {
	show, bevels := p.outline()
	if p.ruled() {
		back := arc.Path{Closed: true}
		for _, s := range p.sides {
			back.V = append(back.V, s.back.V[:len(s.back.V)-1]...)
		}
		return outlines{show: show, back: back, blank: p.ruledBlank()}, true
	}
	back, ok1 := atDepth(show, bevels, p.thickness, anyBevel)
	mid, ok2 := atDepth(show, bevels, p.thickness/2, anyBevel)
	blank, ok3 := atDepth(show, bevels, p.thickness, undercut)
	return outlines{show, mid, back, blank}, ok1 && ok2 && ok3
}

// ruledBlank returns the outline with what undercut level edges leave over:
// the upright edges run on to them.
func (p plate) ruledBlank() arc.Path {
	bottom, right, top, left := p.sides[0], p.sides[1].path, p.sides[2], p.sides[3].path.Reverse()
	for _, edge := range []*arc.Path{&right, &left} {
		if bottom.bevel < 0 {
			*edge, _ = startAt(*edge, halfPlane{bottom.back.V[0].P, r2.Vec{Y: -1}})
		}
		if top.bevel < 0 {
			*edge, _ = endAt(*edge, halfPlane{top.back.V[0].P, r2.Vec{Y: 1}})
		}
	}
	left = left.Reverse()
	out := arc.Path{Closed: true, V: slices.Concat(right.V, left.V)}
	out.V[len(right.V)-1].Turn, out.V[len(out.V)-1].Turn = 0, 0
	return out
}

// levels returns the heights of the lower and the upper edge at a depth.
func (p Part) levels(depth float64) (low, high float64) {
	f := depth / p.Thickness
	at := func(e Edge) float64 { return e.Show.V[0].P.Y + f*(e.Back.V[0].P.Y-e.Show.V[0].P.Y) }
	return at(p.Edges[0]), at(p.Edges[2])
}

// areaAt returns the area at a depth of a part between a left and a right
// edge, by Simpson's rule over its height.
func (p Part) areaAt(depth float64) float64 {
	low, high := p.levels(depth)
	const n = 64
	sum := 0.0
	for i := range n + 1 {
		y := low + (high-low)*float64(i)/n
		w := 2.0
		switch {
		case i == 0 || i == n:
			w = 1
		case i%2 == 1:
			w = 4
		}
		sum += w * (p.across(1, y, depth) - p.across(3, y, depth))
	}
	return sum * (high - low) / n / 3
}

// setEdges names the stretches of both outlines.
func (p *Part) setEdges(sides []side) {
	at := 0
	for _, s := range sides {
		n := len(s.path.V) - 1
		e := Edge{Name: s.name, Show: s.path.Clone(), Back: s.back.Clone(), Bevel: s.bevel, Saw: s.bevel < 0 || s.saw}
		if len(s.back.V) == 0 {
			e.Back = stretch(p.Back.Outer, at, n)
		}
		p.Edges = append(p.Edges, e)
		if s.bevel > 0 && !s.saw {
			// Where a neighbor undercuts, the blank goes on past the show face,
			// and so must the bevel.
			edge := s.path.Clone()
			if len(s.back.V) == 0 {
				edge = stretch(p.Blank.Outer, at, n)
			}
			p.Work.Bevels = append(p.Work.Bevels, cut.Bevel{Edge: edge, Angle: s.bevel})
		}
		at += n
	}
}

// stretch returns n segments of a closed path as an open one.
func stretch(p arc.Path, at, n int) arc.Path {
	out := arc.Path{V: append([]arc.Vertex{}, p.V[at:at+n]...)}
	out.V = append(out.V, arc.Vertex{P: p.V[(at+n)%len(p.V)].P})
	return out
}

// work returns the grooves with their run-out: a slot leaves the part by half
// its width, which is where a cutter as wide stands clear.
func (p plate) work() cut.Work {
	var w cut.Work
	for _, s := range p.slots {
		out := r2.Scale(s.Width/2, r2.Unit(r2.Sub(s.To, s.From)))
		w.Slots = append(w.Slots, cut.Slot{From: r2.Sub(s.From, out), To: r2.Add(s.To, out), Width: s.Width, Depth: s.Depth})
	}
	for _, k := range p.pockets {
		w.Pockets = append(w.Pockets, cut.Pocket{Area: k.run, Depth: k.depth})
	}
	return w
}

// cutAway returns the volume of pockets and slots, without run-out. A slot is
// as long as the part is wide halfway down it, for the edges are straight.
func (p plate) cutAway(made Part) float64 {
	sum := 0.0
	for _, k := range p.pockets {
		area := k.area.Area()
		if p.cells { // its upright length follows the bevels of the level edges
			low, high := made.levels(p.thickness - k.depth/2)
			box := k.area.Bounds()
			area = (box.Max.X - box.Min.X) * (high - low)
		}
		sum += area * k.depth
	}
	for _, s := range p.slots {
		long := r2.Norm(r2.Sub(s.To, s.From))
		s.Depth = made.slotDepth(s)
		if p.cells {
			long = made.across(1, s.From.Y, p.thickness-s.Depth/2) - made.across(3, s.From.Y, p.thickness-s.Depth/2)
		}
		sum += long * s.Width * s.Depth
		for _, k := range p.pockets { // where they cross it is cut once
			box := k.area.Bounds()
			if s.From.Y > box.Min.Y && s.From.Y < box.Max.Y {
				sum -= (box.Max.X - box.Min.X) * s.Width * min(k.depth, s.Depth)
			}
		}
	}
	return sum
}

// slotDepth returns the depth of a slot as far as no bevel has taken the wood
// above it.
func (p Part) slotDepth(s cut.Slot) float64 {
	low, high := p.levels(p.Thickness)
	top := p.Thickness
	if length := p.Outline.Bounds().Max.Y; low > s.From.Y {
		top *= s.From.Y / low
	} else if length-high > length-s.From.Y {
		top *= (length - s.From.Y) / (length - high)
	}
	return max(0, top-(p.Thickness-s.Depth))
}

// toOrigin moves the drawing so that the lower left of its outline is 0, 0.
func (p *plate) toOrigin() {
	o, _ := p.outline()
	low := o.Bounds().Min
	m := arc.Shift(r2.Scale(-1, low))
	p.sides, p.slots, p.pockets = slices.Clone(p.sides), slices.Clone(p.slots), slices.Clone(p.pockets)
	for i := range p.sides {
		p.sides[i].path = p.sides[i].path.Transform(m)
		p.sides[i].back = p.sides[i].back.Transform(m)
	}
	p.holes = clonePaths(p.holes)
	for i := range p.holes {
		p.holes[i] = p.holes[i].Transform(m)
	}
	for i := range p.slots {
		p.slots[i].From, p.slots[i].To = m.Apply(p.slots[i].From), m.Apply(p.slots[i].To)
	}
	p.marks = slices.Clone(p.marks)
	for i := range p.marks {
		p.marks[i].Path = p.marks[i].Path.Transform(m)
	}
	for i := range p.pockets {
		k := &p.pockets[i]
		k.area, k.run = k.area.Transform(m), k.run.Transform(m)
	}
	p.pose.At = p.pose.point(low, 0)
}

// mirrored returns the plate drawn mirrored in x: the other of a pair.
func (p plate) mirrored(name string) plate {
	m := arc.MirrorX()
	q := p
	q.name = name
	q.sides = nil
	for i := len(p.sides) - 1; i >= 0; i-- {
		s := p.sides[i]
		s.path = s.path.Transform(m).Reverse()
		s.back = s.back.Transform(m).Reverse()
		switch s.name {
		case "left":
			s.name = "right"
		case "right":
			s.name = "left"
		}
		q.sides = append(q.sides, s)
	}
	// The bottom stays the first.
	last := len(q.sides) - 1
	q.sides = append(q.sides[last:], q.sides[:last]...)
	q.holes = nil
	for _, h := range p.holes {
		q.holes = append(q.holes, h.Transform(m).Reverse())
	}
	q.slots = nil
	for _, s := range p.slots {
		q.slots = append(q.slots, cut.Slot{From: m.Apply(s.From), To: m.Apply(s.To), Width: s.Width, Depth: s.Depth})
	}
	q.marks = nil
	for _, k := range p.marks {
		q.marks = append(q.marks, Mark{k.Name, k.Path.Transform(m)})
	}
	q.pockets = nil
	for _, k := range p.pockets {
		q.pockets = append(q.pockets, recess{k.area.Transform(m), k.run.Transform(m), k.depth})
	}
	return q
}

// point returns where the point of an unbent part is in space.
func (p Pose) point(at r2.Vec, depth float64) r3.Vec {
	v := r3.Add(p.At, r3.Scale(at.X, p.Right))
	return r3.Add(r3.Add(v, r3.Scale(at.Y, p.Up)), r3.Scale(depth, p.In))
}

func clonePaths(ps []arc.Path) []arc.Path {
	out := make([]arc.Path, len(ps))
	for i := range ps {
		out[i] = ps[i].Clone()
	}
	return out
}
