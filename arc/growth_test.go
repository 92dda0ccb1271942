package arc_test

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// grid returns the centers of n places in rows, and how many are in a row.
func grid(n int) []r2.Vec {
	row := int(math.Ceil(math.Sqrt(float64(n))))
	out := make([]r2.Vec, n)
	for i := range out {
		out[i] = r2.Vec{X: float64(i%row) * 10, Y: float64(i/row) * 10}
	}
	return out
}

// squares returns n/4 loops apart.
func squares(n int) []arc.Path {
	var out []arc.Path
	for _, c := range grid(n / 4) {
		out = append(out, arc.Rect(c.X, c.Y, c.X+6, c.Y+6))
	}
	return out
}

// nested returns n/2 circles, each within the next.
func nested(n int) []arc.Path {
	var out []arc.Path
	for i := range n / 2 {
		out = append(out, arc.Circle(r2.Vec{}, float64(i+1)))
	}
	return out
}

// sieve returns a wavy loop of n/2 segments and n/8 squares inside.
func sieve(n int) []arc.Path {
	out := squares(n / 2)
	b := out[0].Bounds()
	for _, p := range out {
		q := p.Bounds()
		b.Max.X, b.Max.Y = math.Max(b.Max.X, q.Max.X), math.Max(b.Max.Y, q.Max.Y)
	}
	c := r2.Scale(0.5, r2.Add(b.Min, b.Max))
	w := wavy(n / 2)
	w = w.Transform(arc.Scale(2 * b.Max.X / float64(n)).Then(arc.Shift(c)))
	return append(out, w)
}

// loose returns the segments of paths one by one, in any order and direction.
func loose(paths []arc.Path) []arc.Path {
	rng := rand.New(rand.NewPCG(3, 4))
	var out []arc.Path
	for _, p := range paths {
		for i := range p.NumSegments() {
			s := p.Segment(i)
			if rng.IntN(2) == 0 {
				s = s.Reverse()
			}
			out = append(out, s.Path())
		}
	}
	rng.Shuffle(len(out), func(i, j int) { out[i], out[j] = out[j], out[i] })
	return out
}

// spokes returns n lines that all start at one point.
func spokes(n int) []arc.Path {
	var out []arc.Path
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		out = append(out, arc.Polyline(r2.Vec{}, r2.Vec{X: 100 * cos, Y: 100 * sin}))
	}
	return out
}

// petals returns a loop of n arcs that all bound its hull.
func petals(n int) arc.Path {
	p, _ := arc.RegularPolygon(r2.Vec{}, n, float64(n), 0)
	for i := range p.V {
		p.V[i].K = 0.3 / float64(n)
		if i%2 == 1 {
			p.V[i].K *= 0.5
		}
	}
	return p
}

// growth is what has to grow nearly as n log n: each makes input of n segments
// and returns what is to be timed.
var growth = []struct {
	name string
	make func(n int) func() error
}{
	{"ConnectLoops", func(n int) func() error { return connecting(loose(squares(n))) }},
	{"ConnectOne", func(n int) func() error { return connecting(loose([]arc.Path{wavy(n)})) }},
	{"ConnectSpokes", func(n int) func() error { return connecting(spokes(n)) }},
	{"ConnectStray", func(n int) func() error { // and a line a kilometer off
		far := arc.Polyline(r2.Vec{X: 1e9}, r2.Vec{X: 1e9, Y: 5})
		return connecting(append(loose([]arc.Path{wavy(n).Transform(arc.Scale(100 / float64(n)))}), far))
	}},
	{"RegionsApart", func(n int) func() error { return nesting(squares(n)) }},
	{"RegionsNested", func(n int) func() error { return nesting(nested(n)) }},
	{"RegionsTiled", func(n int) func() error { // each touches its four neighbors, in a frame
		var out []arc.Path
		for _, c := range grid(n / 4) {
			out = append(out, arc.Rect(c.X, c.Y, c.X+10, c.Y+10))
		}
		return nesting(append(out, arc.Rect(-5, -5, 1e4, 1e4)))
	}},
	{"RegionsSieve", func(n int) func() error { return nesting(sieve(n)) }},
	{"Split", func(n int) func() error {
		p := wavy(n)
		l := p.Length()
		var at []float64
		for i := range n / 2 {
			at = append(at, l*float64(i)/float64(n/2))
		}
		return func() error { _, err := p.Split(at...); return err }
	}},
	{"HullWavy", func(n int) func() error {
		p := wavy(n)
		return func() error { _, err := arc.ConvexHull(p); return err }
	}},
	{"HullPetals", func(n int) func() error {
		p := petals(n)
		return func() error { _, err := arc.ConvexHull(p); return err }
	}},
	{"FramePetals", func(n int) func() error {
		p := petals(n)
		return func() error { _, err := arc.SmallestFrame(p); return err }
	}},
	{"PathCheck", func(n int) func() error { p := wavy(n); return func() error { return p.Check(0) } }},
	{"RegionCheck", func(n int) func() error { p := wavy(n); return func() error { return arc.Region{Outer: p}.Check(0) } }},
	{"Offset", func(n int) func() error {
		p := wavy(n)
		return func() error { _, err := p.Offset(3, arc.OffsetOptions{}); return err }
	}},
	{"UnionOfMany", func(n int) func() error {
		var set []arc.Region
		for _, c := range grid(n / 2) {
			set = append(set, arc.Region{Outer: arc.Circle(c, 5.5)})
		}
		return func() error { _, err := arc.Union(set, nil, 0); return err }
	}},
	{"GapAround", func(n int) func() error {
		p, q := wavy(n/2), wavy(n/2)
		q = q.Transform(arc.Scale(1.1))
		return func() error { _, err := p.Gap(q); return err }
	}},
	{"GapBeside", func(n int) func() error {
		p := wavy(n / 2)
		q := p.Transform(arc.Shift(r2.Vec{X: 1.2 * float64(n), Y: 0.1 * float64(n)}))
		return func() error { _, err := p.Gap(q); return err }
	}},
	{"CleanWave", func(n int) func() error { p := wavy(n); return func() error { _, err := p.Clean(0.01); return err } }},
	{"CleanTraced", func(n int) func() error {
		p, _ := arc.RegularPolygon(r2.Vec{}, n, float64(n), 0)
		return func() error { _, err := p.Clean(0.01); return err }
	}},
	{"SelfContacts", func(n int) func() error {
		p := wavy(n)
		return func() error { _, err := p.SelfContacts(0); return err }
	}},
}

func connecting(p []arc.Path) func() error {
	return func() error { _, err := arc.Connect(p, 1e-6); return err }
}

func nesting(p []arc.Path) func() error {
	return func() error { _, err := arc.Regions(p); return err }
}

// slope returns that of the line of least squares.
func slope(x, y []float64) float64 {
	var mx, my, sxx, sxy float64
	n := float64(len(x))
	for i := range x {
		mx, my = mx+x[i]/n, my+y[i]/n
	}
	for i := range x {
		sxx, sxy = sxx+(x[i]-mx)*(x[i]-mx), sxy+(x[i]-mx)*(y[i]-my)
	}
	return sxy / sxx
}
