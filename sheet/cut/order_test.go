package cut_test

import (
	"context"
	"testing"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
	"example.com/sagitta/sheet/cut"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

// Kinds come in their sequence; a part that lies in another's opening is cut
// out before the opening, and that before its part.
func TestSequence(t *testing.T) {
	job, opt := workshop()
	p, err := cut.Plan(context.Background(), job, opt)
	require.NoError(t, err)
	for i := 1; i < len(p.Operations); i++ {
		require.LessOrEqual(t, p.Operations[i-1].Kind, p.Operations[i].Kind)
	}

	frame := arc.Region{Outer: arc.Rect(0, 0, 500, 400), Holes: []arc.Path{arc.Rect(60, 60, 440, 340).Reverse()}}
	plate := arc.Region{Outer: arc.Rect(0, 0, 250, 200), Holes: []arc.Path{arc.Circle(r2.Vec{X: 125, Y: 100}, 70).Reverse()}}
	disc := arc.Region{Outer: arc.Circle(r2.Vec{}, 40)}
	job = cut.Job{
		Stock: sheet.Stock{Thickness: 19, Length: 600, Width: 500},
		Parts: []sheet.Part{{Thickness: 19, Outline: frame}, {Thickness: 19, Outline: plate}, {Thickness: 19, Outline: disc}},
		Placements: []sheet.Placement{
			{Part: 0, At: r2.Vec{X: 50, Y: 50}}, {Part: 1, At: r2.Vec{X: 175, Y: 150}}, {Part: 2, At: r2.Vec{X: 300, Y: 250}},
		},
	}
	p, err = cut.Plan(context.Background(), job, opt)
	require.NoError(t, err)
	type step struct {
		kind cut.Kind
		part int
	}
	var got []step
	for _, o := range p.Operations {
		got = append(got, step{o.Kind, o.Placement})
	}
	require.Equal(t, []step{
		{cut.OutlineCut, 2}, {cut.OpeningCut, 1}, {cut.OutlineCut, 1}, {cut.OpeningCut, 0}, {cut.OutlineCut, 0},
	}, got)
	require.Empty(t, replay(t, job, opt, text(t, job, opt)).Faults)
}

// The same job gives the same bytes.
func TestSameProgramEveryTime(t *testing.T) {
	job, opt := workshop()
	require.Equal(t, text(t, job, opt), text(t, job, opt))
}

func TestTracks(t *testing.T) {
	job, opt := workshop()
	p, err := cut.Plan(context.Background(), job, opt)
	require.NoError(t, err)
	tracks, travel := p.Tracks()
	require.Len(t, tracks, len(p.Operations))
	require.NotEmpty(t, travel)
	for i, k := range tracks {
		require.Equal(t, p.Operations[i].Kind, k.Kind)
		length := 0.0
		for _, path := range k.Paths {
			require.NoError(t, path.Usable())
			length += path.Length()
		}
		if k.Kind == cut.OutlineCut && k.Name == "sweep.1" {
			// Around a rectangle of 300 by 200: the sides, and a full circle of
			// the cutter's radius at the corners.
			require.Greater(t, length, 1000+9.525*3.14159)
		}
		require.Positive(t, length)
	}
}
