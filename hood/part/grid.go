package part

import (
	"math"
	"slices"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// meshTol is how far a mesh may leave an arc, mm.
const meshTol = 0.05

// A grid is a board cut into cells along its height, its depth and its width,
// some of them cut away: good for boards between a left and a right edge, with
// kerfs across and rabbets along those edges.
type grid struct {
	rows   []float64 // heights on the show face
	depths []float64
	cols   int // cells across
	solid  func(row, depth, col int) bool
	at     func(row, depth, col int) r3.Vec // of the corners
}

// faces lists, for each of the six neighbors of a cell, its offset and the
// corners of the face between, counter-clockwise from outside in a frame of
// right, up and depth.
var faces = [6]struct {
	next    [3]int
	corners [4][3]int // row, depth, col
}{
	{[3]int{0, 0, 1}, [4][3]int{{0, 0, 1}, {1, 0, 1}, {1, 1, 1}, {0, 1, 1}}},
	{[3]int{0, 0, -1}, [4][3]int{{0, 0, 0}, {0, 1, 0}, {1, 1, 0}, {1, 0, 0}}},
	{[3]int{1, 0, 0}, [4][3]int{{1, 0, 0}, {1, 1, 0}, {1, 1, 1}, {1, 0, 1}}},
	{[3]int{-1, 0, 0}, [4][3]int{{0, 0, 0}, {0, 0, 1}, {0, 1, 1}, {0, 1, 0}}},
	{[3]int{0, 1, 0}, [4][3]int{{0, 1, 0}, {0, 1, 1}, {1, 1, 1}, {1, 1, 0}}},
	{[3]int{0, -1, 0}, [4][3]int{{0, 0, 0}, {1, 0, 0}, {1, 0, 1}, {0, 0, 1}}},
}

// mesh returns the surface between solid cells and the rest.
func (g grid) mesh(name string) Solid {
	nd, nc := len(g.depths), g.cols+1
	index := make([]int, len(g.rows)*nd*nc)
	s := Solid{Name: name, Vertices: make([]r3.Vec, 0, len(index)), Triangles: make([][3]int, 0, 4*len(g.rows)*(nd+nc))}
	vertex := func(row, depth, col int) int {
		i := (row*nd+depth)*nc + col
		if index[i] == 0 {
			s.Vertices = append(s.Vertices, g.at(row, depth, col))
			index[i] = len(s.Vertices)
		}
		return index[i] - 1
	}
	filled := func(row, depth, col int) bool {
		in := row >= 0 && row < len(g.rows)-1 && depth >= 0 && depth < nd-1 && col >= 0 && col < g.cols
		return in && g.solid(row, depth, col)
	}
	for r := range len(g.rows) - 1 {
		for d := range nd - 1 {
			for c := range g.cols {
				if !filled(r, d, c) {
					continue
				}
				for _, f := range faces {
					if filled(r+f.next[0], d+f.next[1], c+f.next[2]) {
						continue
					}
					var q [4]int
					for i, k := range f.corners {
						q[i] = vertex(r+k[0], d+k[1], c+k[2])
					}
					s.Triangles = append(s.Triangles, [3]int{q[0], q[1], q[2]}, [3]int{q[0], q[2], q[3]})
				}
			}
		}
	}
	return s
}

// gridSolid meshes a part whose edges are bottom, right, top and left.
func (p Folded) gridSolid() Solid {
	g := grid{rows: p.meshRows(), depths: []float64{0, p.Thickness}}
	kerf := func(row int) bool { return false }
	if len(p.Work.Slots) > 0 {
		g.depths = append(g.depths, p.Thickness-p.Work.Slots[0].Depth)
		slotted := make([]bool, len(g.rows)-1)
		for i := range slotted {
			slotted[i] = p.InSlot((g.rows[i] + g.rows[i+1]) / 2)
		}
		kerf = func(row int) bool { return slotted[row] }
	}
	for _, k := range p.Work.Pockets {
		g.depths = append(g.depths, p.Thickness-k.Depth)
	}
	slices.Sort(g.depths)
	g.depths = slices.Compact(g.depths)
	left, right := p.Rabbets()
	lines := 2
	if left > 0 {
		lines++
	}
	if right > 0 {
		lines++
	}
	g.cols = lines - 1
	g.solid = func(row, depth, col int) bool {
		mid := (g.depths[depth] + g.depths[depth+1]) / 2
		if len(p.Work.Slots) > 0 && mid > p.Thickness-p.Work.Slots[0].Depth && kerf(row) {
			return false
		}
		edge := left > 0 && col == 0 || right > 0 && col == g.cols-1
		return !edge || mid < p.Thickness-p.Work.Pockets[0].Depth
	}
	frame := p.frames(g.rows, g.depths)
	g.at = func(row, depth, col int) r3.Vec {
		d := g.depths[depth]
		f := frame[row*len(g.depths)+depth]
		y, x := f.y, 0.0
		switch {
		case col == 0:
			x = p.Across(3, y, d)
		case col == 1 && left > 0:
			x = p.Across(3, y, d) + left
		case col == g.cols-1 && right > 0:
			x = p.Across(1, y, d) - right
		default:
			x = p.Across(1, y, d)
		}
		v := r3.Add(p.Pose.At, r3.Scale(x, p.Pose.Right))
		return r3.Add(r3.Add(v, r3.Scale(f.up, p.Pose.Up)), r3.Scale(f.in, p.Pose.In))
	}
	return g.mesh(p.Name)
}

// A frame is what the points of a row have in common at a depth: their height
// on the blank, and where they come to lie along Up and In.
type frame struct{ y, up, in float64 }

// frames returns those of all rows, depth by depth. A row is as high as it is on
// the show face, but for the first and last, which follow the bevels of the lower
// and upper edge.
func (p Folded) frames(rows, depths []float64) []frame {
	out := make([]frame, len(rows)*len(depths))
	for i, d := range depths {
		low, high := p.Levels(d)
		for row, y := range rows {
			switch row {
			case 0:
				y = low
			case len(rows) - 1:
				y = high
			default:
				y = max(low, min(y, high)) // a bevel may run into the first kerf
			}
			f := frame{y, y, d}
			if p.Curved {
				q := p.lifted(y, d)
				f.up, f.in = q.Y, -q.X
			}
			out[row*len(depths)+i] = f
		}
	}
	return out
}

// InSlot reports whether a height of the blank lies in one of its slots.
func (p Folded) InSlot(y float64) bool {
	for _, s := range p.Work.Slots {
		if math.Abs(y-s.From.Y) < s.Width/2 {
			return true
		}
	}
	return false
}

// Rabbets returns how wide the rabbets along the left and the right edge are.
func (p Folded) Rabbets() (left, right float64) {
	box := p.TrimmedBox()
	for _, k := range p.Work.Pockets {
		a := k.Area.Bounds()
		if a.Min.X <= box.Min.X+1e-9 {
			left = a.Max.X - box.Min.X
		}
		if a.Max.X >= box.Max.X-1e-9 {
			right = box.Max.X - a.Min.X
		}
	}
	return left, right
}

// TrimmedBox returns the extent of the show face, of a ply after trimming.
func (p Folded) TrimmedBox() r2.Box {
	if p.Ply == 0 {
		return p.Outline.Bounds()
	}
	left, right := p.Edges[3].Show.Bounds(), p.Edges[1].Show.Bounds()
	return r2.Box{
		Min: r2.Vec{X: min(left.Min.X, right.Min.X), Y: min(left.Min.Y, right.Min.Y)},
		Max: r2.Vec{X: max(left.Max.X, right.Max.X), Y: max(left.Max.Y, right.Max.Y)},
	}
}

// meshRows returns the heights of the rows: where the board bends and where
// its edges do.
func (p Folded) meshRows() []float64 {
	rows := slices.Clone(p.Breaks)
	low, high := rows[0], rows[len(rows)-1]
	if p.Ply > 0 { // only what is left of it after trimming
		l0, h0 := p.Levels(0)
		l1, h1 := p.Levels(p.Thickness)
		low, high = min(l0, l1), max(h0, h1)
		rows = append(rows, low)
	}
	for _, path := range []arc.Path{p.Edges[1].Show, p.Edges[3].Show, p.Edges[1].Back, p.Edges[3].Back} {
		for i := range path.NumSegments() {
			s := path.Segment(i)
			n, err := arc.Facets(s.Radius(), s.Angle(), meshTol)
			if s.K == 0 || err != nil {
				n = 1
			}
			for j := range n + 1 {
				q, _ := s.At(s.Length() * float64(j) / float64(n))
				rows = append(rows, q.Y)
			}
		}
	}
	for _, s := range p.Work.Slots {
		rows = append(rows, s.From.Y-s.Width/2, s.From.Y+s.Width/2)
	}
	slices.Sort(rows)
	out := []float64{low}
	for _, y := range rows[1:] {
		if y > low && y < high && y-out[len(out)-1] > 1e-3 && high-y > 1e-3 {
			out = append(out, y)
		}
	}
	return append(out, high)
}
