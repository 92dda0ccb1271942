package clear

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// rows finds the elements of a body that reach into a band of heights, and in it
// into a band of x, without asking each. The heights are cut into rows, and x
// into columns, of which an element is listed in every one that it reaches into;
// there are so few that the lists together are no longer than some four for each
// element.
type rows struct {
	b           *Body
	low, step   r2.Vec
	row, column [][]int32
	seen        []int32 // the last search that met an element
	search      int32
}

func newRows(b *Body) *rows {
	r := &rows{b: b, low: b.Box.Min, seen: make([]int32, len(b.e))}
	var sum r2.Vec
	for i := range b.e {
		sum = r2.Add(sum, r2.Sub(b.e[i].box.Max, b.e[i].box.Min))
	}
	size := r2.Sub(b.Box.Max, b.Box.Min)
	r.row, r.step.Y = listsOf(len(b.e), size.Y, sum.Y)
	r.column, r.step.X = listsOf(len(b.e), size.X, sum.X)
	for i := range b.e {
		e := b.e[i].box
		for k := r.rowAt(e.Min.Y); k <= r.rowAt(e.Max.Y); k++ {
			r.row[k] = append(r.row[k], int32(i))
		}
		for k := r.columnAt(e.Min.X); k <= r.columnAt(e.Max.X); k++ {
			r.column[k] = append(r.column[k], int32(i))
		}
	}
	return r
}

// listsOf returns lists for n elements that reach over a sum within a size.
func listsOf(n int, size, sum float64) ([][]int32, float64) {
	m := int(math.Max(1, math.Min(float64(n), float64(2*n)*size/math.Max(sum, size))))
	return make([][]int32, m), size / float64(m)
}

func (r *rows) rowAt(y float64) int    { return listAt(y-r.low.Y, r.step.Y, len(r.row)) }
func (r *rows) columnAt(x float64) int { return listAt(x-r.low.X, r.step.X, len(r.column)) }
func listAt(d, step float64, m int) int {
	if !(step > 0) {
		return 0
	}
	return int(math.Max(0, math.Min(d/step, float64(m-1))))
}

// winding is that of the body: what does not reach to the height of p has no share
// in it.
func (r *rows) winding(p r2.Vec) int {
	w := 0
	for _, i := range r.row[r.rowAt(p.Y)] {
		w += r.b.e[i].around(p)
	}
	return w
}

// near calls visit once for each element whose box may come within d of a box,
// from the shorter of what its rows and its columns list.
func (r *rows) near(box r2.Box, d float64, visit func(i int)) {
	r.search++
	from, to, lists := r.rowAt(box.Min.Y-d), r.rowAt(box.Max.Y+d), r.row
	if a, b := r.columnAt(box.Min.X-d), r.columnAt(box.Max.X+d); length(r.column[a:b+1]) < length(r.row[from:to+1]) {
		from, to, lists = a, b, r.column
	}
	for _, l := range lists[from : to+1] {
		for _, i := range l {
			if r.seen[i] != r.search {
				r.seen[i] = r.search
				visit(int(i))
			}
		}
	}
}

func length(lists [][]int32) int {
	n := 0
	for _, l := range lists {
		n += len(l)
	}
	return n
}
