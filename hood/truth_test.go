package hood

import (
	"math"
	"slices"
	"strings"
	"testing"

	"example.com/sagitta/sheet"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

// ellipseOverSkirt is a quarter ellipse that leaves a skirt level, so that the
// bevels there run into the first kerfs.
func ellipseOverSkirt() Spec {
	s := demo()
	s.Width, s.Neck.Width, s.Height, s.Depth, s.Neck.Depth, s.Skirt = 1130, 1130, 905, 520, 290, 135
	s.Sweep = Sweep{Shape: "ellipse"}
	s.Liner, s.Duct, s.Bend.Strain = Liner{}, Duct{}, 0.015
	return s
}

// A joint that is hollow behind the show face is told to be, by as much as the
// points of its bevel leave the plane of the skirt's when kerfs turn like hinges.
func TestHollowJointsAreTold(t *testing.T) {
	d, err := Build(ellipseOverSkirt())
	require.NoError(t, err)
	i := slices.IndexFunc(d.Checks, func(c Check) bool { return c.Name == "skirt to sweep: open behind the show face" })
	require.GreaterOrEqual(t, i, 0)
	sweep, _ := d.Part("sweep")
	most := 0.0
	for k := range 191 { // up the blank and into it alike, at 45 degrees
		at := r2.Vec{X: float64(k) / 10, Y: float64(k) / 10}
		cut := false
		for _, s := range sweep.Work.Slots {
			cut = cut || at.Y > 19-s.Depth && math.Abs(at.X-s.From.Y) < s.Width/2
		}
		if cut {
			continue
		}
		p := at
		for i := len(sweep.Kerfs) - 1; i >= 0; i-- {
			if h := sweep.Kerfs[i]; h.At < at.X {
				hinge := r2.Vec{X: h.At, Y: 0.8} // in the middle of the web
				p = r2.Add(hinge, turned(r2.Sub(p, hinge), -math.Abs(float64(h.Turn))))
			}
		}
		most = math.Max(most, (p.X-p.Y)/math.Sqrt2)
	}
	assert.Greater(t, most, 3.0)
	assert.InDelta(t, most, d.Checks[i].Value, 0.1, "webs bend over their width")
	assert.True(t, slices.ContainsFunc(d.Cautions, func(c Caution) bool { return strings.Contains(c.Text, "thickened epoxy") }))
}

func turned(v r2.Vec, a float64) r2.Vec {
	sin, cos := math.Sincos(a)
	return r2.Vec{X: cos*v.X - sin*v.Y, Y: sin*v.X + cos*v.Y}
}

// No limit of any check is more than what a joiner accepts.
func TestLimitsAreAJoiners(t *testing.T) {
	for _, s := range []Spec{ellipseOverSkirt(), flaredDemo(), sidesDemo(), demo()} {
		d, err := Build(s)
		require.NoError(t, err)
		for _, c := range d.Checks {
			if c.Unit == "mm" && !strings.HasSuffix(c.Name, ": open behind the show face") {
				assert.LessOrEqual(t, c.Limit, 0.65+1e-6, c.Name)
			}
		}
	}
}

// Fibers of plywood run up on all that shows, wherever the part comes to lie.
func TestPlywoodGrain(t *testing.T) {
	s := flaredDemo()
	s.Board.Material = "birch plywood"
	for grain, want := range map[string]sheet.Grain{"": sheet.Across, "upright": sheet.Across, "level": sheet.Along, "any": sheet.AnyGrain} {
		s.Board.Grain = grain
		d, err := Build(s)
		require.NoError(t, err)
		shown := 0
		for _, p := range d.Parts {
			if p.Kind == KindSkirt || p.Kind == KindSweep || p.Kind == KindCheek {
				assert.Equal(t, want, p.Grain, p.Name)
				up := p.Pose.Up // of the part's y, along which the fibers run
				assert.Greater(t, up.Y, 0.3, p.Name)
				shown++
			}
		}
		assert.Positive(t, shown)
		assert.Equal(t, grain == "level" || grain == "any", slices.ContainsFunc(d.Cautions, func(c Caution) bool { return strings.HasPrefix(c.Text, "board.grain") }))
	}
	s.Board.Material, s.Board.Grain = "mdf", ""
	d, err := Build(s)
	require.NoError(t, err)
	assert.Zero(t, d.Parts[0].Grain)
}

// Where a panel is cut square at its ends it has no back beyond: rows there have
// none, by whether the point is behind the end's plane.
func TestSeamRowsWithoutBacks(t *testing.T) {
	for _, s := range []Spec{flaredDemo(), sidesDemo()} {
		d, err := Build(s)
		require.NoError(t, err)
		without := 0
		for _, side := range []Flare{d.Left, d.Right} {
			for _, q := range side.Seam {
				if !q.HasBack {
					without++
					continue
				}
				assert.LessOrEqual(t, q.UFrontBack, d.Front.ShowLength+1e-3)
				if top := side.Seam[len(side.Seam)-1]; d.Front.High > 0 { // the end is square to the front's tangent there
					lean := float64(d.Front.High)
					ahead := r2.Dot(r2.Vec{X: -math.Sin(lean), Y: math.Cos(lean)}, r2.Vec{X: 0, Y: q.Y - top.Y})
					assert.LessOrEqual(t, ahead, 1e-6)
				}
			}
		}
		assert.Positive(t, without)
	}
}

// What is said early is said of the field, once.
func TestOneClearFault(t *testing.T) {
	for name, c := range map[string]struct {
		spoil func(*Spec)
		param string
	}{
		"no sag":              {func(s *Spec) { s.Sweep = Sweep{Shape: "cove"} }, "sweep.sag"},
		"strain in percent":   {func(s *Spec) { s.Bend.Strain = 0.8 }, "bend.strain"},
		"band on a lean":      {func(s *Spec) { s.Skirt, s.Molding.Band = 0, true }, "skirt"},
		"shelf at the folds":  {func(s *Spec) { s.Liner.Y = 137 }, "liner.y"},
		"shelf over the fold": {func(s *Spec) { s.Liner.Y = 139.5 }, "liner.y"},
	} {
		s := demo()
		c.spoil(&s)
		_, err := Build(s)
		assert.Equal(t, []string{c.param}, params(err), name)
	}
	s := demo()
	s.Bend.Strain = 0
	d, err := Build(s)
	require.NoError(t, err)
	assert.True(t, slices.ContainsFunc(d.Cautions, func(c Caution) bool { return strings.Contains(c.Text, "No limit is set") }))
}
