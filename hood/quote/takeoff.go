package quote

import (
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/hood"
	"example.com/sagitta/sheet"
)

// A Takeoff is what goes into a hood. Sheets, Offcuts and Minutes are not known
// to a design; who lays it out fills them in.
type Takeoff struct {
	Title   string
	Sheets  []sheet.Taken // as [sheet.Book] has them; a cost of 0 is not known
	Offcuts float64       // worth of what the layout gives back, in the currency of the rates
	Minutes float64       // of the router; 0 is not known, and its line not priced

	Parts     int     // cut from sheets: those of the hood, plies and forms
	Assembled int     // parts of the hood that are put together, a glued panel as one
	SawEdges  int     // edges left to the saw
	Kerfed    int     // panels
	Plies     int     // glued up to panels
	Banding   float64 // of edges that show, m
	Fill      float64 // of kerfs after bending, L
	Glue      float64 // area of joints, m²: between plies, and of every edge that does not show, a beveled one shared with its fellow
	Finish    float64 // area of the faces that show, m²: skirts, sweeps, cheeks, chimney and the underside of the shelf; of a glued panel before it is trimmed
	Moldings  []hood.Trim
}

// TakeOff counts a design. Glue counts an edge that meets nothing too, so that
// it is rather much than little.
func TakeOff(d hood.Design) Takeoff {
	t := Takeoff{Title: d.Spec.Title, Parts: len(d.Parts), Moldings: d.Trim}
	for _, p := range d.Parts {
		t.count(p, d.Spec.Board.Thickness)
	}
	return t
}

func (t *Takeoff) count(p hood.Part, board float64) {
	for _, e := range p.Edges {
		if e.Saw {
			t.SawEdges++
		}
	}
	if p.Kind == hood.KindForm {
		return
	}
	area := math.Abs(p.Outline.Area()) / 1e6
	if p.Ply > 0 {
		t.Plies++
	}
	if p.Ply > 1 {
		t.Glue += area // to the ply before it
		return
	}
	t.Assembled++
	if shows(p.Kind) {
		t.Finish += area
	}
	if len(p.Kerfs) > 0 {
		t.Kerfed++
		t.Fill += fill(p)
	}
	thick := p.Thickness
	if p.Ply > 0 {
		thick = board // of the glued panel
	}
	t.edges(p, thick)
}

// edges adds banding, and the glue of the edges that meet another part. Of two
// beveled edges that meet one is spread, so that each counts half.
func (t *Takeoff) edges(p hood.Part, thick float64) {
	for _, e := range p.Edges {
		m := e.Show.Length() / 1e3
		if e.Band {
			t.Banding += m
			continue
		}
		area := m * thick / 1e3 / math.Cos(float64(e.Bevel))
		if e.Bevel != 0 {
			area /= 2
		}
		t.Glue += area
	}
}

// shows reports whether one face of a kind of part is seen.
func shows(k hood.Kind) bool {
	switch k {
	case hood.KindSkirt, hood.KindSweep, hood.KindCheek, hood.KindShelf, hood.KindChimneySide, hood.KindChimneyFront:
		return true
	}
	return false
}

// fill returns the volume of a panel's kerfs after bending, in liters: each is
// as long as its slot and a trapezoid across, as wide as it was cut at the web
// and as wide as its mouth at the back. That the walls lean and the web bends makes less than
// a hundredth of it.
func fill(p hood.Part) float64 {
	v := 0.0
	for i, k := range p.Kerfs {
		s := p.Work.Slots[i]
		v += r2.Norm(r2.Sub(s.To, s.From)) * s.Depth * (s.Width + k.Mouth) / 2
	}
	return v / 1e6
}

// bars returns the lengths to cut of the moldings of a name, a mitered end
// longer by the given allowance.
func (t Takeoff) bars(name string, miter float64) (lengths []float64, miters int) {
	for _, m := range t.Moldings {
		if strings.HasPrefix(m.Name, name) {
			lengths = append(lengths, m.Length+float64(m.Miters)*miter)
			miters += m.Miters
		}
	}
	return lengths, miters
}
