package hood

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/hood/curve"
)

// flatSag are sags from none to what is told from straight, and past it.
var flatSag = []float64{0, 5e-324, 1e-300, 1e-15, 1e-12, 1e-9, 1e-7, 1e-6, 1e-5, 1e-4, 0.999e-3, 1e-3, 1.1e-3, 0.01, 0.1, 1, 5}

// builds asks a spec to be built or refused for a reason it names, of which
// there is one.
func builds(t *testing.T, s Spec, what string) (Design, bool) {
	t.Helper()
	var d Design
	var err error
	require.NotPanics(t, func() { d, err = Build(s) }, what)
	if err == nil {
		return d, true
	}
	var f Faults
	require.True(t, errors.As(err, &f), what)
	require.Len(t, f, 1, "%s: %v", what, err)
	require.NotContains(t, err.Error(), "proof", what)
	return d, false
}

func TestFlatSweeps(t *testing.T) {
	for _, shape := range []string{"cove", "bow", "ogee", "reverse-ogee"} {
		for _, method := range []string{"kerf", "laminate"} {
			for _, sag := range flatSag {
				s := demo()
				s.Sweep = Sweep{Shape: shape, Sag: sag, Method: method}
				s.Bend.Ply.Thickness = s.Board.Thickness / 2
				what := fmt.Sprintf("%s %s %g", shape, method, sag)
				d, ok := builds(t, s, what)
				require.True(t, ok || sag >= 1 || sag == 0, what)
				require.False(t, ok && sag == 0, "a %s of no sag", shape)
				if ok {
					assert.Equal(t, sag < curve.Flat, d.Front.Turn == 0, what)
				}
			}
		}
	}
}

func TestPointsOnTheChord(t *testing.T) {
	for _, off := range flatSag {
		for _, n := range []int{1, 2, 7} {
			s := demo()
			s.Sweep = Sweep{Shape: "points"}
			for i := range n {
				f := float64(i+1) / float64(n+1)
				x := s.Depth + f*(s.Neck.Depth-s.Depth) - off*math.Sin(math.Pi*f)
				s.Sweep.Points = append(s.Sweep.Points, [2]float64{x, s.Skirt + f*(s.Height-s.Skirt)})
			}
			what := fmt.Sprintf("%d points off %g", n, off)
			d, ok := builds(t, s, what)
			require.True(t, ok, what)
			if off < curve.Flat/2 {
				assert.Zero(t, d.Front.Turn, what)
			}
		}
	}
}

func TestNarrowerNecks(t *testing.T) {
	for _, less := range []float64{5e-324, 3e-13, 1e-9, 1e-7, 1e-6, 1e-5, 1e-4, 0.999e-3, 1e-3, 1.9e-3, 2.1e-3, 0.01, 0.1, 0.5, 1, 3, 10, 40} {
		for _, shape := range []string{"", "cove", "bow"} {
			s := demo()
			s.Neck.Width = s.Width - less
			s.Chimney.Width = 0
			if less > 0.01 && shape != "" {
				s.SideSweep = Sweep{Shape: shape, Sag: less / 8}
			}
			what := fmt.Sprintf("%s narrower by %g", shape, less)
			d, ok := builds(t, s, what)
			require.True(t, ok, what)
			assert.Equal(t, less < 2*curve.Flat, len(d.Left.Seam) == 0, what)
			s.Neck.Offset = less / 2
			_, ok = builds(t, s, what+", right plumb")
			require.True(t, ok, what)
		}
	}
}
