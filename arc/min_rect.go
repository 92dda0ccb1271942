package arc

import (
	"context"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// A Frame is a rectangle in any position.
type Frame struct {
	Corner        r2.Vec  // the lower left one, seen along the length
	Along         Angle   // the direction of the length, from the x axis
	Length, Width float64 // mm, Length >= Width
}

// Area returns the area of the frame in mm².
func (f Frame) Area() float64 { return f.Length * f.Width }

// Path returns the frame as a counter-clockwise loop from its corner.
func (f Frame) Path() Path {
	return Rect(0, 0, f.Length, f.Width).Transform(Rotate(f.Along).Then(Shift(f.Corner)))
}

// SmallestFrame returns the rectangle of least area around the paths. Of a
// polygon's a side lies along the hull (H. Freeman and R. Shapira, Determining
// the minimum-area encasing rectangle, 1975); where arcs touch the sides, the
// turn is searched between the turns at which what touches changes.
func SmallestFrame(paths ...Path) (Frame, error) {
	return SmallestFrameContext(context.Background(), paths...)
}

// SmallestFrameContext is [SmallestFrame], stopped with the context's error
// when ctx is done.
func SmallestFrameContext(ctx context.Context, paths ...Path) (Frame, error) {
	h, err := newHull(ctx, "arc.SmallestFrame", paths)
	if err != nil {
		return Frame{}, err
	}
	var best, least = 0.0, math.Inf(1)
	var c caliper
	try := func(turn float64) float64 {
		a := c.area(turn)
		if a < least {
			best, least = turn, a
		}
		return a
	}
	turns := h.quarterTurns()
	at := h.start()
	for i, t := range turns {
		if i&255 == 255 && ctx.Err() != nil {
			return Frame{}, ctx.Err()
		}
		next := turns[0] + math.Pi/2
		if i+1 < len(turns) {
			next = turns[i+1]
		}
		if next-t < 1e-15 {
			continue
		}
		arcs := false
		for j := range c {
			b := h.touching(&at[j], (t+next)/2+float64(j)*math.Pi/2)
			c[j] = *b
			arcs = arcs || b.isArc()
		}
		try(t)
		try(next)
		if arcs {
			searchMin(t, next, try)
		}
	}
	return frameAt(h.path, best), nil
}

// A caliper is what touches the four sides of a frame.
type caliper [4]bulge

// area returns that of the frame with a side at the given turn.
func (c *caliper) area(turn float64) float64 {
	sin, cos := math.Sincos(turn)
	var reach [4]float64
	for i := range c {
		reach[i] = c[i].p.X*cos + c[i].p.Y*sin + c[i].r
		sin, cos = cos, -sin
	}
	return (reach[0] + reach[2]) * (reach[1] + reach[3])
}

// quarterTurns returns, within a quarter turn, all turns at which a side of a
// frame passes from one part of the hull to the next.
func (h *hull) quarterTurns() []float64 {
	var out []float64
	for _, r := range h.reach {
		out = append(out, math.Mod(r.from, math.Pi/2))
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// start returns for each of four sides the reach to begin to look at.
func (h *hull) start() (at [4]int) {
	for j := range at {
		n, _ := slices.BinarySearchFunc(h.reach, float64(j)*math.Pi/2, func(r reach, x float64) int { return sign(r.from - x) })
		at[j] = max(0, n-1)
	}
	return at
}

// touching returns the bulge that is outermost in a direction, found from the
// one at which a smaller direction was.
func (h *hull) touching(at *int, n float64) *bulge {
	n = normalAngle(n)
	if h.reach[*at].from > n {
		*at = 0
	}
	for *at+1 < len(h.reach) && h.reach[*at+1].from <= n {
		*at++
	}
	return &h.bulge[h.reach[*at].bulge]
}

// searchMin tries a few points between a and b and, between the neighbors of
// the best, narrows in by the golden section.
func searchMin(a, b float64, try func(x float64) float64) {
	const n = 4
	if b-a < 1e-9 {
		return
	}
	at, least := 0, math.Inf(1)
	for i := 1; i < n; i++ {
		if y := try(a + (b-a)*float64(i)/n); y < least {
			at, least = i, y
		}
	}
	lo, hi := a+(b-a)*float64(at-1)/n, a+(b-a)*float64(at+1)/n
	const golden = 0.6180339887498949
	x, y := hi-golden*(hi-lo), lo+golden*(hi-lo)
	fx, fy := try(x), try(y)
	for range 40 {
		if fx < fy {
			hi, y, fy = y, x, fx
			x = hi - golden*(hi-lo)
			fx = try(x)
		} else {
			lo, x, fx = x, y, fy
			y = lo + golden*(hi-lo)
			fy = try(y)
		}
	}
}

// frameAt returns the frame around a hull with a side at the given turn.
func frameAt(hull Path, turn float64) Frame {
	a := Angle(turn)
	b := hull.Transform(Rotate(-a)).Bounds()
	f := Frame{Along: a, Length: b.Max.X - b.Min.X, Width: b.Max.Y - b.Min.Y}
	f.Corner = Rotate(a).Apply(b.Min)
	if f.Width > f.Length {
		f.Corner = Rotate(a).Apply(r2.Vec{X: b.Max.X, Y: b.Min.Y})
		f.Along, f.Length, f.Width = a+Angle(math.Pi/2), f.Width, f.Length
	}
	return f
}
