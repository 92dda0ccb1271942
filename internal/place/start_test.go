package place

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/internal/weary"
)

// Of so many items not all turns are tried, but those of the layout to begin
// with are, so that it is taken up.
func TestStartKeepsItsTurns(t *testing.T) {
	var items []Item
	var start []Placement
	const n = 650
	for i := range n {
		s := 10 + 0.01*float64(i)
		items = append(items, Item{Outer: []r2.Vec{{}, {X: s}, {Y: 2 * s}}, Rotations: rightAngles, Mirror: true})
		at := r2.Vec{X: 70 * float64(1+i%26), Y: 70 * float64(1+i/26)}
		start = append(start, Placement{Item: i, Rotation: rightAngles[i%4], Mirrored: i%3 == 0, At: at})
	}
	require.Less(t, mostTurns(n), 8)
	c := Container{Width: 1900, Height: 1900}
	p, err := newProblem(context.Background(), "Fit", withTurns(items, start), nil, rooms([]Container{c}), nil)
	require.NoError(t, err)
	run := &fitRun{p: p, opt: Options{Start: start}, sites: make([]site, 1)}
	run.sites[0].measure(p, c)
	out := run.started(copiesOf(items))
	require.NotNil(t, out)
	require.Equal(t, n, out.copies())
	require.LessOrEqual(t, len(p.shapes), maxShapes)
}

// A time that is over before the items are read leaves nothing, and no error;
// what has been read is kept for the next call.
func TestTimeEndsReading(t *testing.T) {
	var items []Item
	for i := range 200 {
		items = append(items, Item{Outer: star7(10 + float64(i)), Rotations: rightAngles})
	}
	sheets := []Container{{Width: 5000, Height: 3000}}
	r, err := Fit(context.Background(), items, sheets, Options{Time: 1})
	require.NoError(t, err)
	require.False(t, r.Stopped, "by the context")
	require.Empty(t, r.Placed)
	var m Memory
	r, err = Fit(weary.New(context.Background(), 100), items, sheets, Options{Iterations: 1, Memory: &m})
	require.NoError(t, err)
	require.True(t, r.Stopped)
	require.Empty(t, r.Placed)
	require.NotEmpty(t, m.forms)
	require.Less(t, len(m.forms), 200)
	r, err = Fit(context.Background(), items, sheets, Options{Iterations: 1, Memory: &m})
	require.NoError(t, err)
	require.NotEmpty(t, r.Placed)
	fresh, err := Fit(context.Background(), items, sheets, Options{Iterations: 1})
	require.NoError(t, err)
	require.Equal(t, fresh.Placed, r.Placed)
}
