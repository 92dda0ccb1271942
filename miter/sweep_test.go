package miter_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/miter"
)

// between returns a number from lo to hi.
func between(r *rand.Rand, lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }

// randomProfile draws a profile of the given rise: straight, cove, bow, ogee
// or reverse ogee, some over a plumb skirt, some steep enough to be refused.
func randomProfile(r *rand.Rand, rise float64) arc.Path {
	x := between(r, 150, 800)
	a, b := r2.Vec{X: x}, r2.Vec{X: x - between(r, -0.3, 0.9)*rise, Y: rise}
	k := 2 * between(r, 0.005, 0.25) // twice the sag ratio
	if r.IntN(10) == 0 {
		k *= 2
	}
	var v []arc.Vertex
	if r.IntN(4) == 0 {
		v = append(v, arc.V(a.X, 0, 0))
		a.Y = between(r, 0.1, 0.3) * rise
	}
	mid := r2.Scale(0.5, r2.Add(a, b))
	switch shape := r.IntN(5); shape {
	case 0:
		v = append(v, arc.Vertex{P: a}, arc.Vertex{P: b})
	case 1, 2:
		v = append(v, arc.Vertex{P: a, K: k * float64(2*shape-3)}, arc.Vertex{P: b})
	default:
		k *= float64(2*shape - 7)
		v = append(v, arc.Vertex{P: a, K: -k}, arc.Vertex{P: mid, K: k}, arc.Vertex{P: b})
	}
	return arc.Path{V: v}
}

func randomPair(r *rand.Rand) miter.Pair {
	rise := between(r, 60, 1000)
	p := miter.Pair{Plan: deg(90)}
	p.First = miter.Panel{Profile: randomProfile(r, rise), Thickness: between(r, 3, 40)}
	p.Second = miter.Panel{Profile: randomProfile(r, rise), Thickness: between(r, 3, 40)}
	if r.IntN(4) > 0 {
		p.Second.Thickness = p.First.Thickness
	}
	switch r.IntN(3) {
	case 0:
		p.Plan = deg(between(r, 45, 150))
	case 1:
		p.Plan = deg(between(r, 210, 315))
	}
	return p
}

// faultOf looks for a reason to refuse a panel, by walking along its profile.
func faultOf(p miter.Panel) error {
	l := p.Profile.Length()
	var last r2.Vec
	for i := range 4001 {
		_, t := p.Profile.At(l * float64(i) / 4000)
		if t.Y <= 1e-9 {
			return miter.ErrNotRising
		}
		// The radius of a smooth convex piece, and the room a fold needs.
		if i > 0 {
			if turn := r2.Cross(last, t); turn > l/4000/p.Thickness {
				return miter.ErrFold
			}
		}
		last = t
	}
	return nil
}

// count returns a full count, or a smaller one in an everyday run: all cases
// run where SAGITTA_FULL=1 is set.
func count(full, everyday, short int) int {
	switch {
	case os.Getenv("SAGITTA_FULL") == "1":
		return full
	case testing.Short():
		return short
	}
	return everyday
}

// TestRandomSeams bends back random seams and holds show and back edges to
// 0.01 mm, with edges drawn to half of that; the rest must be refused for a
// reason that walking along the profile shows as well.
func TestRandomSeams(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 1))
	n := count(10000, 150, 20)
	refused := map[error]int{}
	var worst miter.Fit
	segments, done, mild, face := 0, 0, 0, 0.0
	for i := range n {
		p := randomPair(r)
		s, err := p.Seam()
		var first, second []miter.Edge
		if err == nil {
			first, second, err = s.Edges(0.005)
		}
		if err != nil {
			kind := errors.Unwrap(err)
			refused[kind]++
			a, b := faultOf(p.First), faultOf(p.Second)
			require.True(t, a != nil || b != nil, "case %d refused: %v", i, err)
			continue
		}
		require.NoError(t, errors.Join(notRising(p.First), notRising(p.Second)), "case %d accepted", i)
		fit, err := miter.Refit(miter.Blank{Panel: p.First, Edges: first}, miter.Blank{Panel: p.Second, Edges: second}, p.Plan)
		require.NoError(t, err, "case %d", i)
		require.Less(t, fit.Show.Max(), 0.01, "case %d: %+v %+v", i, fit, p)
		require.Less(t, fit.Back.Max(), 0.01, "case %d: %+v %+v", i, fit, p)
		worst = worstOf(worst, fit)
		if p.Plan == deg(90) && gentle(p.First) && gentle(p.Second) {
			mild++
			// What an arc of thirty thicknesses stands off a chord as long as
			// a bevel of 45°.
			limit := 0.01 + math.Max(p.First.Thickness, p.Second.Thickness)/120
			require.Less(t, fit.Face.Max(), limit, "case %d: %+v %+v", i, fit, p)
			face = math.Max(face, fit.Face.Max())
		}
		for _, e := range first {
			segments += e.Show.NumSegments()
		}
		done++
	}
	t.Logf("%d seams: %d refitted, worst %+v, %.1f segments a show edge; refused %v",
		n, done, worst, float64(segments)/float64(done), refused)
	t.Logf("%d gentle ones, cut faces within %.3f", mild, face)
	assert.Greater(t, done, n/2)
}

// gentle tells profiles that do not fold, have no radius under thirty times the
// thickness and stay within 45° of plumb: in those a straight cut through the
// board closes within the thickness too.
func gentle(p miter.Panel) bool {
	l := p.Profile.Length()
	_, last := p.Profile.At(0)
	for i := range 1001 {
		_, t := p.Profile.At(l * float64(i) / 1000)
		if t.Y < math.Sqrt2/2 || math.Abs(r2.Cross(last, t)) > l/1000/(30*p.Thickness) {
			return false
		}
		last = t
	}
	return true
}

func notRising(p miter.Panel) error {
	if err := faultOf(p); errors.Is(err, miter.ErrNotRising) {
		return err
	}
	return nil
}

func worstOf(a, b miter.Fit) miter.Fit {
	worse := func(a, b miter.Deviation) miter.Deviation {
		return miter.Deviation{Gap: math.Max(a.Gap, b.Gap), Overlap: math.Max(a.Overlap, b.Overlap)}
	}
	return miter.Fit{Show: worse(a.Show, b.Show), Face: worse(a.Face, b.Face), Back: worse(a.Back, b.Back)}
}
