package hood

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/internal/boards"
)

// Each panel of a flared hood is bent in its own way, and meets the others.
func TestWaysPerPanel(t *testing.T) {
	one := flaredDemo() // in a corner: the left side is plumb
	one.Neck.Offset = -(one.Width - one.Neck.Width) / 2
	for name, base := range map[string]Spec{"both": flaredDemo(), "sides": sidesDemo(), "left": leftDemo(), "one": one} {
		for i, w := range [][3]string{
			{"laminate", "kerf", "kerf"}, {"kerf", "laminate", "kerf"}, {"kerf", "kerf", "laminate"}, {"laminate", "laminate", "laminate"},
			{"as-is", "kerf", "laminate"}, {"as-is", "laminate", "kerf"},
		} {
			s := whole(base)
			s.Duct = Duct{}
			if name == "one" { // no room for it
				s.Cleat = Cleat{}
				s.Back.Openings = []Opening{{Shape: "circle", X: -120, Y: 580, Diameter: 160}}
			}
			s.Bend.Ply, s.Bend.Trim, s.Bend.Strain = Ply{Thickness: s.Board.Thickness / 3}, 6, 0.05
			s.Sweep.Method, s.SideSweep.Method = w[0], w[1]
			if s.LeftSweep.Shape != "" {
				s.LeftSweep.Method = w[2]
			}
			d, err := Build(s)
			require.NoError(t, err, "%s %v", name, w)
			if i == 3 || !testing.Short() {
				checkModel(t, d)
			}
			for _, c := range d.Checks {
				assert.True(t, c.OK, c.Name)
			}
			for _, p := range d.Parts {
				if p.Kind == KindSweep && p.Hand == "" {
					assert.Equal(t, w[0] == "kerf", len(p.Kerfs) > 0, p.Name)
					assert.Equal(t, w[0] == "laminate", p.Ply > 0, p.Name)
				}
			}
		}
	}
}

// The proof sees plies of a flared hood that do not meet.
func TestProofSeesAWrongSeam(t *testing.T) {
	s := laminated(flaredDemo(), 3)
	for _, ply := range []string{"sweep-front-ply-1", "sweep-front-ply-2", "sweep-left-ply-2", "sweep-right-ply-3"} {
		for _, name := range []string{"left", "right"} {
			b, err := boards.Make(s.Sizes())
			require.NoError(t, err)
			for i := range b.Parts {
				p := &b.Parts[i]
				for j := range p.Edges {
					if e := &p.Edges[j]; p.Name == ply && e.Name == name {
						m := arc.Shift(r2vec(1, 0))
						e.Show, e.Back = e.Show.Transform(m), e.Back.Transform(m)
					}
				}
			}
			open := 0
			for _, c := range prove(&b) {
				if !c.OK {
					open++
				}
			}
			assert.Positive(t, open, "%s edge of %s", name, ply)
		}
	}
}

// A side that begins level runs far in while the front rises little: their seam
// takes many short pieces there.
func TestPliesMeetALevelSide(t *testing.T) {
	for _, shape := range []string{"cove", "bow", "ogee", "reverse-ogee"} {
		s := flaredDemo()
		s.Sweep, s.SideSweep = Sweep{Shape: shape, Sag: 20, Method: "laminate"}, Sweep{Shape: "ellipse"}
		s.Bend.Ply.Thickness, s.Bend.Strain = s.Board.Thickness/5, 0.02
		d, err := Build(s)
		require.NoError(t, err, shape)
		for _, c := range d.Checks {
			if c.Name == "sweep-front to sweep-left" {
				assert.Less(t, c.Value, 0.3, shape)
			}
		}
	}
}

// The two sides of a design share nothing, be they alike or not.
func TestLaminatedSidesShareNothing(t *testing.T) {
	d, err := Build(laminated(flaredDemo(), 3))
	require.NoError(t, err)
	want := d.Left.Curve.Plies.Lengths[0]
	d.Right.Curve.Plies.Lengths[0] = -1
	require.Equal(t, want, d.Left.Curve.Plies.Lengths[0])
}
