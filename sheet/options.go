package sheet

import (
	"time"

	"example.com/sagitta/arc"
)

// Bounds of what is taken, so that no input makes the search run away.
const (
	maxSize     = 1e6  // mm
	maxVertices = 5000 // of a loop; the engine takes no more
	maxCopies   = 2000
	minEps      = 1e-9 // mm, about what coordinates of maxSize are rounded to
)

// Options are the rules of a layout and the budget of the search for it.
type Options struct {
	Gap       float64 // least distance between parts, mm; 0 lets them touch
	Margin    float64 // least distance from a part to the edge of its sheet, mm; 0 lets it touch
	Eps       float64 // by how much Check lets the distances fall short, mm, >= 1e-9; 0 means 1e-6
	Tolerance float64 // how far the outline searched with may stand off an arc, mm; 0 means 0.05

	Seed       uint64        // of the random numbers; 0 is as good as any
	Iterations int           // sweeps of each search, or hundreds of orders for rectangles; 0 means no limit, or 200 where Time is 0 too
	Time       time.Duration // 0 means no limit
	Workers    int           // goroutines; 0 means 1. It never changes a result bounded by Iterations
	LeastSide  float64       // shortest side of an offcut that is worth keeping, mm; 0 means any

	// TrueOffcuts asks for offcuts by their true outlines, in the place of
	// rectangles; NestStraight, whose offcuts are rectangles, takes no note of it.
	TrueOffcuts bool

	// Share asks Nest to move neighbors together where straight edges of both then
	// lie exactly Gap apart, as the pass of one cutter of that diameter cuts both;
	// see SharedCuts. It costs nothing; it does nothing where Gap is 0.
	Share bool

	// Progress is called after each better layout and at least twice a second
	// else, from one goroutine at a time; nil is not.
	Progress func(Progress)

	// Fixed are sheets that Nest begins with: what lies on them stays, and the
	// copies that are wanted beside are laid there first and then on new
	// sheets, as a part that was spoiled is laid again. They have to be legal
	// by themselves and are the first sheets of the layout; nil is none.
	Fixed []Sheet

	Patience time.Duration // ends the search of a group when nothing was gained for so long; 0 means never
	Enough   float64       // ends the search when all is placed and the cost is no more; 0 means never

	// Clock is what Time goes by, for measurements that are to count processor time,
	// say; nil is time.Now. Progress and Patience go by time.Now.
	Clock func() time.Time

	began time.Time
	news  *reporter
}

func (o Options) now() time.Time {
	if o.Clock != nil {
		return o.Clock()
	}
	return time.Now()
}

func (o Options) since(t time.Time) time.Duration { return o.now().Sub(t) }

func (o Options) eps() float64 {
	if o.Eps == 0 {
		return 1e-6
	}
	return o.Eps
}

func (o Options) tolerance() float64 {
	if o.Tolerance == 0 {
		return 0.05
	}
	return o.Tolerance
}

func (o Options) check(fn string, c *collector) {
	for _, f := range []struct {
		name string
		v    float64
	}{
		{"opt.Gap", o.Gap}, {"opt.Margin", o.Margin}, {"opt.Eps", o.Eps},
		{"opt.Tolerance", o.Tolerance}, {"opt.LeastSide", o.LeastSide},
	} {
		err := needNotNegative(fn, f.name, f.v, "mm")
		if err == nil && f.v > maxSize {
			err = needSize(fn, f.name, f.v)
		}
		c.add(err, "")
	}
	c.add(needNotNegative(fn, "opt.Enough", o.Enough, ""), "")
	if o.Eps > 0 && o.Eps < minEps {
		c.add(&ParamError{Func: fn, Param: "opt.Eps", Value: o.Eps, Unit: "mm", Need: "0 or >= 1e-9", Err: arc.ErrRange}, "")
	}
	for _, f := range []struct {
		name string
		v    int64
	}{{"opt.Iterations", int64(o.Iterations)}, {"opt.Time", int64(o.Time)}, {"opt.Workers", int64(o.Workers)}, {"opt.Patience", int64(o.Patience)}} {
		if f.v < 0 {
			c.add(&ParamError{Func: fn, Param: f.name, Value: f.v, Need: ">= 0", Err: arc.ErrRange}, "")
		}
	}
}
