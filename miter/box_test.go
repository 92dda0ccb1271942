package miter_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"example.com/sagitta/arc"
	"example.com/sagitta/miter"
)

// square returns a square plan about the origin.
func square(side float64) []r2.Vec {
	h := side / 2
	return []r2.Vec{{X: -h, Y: -h}, {X: h, Y: -h}, {X: h, Y: h}, {X: -h, Y: h}}
}

// stand sets a board of a box in its place and returns the corners of its show
// face and of its back.
func stand(box miter.Box, i int, b miter.BoxBoard) (show, back []r3.Vec) {
	n := len(box.Plan)
	p, q := box.Plan[i], box.Plan[(i+1)%n]
	board := box.Boards[i%len(box.Boards)]
	turn := setUp(board.Tilt, math.Atan2(q.Y-p.Y, q.X-p.X)-math.Pi/2)
	at := func(v r2.Vec, depth float64) r3.Vec {
		return r3.Add(turn.Rotate(r3.Vec{X: v.X, Y: v.Y, Z: -depth}), r3.Vec{X: p.X, Y: p.Y})
	}
	for _, v := range b.Show.V {
		show = append(show, at(v.P, 0))
	}
	for _, v := range b.Back.V {
		back = append(back, at(v.P, board.Thickness))
	}
	return show, back
}

func apart(a, b r3.Vec) float64 { return r3.Norm(r3.Sub(a, b)) }

// randomBox draws a star-shaped plan, often not convex, with a slope and a
// thickness for each side.
func randomBox(r *rand.Rand) miter.Box {
	n := 3 + r.IntN(6)
	box := miter.Box{Height: between(r, 50, 300)}
	t, equal := between(r, 3, 30), r.IntN(2) == 0
	for i := range n {
		if !equal {
			t = between(r, 3, 30)
		}
		a := 2 * math.Pi * (float64(i) + between(r, -0.3, 0.3)) / float64(n)
		d := between(r, 600, 1500)
		box.Plan = append(box.Plan, r2.Vec{X: d * math.Cos(a), Y: d * math.Sin(a)})
		box.Boards = append(box.Boards, miter.Board{Tilt: deg(between(r, 55, 125)), Thickness: t})
	}
	return box
}

// TestBoxCloses sets the boards of random boxes in place: the corners of every
// miter must meet its neighbor's on the show face and on the back, level at the
// bottom and at the top.
func TestBoxCloses(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 1))
	done := 0
	for range count(20000, 2000, 200) {
		box := randomBox(r)
		boards, err := box.Solve()
		if err != nil {
			assert.ErrorIs(t, err, miter.ErrVanish)
			continue
		}
		done++
		for i, b := range boards {
			j := (i + 1) % len(boards)
			show, back := stand(box, i, b)
			show2, back2 := stand(box, j, boards[j])
			if len(show) != 4 || len(back) != 4 || len(show2) != 4 || len(back2) != 4 {
				continue
			}
			for k, z := range []float64{0, 0, box.Height, box.Height} {
				require.InDelta(t, z, show[k].Z, 1e-9)
				require.InDelta(t, z, back[k].Z, 1e-9)
			}
			for _, k := range [2][2]int{{1, 0}, {2, 3}} {
				require.Less(t, apart(show[k[0]], show2[k[1]]), 1e-6)
				require.Less(t, apart(back[k[0]], back2[k[1]]), 1e-6)
			}
			require.Less(t, apart(show[0], r3.Vec{X: box.Plan[i].X, Y: box.Plan[i].Y}), 1e-9)
		}
	}
	t.Logf("%d boxes closed", done)
	assert.Greater(t, done, 100)
}

// TestBoxVolume: the boards of a pyramid's frustum fill the space between the
// outer and the inner frustum, by the formula h(A + √(AB) + B)/3.
func TestBoxVolume(t *testing.T) {
	tilt, thick, h := deg(70), 18.0, 400.0
	box := miter.Box{Plan: square(600), Height: h, Boards: []miter.Board{{Tilt: tilt, Thickness: thick}}}
	boards, err := box.Solve()
	require.NoError(t, err)
	in := h / math.Tan(float64(tilt))
	frustum := func(a, b float64) float64 { return h * (a*a + a*b + b*b) / 3 }
	across := thick / math.Sin(float64(tilt))
	want := frustum(600, 600-2*in) - frustum(600-2*across, 600-2*in-2*across)
	got := 0.0
	for _, b := range boards {
		// A prismatoid with level show and back faces: the middle section has
		// the mean of their sides.
		mid := arc.Path{Closed: true}
		for i := range b.Show.V {
			mid.V = append(mid.V, arc.Vertex{P: r2.Scale(0.5, r2.Add(b.Show.V[i].P, b.Back.V[i].P))})
		}
		got += thick / 6 * (b.Show.Area() + 4*mid.Area() + b.Back.Area())
	}
	assert.InEpsilon(t, want, got, 1e-12)
}

// TestPyramid: boards that run to a point are triangles, and their backs stop
// below it.
func TestPyramid(t *testing.T) {
	box := miter.Box{Plan: square(600), Height: 300, Boards: []miter.Board{{Tilt: deg(45), Thickness: 12}}}
	boards, err := box.Solve()
	require.NoError(t, err)
	b := boards[0]
	require.Len(t, b.Show.V, 3)
	require.Len(t, b.Back.V, 3)
	assert.InDelta(t, 300*math.Sqrt2, b.Show.V[2].P.Y, 1e-6)
	assert.Zero(t, b.UpperLength())
	assert.InDelta(t, 600, b.LowerLength(), 1e-9)
	// The inner pyramid's apex is t/cos(tilt) lower.
	_, back := stand(box, 0, b)
	assert.InDelta(t, 300-12*math.Sqrt2, back[2].Z, 1e-6)
	box.Height = 301
	_, err = box.Solve()
	assert.ErrorIs(t, err, miter.ErrVanish)
}

// TestBoxButts: in a plumb box with butt joints two sides are full length and
// two are shorter by both thicknesses.
func TestBoxButts(t *testing.T) {
	box := miter.Box{Plan: square(500), Height: 100, Rim: miter.SquareRim,
		Boards: []miter.Board{{Tilt: deg(90), Thickness: 15}},
		Joints: []miter.Joint{miter.FirstCovers, miter.SecondCovers, miter.FirstCovers, miter.SecondCovers}}
	boards, err := box.Solve()
	require.NoError(t, err)
	for i, want := range []float64{500, 470, 500, 470} {
		assert.InDelta(t, want, boards[i].LowerLength(), 1e-9)
		assert.InDelta(t, want*100, boards[i].Back.Area(), 1e-6)
		assert.InDelta(t, 0, float64(boards[i].Left.Bevel), 1e-12)
		assert.InDelta(t, 0, float64(boards[i].Upper), 1e-12)
	}
	// Leaning boards: an end that butts lies in the plane of the other's back.
	box.Boards[0].Tilt, box.Rim = deg(65), miter.LevelRim
	boards, err = box.Solve()
	require.NoError(t, err)
	through, _ := stand(box, 0, boards[0])
	_, behind := stand(box, 0, boards[0])
	n := r3.Unit(r3.Cross(r3.Sub(through[1], through[0]), r3.Sub(through[3], through[0])))
	show, back := stand(box, 1, boards[1])
	for _, p := range []r3.Vec{show[0], show[3], back[0], back[3]} {
		assert.InDelta(t, 0, r3.Dot(n, r3.Sub(p, behind[0])), 1e-9)
	}
}

// TestSplice: a corner in line is a square joint.
func TestSplice(t *testing.T) {
	box := miter.Box{Height: 200, Boards: []miter.Board{{Tilt: deg(75), Thickness: 19}},
		Plan: []r2.Vec{{}, {X: 400}, {X: 900}, {X: 900, Y: 700}, {Y: 700}}}
	boards, err := box.Solve()
	require.NoError(t, err)
	assert.Zero(t, boards[0].Right.Miter)
	assert.Zero(t, boards[1].Left.Bevel)
	assert.InDelta(t, 400, boards[0].Show.V[2].P.X, 1e-9)
}

func TestBoxRefusals(t *testing.T) {
	good := miter.Box{Plan: square(500), Height: 100, Boards: []miter.Board{{Tilt: deg(80), Thickness: 15}}}
	_, err := good.Solve()
	require.NoError(t, err)
	for name, c := range map[string]struct {
		change func(*miter.Box)
		want   error
	}{
		"no height":   {func(b *miter.Box) { b.Height = 0 }, arc.ErrRange},
		"nan":         {func(b *miter.Box) { b.Height = math.NaN() }, arc.ErrRange},
		"clockwise":   {func(b *miter.Box) { b.Plan[1], b.Plan[3] = b.Plan[3], b.Plan[1] }, arc.ErrOrientation},
		"bow tie":     {func(b *miter.Box) { b.Plan = []r2.Vec{{}, {X: 900}, {X: 100, Y: 500}, {X: 600, Y: 800}} }, arc.ErrCrossing},
		"twice":       {func(b *miter.Box) { b.Plan[1] = b.Plan[0] }, arc.ErrZeroArea},
		"two corners": {func(b *miter.Box) { b.Plan = b.Plan[:2] }, arc.ErrRange},
		"no boards":   {func(b *miter.Box) { b.Boards = nil }, arc.ErrRange},
		"level":       {func(b *miter.Box) { b.Boards[0].Tilt = 0 }, arc.ErrRange},
		"thin":        {func(b *miter.Box) { b.Boards[0].Thickness = 0 }, arc.ErrRange},
		"thick":       {func(b *miter.Box) { b.Boards[0].Thickness = 400 }, miter.ErrVanish},
		"joints":      {func(b *miter.Box) { b.Joints = make([]miter.Joint, 3) }, arc.ErrRange},
		"rim":         {func(b *miter.Box) { b.Rim = 7 }, arc.ErrRange},
		"high":        {func(b *miter.Box) { b.Height = 1e5 }, miter.ErrVanish},
		"arms meet": {func(b *miter.Box) { // a U whose arms lean together
			b.Plan = []r2.Vec{{}, {X: 1000}, {X: 1000, Y: 800}, {X: 600, Y: 800}, {X: 600, Y: 400}, {X: 400, Y: 400}, {X: 400, Y: 800}, {Y: 800}}
			b.Boards[0].Tilt, b.Height = deg(120), 300
		}, miter.ErrVanish},
	} {
		b := good
		b.Plan, b.Boards = square(500), []miter.Board{good.Boards[0]}
		c.change(&b)
		_, err := b.Solve()
		assert.ErrorIs(t, err, c.want, name)
		refused(t, err)
	}
}
