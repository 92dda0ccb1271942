package cut

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// A grid is the cells over a part, each with its center for a point.
type grid struct {
	at     r2.Vec
	cell   float64
	nx, ny int
	marks  []bool
}

func newGrid(b r2.Box, cell float64) *grid {
	g := &grid{at: b.Min, cell: cell}
	g.nx = int((b.Max.X-b.Min.X)/cell) + 1
	g.ny = int((b.Max.Y-b.Min.Y)/cell) + 1
	g.marks = make([]bool, g.nx*g.ny)
	return g
}

// mark marks the cell of a point and its neighbors: a cell not marked has its
// center at least one and a half cells from every point marked.
func (g *grid) mark(p r2.Vec) {
	ix := int(math.Floor((p.X - g.at.X) / g.cell))
	iy := int(math.Floor((p.Y - g.at.Y) / g.cell))
	for y := max(0, iy-1); y <= min(g.ny-1, iy+1); y++ {
		for x := max(0, ix-1); x <= min(g.nx-1, ix+1); x++ {
			g.marks[y*g.nx+x] = true
		}
	}
}

// inside calls do for each center inside the loops, row by row.
func (g *grid) inside(loops []loop, do func(p r2.Vec, marked bool)) {
	g.spans(loops, func(iy, from, to int) {
		y := g.at.Y + (float64(iy)+0.5)*g.cell
		for ix := from; ix < to; ix++ {
			do(r2.Vec{X: g.at.X + (float64(ix)+0.5)*g.cell, Y: y}, g.marks[iy*g.nx+ix])
		}
	})
}

// spans calls do for each run of cells of a row with their centers inside the
// loops, row by row: from a column to before another.
func (g *grid) spans(loops []loop, do func(row, from, to int)) {
	var cuts []float64
	low, high := math.Inf(1), math.Inf(-1)
	for _, l := range loops {
		for _, b := range l.box {
			low, high = math.Min(low, b.Min.Y), math.Max(high, b.Max.Y)
		}
	}
	first := math.Max(0, math.Floor((low-g.at.Y)/g.cell)-1)
	last := math.Min(float64(g.ny-1), math.Ceil((high-g.at.Y)/g.cell)+1)
	for row := first; row <= last; row++ {
		y := g.at.Y + (row+0.5)*g.cell
		cuts = cuts[:0]
		for _, l := range loops {
			for i, s := range l.seg {
				if y < l.box[i].Min.Y-g.cell || y > l.box[i].Max.Y+g.cell {
					continue
				}
				at, n := s.Crossings(r2.Vec{Y: y}, r2.Vec{X: 1})
				for _, l := range at[:n] {
					p, _ := s.At(l)
					cuts = append(cuts, p.X)
				}
			}
		}
		slices.Sort(cuts)
		for k := 0; k+1 < len(cuts); k += 2 {
			from := int(math.Max(0, math.Ceil((cuts[k]-g.at.X)/g.cell-0.5)))
			to := int(math.Min(float64(g.nx), math.Floor((cuts[k+1]-g.at.X)/g.cell-0.5)+1))
			if from < to {
				do(int(row), from, to)
			}
		}
	}
}

// tileSize is the side of a tile, mm.
const tileSize = 16.0

// Tiles find the probes near a move.
type tiles struct {
	origin r2.Vec
	nx, ny int
	size   float64
	first  []int32 // index of the first probe of each tile, and their count
}

// sort puts the probes into the sequence of the tiles.
func (f *field) sort() {
	box := f.job.Stock.Shape().Bounds()
	for _, q := range f.pieces {
		box.Min = r2.Vec{X: math.Min(box.Min.X, q.box.Min.X), Y: math.Min(box.Min.Y, q.box.Min.Y)}
		box.Max = r2.Vec{X: math.Max(box.Max.X, q.box.Max.X), Y: math.Max(box.Max.Y, q.box.Max.Y)}
	}
	size := box.Size()
	f.tiles = tiles{origin: box.Min, size: tileSize}
	// At most a million tiles.
	for size.X*size.Y/(f.size*f.size) > 1e6 || math.Max(size.X, size.Y)/f.size > 1e6 {
		f.size *= 2
	}
	f.nx, f.ny = int(size.X/f.size)+1, int(size.Y/f.size)+1
	f.first = make([]int32, f.nx*f.ny+1)
	n := 0
	for _, h := range f.heap {
		n += len(h)
		for i := range h {
			f.first[f.tileOf(&h[i])+1]++
		}
	}
	for i := 1; i < len(f.first); i++ {
		f.first[i] += f.first[i-1]
	}
	next := slices.Clone(f.first)
	f.probe = make([]probe, n)
	for _, h := range f.heap {
		for i := range h {
			t := f.tileOf(&h[i])
			f.probe[next[t]] = h[i]
			next[t]++
		}
	}
	f.heap = nil
}

func (t *tiles) column(x float64) int {
	return max(0, min(t.nx-1, int((x-t.origin.X)/t.size)))
}

func (t *tiles) row(y float64) int { return max(0, min(t.ny-1, int((y-t.origin.Y)/t.size))) }

func (t *tiles) tileOf(p *probe) int { return t.row(float64(p.y))*t.nx + t.column(float64(p.x)) }
