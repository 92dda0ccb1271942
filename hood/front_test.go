package hood

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/sagitta/arc"
)

// Closed forms of the circular segment (Machinery's Handbook, 31st ed., pp.
// 79-83) and of the kerf plan, worked out with 40 digits: chord 758.946638 and
// sag 45 on a board of 19 with kerfs of 3.2 and a web of 1.6.
func TestFrontClosedForm(t *testing.T) {
	for _, w := range []struct {
		shape               string
		pitch, flat, facet  float64
		low                 float64 // lean of the lower tangent, degrees
		mouth               float64
		opens               bool
		strain, turnPerKerf float64
	}{
		{shape: "cove", pitch: 36.497573116, flat: 766.449035431, facet: 0.0935784, low: 1, opens: true},
		{shape: "bow", pitch: 36.461599277, flat: 765.693584814, facet: 0.0934773, low: -1},
	} {
		s := demo()
		s.Sweep.Shape = w.shape
		d, err := Build(s)
		require.NoError(t, err, w.shape)
		f := d.Front
		chord := math.Hypot(240, 720)
		k := 2 * 45 / chord
		turn := 4 * math.Atan(k)
		assert.InDelta(t, chord, f.Chord, 1e-9)
		assert.InDelta(t, 1622.5, f.Radius, 1e-9)
		assert.InDelta(t, turn, float64(f.Turn), 1e-12)
		assert.InDelta(t, 27.051442940, f.Turn.Degrees(), 5e-10)
		assert.InDelta(t, math.Atan2(240, 720), float64(f.Lean), 1e-12)
		assert.InDelta(t, 766.041871557, f.ShowLength, 5e-10)
		assert.InDelta(t, w.flat, f.FlatLength, 5e-10)
		assert.InDelta(t, (math.Atan2(240, 720)+w.low*turn/2)/2, float64(f.SkirtBevel), 1e-12)
		assert.Equal(t, 21, f.Kerfs.Count)
		assert.InDelta(t, w.pitch, f.Kerfs.Pitch, 5e-10)
		assert.InDelta(t, w.pitch/2, f.Kerfs.First, 5e-10)
		assert.InDelta(t, w.facet, f.Kerfs.Facet, 5e-8)
		assert.InDelta(t, 0.00562067, f.Kerfs.Strain, 1e-8)
		a := turn / 21
		assert.InDelta(t, a, float64(f.Kerfs.Turn), 1e-12)
		assert.InDelta(t, 3.2+w.low*a*(19-0.8), f.Kerfs.Mouth, 1e-9)
		assert.Equal(t, w.opens, f.Kerfs.Opens)
	}
}

// A wall hood with a flat front, 4 ft 9 in high less a 2 in turn-down and 2 ft
// 6 in deep: Atkins, Practical Sheet and Plate Metal Work, ch. VIII, prints
// "62 2/3 nearly" for the length of the front.
func TestFlatFrontAtkins(t *testing.T) {
	s := demo()
	s.Sweep = Sweep{}
	s.Height, s.Skirt = 57*arc.Inch, 2*arc.Inch
	s.Neck.Depth = 10 * arc.Inch
	s.Depth = s.Neck.Depth + 30*arc.Inch
	d, err := Build(s)
	require.NoError(t, err)
	assert.InDelta(t, 62.649820, d.Front.ShowLength/arc.Inch, 5e-7)
	assert.InDelta(t, 62+2.0/3, d.Front.ShowLength/arc.Inch, 0.02)
	p, ok := d.Part("sweep")
	require.True(t, ok)
	assert.InDelta(t, 1050*62.649820*arc.Inch, p.Outline.Area(), 0.1)
	for _, c := range d.Checks {
		assert.LessOrEqual(t, c.Value, 1e-5, c.Name) // nothing is bent
	}
}

// The parts of a plumb hood against the areas a pencil gives.
func TestPartAreas(t *testing.T) {
	d, err := Build(demo())
	require.NoError(t, err)
	r, turn := 1622.5, 4*math.Atan(90/math.Hypot(240, 720))
	segment := r * r * (turn - math.Sin(turn)) / 2
	area := map[string]float64{
		"cheek-left":  540*140 + (540+300)/2*720 - segment,
		"cheek-right": 540*140 + (540+300)/2*720 - segment,
		"skirt":       1050 * 140,
		"sweep":       1050 * d.Front.FlatLength,
		"back":        (1050-2*10)*860 - math.Pi*80*80,
	}
	for name, want := range area {
		p, ok := d.Part(name)
		require.True(t, ok, name)
		assert.InDelta(t, want, p.Outline.Area(), 1e-6*want/1000, name)
	}
	left, _ := d.Part("cheek-left")
	right, _ := d.Part("cheek-right")
	mirrored := left.Outline.Transform(arc.MirrorX().Then(arc.Shift(r2vec(540, 0))))
	for _, v := range right.Outline.Outer.V { // the one lies on the other, mirrored
		assert.Less(t, closedAsOpen(mirrored.Outer).Distance(v.P), 1e-9)
	}
	assert.InDelta(t, mirrored.Area(), right.Outline.Area(), 1e-6)
	assert.InDelta(t, left.Mass, right.Mass, 1e-9)
}

func closedAsOpen(p arc.Path) arc.Path {
	return arc.Path{V: append(append([]arc.Vertex{}, p.V...), p.V[0])}
}

// Without kerf facets the joints of a plumb hood close to rounding: bent over
// its true curve, the sweep lies on the front edges of the cheeks and ends at
// the neck, show face and back.
func TestIdealCurveCloses(t *testing.T) {
	for _, shape := range []string{"cove", "bow", "ogee", "reverse-ogee"} {
		s := demo()
		s.Sweep = Sweep{Shape: shape, Sag: 20}
		d, err := Build(s)
		require.NoError(t, err)
		skirt, _ := d.Part("skirt")
		sweep, _ := d.Part("sweep")
		cheek, _ := d.Part("cheek-right")
		edge, _ := cheek.Edge("front")
		a, _ := skirt.Edge("top")
		b, _ := sweep.Edge("bottom")
		// From the skirt's top edge, turned by the two bevels, along the arcs
		// that the curve's own facts name.
		at := r2vec(540, 140)
		heading := math.Pi/2 + float64(a.Bevel+b.Bevel)
		arcs := d.Front.Arcs
		if len(arcs) == 0 {
			arcs = []Curve{d.Front}
		}
		for _, c := range arcs {
			sense := 1.0
			if c.Kerfs.Opens {
				sense = -1
			}
			for range 50 {
				// Gauss would do with fewer; Simpson over each short arc.
				l := c.ShowLength / 50
				h := float64(c.Turn) * sense / 50
				at.X += l / 6 * (math.Cos(heading) + 4*math.Cos(heading+h/2) + math.Cos(heading+h))
				at.Y += l / 6 * (math.Sin(heading) + 4*math.Sin(heading+h/2) + math.Sin(heading+h))
				heading += h
				assert.Less(t, edge.Show.Distance(at), 1e-6, shape)
				in := r2vec(at.X-19*math.Sin(heading), at.Y+19*math.Cos(heading))
				assert.Less(t, edge.Back.Distance(in), 1e-6+endSlack(at.Y), shape)
			}
		}
		assert.InDelta(t, 300, at.X, 1e-6, shape)
		assert.InDelta(t, 860, at.Y, 1e-6, shape)
	}
}

// endSlack leaves out the ends, where the cheek's back edge is trimmed by its
// own ends.
func endSlack(z float64) float64 {
	if z < 170 || z > 830 {
		return 20
	}
	return 0
}

func TestArcOfNoSagIsItsChord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := demo()
		s.Height = rapid.Float64Range(500, 1200).Draw(t, "height")
		s.Depth = rapid.Float64Range(400, 700).Draw(t, "depth")
		s.Back.Openings = nil
		s.Liner, s.Duct = Liner{}, Duct{}
		ratio := rapid.Float64Range(1e-5, 0.1).Draw(t, "ratio") // flatter ones are straight
		s.Neck.Depth = rapid.Float64Range(150, 350).Draw(t, "neck")
		chord := math.Hypot(s.Depth-s.Neck.Depth, s.Height-s.Skirt)
		s.Sweep.Sag = ratio * chord
		d, err := Build(s)
		if err != nil {
			require.NotErrorIs(t, err, ErrOpen)
			return
		}
		k := 2 * ratio
		assert.GreaterOrEqual(t, d.Front.ShowLength, chord)
		assert.InEpsilon(t, chord*(1+2*k*k/3), d.Front.ShowLength, k*k*k*k+1e-14)
		assert.InDelta(t, float64(d.Front.Turn), float64(d.Front.Kerfs.Turn)*float64(d.Front.Kerfs.Count), 1e-12)
		if d.Front.Kerfs.Opens { // the blank is as long as the middle of the web, nearly
			assert.Greater(t, d.Front.FlatLength, d.Front.ShowLength)
			assert.Less(t, d.Front.FlatLength, d.Front.ShowLength+19*float64(d.Front.Turn))
		}
	})
}
