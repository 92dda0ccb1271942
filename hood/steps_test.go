package hood

import (
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"
)

// The walk of the order of work looks at the meshes as one looks along the way
// that a part comes: wherever a standing part lies before the nearest wood of
// the moving one, the way is closed. It takes nothing from the steps but the
// names of the parts and their sequence.

// grain is the pitch of the view, mm. What touches is kept apart by a pixel all
// around, so that parts thinner than three pixels are not seen on edge.
const grain = 1.5

// deep is by how much meshes of touching curved faces may lie in one another, mm.
const deep = 0.9

// waysIn are the directions that parts are tried from, coming toward the hood.
var waysIn = func() []r3.Vec {
	out := []r3.Vec{{Z: 1}, {Z: -1}, {Y: 1}, {Y: -1}, {X: 1}, {X: -1}}
	for _, tilt := range []float64{0.35, 0.8, 1.2} {
		s, c := math.Sincos(tilt)
		for _, up := range []float64{1, -1} {
			out = append(out, r3.Vec{Y: up * s, Z: c}, r3.Vec{X: c, Y: up * s}, r3.Vec{X: -c, Y: up * s}, r3.Vec{X: s, Z: up * c}, r3.Vec{X: -s, Z: up * c})
		}
	}
	return out
}()

// A view is how near and how far a part's wood is, pixel by pixel of the plane
// square to a way; depth grows toward where the part comes from.
type view struct {
	x0, y0, w, h int
	low, high    []float64
}

func lookAt(s Solid, from r3.Vec) view {
	u := r3.Vec{X: 1}
	if math.Abs(from.X) > 0.9 {
		u = r3.Vec{Y: 1}
	}
	u = r3.Unit(r3.Sub(u, r3.Scale(r3.Dot(u, from), from)))
	v := r3.Cross(from, u)
	pts := make([]r3.Vec, len(s.Vertices))
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for i, p := range s.Vertices { // the shift keeps pixels off round sizes
		pts[i] = r3.Vec{X: r3.Dot(p, u)/grain + 0.1234, Y: r3.Dot(p, v)/grain + 0.4321, Z: r3.Dot(p, from)}
		x0, y0, x1, y1 = min(x0, pts[i].X), min(y0, pts[i].Y), max(x1, pts[i].X), max(y1, pts[i].Y)
	}
	out := view{x0: int(math.Floor(x0)), y0: int(math.Floor(y0))}
	out.w, out.h = int(math.Ceil(x1))-out.x0+1, int(math.Ceil(y1))-out.y0+1
	out.low, out.high = make([]float64, out.w*out.h), make([]float64, out.w*out.h)
	for i := range out.low {
		out.low[i], out.high[i] = math.Inf(1), math.Inf(-1)
	}
	for _, t := range s.Triangles {
		out.triangle(pts[t[0]], pts[t[1]], pts[t[2]])
	}
	return out.eroded()
}

func (v view) triangle(a, b, c r3.Vec) {
	area := (b.X-a.X)*(c.Y-a.Y) - (c.X-a.X)*(b.Y-a.Y)
	if area == 0 {
		return
	}
	top, bottom := min(a.Y, b.Y, c.Y), max(a.Y, b.Y, c.Y)
	for y := int(math.Ceil(top)); float64(y) <= bottom; y++ {
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, e := range [3][2]r3.Vec{{a, b}, {b, c}, {c, a}} {
			p, q := e[0], e[1]
			if (p.Y > float64(y)) != (q.Y > float64(y)) {
				x := p.X + (q.X-p.X)*(float64(y)-p.Y)/(q.Y-p.Y)
				lo, hi = min(lo, x), max(hi, x)
			}
		}
		for x := int(math.Ceil(lo)); float64(x) <= hi; x++ {
			f := ((float64(x)-a.X)*(c.Y-a.Y) - (c.X-a.X)*(float64(y)-a.Y)) / area
			g := ((b.X-a.X)*(float64(y)-a.Y) - (float64(x)-a.X)*(b.Y-a.Y)) / area
			z := a.Z + f*(b.Z-a.Z) + g*(c.Z-a.Z)
			i := (y-v.y0)*v.w + x - v.x0
			v.low[i], v.high[i] = min(v.low[i], z), max(v.high[i], z)
		}
	}
}

// eroded takes a pixel off all around, and where it is off takes the mildest of
// its neighbors, so that only what is surely wood counts.
func (v view) eroded() view {
	out := v
	out.low, out.high = slices.Repeat([]float64{math.Inf(1)}, len(v.low)), slices.Repeat([]float64{math.Inf(-1)}, len(v.high))
	for y := 1; y < v.h-1; y++ {
	pixels:
		for x := 1; x < v.w-1; x++ {
			low, high := math.Inf(-1), math.Inf(1)
			for dy := -1; dy <= 1; dy++ {
				for dx := -1; dx <= 1; dx++ {
					i := (y+dy)*v.w + x + dx
					if v.low[i] > v.high[i] {
						continue pixels
					}
					low, high = max(low, v.low[i]), min(high, v.high[i])
				}
			}
			out.low[y*v.w+x], out.high[y*v.w+x] = low, high
		}
	}
	return out
}

// blocks counts the pixels in which a standing part is in the way.
func (v view) blocks(standing view) int {
	n := 0
	for y := max(v.y0, standing.y0); y < min(v.y0+v.h, standing.y0+standing.h); y++ {
		for x := max(v.x0, standing.x0); x < min(v.x0+v.w, standing.x0+standing.w); x++ {
			if standing.high[(y-standing.y0)*standing.w+x-standing.x0] > v.low[(y-v.y0)*v.w+x-v.x0]+deep {
				n++
			}
		}
	}
	return n
}

// A walker keeps the views of a model.
type walker struct {
	solids map[string]Solid
	views  map[string]map[int]view
}

func newWalker(t *testing.T, d Design) walker {
	model, err := d.Model()
	require.NoError(t, err)
	w := walker{map[string]Solid{}, map[string]map[int]view{}}
	for _, m := range model {
		w.solids[m.Name], w.views[m.Name] = m, map[int]view{}
	}
	return w
}

func (w walker) view(name string, way int) view {
	v, ok := w.views[name][way]
	if !ok {
		v = lookAt(w.solids[name], waysIn[way])
		w.views[name][way] = v
	}
	return v
}

// wayIn returns the first direction in which the movers come to their place
// past what stands; where there is none, what is in the way in the best one.
func (w walker) wayIn(movers, standing []string) (way int, blocked string) {
	best := math.MaxInt
	for i := range waysIn {
		n, worst, by := 0, 0, ""
		for _, m := range movers {
			for _, s := range standing {
				k := w.view(m, i).blocks(w.view(s, i))
				if n += k; k > worst {
					worst, by = k, m+" by "+s
				}
			}
			if n > best {
				break
			}
		}
		if n == 0 {
			return i, ""
		}
		if n < best {
			best, blocked = n, by
		}
	}
	return -1, blocked
}

// walk builds a hood up step by step and returns the first that cannot be done.
func (w walker) walk(d Design, steps []Step) string {
	panel := map[string]string{}
	for _, p := range d.Parts {
		panel[p.Name] = p.Panel
	}
	var standing, wall []string
	for _, s := range steps {
		if s.Hangs {
			if _, by := w.wayIn(standing, wall); by != "" {
				return "hanging: " + by
			}
			standing = append(standing, wall...)
		}
		for i := 0; i < len(s.Adds); {
			group := []string{s.Adds[i]}
			for i++; i < len(s.Adds) && panel[s.Adds[i]] == panel[group[0]]; i++ {
				group = append(group, s.Adds[i]) // plies, glued up
			}
			if group[0] == "cleat-wall" {
				wall = group
				continue
			}
			if _, by := w.wayIn(group, standing); by != "" {
				return strings.Join(group, ", ") + ": " + by
			}
			standing = append(standing, group...)
		}
	}
	return ""
}

func TestStepsCanBeDone(t *testing.T) {
	n := 20
	switch {
	case os.Getenv("SAGITTA_FULL") == "1":
		n = 200
	case testing.Short():
		n = 6
	}
	r := rand.New(rand.NewPCG(3, 5))
	for i := 0; i < n; {
		d, err := Build(randomWay(r, randomSpec(r)))
		if err != nil {
			continue
		}
		i++
		steps := d.Steps()
		sayTheParts(t, d, steps)
		if stuck := newWalker(t, d).walk(d, steps); stuck != "" {
			t.Errorf("%d: %s\n%+v", i, stuck, d.Spec)
		}
	}
}

// sayTheParts asks every part of the hood to be added once, by a step that names
// it, and the words to speak of what there is.
func sayTheParts(t *testing.T, d Design, steps []Step) {
	var all []string
	text := ""
	bent, fitted := -1, -1
	for i, s := range steps {
		all = append(all, s.Adds...)
		text += s.Text + "\n"
		for _, name := range s.Adds {
			p, ok := d.Part(name)
			require.True(t, ok, name)
			assert.Contains(t, s.Text, p.Panel)
		}
		switch {
		case strings.HasPrefix(s.Text, "Bend ") && strings.Contains(s.Text, "kerfs"):
			bent = i
		case strings.HasPrefix(s.Text, "Before any glue"):
			fitted = i
		}
	}
	assert.Less(t, bent, fitted, "bent before it is fitted")
	var want []string
	kerfs, rabbets := false, false
	for _, p := range d.Parts {
		if p.Kind != KindForm {
			want = append(want, p.Name)
		}
		kerfs = kerfs || len(p.Kerfs) > 0
		rabbets = rabbets || rabbeted(p)
	}
	assert.ElementsMatch(t, want, all)
	for _, c := range d.Cautions {
		text += c.Text + "\n"
	}
	assert.Equal(t, rabbets, strings.Contains(text, "rabbet"), text)
	assert.Equal(t, kerfs, strings.Contains(strings.ToLower(text), "kerf"), text)
	if d.Spec.Liner.Length == 0 {
		assert.NotContains(t, strings.ReplaceAll(text, "No insert is", ""), "insert", text)
	}
}

// Steps in a wrong sequence are seen to be: what closes a way comes before what
// takes it.
func TestWrongStepsAreSeen(t *testing.T) {
	spec := whole(demo())
	spec.Liner.Y = 40
	d, err := Build(spec)
	require.NoError(t, err)
	w, steps := newWalker(t, d), d.Steps()
	require.Empty(t, w.walk(d, steps))
	at := func(name string) int {
		return slices.IndexFunc(steps, func(s Step) bool { return slices.Contains(s.Adds, name) })
	}
	move := func(from, after string) []Step { // one step behind another
		i, j := at(from), at(after)
		return slices.Insert(slices.Delete(slices.Clone(steps), i, i+1), j, steps[i])
	}
	for _, c := range []struct{ late, after, by string }{
		{"liner-shelf", "back", "liner-shelf: liner-shelf by back"}, // shut in
		{"rib-1", "back", "rib-1: rib-1 by liner-shelf"},            // its foot goes down into what stands under a deck
		{"back", "cleat", "back: back by liner-shelf"},              // whose tabs went into it

	} {
		stuck := w.walk(d, move(c.late, c.after))
		assert.Equal(t, c.by, stuck, "%s after %s", c.late, c.after)
	}
	around := []string{"cheek-left", "cheek-right", "deck", "back"}
	_, by := w.wayIn([]string{"liner-shelf"}, around)
	assert.Empty(t, by, "from the front, along its grooves")
	_, by = w.wayIn([]string{"liner-shelf"}, append(around, "skirt", "sweep"))
	assert.NotEmpty(t, by, "closed in")
}
