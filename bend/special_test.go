package bend

import (
	"fmt"
	"math"
	"testing"

	"example.com/sagitta/arc"
	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/spatial/r2"
)

var special = []float64{
	math.NaN(), math.Inf(1), math.Inf(-1), 0, math.Copysign(0, -1), -1, 1, 1e-300, 5e-324, -1e-300,
	1e-9, 1e9, 1e300, -1e300, math.MaxFloat64,
}

// Whatever number is passed, nothing panics, hangs or gives a plan with a
// number in it that is not finite.
func TestSpecialValues(t *testing.T) {
	fields := []struct {
		name string
		set  func(*Job, float64)
	}{
		{"x", func(j *Job, v float64) { j.Profile.V[1].P.X = v }},
		{"y", func(j *Job, v float64) { j.Profile.V[0].P.Y = v }},
		{"turn", func(j *Job, v float64) { j.Profile.V[0].K = v }},
		{"thickness", func(j *Job, v float64) { j.Board.Thickness = v }},
		{"kerf width", func(j *Job, v float64) { j.Board.KerfWidth = v }},
		{"web", func(j *Job, v float64) { j.Board.Web = v }},
		{"bottom", func(j *Job, v float64) { j.Board.Bottom, j.Board.KerfWidth = Round, v }},
		{"skew", func(j *Job, v float64) { j.Board.Skew = arc.Angle(v) }},
		{"cutter width", func(j *Job, v float64) { j.Board.Cutter.Width = v }},
		{"cutter depth", func(j *Job, v float64) { j.Board.Cutter.Depth = v }},
		{"facet", func(j *Job, v float64) { j.Limits.Facet = v }},
		{"strain", func(j *Job, v float64) { j.Limits.Strain = v }},
		{"limit of turn", func(j *Job, v float64) { j.Limits.Turn = arc.Angle(v) }},
		{"land", func(j *Job, v float64) { j.Limits.Land = v }},
		{"edge", func(j *Job, v float64) { j.Limits.Edge = v }},
		{"corner", func(j *Job, v float64) { j.Limits.Corner = arc.Angle(v) }},
		{"width", func(j *Job, v float64) { j.Width = v }},
		{"factor", func(j *Job, v float64) { j.Factor = v }},
		{"thin ply", func(j *Job, v float64) { j.ThinPly = v }},
		{"saw kerf", func(j *Job, v float64) { j.SawKerf = v }},
		{"planing", func(j *Job, v float64) { j.Planing = v }},
	}
	for _, f := range fields {
		for _, v := range special {
			name := fmt.Sprintf("%s = %v", f.name, v)
			j := job(1)
			f.set(&j, v)
			if p, err := KerfPlan(j.Profile, j.Board, j.Limits); err == nil {
				finitePlan(t, name, p)
			}
			if ways, err := Ways(j); err == nil {
				for _, w := range ways {
					if w.Err == nil {
						finite(t, name, w.Use, w.CutLength, w.LeastRadius, w.Lamination.FormRadius, w.Lamination.RipStock)
					}
				}
			}
		}
	}
}

func finite(t *testing.T, name string, x ...float64) {
	t.Helper()
	for _, x := range x {
		assert.False(t, math.IsNaN(x) || math.IsInf(x, 0), "%s: %v", name, x)
	}
}

func finitePlan(t *testing.T, name string, p Plan) {
	t.Helper()
	finite(t, name, p.FlatLength, p.ShowLength, p.Facet, p.Strain, p.Mouth, p.Pitch)
	for _, k := range p.Kerfs {
		finite(t, name, k.At, float64(k.Turn), k.Mouth, k.Facet)
	}
	if s, err := p.TestStrip(); err == nil {
		finite(t, name, s.Pitch)
		for _, g := range s.Stages {
			finite(t, name, float64(g.Kerf), float64(g.Turn), g.Radius, g.Chord, g.Sag, g.Strain)
		}
	}
	if s, err := Refold(p.Blank(), r2.Vec{}, 0); assert.NoError(t, err, name) {
		for _, q := range []arc.Path{s.Show, s.Neutral, s.Back, s.Outline} {
			if len(q.V) > 1 {
				assert.NoError(t, q.Usable(), name)
			}
		}
	}
}

// Functions of plain numbers return an error or finite numbers.
func TestSpecialNumbers(t *testing.T) {
	for _, a := range special {
		for _, b := range special {
			name := fmt.Sprintf("%v, %v", a, b)
			check := func(x float64, err error) {
				t.Helper()
				if err == nil {
					finite(t, name, x)
				}
			}
			check(LiftSpacing(a, arc.Angle(b)))
			check(PlyStrain(a, b))
			check(CurvatureFactor(a, b))
			check(Springback(a, int(min(1e9, max(-1e9, b)))))
			check(FormRadius(a, 3))
			check(PlywoodTable().Radius(a, GrainOnAxis))
			check(RadiusTable{}.Radius(a, GrainOnAxis))
			angle, err := ClosingAngleFromLift(a, b)
			check(float64(angle), err)
			angle, err = StripTest{Board: mdf19, Pitch: a, Radius: b}.ClosingAngle()
			check(float64(angle), err)
			e, err := Material{Strength: Given(a, ""), Modulus: Given(b, "")}.StrainLimit(0.8)
			check(e, err)
			v, err := FoldWithV(a, 0.1, arc.Angle(b), 3)
			check(v.Width, err)
			l, err := Laminate(a, Pack{Thickness: b, Strain: 0.01})
			check(l.FormRadius, err)
			_, err = Refold(Blank{mdf19, a, []Kerf{{At: b, Turn: 0.01}}}, r2.Vec{X: a}, arc.Angle(b))
			_ = err // it is enough that it comes back
		}
	}
}
