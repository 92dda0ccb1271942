package part

import (
	"example.com/sagitta/internal/num"
	"math"
	"slices"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// prismSolid meshes an unbent part of any outline with openings, whose edges
// are beveled straight from the show outline to the back outline, with blind
// pockets in its back face.
func (p Folded) prismSolid() Solid {
	s := Solid{Name: p.Name}
	var loops [][]int // vertices on the show face; those on the back follow each
	var flat, tops [][]r2.Vec
	show, back := p.Outline.Loops(), p.Back.Loops()
	for i := range show {
		a, b := flattenPair(show[i], back[i])
		loop := make([]int, len(a))
		for j := range a {
			loop[j] = len(s.Vertices)
			s.Vertices = append(s.Vertices, p.Point(a[j], 0), p.Point(b[j], p.Thickness))
		}
		loops, flat, tops = append(loops, loop), append(flat, a), append(tops, b)
	}
	for _, l := range loops {
		s.walls(l)
	}
	if len(p.Work.Pockets) > 0 {
		p.blindPrism(&s, loops, flat, tops)
		return s
	}
	for _, t := range triangulate(flat) {
		a, b, c := pick(loops, t[0]), pick(loops, t[1]), pick(loops, t[2])
		s.Triangles = append(s.Triangles, [3]int{a, c, b}, [3]int{a + 1, b + 1, c + 1})
	}
	return s
}

// blindPrism adds the faces of a part with pockets, which are openings of the
// back face alone. The loops of both faces are there, show faces in flat, back
// faces in tops.
func (p Folded) blindPrism(s *Solid, loops [][]int, flat, tops [][]r2.Vec) {
	for _, t := range triangulate(flat) {
		s.Triangles = append(s.Triangles, [3]int{pick(loops, t[0]), pick(loops, t[2]), pick(loops, t[1])})
	}
	for _, k := range p.Work.Pockets {
		edge := k.Area.Outer.Reverse()
		around, _ := flattenPair(edge, edge)
		loop := make([]int, len(around))
		for j, v := range around { // the floor, and above it the rim
			loop[j] = len(s.Vertices)
			s.Vertices = append(s.Vertices, p.Point(v, p.Thickness-k.Depth), p.Point(v, p.Thickness))
		}
		loops, tops = append(loops, loop), append(tops, around)
		s.walls(loop)
		floor := slices.Clone(around)
		slices.Reverse(floor)
		for _, t := range triangulate([][]r2.Vec{floor}) {
			last := len(loop) - 1
			s.Triangles = append(s.Triangles, [3]int{loop[last-t[0]], loop[last-t[1]], loop[last-t[2]]})
		}
	}
	for _, t := range triangulate(tops) {
		s.Triangles = append(s.Triangles, [3]int{pick(loops, t[0]) + 1, pick(loops, t[1]) + 1, pick(loops, t[2]) + 1})
	}
}

// walls adds the faces between a loop and its fellow above, whose vertices
// follow its own.
func (s *Solid) walls(loop []int) {
	for j, a := range loop {
		b := loop[(j+1)%len(loop)]
		s.Triangles = append(s.Triangles, [3]int{a, b, b + 1}, [3]int{a, b + 1, a + 1})
	}
}

// pick returns the i-th of all indices of the loops in sequence.
func pick(loops [][]int, i int) int {
	for _, l := range loops {
		if i < len(l) {
			return l[i]
		}
		i -= len(l)
	}
	return 0
}

// flattenPair returns chords of two loops of equal sequence, vertex by vertex.
func flattenPair(show, back arc.Path) (a, b []r2.Vec) {
	for i := range show.NumSegments() {
		s, t := show.Segment(i), back.Segment(i)
		n := 1
		if s.K != 0 {
			n, _ = arc.Facets(math.Max(s.Radius(), t.Radius()), s.Angle(), meshTol)
			n = max(n, 1)
		}
		for j := range n {
			f := float64(j) / float64(n)
			q, _ := s.At(f * s.Length())
			r, _ := t.At(f * t.Length())
			a, b = append(a, rounded(q)), append(b, rounded(r))
		}
	}
	return a, b
}

// rounded is what the triangles of a face are decided on: the last bits of points
// on arcs differ between processors.
func rounded(p r2.Vec) r2.Vec { return r2.Vec{X: num.Decimals(p.X, 7), Y: num.Decimals(p.Y, 7)} }
