package bend

import (
	"math"
	"testing"

	"example.com/sagitta/arc"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Derived from first principles with 40-digit arithmetic, degrees.
func TestClosingAngleModels(t *testing.T) {
	const in = arc.Inch
	for _, c := range []struct {
		w, t, b             float64
		arc, hinge, tooWide float64
		count               int // for 90°
	}{
		{.125 * in, .75 * in, .125 * in, 10.41741, 10.38886, 11.45916, 9},
		{3, 18, 2, 10.11102, 10.08490, 10.74296, 9},
		{.125 * in, .5 * in, .0625 * in, 15.27887, 15.18929, 16.37022, 6},
	} {
		b := Board{Thickness: c.t, KerfWidth: c.w, Web: c.b}
		assert.InDelta(t, c.arc, b.ClosingAngle().Degrees(), 5e-6)
		assert.InDelta(t, c.hinge, b.HingeAngle().Degrees(), 5e-6)
		shortcut := arc.Angle(c.w / (c.t - c.b))
		assert.InDelta(t, c.tooWide, shortcut.Degrees(), 5e-6)
		assert.Less(t, b.HingeAngle(), b.ClosingAngle())
		assert.Less(t, b.ClosingAngle(), shortcut, "the shortcut overstates")

		// A quarter turn of a radius wide enough not to matter.
		quarter := arc.Path{V: []arc.Vertex{arc.V(2000, 0, math.Tan(math.Pi/8)), arc.V(0, 2000, 0)}}
		p, err := KerfPlan(quarter, b, Limits{})
		require.NoError(t, err)
		assert.Len(t, p.Kerfs, c.count)
		assert.Equal(t, ClosingLimit, p.Limit)
	}
}

// The shortcut says 8 kerfs for 90° in 3/4 in board; 8 run into each other
// before the turn is made.
func TestShortcutCannotClose(t *testing.T) {
	b := Board{Thickness: 19.05, KerfWidth: 3.175, Web: 3.175}
	require.Equal(t, 8.0, math.Ceil(math.Pi/2/(b.KerfWidth/(b.Thickness-b.Web))))
	for _, n := range []int{8, 9} {
		blank := Blank{Board: b, Length: float64(n) * 60}
		for i := range n {
			blank.Kerfs = append(blank.Kerfs, Kerf{At: 30 + 60*float64(i), Turn: 90 * arc.Degree / arc.Angle(n)})
		}
		s, err := Refold(blank, arc.V(0, 0, 0).P, 0)
		require.NoError(t, err)
		for _, m := range s.Mouths {
			assert.Equal(t, n == 8, m < 0)
		}
	}
}

// Closure alone spaces too wide: on R 300 mm, 9 kerfs leave flats of about
// 1.1 mm sagitta (derived).
func TestClosureAloneLeavesFacets(t *testing.T) {
	quarter := arc.Path{V: []arc.Vertex{arc.V(300, 0, math.Tan(math.Pi/8)), arc.V(0, 300, 0)}}
	p, err := KerfPlan(quarter, Board{Thickness: 18, KerfWidth: 3, Web: 2}, Limits{})
	require.NoError(t, err)
	require.Len(t, p.Kerfs, 9)
	assert.InDelta(t, 1.1, farthest(refold(t, p, quarter).Show, quarter), 0.05)
	assert.InDelta(t, 1.1, p.Facet, 0.05)
}

// Building Construction vol. 3, art. 13, Curved Risers: the lift at the mark is
// the spacing. The kerf is closed on a section, its end stands a chord from
// where it was.
func TestLiftRule(t *testing.T) {
	b := Board{Thickness: 18, KerfWidth: 3, Web: 2}
	const radius = 300.0
	a := b.ClosingAngle()
	flat, err := Refold(Blank{b, 400, []Kerf{{At: 20}}}, arc.V(0, 0, 0).P, 0)
	require.NoError(t, err)
	bent, err := Refold(Blank{b, 400, []Kerf{{At: 20, Turn: a}}}, arc.V(0, 0, 0).P, 0)
	require.NoError(t, err)
	p, _ := flat.Neutral.At(20 + radius)
	q, _ := bent.Neutral.At(20 + radius)
	spacing, err := LiftSpacing(radius, a)
	require.NoError(t, err)
	assert.InDelta(t, math.Hypot(q.X-p.X, q.Y-p.Y), spacing, 0.01)
	back, err := ClosingAngleFromLift(spacing, radius)
	require.NoError(t, err)
	assert.InDelta(t, float64(a), float64(back), 1e-12)
}

// Derived, inches: t .75, skin .02, a fold of 90° by n grooves.
func TestFoldWithV(t *testing.T) {
	for n, want := range map[int]float64{1: 1.46000, 2: .604752, 6: .192212} {
		v, err := FoldWithV(.75*arc.Inch, .02*arc.Inch, 90*arc.Degree, n)
		require.NoError(t, err)
		assert.InDelta(t, want, v.Width/arc.Inch, 1e-6)
		assert.InDelta(t, .73, v.Depth/arc.Inch, 1e-12)
	}
	// Folded flats touch the arc at their middles: n of them round a regular
	// polygon about a circle.
	v, err := FoldWithV(18, 0.3, 360*arc.Degree, 12)
	require.NoError(t, err)
	d, err := v.Spacing(100)
	require.NoError(t, err)
	assert.InDelta(t, 12*d, 2400*math.Tan(math.Pi/12), 1e-9)
	assert.InDelta(t, math.Hypot(100, d/2)-100, v.Facet(100), 1e-9)
	assert.NoError(t, v.CheckCutter(30*arc.Degree, 18))
	assert.ErrorIs(t, v.CheckCutter(45*arc.Degree, 18), ErrCutter)
	assert.ErrorIs(t, v.CheckCutter(30*arc.Degree, 17), ErrCutter)
	_, err = v.Spacing(17)
	assert.ErrorIs(t, err, ErrNoRoom)
	for _, n := range []int{-1, 0, 2, 1 << 40} {
		_, err := FoldWithV(18, 0.3, 360*arc.Degree, n)
		assert.ErrorIs(t, err, ErrRange)
	}
}

// APA, The Engineered Wood Association: plywood bent dry, thickness in inches,
// radius in feet across and along the face grain.
func TestPlywoodTable(t *testing.T) {
	tab := PlywoodTable()
	for _, c := range [][3]float64{{1. / 4, 2, 5}, {5. / 16, 2, 6}, {3. / 8, 3, 8}, {1. / 2, 6, 12}, {5. / 8, 8, 16}, {3. / 4, 12, 20}} {
		leastRadii(t, tab, c[0]*arc.Inch, c[1]*arc.Foot, c[2]*arc.Foot)
	}
	leastRadii(t, tab, 7./16*arc.Inch, 4.5*arc.Foot, 10*arc.Foot) // halfway between rows
	silent(t, tab, 0.24*arc.Inch)
	silent(t, tab, 0.76*arc.Inch)
}

// FAA AC 43.13-1B, aircraft plywood at 10 % moisture on cold mandrels, inches,
// at 90° and at 0 to 45° to the face grain.
func TestAircraftPlywoodTable(t *testing.T) {
	tab := AircraftPlywoodTable()
	for _, c := range [][3]float64{{.035, 2.0, 1.1}, {.070, 5.2, 3.2}, {.125, 12.0, 7.1}, {.160, 17, 11}, {.250, 31, 20}, {.375, 54, 36}} {
		leastRadii(t, tab, c[0]*arc.Inch, c[2]*arc.Inch, c[1]*arc.Inch)
	}
	leastRadii(t, tab, .13*arc.Inch, 11*arc.Inch, 17*arc.Inch) // no sheet of 4 plies: the thicker row
	silent(t, tab, 0.03*arc.Inch)
	silent(t, tab, 0.5*arc.Inch)
}

// Glued-laminated timber practice of one plant: dry lamination, inside radius.
func TestLaminationTable(t *testing.T) {
	tab := LaminationTable()
	for _, c := range [][2]float64{{.25, 3}, {.5, 5}, {.75, 7}, {1.5, 20}} {
		r, err := tab.Radius(c[0]*arc.Inch, GrainOnCurve)
		require.NoError(t, err)
		assert.InDelta(t, c[1]*arc.Foot, r, 1e-9)
	}
	_, err := tab.Radius(12, GrainOnAxis)
	assert.ErrorIs(t, err, ErrOutside)
}

func leastRadii(t *testing.T, tab RadiusTable, thickness, onAxis, onCurve float64) {
	t.Helper()
	for g, want := range map[Grain]float64{GrainOnAxis: onAxis, GrainOnCurve: onCurve} {
		r, err := tab.Radius(thickness, g)
		require.NoError(t, err)
		assert.InDelta(t, want, r, 1e-9, "%v %v", thickness, g)
	}
}

func silent(t *testing.T, tab RadiusTable, thickness float64) {
	t.Helper()
	_, err := tab.Radius(thickness, GrainOnAxis)
	assert.ErrorIs(t, err, ErrOutside)
}

// The least radius never falls as a sheet gets thicker.
func TestTablesRise(t *testing.T) {
	for _, tab := range []RadiusTable{PlywoodTable(), AircraftPlywoodTable(), LaminationTable()} {
		prev := 0.0
		for x := tab.Rows[0].Thickness; x <= tab.Rows[len(tab.Rows)-1].Thickness; x += 0.01 {
			r, err := tab.Radius(x, GrainOnCurve)
			require.NoError(t, err)
			require.GreaterOrEqual(t, r, prev, "%s %v", tab.Name, x)
			prev = r
		}
	}
}

// National Design Specification for Wood Construction, curvature factor 1 −
// 2000(t/R)², from a secondary source.
func TestCurvatureFactor(t *testing.T) {
	f, err := CurvatureFactor(19, 1900)
	require.NoError(t, err)
	assert.InDelta(t, 0.8, f, 1e-12)
	_, err = CurvatureFactor(19, 1899)
	assert.ErrorIs(t, err, ErrOutside)
}

// Derived: springback of n equal plies.
func TestSpringback(t *testing.T) {
	for n, want := range map[int]float64{2: 4. / 3, 4: 16. / 15} {
		r, err := Springback(300, n)
		require.NoError(t, err)
		assert.InDelta(t, 300*want, r, 1e-12)
		f, err := FormRadius(r, n)
		require.NoError(t, err)
		assert.InDelta(t, 300, f, 1e-12)
	}
	// The craft rule y = x/n², published with camber 3 in and 4 plies: 3/16 in.
	// On a flat arc camber goes with one over the radius.
	flat, err := arc.FromChordSag(3000*arc.Inch, 3*arc.Inch)
	require.NoError(t, err)
	r, err := Springback(flat.Radius(), 4)
	require.NoError(t, err)
	after, err := arc.FromChordRadius(3000*arc.Inch, r, false)
	require.NoError(t, err)
	assert.InDelta(t, 3./16, 3-after.Sag()/arc.Inch, 1e-4)
	_, err = Springback(300, 1)
	assert.ErrorIs(t, err, ErrRange)
}

// Elastic beam theory worked numerically: plies bent to the form and glued
// slice by slice, then let go. The moment that vanishes at release is taken
// from the sum over thin slices of stress times lever.
func TestSpringbackFromSlices(t *testing.T) {
	for _, n := range []int{2, 3, 5, 8} {
		const form, thickness, slices = 1000.0, 10.0, 20000
		held, stiff := 0.0, 0.0
		ply := thickness / float64(n)
		for i := range slices {
			y := (float64(i)+0.5)/slices*thickness - thickness/2
			own := math.Mod(y+thickness/2, ply) - ply/2 // from the ply's middle
			held += own / form * y                      // moment locked in, per E
			stiff += y * y                              // moment per curvature of the glued pack
		}
		after := 1 / (1/form - held/stiff)
		r, err := Springback(form, n)
		require.NoError(t, err)
		assert.InDelta(t, r, after, 1e-3*r)
	}
}

func TestLaminate(t *testing.T) {
	p := Pack{Thickness: 24, Strain: 0.006, Width: 100, Length: 900, SawKerf: 2.5, Planing: 1}
	l, err := Laminate(400, p)
	require.NoError(t, err)
	assert.InDelta(t, 24, l.Ply*float64(l.Plies), 1e-12)
	// The innermost ply's inner face is its middle less the strain.
	assert.InDelta(t, l.FormRadius, (l.FormRadius+l.Ply/2)*(1-l.Strain), 1e-9)
	released, err := Springback(l.FormRadius+12, l.Plies)
	require.NoError(t, err)
	assert.InDelta(t, 412, released, 1e-9)
	assert.InDelta(t, float64(l.Plies-1)*100*900, l.GlueArea, 1e-6)
	assert.InDelta(t, 24+float64(l.Plies)*1+float64(l.Plies-1)*2.5, l.RipStock, 1e-9)
	// One ply fewer is strained too much.
	fewer := p.plies(400, l.Plies-1)
	assert.Greater(t, fewer.Strain, p.Strain)
	assert.LessOrEqual(t, l.Strain, p.Strain)

	p.ThinPly = l.Ply * 1.01
	_, err = Laminate(400, p)
	assert.ErrorIs(t, err, ErrTooTight)
	_, err = Laminate(0.1, Pack{Thickness: 100, Strain: 1e-5})
	assert.ErrorIs(t, err, ErrTooTight)
}

// ANSI A208.2-2009, Table 2 (thin MDF); Wood Handbook FPL-GTR-190, Table 12-3.
func TestMaterialSources(t *testing.T) {
	for name, want := range map[string][2]float64{"mdf-210": {18.9, 0.32}, "mdf-220": {28.9, 0.54}, "mdf-230": {28.9, 0.90}} {
		m, err := LookUp(name)
		require.NoError(t, err)
		assert.Equal(t, want, [2]float64{m.Strength.Low, m.Bond.High})
		assert.Equal(t, Published, m.Strength.Mark)
		assert.False(t, m.Modulus.Known(), "the table gives none")
	}
	osb, err := LookUp("osb")
	require.NoError(t, err)
	assert.Equal(t, [4]float64{4410, 6310, 21.8, 34.7}, [4]float64{osb.Modulus.Low, osb.Modulus.High, osb.Strength.Low, osb.Strength.High})
	mdf, err := LookUp("mdf")
	require.NoError(t, err)
	// 48 lb/ft³ is the trade's figure for MDF.
	assert.Less(t, mdf.Density.Low, 768.9)
	assert.Greater(t, mdf.Density.High, 768.9)
}

func TestMaterials(t *testing.T) {
	mdf, err := LookUp("mdf")
	require.NoError(t, err)
	e, err := mdf.StrainLimit(1)
	require.NoError(t, err)
	assert.InDelta(t, 0.010, e, 1e-9, "strain at failure about 1.0 %")
	seen := map[string]bool{}
	for _, m := range Materials() {
		assert.False(t, seen[m.Name], "twice: %s", m.Name)
		seen[m.Name] = true
		for _, p := range []Property{m.Density, m.Modulus, m.Strength, m.Bond} {
			if p.Known() {
				assert.NotEmpty(t, p.Source)
				assert.NotEmpty(t, p.Unit)
				assert.Greater(t, p.Low, 0.0)
				assert.GreaterOrEqual(t, p.High, p.Low)
			} else {
				assert.Zero(t, p)
			}
		}
		if e, err := m.StrainLimit(0.8); err == nil {
			assert.Greater(t, e, 0.002, m.Name)
			assert.Less(t, e, 0.02, m.Name)
		} else {
			assert.ErrorIs(t, err, ErrRange)
			assert.False(t, m.Modulus.Known())
		}
	}
	_, err = LookUp("no such board")
	assert.ErrorIs(t, err, ErrOutside)

	own := Material{Name: "ours", Strength: Given(20, "N/mm²"), Modulus: Given(2500, "N/mm²")}
	e, err = own.StrainLimit(0.5)
	require.NoError(t, err)
	assert.InDelta(t, 0.004, e, 1e-15)
}
