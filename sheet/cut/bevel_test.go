package cut_test

import (
	"testing"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
	"example.com/sagitta/sheet/cut"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

// single returns a job of one part laid with room around it.
func single(outline arc.Region, w cut.Work, motions ...sheet.Placement) (cut.Job, cut.Options) {
	job := cut.Job{
		Stock:      sheet.Stock{Thickness: 19, Length: 900, Width: 700},
		Parts:      []sheet.Part{{Name: "part", Thickness: 19, Outline: outline}},
		Works:      []cut.Work{w},
		Placements: []sheet.Placement{{At: r2.Vec{X: 200, Y: 200}}},
	}
	if len(motions) > 0 {
		job.Placements = motions
	}
	return job, cut.Options{Tools: cut.Tools(9.525, 3.2, 19)}
}

// sides returns the sides of a loop as open paths.
func sides(p arc.Path) []arc.Path {
	var out []arc.Path
	for i := range p.NumSegments() {
		s := p.Segment(i)
		out = append(out, arc.Path{V: []arc.Vertex{{P: s.A, K: s.K}, {P: s.B}}})
	}
	return out
}

// edgesWithBevels are outlines with the runs of them to bevel.
func edgesWithBevels() map[string]struct {
	outline arc.Path
	edges   []arc.Path
} {
	type c = struct {
		outline arc.Path
		edges   []arc.Path
	}
	rect := arc.Rect(0, 0, 400, 250)
	notched := arc.Polygon(r2.Vec{}, r2.Vec{X: 400}, r2.Vec{X: 400, Y: 250}, r2.Vec{X: 250, Y: 250}, r2.Vec{X: 250, Y: 120}, r2.Vec{Y: 120})
	curved := arc.Path{Closed: true, V: []arc.Vertex{arc.V(0, 0, 0.2), arc.V(400, 0, 0), arc.V(400, 250, -0.15), arc.V(0, 250, 0)}}
	slanted := arc.Polygon(r2.Vec{}, r2.Vec{X: 400}, r2.Vec{X: 300, Y: 250}, r2.Vec{X: 60, Y: 250})
	ring := func(p arc.Path) []arc.Path { return []arc.Path{p} }
	two := arc.Path{V: append([]arc.Vertex{}, rect.V[:3]...)}
	return map[string]c{
		"one side":            {rect, sides(rect)[:1]},
		"opposite sides":      {rect, []arc.Path{sides(rect)[0], sides(rect)[2]}},
		"two sides in one":    {rect, []arc.Path{two}},
		"all sides in one":    {rect, ring(rect)},
		"all sides each":      {rect, sides(rect)},
		"inside corner":       {notched, ring(notched)},
		"up to inside corner": {notched, []arc.Path{sides(notched)[3], sides(notched)[4]}},
		"arcs":                {curved, ring(curved)},
		"arc out":             {curved, sides(curved)[:1]},
		"arc in":              {curved, sides(curved)[2:3]},
		"slanted ends":        {slanted, []arc.Path{sides(slanted)[0], sides(slanted)[2]}},
		"disc":                {arc.Circle(r2.Vec{X: 100, Y: 100}, 100), ring(arc.Circle(r2.Vec{X: 100, Y: 100}, 100))},
	}
}

func TestBevels(t *testing.T) {
	for name, c := range edgesWithBevels() {
		for i, angle := range []float64{45, 30, 22.5} {
			for _, climb := range []bool{false, true} {
				if !full() && i > 0 && climb || testing.Short() && (i > 0 || climb) {
					continue
				}
				var w cut.Work
				for _, e := range c.edges {
					w.Bevels = append(w.Bevels, cut.Bevel{Edge: e, Angle: arc.Angle(angle) * arc.Degree})
				}
				job, opt := single(arc.Region{Outer: c.outline}, w)
				opt.Tools = cut.Tools(9.525, 3.2, 19, arc.Angle(2*angle)*arc.Degree)
				opt.Climb = climb
				for k, pl := range []sheet.Placement{
					{At: r2.Vec{X: 150, Y: 150}},
					{At: r2.Vec{X: 750, Y: 150}, Mirror: true},
					{At: r2.Vec{X: 420, Y: 150}, Rotate: 37 * arc.Degree},
				} {
					if !full() && k != i {
						continue
					}
					job.Placements = []sheet.Placement{pl}
					rep := replay(t, job, opt, text(t, job, opt))
					require.Empty(t, rep.Faults, "%s %v %v %v: %v", name, angle, climb, pl, rep.Faults)
					require.GreaterOrEqual(t, rep.Tabs, 2, name)
				}
			}
		}
	}
}
