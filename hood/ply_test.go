package hood

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/arc"
	"example.com/sagitta/bend"
	"example.com/sagitta/hood/internal/boards"
	"example.com/sagitta/hood/internal/rise"
	"example.com/sagitta/hood/part"
)

// laminated makes the curved panels of a hood of plies.
func laminated(s Spec, plies float64) Spec {
	s.Bend = Bend{Method: "laminate", Strain: 0.008, Ply: Ply{Thickness: s.Board.Thickness / plies}}
	return s
}

// bentAsIs bends the front in one sheet.
func bentAsIs(s Spec) Spec {
	s.Bend = Bend{Method: "as-is", Strain: 0.008}
	s.Ribs = Ribs{Spacing: 300, Depth: 60}
	return s
}

// The cove of chord √(240²+720²) and sag 45 has R 1622.5 and a turn of
// 27.051442940 degrees, worked out with 40 digits. A ply's middle at depth d
// keeps its length (R ± d)·turn: more in a cove, whose back is the outside of
// the bend, less in a bow. A pack of n plies springs back to R·n²/(n²−1), from
// elastic bending of equal plies; a ply t thick bent to R strains by t/(2R).
func TestPliesClosedForm(t *testing.T) {
	const radius, thickness, n = 1622.5, 19.0, 4.0
	turn := 27.051442940 * math.Pi / 180
	for shape, sense := range map[string]float64{"cove": 1, "bow": -1} {
		s := laminated(demo(), n)
		s.Sweep.Shape = shape
		d, err := Build(s)
		require.NoError(t, err)
		inside := radius
		if shape == "bow" {
			inside -= thickness
		}
		form := (inside+thickness/2)*(n*n-1)/(n*n) - thickness/2
		p := d.Front.Plies
		assert.Equal(t, 4, p.Count)
		assert.InDelta(t, form, p.FormRadius, 1e-9)
		assert.InDelta(t, thickness/n/2/(form+thickness/n/2), p.Strain, 1e-12)
		assert.InDelta(t, p.Strain/0.008, p.Use, 1e-12)
		for i := range 4 {
			want := (radius + sense*thickness/n*(float64(i)+0.5)) * turn
			assert.InDelta(t, want, p.Lengths[i], 1e-6)
			ply, ok := d.Part(fmt.Sprintf("sweep-ply-%d", i+1))
			require.True(t, ok)
			_, width := ply.Size()
			if d.Front.SkirtBevel > 0 { // no bevel needs more
				assert.InDelta(t, want, width, 1e-6)
			}
			assert.Equal(t, thickness/n, ply.Thickness)
			assert.Empty(t, ply.Kerfs)
		}
		rib, ok := d.Part("form-rib-front")
		require.True(t, ok)
		face, _ := rib.Edge("face")
		back := radius + sense*thickness/2 // the middle of the pack, then its back
		assert.InDelta(t, back*(n*n-1)/(n*n)+sense*thickness/2, face.Show.Segment(0).Radius(), 1e-6)
		assert.Equal(t, shape == "cove", face.Show.Segment(0).K < 0, "hollow in a cove")
	}
}

// A ply of APA plywood, 1/4 in, may be bent to 2 ft across its grain; as it is,
// 1/2 in takes 6 ft (APA, The Engineered Wood Association).
func TestPublishedRadii(t *testing.T) {
	s := bentAsIs(demo())
	s.Bend.Strain = 0
	s.Board = Board{Material: "plywood", Thickness: arc.Inch / 2}
	for _, w := range []struct {
		radius float64
		ok     bool
	}{{6*arc.Foot + 1, true}, {6*arc.Foot - 1, false}} {
		c := math.Hypot(240, 720) / 2
		s.Sweep.Sag = w.radius - math.Sqrt(w.radius*w.radius-c*c)
		d, err := Build(s)
		if !w.ok {
			assert.Equal(t, []string{"sweep.sag"}, params(err))
			continue
		}
		require.NoError(t, err)
		assert.InDelta(t, 6*arc.Foot/w.radius, d.Front.Plies.Use, 1e-9)
		p, _ := d.Part("sweep")
		assert.Empty(t, p.Kerfs)
		assert.InDelta(t, d.Front.ShowLength*(w.radius+arc.Inch/4)/w.radius, p.Outline.Bounds().Max.Y, 1e-7, "the middle keeps its length")
	}
	l := laminated(demo(), 3)
	l.Board.Thickness = 3 * arc.Inch / 4
	l.Bend.Strain, l.Bend.Ply = 0, Ply{Material: "plywood", Thickness: arc.Inch / 4}
	d, err := Build(l)
	require.NoError(t, err)
	assert.InDelta(t, 2*arc.Foot/d.Front.Plies.FormRadius, d.Front.Plies.Use, 1e-9)
}

// The mass of a ply is that of its trimmed middle surface times its thickness.
func TestPlyMass(t *testing.T) {
	s := laminated(demo(), 5)
	s.Sweep.Shape, s.Corner, s.Skirt, s.Bend.Trim = "bow", "front-covers", 0, 15
	s.Sweep.Sag = 20
	d, err := Build(s)
	require.NoError(t, err)
	total := 0.0
	for _, p := range d.Parts {
		if p.Kind != KindForm {
			total += p.Mass
		}
		if p.Ply == 0 {
			continue
		}
		low, high := p.Levels(p.Thickness / 2)
		assert.InEpsilon(t, 1050*(high-low)*p.Thickness*769e-9, p.Mass, 1e-5, p.Name)
	}
	assert.InEpsilon(t, total, d.Mass, 1e-12)
	checkModel(t, d)
}

// A pack holds the wood of one board bent to the same curve: the middles of its
// plies are as long, together, as that of the board as often.
func TestPackIsABoard(t *testing.T) {
	for _, shape := range []string{"cove", "bow", "ogee", "reverse-ogee"} {
		s := demo()
		s.Sweep = Sweep{Shape: shape, Sag: 12}
		one, err := Build(bentAsIs(s))
		require.NoError(t, err)
		sheet, ok := one.Part("sweep")
		require.True(t, ok)
		for n := 2.0; n < 9; n++ {
			d, err := Build(laminated(s, n))
			require.NoError(t, err)
			mass, length := 0.0, 0.0
			for _, p := range d.Parts {
				if p.Ply > 0 {
					mass += p.Mass
				}
			}
			for _, l := range d.Front.Plies.Lengths {
				length += l / n
			}
			assert.InEpsilon(t, sheet.Mass, mass, 1e-4)
			assert.InEpsilon(t, one.Front.FlatLength, length, 1e-12)
		}
	}
}

// The fewest plies that are taken are those that package bend plans for the
// inside of the curve.
func TestFewestPlies(t *testing.T) {
	for _, strain := range []float64{0.0008, 0.0012, 0.002, 0.003} {
		s := demo()
		l, err := bend.Laminate(1622.5, bend.Pack{Thickness: 19, Strain: strain})
		require.NoError(t, err)
		for n := max(2, l.Plies-1); n <= l.Plies; n++ {
			way := laminated(s, float64(n))
			way.Bend.Strain = strain
			d, err := Build(way)
			if n < l.Plies {
				assert.Equal(t, []string{"bend.ply.thickness"}, params(err), "%d of %d", n, l.Plies)
				continue
			}
			require.NoError(t, err)
			assert.InDelta(t, l.Strain, d.Front.Plies.Strain, 1e-12)
			assert.InDelta(t, l.FormRadius, d.Front.Plies.FormRadius, 1e-9)
		}
	}
}

// Every shape closes in every corner joint, with all that can be added, and
// its form springs back to it.
func TestRolledShapes(t *testing.T) {
	for _, shape := range []string{"cove", "bow", "ogee", "reverse-ogee", "ellipse", "points"} {
		for _, corner := range []string{"miter", "front-covers", "cheek-covers"} {
			if corner != "miter" && testing.Short() {
				continue
			}
			for _, skirt := range []float64{0, 140} {
				s := whole(demo())
				s.Corner, s.Skirt, s.Scribe, s.Duct = corner, skirt, Scribe{}, Duct{}
				s.Sweep = Sweep{Shape: shape, Sag: 15}
				switch shape {
				case "points":
					s.Sweep = Sweep{Shape: shape, Points: [][2]float64{{440, skirt + 180}, {370, skirt + 420}}}
				case "ellipse":
					s.Sweep.Sag = 0
				}
				if skirt == 0 {
					s.Blocks = Blocks{}
					if shape == "ellipse" {
						continue
					}
				}
				if corner == "cheek-covers" {
					s.Dado = Dado{}
				}
				for _, way := range []Spec{laminated(s, 2), laminated(s, 3), laminated(s, 7), bentAsIs(s)} {
					way.Bend.Strain, way.Bend.Trim, way.Joint = 0.3, 8, 2
					d, err := Build(way)
					if shape == "ellipse" && way.Sizes().Plies() == 2 { // springs too far for a rib
						assert.Equal(t, []string{"bend.method"}, params(err))
						continue
					}
					require.NoError(t, err, "%s %s %s %g", way.Bend.Method, shape, corner, skirt)
					if skirt > 0 && way.Sizes().Plies() == 3 || !testing.Short() {
						checkModel(t, d)
					}
					for _, c := range d.Checks {
						assert.True(t, c.OK, c.Name)
					}
				}
			}
		}
	}
}

// The proof sees a ply that is cut wrong.
func TestProofSeesAWrongPly(t *testing.T) {
	s := laminated(demo(), 3)
	for name, spoil := range map[string]func(*Part){
		"longer arc":   func(p *Part) { p.Bent[0].To += 1 },
		"less turn":    func(p *Part) { p.Bent[0].Turn *= 0.999 },
		"shifted mark": func(p *Part) { p.Marks[0].Path.V[1].P.Y += 0.2 },
		"thinner":      func(p *Part) { p.Thickness -= 0.1 },
		"trimmed off":  func(p *Part) { p.Edges[2].Show.V[0].P.Y -= 0.1 },
		"short blank":  func(p *Part) { p.Outline.Outer = arc.Rect(0, 0, 1050, 700) },
	} {
		for _, ply := range []string{"sweep-ply-1", "sweep-ply-2", "sweep-ply-3"} {
			b, err := boards.Make(s.Sizes())
			require.NoError(t, err)
			for i := range b.Parts {
				if b.Parts[i].Name == ply {
					spoil(&b.Parts[i])
				}
			}
			open := 0
			for _, c := range prove(&b) {
				if !c.OK {
					open++
				}
			}
			assert.Positive(t, open, "%s of %s", name, ply)
		}
	}
}

func TestWayFaults(t *testing.T) {
	for _, w := range []struct {
		field, need string
		spec        func() Spec
	}{
		{"bend.ply.thickness", "6.3333 mm", func() Spec { s := laminated(demo(), 3); s.Bend.Ply.Thickness = 6; return s }},
		{"bend.ply.thickness", "9.5", func() Spec { s := laminated(demo(), 3); s.Bend.Ply.Thickness = 0; return s }},
		{"bend.ply.thickness", "9.5", func() Spec { return laminated(demo(), 1) }},
		{"bend.ply.thickness", "or less", func() Spec { s := laminated(demo(), 2); s.Bend.Strain = 0.002; return s }},
		{"bend.ply.thickness", "flatter curve", func() Spec { s := laminated(demo(), 2); s.Bend.Strain = 1e-9; return s }},
		{"bend.ply.density", "density", func() Spec { s := laminated(demo(), 2); s.Bend.Ply.Material = "moonwood"; return s }},
		{"bend.ply.sheets[0].length", "> 0", func() Spec { s := laminated(demo(), 2); s.Bend.Ply.Sheets = []Sheet{{Width: 5}}; return s }},
		{"bend.strain", "moonwood", func() Spec {
			s := laminated(demo(), 2)
			s.Bend.Strain, s.Bend.Ply.Material, s.Bend.Ply.Density = 0, "moonwood", 600
			return s
		}},
		{"bend.strain", "moonwood", func() Spec {
			s := bentAsIs(demo())
			s.Bend.Strain, s.Bend.Ply.Material, s.Bend.Ply.Density = 0, "moonwood", 600
			return s
		}},
		{"bend.trim", ">= 0", func() Spec { s := laminated(demo(), 2); s.Bend.Trim = -1; return s }},
		{"bend.form.spacing", "at least", func() Spec { s := laminated(demo(), 2); s.Bend.Form.Spacing = 1e-9; return s }},
		{"ribs.spacing", "ribs", func() Spec { s := bentAsIs(demo()); s.Ribs = Ribs{}; return s }},
		{"ribs.spacing", "between", func() Spec { s := bentAsIs(demo()); s.Ribs.Spacing = 2000; return s }},
		{"sweep.sag", "inside radius", func() Spec { s := bentAsIs(demo()); s.Bend.Strain = 0.004; return s }},
		{"sweep.method", "one of", func() Spec { s := demo(); s.Sweep.Method = "steam"; return s }},
		{"left_sweep.method", "left_sweep.shape", func() Spec { s := demo(); s.LeftSweep.Method = "kerf"; return s }},
	} {
		_, err := Build(w.spec())
		require.Error(t, err, w.field)
		assert.Equal(t, []string{w.field}, params(err), "%v", err)
		assert.Contains(t, err.Error(), w.need)
	}
	s := laminated(demo(), 2)
	s.Sweep.Method = "kerf"
	assert.Contains(t, params(s.Validate()), "bend.kerf_width", "kerfs need what they need")
	s = demo()
	s.Sweep.Method, s.Bend.Ply.Thickness = "laminate", 9.5
	s.Bend.KerfWidth, s.Bend.Web, s.Bend.Facet = 0, 0, 0
	assert.NoError(t, s.Validate(), "plies need no kerfs")
}

// The glued pack is cut straight from the line of its show face to that of its
// back: between them the cut leaves the true corner of the two surfaces at that
// depth by hundredths of a millimetre, and on both panels alike.
func TestPliesAtTheSeam(t *testing.T) {
	s := laminated(flaredDemo(), 4)
	b, err := boards.Make(s.Sizes())
	require.NoError(t, err)
	parts := map[string]part.Folded{}
	for _, piece := range b.Parts {
		f, err := part.Fold(piece)
		require.NoError(t, err)
		parts[piece.Name] = f
	}
	for i := range 4 {
		ply := parts[fmt.Sprintf("sweep-front-ply-%d", i+1)]
		e, ok := ply.Edge("left") // the hood's right
		require.True(t, ok)
		for depth, v := range map[float64]arc.Path{float64(i) * 4.75: e.Show, float64(i+1) * 4.75: e.Back} {
			side, front := b.Right.Section, b.Front
			require.True(t, side.Fold(s.Sizes().RightEnds(), depth+1e-9))
			require.True(t, front.Fold(s.Sizes().FrontEnds(), depth+1e-9))
			on := depth - float64(i)*4.75
			for j := range v.NumSegments() {
				q, _ := v.Segment(j).At(v.Segment(j).Length() / 2)
				at := ply.Point(q, on)
				if at.Y < s.Skirt || at.Y > s.Height {
					continue
				}
				assert.InDelta(t, rise.OutAt(front.Inner, at.Y), at.Z, 1e-6, "on its own surface")
				assert.InDelta(t, rise.OutAt(side.Inner, at.Y), at.X, 0.05, "ply %d at %.0f", i+1, at.Y)
			}
		}
	}
}

// The rabbet for the back runs through the inner plies of a side: those in it
// stop at its shoulder, one that it goes into has a groove.
func TestRabbetInPlies(t *testing.T) {
	for rabbet, want := range map[float64][4]float64{ // depth of the groove; -1 stops short
		0: {}, 4.75: {0, 0, 0, -1}, 6: {0, 0, 1.25, -1}, 9.5: {0, 0, -1, -1}, 3: {0, 0, 0, 3},
	} {
		s := laminated(flaredDemo(), 4)
		s.Back.Rabbet, s.Bend.Trim = rabbet, 10
		d, err := Build(s)
		require.NoError(t, err)
		for i, depth := range want {
			p, ok := d.Part(fmt.Sprintf("sweep-right-ply-%d", i+1))
			require.True(t, ok)
			rear, _ := p.Edge("left")
			first, _ := d.Part("sweep-right-ply-1")
			zero, _ := first.Edge("left")
			short := rear.Show.V[0].P.X + p.Pose.At.Z - zero.Show.V[0].P.X - first.Pose.At.Z
			if depth == -1 {
				assert.InDelta(t, 12, short, 1e-9, "the back's thickness")
				continue
			}
			assert.InDelta(t, 0, short, 1e-9)
			if depth == 0 {
				assert.Empty(t, p.Work.Pockets)
			} else {
				assert.InDelta(t, depth, p.Work.Pockets[0].Depth, 1e-9)
			}
		}
		checkModel(t, d)
	}
}

// A board whose material has a limit of its own needs no strain in the spec.
func TestWaysByMaterial(t *testing.T) {
	s := demo()
	s.Bend.Strain = 0
	ways, err := s.Ways()
	require.NoError(t, err)
	assert.Len(t, ways, 3)
}
