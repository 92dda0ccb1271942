package main

import (
	"errors"
	"fmt"
	"math"
	"net/url"
	"strconv"

	"example.com/sagitta/bend"
	"example.com/sagitta/hood"
)

// A slider is a size that the page can set.
type slider struct {
	Key, Label       string
	Min, Max, At, By float64
	set              func(*hood.Spec, float64)
}

// sliders are all of them, in the order of the page.
var sliders = []slider{
	{"width", "width, mm", 600, 1500, 1080, 10, func(s *hood.Spec, v float64) { s.Width = v }},
	{"height", "height, mm", 500, 1200, 880, 10, func(s *hood.Spec, v float64) { s.Height = v }},
	{"depth", "depth, mm", 350, 650, 510, 5, func(s *hood.Spec, v float64) { s.Depth = v }},
	{"neck", "depth at the neck, mm", 200, 400, 290, 5, func(s *hood.Spec, v float64) { s.Neck.Depth = v }},
	{"taper", "neck narrower by, mm", 0, 500, 0, 10, func(s *hood.Spec, v float64) { s.Neck.Width = s.Width - v }},
	{"skirt", "skirt, mm", 0, 250, 130, 5, func(s *hood.Spec, v float64) { s.Skirt = v }},
	{"sag", "sag of the front, mm (− bows out)", -120, 120, 46, 2, func(s *hood.Spec, v float64) { s.Sweep = curved(v) }},
	{"side", "sag of the sides, mm (with a taper)", -60, 60, 0, 2, func(s *hood.Spec, v float64) {
		if s.Neck.Width < s.Width {
			s.SideSweep = curved(v)
		}
	}},
	{"kerf", "kerf, mm", 1.6, 8, 3.2, 0.1, func(s *hood.Spec, v float64) { s.Bend.KerfWidth = v }},
	{"web", "web under a kerf, mm", 1, 6, 1.6, 0.1, func(s *hood.Spec, v float64) { s.Bend.Web = v }},
	{"facet", "facet allowed, mm", 0.02, 0.3, 0.1, 0.02, func(s *hood.Spec, v float64) { s.Bend.Facet = v }},
}

func curved(sag float64) hood.Sweep {
	switch {
	case sag > 0:
		return hood.Sweep{Shape: "cove", Sag: sag}
	case sag < 0:
		return hood.Sweep{Shape: "bow", Sag: -sag}
	}
	return hood.Sweep{}
}

// specOf returns the hood of the sliders; what the query leaves out is as the
// page begins.
func specOf(q url.Values) hood.Spec {
	s := hood.Spec{
		Version: hood.Version, Title: "Hood of the Quillfeather workshop",
		Board: hood.Board{Material: "mdf", Thickness: 19, Sheets: []hood.Sheet{{Length: 2800, Width: 2070}}},
		Back:  hood.Back{Material: "plywood", Thickness: 12, Rabbet: 9},
		Cut:   hood.Cut{Gap: 14, Margin: 15, Tool: 9.5},
	}
	for _, l := range sliders {
		v, err := strconv.ParseFloat(q.Get(l.Key), 64)
		if err != nil {
			v = l.At
		}
		l.set(&s, v)
	}
	return s
}

// An answer is what a place of the sliders gives: faults, or all the rest.
type answer struct {
	Faults  []string `json:"faults,omitempty"`
	Solids  []solid  `json:"solids,omitempty"`
	Section string   `json:"section,omitempty"` // SVG
	Figures []figure `json:"figures,omitempty"`
	Proof   string   `json:"proof,omitempty"`
}

// A solid is a mesh in tenths of a millimeter, three numbers a vertex and three
// a triangle.
type solid struct {
	Name string `json:"name"`
	V    []int  `json:"v"`
	T    []int  `json:"t"`
}

// A figure is a number and the formula it comes from.
type figure struct {
	Name    string `json:"name"`
	Value   string `json:"value"`
	Formula string `json:"formula"`
}

func build(q url.Values) answer {
	s := specOf(q)
	d, err := hood.Build(s)
	if err != nil {
		return refused(err)
	}
	solids, err := d.Model()
	if err != nil {
		return refused(err)
	}
	a := answer{Figures: figures(d), Proof: proof(d)}
	for _, m := range solids {
		a.Solids = append(a.Solids, meshOf(m))
	}
	if a.Section, err = section(s); err != nil {
		return refused(err)
	}
	return a
}

func refused(err error) answer {
	var all hood.Faults
	if !errors.As(err, &all) {
		return answer{Faults: []string{err.Error()}}
	}
	var a answer
	for _, f := range all {
		a.Faults = append(a.Faults, f.Error())
	}
	return a
}

func meshOf(m hood.Solid) solid {
	out := solid{Name: m.Name}
	for _, v := range m.Vertices {
		for _, x := range []float64{v.X, v.Y, v.Z} {
			out.V = append(out.V, int(math.Round(10*x)))
		}
	}
	for _, t := range m.Triangles {
		out.T = append(out.T, t[:]...)
	}
	return out
}

// figures lists what the front's curve and its kerfs come to.
func figures(d hood.Design) []figure {
	c, k := d.Front, d.Front.Kerfs
	out := []figure{{"mass of the parts", fmt.Sprintf("%.1f kg", d.Mass), "Σ volume × density"}}
	if c.Sag == 0 {
		return append(out, figure{"front", "straight", "no sag"})
	}
	b := bend.Board{Thickness: d.Spec.Board.Thickness, KerfWidth: d.Spec.Bend.KerfWidth, Web: d.Spec.Bend.Web}
	out = append(out,
		figure{"chord c", fmt.Sprintf("%.1f mm", c.Chord), "between the ends of the sweep"},
		figure{"sag s", fmt.Sprintf("%.1f mm", c.Sag), "square to the chord, at its middle"},
		figure{"radius R", fmt.Sprintf("%.1f mm", c.Radius), "c²/(8s) + s/2"},
		figure{"turn Φ", fmt.Sprintf("%.2f°", c.Turn.Degrees()), "4·atan(2s/c)"},
		figure{"length on the show face", fmt.Sprintf("%.1f mm", c.ShowLength), "R·Φ"},
		figure{"length of the flat blank", fmt.Sprintf("%.1f mm", c.FlatLength), "of the middle of the webs, after bending"},
		figure{"kerfs", strconv.Itoa(k.Count), "the fewest that facet, strain and closing allow"},
		figure{"turn of a kerf a", fmt.Sprintf("%.2f°", k.Turn.Degrees()), "Φ / number"},
		figure{"facet", fmt.Sprintf("%.3f mm", k.Facet), "(N − ρ)(sec(a/2) − 1), N and ρ the radii of curve and web"},
		figure{"strain of a web", fmt.Sprintf("%.2f %%", 100*k.Strain), "b·a/(2w), b the web and w the kerf"},
	)
	if !k.Opens {
		out = append(out, figure{"a kerf closes at", fmt.Sprintf("%.2f°", b.ClosingAngle().Degrees()), "w/(t − b/2), t the board"})
	}
	return out
}

// proof sums the checks of a design up.
func proof(d hood.Design) string {
	for _, c := range d.Checks {
		if !c.OK {
			return "does not hold: " + c.Name
		}
	}
	return fmt.Sprintf("%d checks hold: every joint was folded back from its flat parts and measured", len(d.Checks))
}
