package miter

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// A Run is a molding or band that goes along walls, around a chimney or the
// skirt of a hood. Its lower back edge follows Path; seen from above, its show
// face looks to the right of travel, so a run around a pier goes
// counter-clockwise and one around the inside of a room clockwise. The ends of
// an open run are cut square.
//
// The molding counts as its bounding board: Width up the show face and
// Thickness square to it. Tilt is 90° for a band and 90° + spring for crown.
type Run struct {
	Path             []r2.Vec
	Closed           bool
	Tilt             arc.Angle
	Width, Thickness float64 // mm, > 0
}

// A Piece is one length of a run, along one wall. Wall is its length along the
// path. Long is the length from its longest point to its longest point, which
// is what it takes out of a stock length, and Short from shortest to shortest.
type Piece struct {
	Wall, Long, Short float64
	Left, Right       End
}

// Solve returns the pieces in the order of the path. It refuses a path with
// repeated points or one that doubles back, and walls too short for their
// piece, whose cuts would cross ([ErrVanish]).
func (r Run) Solve() ([]Piece, error) {
	const fn = "miter.Run.Solve"
	if err := r.check(fn); err != nil {
		return nil, err
	}
	n := len(r.Path)
	walls := n - 1
	if r.Closed {
		walls = n
	}
	out := make([]Piece, walls)
	for i := range out {
		out[i] = Piece{Wall: r2.Norm(r.wall(i)), Left: End{Hand: Left}, Right: End{Hand: Right}}
	}
	for i := range out {
		j := (i + 1) % walls
		if j == 0 && !r.Closed {
			break
		}
		cuts, err := r.corner(i, j).Cuts()
		if err != nil {
			return nil, fault(fn, item("Path", j), r.Path[j], "mm", "walls that turn by less than 180°", ErrNoSeam)
		}
		out[i].Right, out[j].Left = cuts.First, cuts.Second
	}
	for i := range out {
		if r.measure(&out[i]); out[i].Short < 0 {
			return nil, fault(fn, item("Path", i), r.Path[i], "mm", "walls as long as the cuts at their ends", ErrVanish)
		}
	}
	return out, nil
}

func (r Run) check(fn string) error {
	n := len(r.Path)
	if n < 2 || r.Closed && n < 3 {
		return fault(fn, "Path", n, "points", "2, or 3 for a closed run", arc.ErrEmpty)
	}
	for i, p := range r.Path {
		if !length(p.X) || !length(p.Y) {
			return fault(fn, item("Path", i), p, "mm", "coordinates up to 1e9", arc.ErrNotFinite)
		}
		if (r.Closed || i < n-1) && r2.Norm(r.wall(i)) <= slack {
			return fault(fn, item("Path", i), p, "mm", "no point twice", arc.ErrZeroArea)
		}
	}
	if err := needBetween(fn, "Tilt", r.Tilt, 0, 180*arc.Degree); err != nil {
		return err
	}
	for i, v := range [2]float64{r.Width, r.Thickness} {
		if !length(v) || v <= 0 {
			return fault(fn, [2]string{"Width", "Thickness"}[i], v, "mm", "> 0 up to 1e9", arc.ErrRange)
		}
	}
	return nil
}

// wall returns the way along wall i.
func (r Run) wall(i int) r2.Vec { return r2.Sub(r.Path[(i+1)%len(r.Path)], r.Path[i]) }

// corner returns the corner between walls i and j.
func (r Run) corner(i, j int) Corner {
	a, b := r.wall(i), r.wall(j)
	turn := math.Atan2(r2.Cross(a, b), r2.Dot(a, b))
	board := Board{Tilt: r.Tilt, Thickness: r.Thickness}
	return Corner{Plan: arc.Angle(math.Pi - turn), First: board, Second: board}
}

// measure finds the longest and shortest points of a piece over the corners of
// its section. The cuts pass through the path's corners at the lower back edge.
func (r Run) measure(p *Piece) {
	reach := func(e End) (long, short float64) {
		long, short = math.Inf(-1), math.Inf(1)
		for _, v := range [2]float64{0, r.Width} {
			for _, d := range [2]float64{0, r.Thickness} {
				x := e.endAt(v, d) - e.endAt(0, r.Thickness)
				long, short = math.Max(long, x), math.Min(short, x)
			}
		}
		return long, short
	}
	l1, s1 := reach(p.Left)
	l2, s2 := reach(p.Right)
	p.Long, p.Short = p.Wall+l1+l2, p.Wall+s1+s2
}
