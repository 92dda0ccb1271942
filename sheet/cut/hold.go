package cut

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// A standing is the sheet in cells, and when each came to hold nothing. It
// knows the parts' outlines, the cutters and the moves; of tabs it knows only
// the least size that holds.
//
// Inside a part's outline all that is left of the sheet holds, webs under
// kerfs too, as the design wants it so. Outside, only what stands as high as a
// tab does.
type standing struct {
	origin r2.Vec
	cell   float64
	nx, ny int
	who    []int16 // 1 + index of the part a cell is of, 0 of the waste, -1 off the sheet
	died   []int32 // event by which a cell held no more; stands where none
	now    int32
	lines  []int // of the text, the last move of each event

	high float64 // what holds in the waste, mm over the spoilboard
	web  float64 // what holds in a part
}

const stands = math.MaxInt32

// Cells are small enough that a tab has twelve over its width, so that
// eroding by half of it less a cell's diagonal proves 0.76 of its width, and
// passes every tab that has all of it. A large sheet has larger cells.
const (
	cellsOfTab = 12
	leastCell  = 0.25    // mm
	maxCells   = 1 << 24 // 200 MB for all of a standing
)

func newStanding(f *field, least float64) *standing {
	box := f.job.Stock.Shape().Bounds()
	size := box.Size()
	h := math.Max(leastCell, least)
	h = math.Max(h, math.Sqrt(size.X*size.Y/maxCells))
	h = math.Max(h, math.Max(size.X, size.Y)/(maxCells/4))
	// Shifted, so that rows of cells do not run along edges of whole mm.
	s := &standing{origin: r2.Sub(box.Min, r2.Vec{X: 0.37 * h, Y: 0.37 * h}), cell: h, high: f.opt.holding() - f.opt.Tolerance, web: f.opt.Tolerance}
	s.nx, s.ny = int(size.X/h)+2, int(size.Y/h)+2
	s.who = make([]int16, s.nx*s.ny)
	for i := range s.who {
		s.who[i] = -1
	}
	s.fill(loopsOf(f.job.Stock.Shape()), 0)
	for i := range f.pieces {
		s.fill(f.surface[i].loops, int16(i+1))
	}
	s.died = make([]int32, len(s.who))
	for i := range s.died {
		s.died[i] = stands
	}
	s.lines = []int{0}
	return s
}

// fill gives the cells of the sheet inside loops to an owner.
func (s *standing) fill(loops []loop, owner int16) {
	g := grid{at: s.origin, cell: s.cell, nx: s.nx, ny: s.ny}
	g.spans(loops, func(row, from, to int) {
		cells := s.who[row*s.nx+from : row*s.nx+to]
		for i := range cells {
			if owner == 0 || cells[i] >= 0 {
				cells[i] = owner
			}
		}
	})
}

func (s *standing) at(c int) r2.Vec {
	return r2.Vec{X: s.origin.X + (float64(c%s.nx)+0.5)*s.cell, Y: s.origin.Y + (float64(c/s.nx)+0.5)*s.cell}
}

// event begins another cut: what was left between two is looked at.
func (s *standing) event(line int) {
	s.now++
	s.lines = append(s.lines, line)
}

// sweep takes away what a piece of a move cuts below what holds.
func (s *standing) sweep(r *replayer, w *sweep) {
	if w.low >= s.high || r.parted {
		return
	}
	s.lines[s.now] = int(w.line)
	s.under(r, w, func(c int) bool { return s.died[c] != stands }, func(c int) { s.died[c] = s.now })
}

// under calls do for the cells that a piece of a move cuts below what holds, but
// for those to skip.
func (s *standing) under(r *replayer, w *sweep, skip func(c int) bool, do func(c int)) {
	if w.low >= s.high {
		return
	}
	x0, x1, y0, y1 := s.around(r, w)
	for y := y0; y <= y1; y++ {
		for c := y*s.nx + x0; c <= y*s.nx+x1; c++ {
			if s.who[c] < 0 || skip(c) {
				continue
			}
			p := s.at(c)
			z := r.height(w, &probe{x: float32(p.X), y: float32(p.Y)})
			if z < s.high && s.who[c] == 0 || z <= s.web {
				do(c)
			}
		}
	}
}

// around returns the cells, by column and row, that a piece of a move may cut
// below what holds.
func (s *standing) around(r *replayer, w *sweep) (x0, x1, y0, y1 int) {
	b, rad := w.seg.Bounds(), r.radiusAt(s.high-w.low)
	return s.clamp(b.Min.X-rad-s.origin.X, s.nx), s.clamp(b.Max.X+rad-s.origin.X, s.nx),
		s.clamp(b.Min.Y-rad-s.origin.Y, s.ny), s.clamp(b.Max.Y+rad-s.origin.Y, s.ny)
}

func (s *standing) clamp(v float64, n int) int {
	return int(math.Max(0, math.Min(float64(n-1), math.Floor(v/s.cell))))
}

// eroded returns when each cell of the waste last had nothing but what holds
// within a distance; cells of parts keep their own time.
func (s *standing) eroded(reach float64) []int32 {
	out := slices.Clone(s.died)
	n := int(reach / s.cell)
	var disc [][2]int
	for y := -n; y <= n; y++ {
		for x := -n; x <= n; x++ {
			if math.Hypot(float64(x), float64(y))*s.cell <= reach {
				disc = append(disc, [2]int{x, y})
			}
		}
	}
	for c, died := range s.died {
		if died == stands && s.who[c] >= 0 || !s.rim(c) {
			continue
		}
		died = s.death(c)
		for _, d := range disc {
			x, y := c%s.nx+d[0], c/s.nx+d[1]
			if x < 0 || y < 0 || x >= s.nx || y >= s.ny {
				continue
			}
			if k := y*s.nx + x; s.who[k] == 0 && out[k] > died {
				out[k] = died
			}
		}
	}
	return out
}

// death is when a cell held no more; off the sheet nothing ever did.
func (s *standing) death(c int) int32 {
	if s.who[c] < 0 {
		return -1
	}
	return s.died[c]
}

// rim reports whether a neighbor of a cell held for longer. What is within
// reach of a cell of no such neighbor is also within reach of one that has.
func (s *standing) rim(c int) bool {
	died := s.death(c)
	x, n := c%s.nx, len(s.died)
	return x > 0 && s.death(c-1) > died || x < s.nx-1 && s.death(c+1) > died ||
		c >= s.nx && s.death(c-s.nx) > died || c+s.nx < n && s.death(c+s.nx) > died
}
