package rects

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

func rectLoop(x0, y0, x1, y1 float64) []r2.Vec {
	return []r2.Vec{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}
}

func never() bool { return false }

func size(b r2.Box) float64 { return (b.Max.X - b.Min.X) * (b.Max.Y - b.Min.Y) }

// sprinkled is a sheet of 120 by 80 with things on it: rectangles, discs and
// triangles, some with a hole.
func sprinkled(rng *rand.Rand, slant bool) Clearing {
	c := Clearing{Sheet: [][]r2.Vec{rectLoop(0, 0, 120, 80)}}
	if slant && rng.IntN(3) == 0 {
		c.Sheet[0] = []r2.Vec{{X: 0, Y: 10}, {X: 100, Y: 0}, {X: 120, Y: 60}, {X: 60, Y: 80}}
	}
	for range 1 + rng.IntN(7) {
		x, y, r := float64(rng.IntN(120)), float64(rng.IntN(80)), float64(1+rng.IntN(14))
		switch kind := rng.IntN(3); {
		case !slant || kind == 0:
			w, h := float64(1+rng.IntN(30)), float64(1+rng.IntN(20))
			g := [][]r2.Vec{rectLoop(x, y, x+w, y+h)}
			if w > 8 && h > 8 {
				g = append(g, rectLoop(x+2, y+2, x+w-1, y+h-3))
			}
			c.Solids = append(c.Solids, g)
		case kind == 1:
			var l []r2.Vec
			for i := range 40 {
				s, k := math.Sincos(2 * math.Pi * float64(i) / 40)
				l = append(l, r2.Vec{X: x + r*k, Y: y + r*s})
			}
			c.Solids = append(c.Solids, [][]r2.Vec{l})
		default:
			c.Solids = append(c.Solids, [][]r2.Vec{{{X: x, Y: y}, {X: x + r, Y: y + 3}, {X: x + 2, Y: y + 2*r}}})
		}
	}
	return c
}

// held reports whether a point is in a loop, by the angles it is seen under.
func held(l []r2.Vec, p r2.Vec) bool {
	sum := 0.0
	for i := range l {
		a, b := r2.Sub(l[i], p), r2.Sub(l[(i+1)%len(l)], p)
		sum += math.Atan2(r2.Cross(a, b), r2.Dot(a, b))
	}
	return math.Abs(sum) > math.Pi
}

func free(c Clearing, p r2.Vec) bool {
	in := func(g [][]r2.Vec) bool {
		for i, l := range g {
			if held(l, p) != (i == 0) {
				return false
			}
		}
		return true
	}
	for _, g := range c.Solids {
		if in(g) {
			return false
		}
	}
	return in(c.Sheet)
}

// Where all runs along the axes the sides of the largest are on those of the
// rest: all rectangles of these are tried.
func TestLargestAgainstAllRectangles(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 1))
	for k := range 60 {
		c := sprinkled(rng, false)
		xs, ys := map[float64]bool{0: true, 120: true}, map[float64]bool{0: true, 80: true}
		for _, g := range c.Solids {
			for _, l := range g {
				for _, v := range l {
					if v.X <= 120 && v.Y <= 80 {
						xs[v.X], ys[v.Y] = true, true
					}
				}
			}
		}
		most, cells := 0.0, freeUnits(c)
		for x0 := range xs {
			for x1 := range xs {
				for y0 := range ys {
					for y1 := range ys {
						if a := (x1 - x0) * (y1 - y0); x1 > x0 && y1 > y0 && a > most && cells.all(int(x0), int(y0), int(x1), int(y1)) {
							most = a
						}
					}
				}
			}
		}
		got := c.Largest(never)
		require.InDelta(t, most, size(got), 1e-9, "case %d: %v", k, got)
	}
}

// units says of each unit cell of the sheet whether its middle is free. Where all
// sides are whole numbers the cell is what its middle is.
type units [120][80]bool

func freeUnits(c Clearing) *units {
	u := &units{}
	for x := range u {
		for y := range u[x] {
			u[x][y] = free(c, r2.Vec{X: float64(x) + 0.5, Y: float64(y) + 0.5})
		}
	}
	return u
}

func (u *units) all(x0, y0, x1, y1 int) bool {
	for x := x0; x < x1; x++ {
		for y := y0; y < y1; y++ {
			if !u[x][y] {
				return false
			}
		}
	}
	return true
}

// Where edges slant or are round it is no smaller than the largest on a raster,
// all of whose cells are free with a little to spare, and is free itself.
func TestLargestAgainstRaster(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 1))
	for k := range 8 {
		c := sprinkled(rng, true)
		got := c.Largest(never)
		raster := rasterLargest(c)
		require.GreaterOrEqual(t, size(got), raster*(1-clearGain), "case %d: %v", k, got)
		require.Less(t, size(got), raster*1.4+150, "case %d: %v", k, got)
		for i := range 30 {
			for j := range 30 {
				p := r2.Vec{X: got.Min.X + (got.Max.X-got.Min.X)*(float64(i)+0.5)/30, Y: got.Min.Y + (got.Max.Y-got.Min.Y)*(float64(j)+0.5)/30}
				require.True(t, free(c, p), "case %d: %v", k, p)
			}
		}
	}
}

// rasterLargest is the largest rectangle of cells, a unit wide, of which
// nine points each are free, by heights of columns.
func rasterLargest(c Clearing) float64 {
	const w, h, unit = 120, 80, 1.0
	var tall [w]int
	best := 0
	for j := range h {
		for i := range w {
			tall[i]++
			for q := 0; q < 9 && tall[i] > 0; q++ {
				if !free(c, r2.Vec{X: unit * (float64(i) + 0.001 + 0.499*float64(q%3)), Y: unit * (float64(j) + 0.001 + 0.499*float64(q/3))}) {
					tall[i] = 0
				}
			}
		}
		for i := range w {
			low := tall[i]
			for k := i; k < w && low > 0; k++ {
				low = min(low, tall[k])
				best = max(best, low*(k-i+1))
			}
		}
	}
	return float64(best) * unit * unit
}

// It ends at once when told to.
func TestLargestStops(t *testing.T) {
	c := sprinkled(rand.New(rand.NewPCG(9, 1)), true)
	asked := 0
	c.Largest(func() bool { asked++; return true })
	require.Equal(t, 1, asked)
	require.Zero(t, size(Clearing{}.Largest(never)))
}

// knots is a whole board with 20 round knots.
func knots() Clearing {
	c := Clearing{Sheet: [][]r2.Vec{rectLoop(0, 0, 2440, 1220)}}
	rng := rand.New(rand.NewPCG(1, 1))
	for range 20 {
		var l []r2.Vec
		x, y := 2440*rng.Float64(), 1220*rng.Float64()
		for i := range 100 {
			s, k := math.Sincos(2 * math.Pi * float64(i) / 100)
			l = append(l, r2.Vec{X: x + 100*k, Y: y + 100*s})
		}
		c.Solids = append(c.Solids, [][]r2.Vec{l})
	}
	return c
}

func BenchmarkLargest(b *testing.B) {
	for range b.N {
		knots().Largest(never)
	}
}

// A rectangle is placed exactly where some place on whole numbers is free, and
// what is placed is free; so is one as large as the largest, but
// for a millionth where sides slant.
func TestPlaceAgainstAllPlaces(t *testing.T) {
	rng := rand.New(rand.NewPCG(17, 1))
	found, none := 0, 0
	for k := range 120 {
		c := sprinkled(rng, k%3 == 0)
		w, h := float64(10+rng.IntN(90)), float64(5+rng.IntN(60))
		if k%3 == 0 {
			b := c.Largest(never)
			w, h = (b.Max.X-b.Min.X)*(1-1e-6), (b.Max.Y-b.Min.Y)*(1-1e-6)
		}
		low, ok := c.Place(Size{w, h}, never)
		if k%3 == 0 {
			require.True(t, ok, "case %d: %g x %g", k, w, h)
		} else {
			any, cells := false, freeUnits(c)
			for x := 0; x+int(w) <= 120 && !any; x++ {
				for y := 0; y+int(h) <= 80 && !any; y++ {
					any = cells.all(x, y, x+int(w), y+int(h))
				}
			}
			require.Equal(t, any, ok, "case %d: %g x %g at %v", k, w, h, low)
		}
		if ok {
			require.True(t, sprinkledFree(c, low.X, low.Y, w, h), "case %d: %g x %g at %v", k, w, h, low)
			found++
		} else {
			none++
		}
	}
	require.Greater(t, min(found, none), 10)
}

// sprinkledFree asks a grid of points, a little inside the sides.
func sprinkledFree(c Clearing, x, y, w, h float64) bool {
	const n = 30
	for i := range n + 1 {
		for j := range n + 1 {
			p := r2.Vec{X: x + 1e-6 + (w-2e-6)*float64(i)/n, Y: y + 1e-6 + (h-2e-6)*float64(j)/n}
			if !free(c, p) {
				return false
			}
		}
	}
	return true
}
