package hood

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/part"
)

// samples returns points along a path at even shares of its length.
func samples(p arc.Path, n int) []r2.Vec {
	var out []r2.Vec
	total := p.Length()
	i, before := 0, 0.0
	for k := range n {
		at := total * float64(k) / float64(n-1)
		for i < p.NumSegments()-1 && at > before+p.Segment(i).Length() {
			before += p.Segment(i).Length()
			i++
		}
		q, _ := p.Segment(i).At(min(at-before, p.Segment(i).Length()))
		out = append(out, q)
	}
	return out
}

// apart lays one list of points on the other, turned and moved to the least sum
// of squares, and returns the largest distance of a point from its fellow.
func apart(a, b []r2.Vec) float64 {
	var ca, cb r2.Vec
	n := float64(len(a))
	for i := range a {
		ca, cb = r2.Add(ca, r2.Scale(1/n, a[i])), r2.Add(cb, r2.Scale(1/n, b[i]))
	}
	var dot, cross float64
	for i := range a {
		p, q := r2.Sub(a[i], ca), r2.Sub(b[i], cb)
		dot += r2.Dot(p, q)
		cross += r2.Cross(p, q)
	}
	sin, cos := math.Sincos(math.Atan2(cross, dot))
	most := 0.0
	for i := range a {
		p := r2.Sub(a[i], ca)
		p = r2.Add(cb, r2.Vec{X: cos*p.X - sin*p.Y, Y: sin*p.X + cos*p.Y})
		most = max(most, r2.Norm(r2.Sub(p, b[i])))
	}
	return most
}

// The back of a kerfed panel, folded from its kerfs alone, lies on the face of its
// form's ribs: within the facet that the panel may stand off its curve, which at
// the back of a hollow front is larger by the ratio of the radii, and half as
// much again for where along it the points are taken.
func TestKerfedPanelLiesOnItsForm(t *testing.T) {
	for _, shape := range []string{"cove", "bow", "ogee", "reverse-ogee"} {
		s := demo()
		s.Ribs = Ribs{}
		s.Sweep = Sweep{Shape: shape, Sag: 30}
		plain, err := Build(s)
		require.NoError(t, err)
		_, has := plain.Part("form-rib-front")
		assert.False(t, has, "none where none is asked")
		s.Bend.Form.Spacing = 300
		d, err := Build(s)
		require.NoError(t, err)
		rib, ok := d.Part("form-rib-front")
		require.True(t, ok, shape)
		assert.Equal(t, int(math.Ceil(s.Width/300))+1, rib.Copies())
		assert.Equal(t, plain.Mass, d.Mass, "a form is no part of the hood")
		panel, ok := d.Part(rib.Panel)
		require.True(t, ok)
		folded, err := part.Fold(panel)
		require.NoError(t, err)
		face, ok := rib.Edge("face")
		require.True(t, ok)
		back := folded.BackLine
		assert.InDelta(t, back.Length(), face.Show.Length(), 0.5)
		limit := 1.5 * s.Bend.Facet * (1 + s.Board.Thickness/tightest(d.Front))
		a, b := samples(back, 400), samples(face.Show, 400)
		off := min(apart(a, b), apart(a, reversed(b)), apart(a, mirrored(b)), apart(a, mirrored(reversed(b))))
		assert.Less(t, off, limit, shape)
		// A form for another sag is seen.
		s.Sweep.Sag += 1
		other, err := Build(s)
		require.NoError(t, err)
		wrong, _ := other.Part("form-rib-front")
		edge, _ := wrong.Edge("face")
		c := samples(edge.Show, 400)
		assert.Greater(t, min(apart(a, c), apart(a, reversed(c)), apart(a, mirrored(c)), apart(a, mirrored(reversed(c)))), limit, shape)
		found := false
		for _, step := range d.Steps() {
			found = found || strings.Contains(step.Text, "Bend "+panel.Name+" dry") && strings.Contains(step.Text, "its form: form-rib-front")
		}
		assert.True(t, found, "the step names the form")
	}
}

// tightest returns the least radius of the arcs of a curve.
func tightest(c Curve) float64 {
	least := math.Inf(1)
	for _, a := range append(c.Arcs, c) {
		if a.Radius > 0 {
			least = min(least, a.Radius)
		}
	}
	return least
}

func reversed(p []r2.Vec) []r2.Vec {
	out := slices.Clone(p)
	slices.Reverse(out)
	return out
}

func mirrored(p []r2.Vec) []r2.Vec {
	out := slices.Clone(p)
	for i := range out {
		out[i].X = -out[i].X
	}
	return out
}
