// Package hangs cuts a sheet for tests, by stamping the cutter's disc along
// its way, and flood-fills what is left. It shares nothing with the code it is
// held against, and knows nothing of tabs.
package hangs

import (
	"fmt"
	"math"
	"slices"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// A Move is a straight or circular move of a cutter at feed.
type Move struct {
	Way          arc.Segment
	From, To     float64 // heights of the tip
	Radius, Half float64 // of the cutter; tangent of half the angle of a pointed one, else 0
}

// A Sheet is a height map over a rectangle from the origin.
type Sheet struct {
	nx, ny int
	cell   float64
	top    float64
	z      []float32
	own    []int16
}

// New returns a sheet that nothing was cut from, and the parts that lie on it.
func New(length, width, thickness, cell float64, parts []arc.Region) (*Sheet, error) {
	s := &Sheet{nx: int(length / cell), ny: int(width / cell), cell: cell, top: thickness}
	s.z, s.own = make([]float32, s.nx*s.ny), make([]int16, s.nx*s.ny)
	for i := range s.z {
		s.z[i] = float32(thickness)
	}
	for i, p := range parts {
		f, err := p.Flatten(0.01)
		if err != nil {
			return nil, err
		}
		s.fill(f, int16(i+1))
	}
	return s, nil
}

// fill gives the cells of a region of straight lines to a part, row by row.
func (s *Sheet) fill(r arc.Region, part int16) {
	for y := range s.ny {
		at := (float64(y) + 0.5) * s.cell
		var x []float64
		for _, l := range r.Loops() {
			for i := range l.V {
				a, b := l.V[i].P, l.V[(i+1)%len(l.V)].P
				if (a.Y > at) != (b.Y > at) {
					x = append(x, a.X+(at-a.Y)/(b.Y-a.Y)*(b.X-a.X))
				}
			}
		}
		slices.Sort(x)
		for k := 0; k+1 < len(x); k += 2 {
			for c := max(0, int(math.Ceil(x[k]/s.cell-0.5))); c < s.nx && (float64(c)+0.5)*s.cell < x[k+1]; c++ {
				s.own[y*s.nx+c] = part
			}
		}
	}
}

// Cut cuts along a move.
func (s *Sheet) Cut(m Move) {
	if m.From >= s.top && m.To >= s.top {
		return
	}
	l := m.Way.Length()
	n := int(math.Ceil(l/(s.cell/2))) + 1
	for i := 0; i <= n; i++ {
		f := float64(i) / float64(n)
		p := m.Way.A
		if l > 0 {
			p, _ = m.Way.At(l * f)
		}
		s.stamp(p, m.From+f*(m.To-m.From), m.Radius, m.Half)
	}
}

func (s *Sheet) stamp(p r2.Vec, z, r, half float64) {
	h := s.cell
	for y := max(0, int((p.Y-r)/h)-1); y <= min(s.ny-1, int((p.Y+r)/h)+1); y++ {
		for x := max(0, int((p.X-r)/h)-1); x <= min(s.nx-1, int((p.X+r)/h)+1); x++ {
			dx, dy := (float64(x)+0.5)*h-p.X, (float64(y)+0.5)*h-p.Y
			d := math.Sqrt(dx*dx + dy*dy)
			if d >= r {
				continue
			}
			under := z
			if half > 0 {
				under += d / half
			}
			if c := y*s.nx + x; float32(under) < s.z[c] {
				s.z[c] = float32(under)
			}
		}
	}
}

// Loose returns what does not hang together with the piece that has most of
// the waste: parts by their number, from 0, most of whose cells do not, and
// waste over an area. In a part any wood over 0.05 mm holds, outside only what
// is as high as told and has nothing lower within reach.
func (s *Sheet) Loose(high, reach, waste float64) []string {
	ok := s.holding(high, reach)
	label, frame := s.label(ok)
	var out []string
	count := map[int32]int{}
	held, all := map[int16]int{}, map[int16]int{}
	pure := map[int32]bool{}
	for c, o := range s.own {
		if !ok[c] {
			continue
		}
		l := label[c]
		count[l]++
		if o > 0 {
			all[o]++
			pure[l] = true
			if l == frame {
				held[o]++
			}
		}
	}
	for l, n := range count {
		if a := float64(n) * s.cell * s.cell; l != frame && !pure[l] && a > waste {
			out = append(out, fmt.Sprintf("waste of %.0f mm2", a))
		}
	}
	for part, n := range all {
		if 2*held[part] < n {
			out = append(out, fmt.Sprint("part ", part-1))
		}
	}
	slices.Sort(out)
	return out
}

func (s *Sheet) holding(high, reach float64) []bool {
	ok := make([]bool, len(s.z))
	for c, o := range s.own {
		ok[c] = o > 0 && s.z[c] > 0.05 || o == 0 && float64(s.z[c]) >= high
	}
	out := slices.Clone(ok)
	n := int(reach / s.cell)
	for c := range ok {
		if ok[c] || n == 0 {
			continue
		}
		for y := max(0, c/s.nx-n); y <= min(s.ny-1, c/s.nx+n); y++ {
			for x := max(0, c%s.nx-n); x <= min(s.nx-1, c%s.nx+n); x++ {
				if k := y*s.nx + x; s.own[k] == 0 && out[k] && math.Hypot(float64(x-c%s.nx), float64(y-c/s.nx))*s.cell <= reach {
					out[k] = false
				}
			}
		}
	}
	return out
}

// label numbers the pieces and returns which has most of the waste.
func (s *Sheet) label(ok []bool) (label []int32, frame int32) {
	label = make([]int32, len(ok))
	var stack []int32
	most, now := -1, int32(0)
	for i := range ok {
		if !ok[i] || label[i] > 0 {
			continue
		}
		now++
		label[i] = now
		waste := 0
		stack = append(stack[:0], int32(i))
		for len(stack) > 0 {
			c := int(stack[len(stack)-1])
			stack = stack[:len(stack)-1]
			if s.own[c] == 0 {
				waste++
			}
			for _, d := range [4][2]int{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
				x, y := c%s.nx+d[0], c/s.nx+d[1]
				if k := y*s.nx + x; x >= 0 && y >= 0 && x < s.nx && y < s.ny && ok[k] && label[k] == 0 {
					label[k] = now
					stack = append(stack, int32(k))
				}
			}
		}
		if waste > most {
			most, frame = waste, now
		}
	}
	return label, frame
}
