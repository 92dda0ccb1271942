package hood

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Without a skirt the front may lean out at the bottom edge, where its back
// runs on straight below the end of its curve, or in so far that the level cut
// passes the first kerf. Either closes with cheeks in every joint.
func TestBottomEdgeOfACurve(t *testing.T) {
	out := demo()
	out.Skirt, out.Liner = 0, Liner{}
	out.Sweep = Sweep{Shape: "reverse-ogee", Sag: 40}
	in := demo()
	in.Skirt, in.Liner, in.Board.Thickness = 0, Liner{}, 25
	in.Neck.Depth = 250
	in.Sweep = Sweep{Shape: "bow", Sag: 30}
	for _, s := range []Spec{out, in} {
		for _, corner := range []string{"miter", "front-covers", "cheek-covers"} {
			s.Corner = corner
			d, err := Build(s)
			require.NoError(t, err, "%s %s", s.Sweep.Shape, corner)
			checkModel(t, d)
		}
	}
	// The cheek's back edge is the inner face of the front: straight, below
	// the end of the arcs, by the thickness times the sine of the lean.
	out.Corner = "miter"
	d, err := Build(out)
	require.NoError(t, err)
	require.Negative(t, float64(d.Front.Low))
	cheek, _ := d.Part("cheek-left")
	edge, _ := cheek.Edge("front")
	last := edge.Back.Segment(edge.Back.NumSegments() - 1)
	assert.Zero(t, last.K)
	assert.InDelta(t, -19*math.Sin(float64(d.Front.Low)), last.A.Y-last.B.Y, 1e-6)
}

// An ellipse has no sag to blame: the fault names its shape.
func TestEllipseWithoutSkirtIsNamed(t *testing.T) {
	s := demo()
	s.Skirt, s.Liner, s.Sweep = 0, Liner{}, Sweep{Shape: "ellipse"}
	_, err := Build(s)
	var f Faults
	require.ErrorAs(t, err, &f)
	assert.Equal(t, "sweep.shape", f[0].Param)
	assert.Equal(t, "ellipse", f[0].Value)
	assert.Empty(t, f[0].Unit)
}
