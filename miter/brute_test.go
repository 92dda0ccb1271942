package miter_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"example.com/sagitta/arc"
	"example.com/sagitta/miter"
)

var axisX, axisY, axisZ = r3.Vec{X: 1}, r3.Vec{Y: 1}, r3.Vec{Z: 1}

// setUp turns a board that lies on the table, its length along x, its width
// along y and its show face up, into its place: tilted about its lower edge and
// turned on plan so that its outward direction is at the angle out from x.
func setUp(tilt arc.Angle, out float64) r3.Rotation {
	raise := r3.NewRotation(float64(tilt), axisX)
	turn := r3.NewRotation(out+math.Pi/2, axisZ)
	return r3.Rotation(composed(turn, raise))
}

// composed returns the rotation b followed by a.
func composed(a, b r3.Rotation) r3.Rotation {
	p, q := r3.Rotation(a), r3.Rotation(b)
	return r3.Rotation{
		Real: p.Real*q.Real - p.Imag*q.Imag - p.Jmag*q.Jmag - p.Kmag*q.Kmag,
		Imag: p.Real*q.Imag + p.Imag*q.Real + p.Jmag*q.Kmag - p.Kmag*q.Jmag,
		Jmag: p.Real*q.Jmag - p.Imag*q.Kmag + p.Jmag*q.Real + p.Kmag*q.Imag,
		Kmag: p.Real*q.Kmag + p.Imag*q.Jmag - p.Jmag*q.Imag + p.Kmag*q.Real,
	}
}

// inverse returns the rotation that undoes r.
func inverse(r r3.Rotation) r3.Rotation {
	return r3.Rotation{Real: r.Real, Imag: -r.Imag, Jmag: -r.Jmag, Kmag: -r.Kmag}
}

// meet returns the point common to three planes n·p = d.
func meet(t require.TestingT, n [3]r3.Vec, d [3]float64) r3.Vec {
	a := mat.NewDense(3, 3, []float64{
		n[0].X, n[0].Y, n[0].Z, n[1].X, n[1].Y, n[1].Z, n[2].X, n[2].Y, n[2].Z})
	var x mat.VecDense
	require.NoError(t, x.SolveVec(a, mat.NewVecDense(3, d[:])))
	return r3.Vec{X: x.AtVec(0), Y: x.AtVec(1), Z: x.AtVec(2)}
}

// TestCornerBruteForce builds both boards in space by rotations, finds the
// corners of the show and back faces by solving for common points of planes,
// lays each board flat again and measures the cut there.
func TestCornerBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plan := rapid.Float64Range(20, 340).Filter(func(p float64) bool { return math.Abs(p-180) > 5 }).Draw(t, "plan")
		tilt := [2]arc.Angle{deg(rapid.Float64Range(10, 170).Draw(t, "tilt1")), deg(rapid.Float64Range(10, 170).Draw(t, "tilt2"))}
		thick := [2]float64{rapid.Float64Range(3, 40).Draw(t, "t1"), rapid.Float64Range(3, 40).Draw(t, "t2")}
		if rapid.Bool().Draw(t, "equal") {
			thick[1] = thick[0]
		}
		joint := miter.Joint(rapid.IntRange(0, 2).Draw(t, "joint"))
		c := miter.Corner{Plan: deg(plan), Joint: joint,
			First: miter.Board{Tilt: tilt[0], Thickness: thick[0]}, Second: miter.Board{Tilt: tilt[1], Thickness: thick[1]}}
		cuts, err := c.Cuts()
		require.NoError(t, err)

		turn := math.Pi - plan*math.Pi/180
		place := [2]r3.Rotation{setUp(tilt[0], 0), setUp(tilt[1], turn)}
		n := [2]r3.Vec{place[0].Rotate(axisZ), place[1].Rotate(axisZ)}
		// The two depths that meet on the show face and on the back of each end.
		show, back := [2][2]float64{}, [2][2]float64{{thick[0], thick[1]}, {thick[0], thick[1]}}
		inside := plan > 180
		for i := range 2 {
			through := joint == miter.FirstCovers && i == 0 || joint == miter.SecondCovers && i == 1
			depth := 0.0 // of the other board, where this end stops
			if through == inside {
				depth = thick[1-i]
			}
			if joint != miter.Mitered {
				show[i][1-i], back[i][1-i] = depth, depth
			}
		}
		for i, e := range [2]miter.End{cuts.First, cuts.Second} {
			at := func(depth [2]float64, z float64) r3.Vec {
				p := meet(t, [3]r3.Vec{n[0], n[1], axisZ}, [3]float64{-depth[0], -depth[1], z})
				return inverse(place[i]).Rotate(p)
			}
			lower, upper, behind := at(show[i], 0), at(show[i], 1000), at(back[i], 0)
			edge := r3.Sub(upper, lower)
			side := float64(1 - 2*i) // +1 at a right end, -1 at a left one
			assert.InDelta(t, math.Atan2(-side*edge.X, edge.Y)*180/math.Pi, e.Miter.Degrees(), 1e-9)
			cut := r3.Unit(r3.Cross(edge, r3.Sub(behind, lower)))
			if cut.X*side < 0 {
				cut = r3.Scale(-1, cut)
			}
			assert.InDelta(t, math.Atan2(-cut.Z, math.Hypot(cut.X, cut.Y))*180/math.Pi, e.Bevel.Degrees(), 1e-9)
			corner := inverse(place[i]).Rotate(r3.Vec{})
			ahead := r3.Cross(r3.Unit(edge), axisZ)
			assert.InDelta(t, side*r3.Dot(r3.Sub(corner, lower), ahead), e.Setback, 1e-6)
		}
		dihedral := math.Acos(r3.Dot(n[0], n[1])) * 180 / math.Pi
		if inside {
			dihedral = -dihedral
		}
		assert.InDelta(t, 180-dihedral, cuts.Dihedral.Degrees(), 1e-6) // acos is good to 1e-8 near 180°
	})
}

// TestSettingsCutThePlane turns a blade as the setting says and checks that it
// lies in the plane of the end, for every stand.
func TestSettingsCutThePlane(t *testing.T) {
	// Where each stand puts the board's length, width and show face.
	stands := map[miter.Stand][3]r3.Vec{
		{}:                                {{X: -1}, {Y: -1}, {Z: 1}},
		{UpperEdge: true}:                 {{X: 1}, {Y: 1}, {Z: 1}},
		{ShowAway: true}:                  {{X: 1}, {Y: -1}, {Z: -1}},
		{ShowAway: true, UpperEdge: true}: {{X: -1}, {Y: 1}, {Z: -1}},
		{OnEdge: true}:                    {{X: 1}, {Z: 1}, {Y: -1}},
		{OnEdge: true, UpperEdge: true}:   {{X: -1}, {Z: -1}, {Y: -1}},
		{OnEdge: true, ShowAway: true}:    {{X: -1}, {Z: 1}, {Y: 1}},
		{OnEdge: true, ShowAway: true, UpperEdge: true}: {{X: 1}, {Z: -1}, {Y: 1}},
	}
	sign := func(h miter.Hand) float64 { return 2*float64(h) - 1 }
	rapid.Check(t, func(t *rapid.T) {
		e := miter.End{
			Hand:  miter.Hand(rapid.IntRange(0, 1).Draw(t, "hand")),
			Miter: deg(rapid.Float64Range(-80, 80).Draw(t, "miter")),
			Bevel: deg(rapid.Float64Range(-80, 80).Draw(t, "bevel")),
		}
		// Two lines of the cut on the flat board: its show edge, and the line
		// into the thickness, square to that edge but for the bevel.
		edge := r3.NewRotation(float64(e.Miter)*sign(e.Hand), axisZ).Rotate(axisY)
		inward := r3.Scale(-sign(e.Hand), r3.Cross(edge, axisZ))
		depth := r3.Add(r3.Scale(math.Sin(float64(e.Bevel)), inward), r3.Scale(-math.Cos(float64(e.Bevel)), axisZ))
		for stand, axes := range stands {
			set := e.Setting(stand)
			table := r3.NewRotation(sign(set.MiterTo)*float64(set.Miter), axisZ)
			trace := table.Rotate(axisY)
			blade := r3.NewRotation(sign(set.TiltTo)*float64(set.Tilt), trace).Rotate(table.Rotate(axisX))
			at := func(p r3.Vec) r3.Vec {
				return r3.Add(r3.Scale(p.X, axes[0]), r3.Add(r3.Scale(p.Y, axes[1]), r3.Scale(p.Z, axes[2])))
			}
			assert.InDelta(t, 0, r3.Dot(blade, at(edge)), 1e-12, stand.String())
			assert.InDelta(t, 0, r3.Dot(blade, at(depth)), 1e-12, stand.String())
			board := at(r3.Vec{X: -sign(e.Hand)}) // the way the board lies from its end
			assert.Positive(t, sign(set.Keep)*r3.Dot(blade, board), stand.String())
		}
	})
}
