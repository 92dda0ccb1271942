package packet

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet/cut"
	"example.com/sagitta/sheet/rs274"
)

// throughLoops returns the closed ways of the axis of cutter 1 that go right
// through the sheet, found in the text alone: the last way round of every
// stretch of feed moves.
func throughLoops(t *testing.T, text []byte) []arc.Path {
	moves, _, err := rs274.Read(bytes.NewReader(text), rs274.Options{})
	require.NoError(t, err)
	var loops []arc.Path
	var run []cut.Move
	flush := func() {
		if p, low := lastRound(run); len(p.V) > 1 && low < 0 {
			loops = append(loops, p)
		}
		run = nil
	}
	for _, m := range moves {
		if m.Rapid || m.Tool != 1 {
			flush()
			continue
		}
		run = append(run, m)
	}
	flush()
	return loops
}

// lastRound walks back from the end of a run to where it was there before.
func lastRound(run []cut.Move) (p arc.Path, low float64) {
	for len(run) > 0 && run[len(run)-1].From.X == run[len(run)-1].To.X && run[len(run)-1].From.Y == run[len(run)-1].To.Y {
		run = run[:len(run)-1] // up and out
	}
	if len(run) == 0 {
		return arc.Path{}, 0
	}
	end := run[len(run)-1].To
	p.Closed = true
	for i := len(run) - 1; i >= 0; i-- {
		m := run[i]
		low = math.Min(low, math.Min(m.From.Z, m.To.Z))
		if m.From.X != m.To.X || m.From.Y != m.To.Y {
			p.V = append([]arc.Vertex{{P: r2.Vec{X: m.From.X, Y: m.From.Y}, K: m.K}}, p.V...)
		}
		if math.Hypot(m.From.X-end.X, m.From.Y-end.Y) < 1e-3 && len(p.V) > 1 {
			return p, low
		}
	}
	return arc.Path{}, 0
}

// The programs cut the same parts as packet.json says: the loops that go
// through, moved over by the cutter's radius, have the parts' areas, extents
// and openings.
func TestSamePartInEveryProgram(t *testing.T) {
	for _, spec := range []string{checkedFront, demo(t), registered, registeredFlared} {
		files, p := made(t, spec)
		for _, s := range p.Sheets {
			loops := throughLoops(t, files[s.Program])
			used := 0
			for _, pl := range s.Placements {
				for _, part := range p.Parts {
					if part.Name != pl.Part {
						continue
					}
					m := arc.Rotate(arc.Angle(pl.RotateDeg) * arc.Degree).Then(arc.Shift(r2.Vec{X: pl.X, Y: pl.Y}))
					checkLoop(t, loops, path(part.Outline).Transform(m), part.Name)
					used++
					for _, h := range part.Holes {
						checkLoop(t, loops, path(h).Transform(m).Reverse(), part.Name+" opening")
						used++
					}
				}
			}
			assert.Len(t, loops, used, "as many loops as outlines and openings")
		}
	}
}

// checkLoop wants a loop of the axis that lies one radius outside of an
// outline, or inside of an opening.
func checkLoop(t *testing.T, loops []arc.Path, want arc.Path, name string) {
	const radius = 9.525 / 2
	grow := radius
	if strings.HasSuffix(name, "opening") {
		grow = -radius
	}
	left := leftInCorners(want, radius, grow)
	b := want.Bounds()
	for _, l := range loops {
		if l.Area() < 0 {
			l = l.Reverse()
		}
		back, err := l.Offset(-grow, arc.OffsetOptions{})
		if err != nil || len(back) != 1 {
			continue
		}
		g := back[0].Bounds()
		d := max(math.Abs(g.Min.X-b.Min.X), math.Abs(g.Min.Y-b.Min.Y), math.Abs(g.Max.X-b.Max.X), math.Abs(g.Max.Y-b.Max.Y))
		if d <= 0.01 {
			assert.InDelta(t, want.Area()+left, back[0].Area(), 0.01*want.Length(), name)
			return
		}
	}
	t.Errorf("%s: no loop has its extents", name)
}

// leftInCorners returns the area that a round cutter adds to an outline in its
// inside corners, grow > 0, or leaves of an opening, grow < 0: in a corner of
// turn a, r²·(tan(a/2) − a/2).
func leftInCorners(p arc.Path, r, grow float64) float64 {
	sum := 0.0
	n := p.NumSegments()
	for i := range n {
		_, u := p.Segment(i).At(p.Segment(i).Length())
		_, v := p.Segment((i + 1) % n).At(0)
		turn := math.Atan2(r2.Cross(u, v), r2.Dot(u, v))
		if half := math.Abs(turn) / 2; turn*grow < 0 && half < 1.5 {
			sum += math.Copysign(r*r*(math.Tan(half)-half), grow)
		}
	}
	return sum
}

// A program that was changed by a hand does not pass the replay.
func TestReplayFaultsAreReported(t *testing.T) {
	err := replayFaults("sheets/sheet-1.nc", cut.Faults{{Kind: cut.Gouge, Name: "back.1", Feature: "face"}})
	assert.ErrorIs(t, err, cut.ErrFaulty)
	assert.ErrorContains(t, err, "sheets/sheet-1.nc")
}
