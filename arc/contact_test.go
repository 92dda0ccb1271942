package arc_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

func kinds(cs []arc.Contact) (out []arc.ContactKind, crosses int) {
	for _, c := range cs {
		out = append(out, c.Kind)
		if c.Crosses {
			crosses++
		}
	}
	return out, crosses
}

func TestContacts(t *testing.T) {
	const x, o, s = arc.Crossing, arc.Touching, arc.Overlapping
	line := arc.Polyline(r2.Vec{X: -20}, r2.Vec{X: 20})
	circle := arc.Circle(r2.Vec{}, 10)
	for _, c := range []struct {
		name    string
		p, q    arc.Path
		kinds   []arc.ContactKind
		crosses int
	}{
		{"apart", line, line.Transform(arc.Shift(r2.Vec{Y: 1})), nil, 0},
		{"line through circle", line, circle, []arc.ContactKind{x, x}, 2},
		{"line beside circle", line, circle.Transform(arc.Shift(r2.Vec{Y: 10})), []arc.ContactKind{o}, 0},
		{"circles touching outside", circle, arc.Circle(r2.Vec{X: 12, Y: 16}, 10), []arc.ContactKind{o}, 0},
		{"circles touching inside", circle, arc.Circle(r2.Vec{X: 3, Y: 4}, 5), []arc.ContactKind{o}, 0},
		{"circles crossing", circle, arc.Circle(r2.Vec{X: 3, Y: 4}, 10), []arc.ContactKind{x, x}, 2},
		{"equal circles", circle, circle, []arc.ContactKind{s}, 0},
		{"equal circles against each other", circle, circle.Reverse(), []arc.ContactKind{s}, 0},
		{"equal lines", line, line, []arc.ContactKind{s}, 0},
		{"lines end to end", line, line.Transform(arc.Shift(r2.Vec{X: 40})), []arc.ContactKind{o}, 0},
		{"tee", line, arc.Polyline(r2.Vec{X: 3}, r2.Vec{X: 3, Y: 9}), []arc.ContactKind{o}, 0},
		{"corner on line", line, arc.Polyline(r2.Vec{X: -5, Y: 5}, r2.Vec{}, r2.Vec{X: 5, Y: 5}), []arc.ContactKind{o}, 0},
		{"corner through line", line, arc.Polyline(r2.Vec{X: -5, Y: 5}, r2.Vec{}, r2.Vec{X: 5, Y: -5}), []arc.ContactKind{x}, 1},
		{"run along and over", line, arc.Polyline(r2.Vec{X: -5, Y: 5}, r2.Vec{X: -3}, r2.Vec{X: 3}, r2.Vec{X: 5, Y: -5}), []arc.ContactKind{s}, 1},
		{"run along and back", line, arc.Polyline(r2.Vec{X: -5, Y: 5}, r2.Vec{X: -3}, r2.Vec{X: 3}, r2.Vec{X: 5, Y: 5}), []arc.ContactKind{s}, 0},
		{"squares side by side", arc.Rect(0, 0, 10, 10), arc.Rect(10, 2, 20, 8), []arc.ContactKind{s}, 0},
	} {
		for _, m := range []arc.Motion{{}, arc.Rotate(1).Then(arc.Shift(r2.Vec{X: 900, Y: 7})), arc.MirrorX(), arc.Rotate(90 * arc.Degree)} {
			for v := range 8 {
				p, q := c.p.Transform(m), c.q.Transform(m)
				if v&1 != 0 {
					p = p.Reverse()
				}
				if v&2 != 0 {
					q = q.Reverse()
				}
				if v&4 != 0 {
					p, q = q, p
				}
				got, err := arc.Contacts(p, q, 0)
				require.NoError(t, err)
				k, n := kinds(got)
				assert.ElementsMatch(t, c.kinds, k, "%s %d", c.name, v)
				assert.Equal(t, c.crosses, n, "%s %d", c.name, v)
				for _, g := range got {
					a, _ := p.At(g.AtP)
					b, _ := q.At(g.AtQ)
					assert.InDelta(t, 0, r2.Norm(r2.Sub(a, g.At)), 1e-6, c.name)
					assert.InDelta(t, 0, r2.Norm(r2.Sub(b, g.At)), 1e-6, c.name)
				}
			}
		}
	}
}

func TestSelfContacts(t *testing.T) {
	eight := arc.Path{V: []arc.Vertex{arc.V(0, 0, 1), arc.V(10, 0, 0), arc.V(0, 10, -1), arc.V(10, 10, 0)}, Closed: true}
	for _, c := range []struct {
		name    string
		p       arc.Path
		kinds   []arc.ContactKind
		crosses int
	}{
		{"square", arc.Rect(0, 0, 1, 1), nil, 0},
		{"circle", arc.Circle(r2.Vec{}, 3), nil, 0},
		{"eight", eight, []arc.ContactKind{arc.Crossing}, 1},
		{"eight at a vertex", arc.Polygon(r2.Vec{}, r2.Vec{X: 4, Y: 4}, r2.Vec{X: 8}, r2.Vec{X: 8, Y: 8}, r2.Vec{X: 4, Y: 4}, r2.Vec{Y: 8}), []arc.ContactKind{arc.Touching}, 0},
		{"bow tie at a vertex", arc.Polygon(r2.Vec{}, r2.Vec{X: 4, Y: 4}, r2.Vec{X: 8, Y: 8}, r2.Vec{X: 8}, r2.Vec{X: 4, Y: 4}, r2.Vec{Y: 8}), []arc.ContactKind{arc.Crossing}, 1},
		{"spike", arc.Polyline(r2.Vec{}, r2.Vec{X: 5}, r2.Vec{X: 5, Y: 5}, r2.Vec{X: 5}, r2.Vec{X: 10}), []arc.ContactKind{arc.Overlapping}, 0},
		{"loop over itself", arc.Polyline(r2.Vec{}, r2.Vec{X: 5}, r2.Vec{X: 5, Y: 5}, r2.Vec{X: 2, Y: 5}, r2.Vec{X: 2, Y: -5}), []arc.ContactKind{arc.Crossing}, 1},
	} {
		for _, p := range []arc.Path{c.p, c.p.Reverse(), c.p.Transform(arc.Rotate(0.7)), c.p.Transform(arc.MirrorX())} {
			for s := range max(1, len(p.V)) {
				if s > 0 && !p.Closed {
					break
				}
				if s > 0 {
					p = arc.Path{V: append(append([]arc.Vertex{}, p.V[1:]...), p.V[0]), Closed: true}
				}
				got, err := p.SelfContacts(0)
				require.NoError(t, err)
				k, n := kinds(got)
				assert.ElementsMatch(t, c.kinds, k, c.name)
				assert.Equal(t, c.crosses, n, c.name)
			}
		}
	}
}
