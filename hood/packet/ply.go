package packet

import (
	"fmt"

	"example.com/sagitta/arc/say"
	"example.com/sagitta/hood"
)

// A plyRecord tells how a panel is laminated, or bent as it is in one sheet.
type plyRecord struct {
	Count      int     `json:"count"`
	Thickness  float   `json:"thickness"`
	Strain     float   `json:"strain"`
	Use        float   `json:"use"`         // of what the material stands
	FormRadius float   `json:"form_radius"` // inside the bend, before springback; 0 without a form
	Lengths    []float `json:"lengths"`     // net, from the show face in
}

// A bentRecord is a length of a blank that bends evenly.
type bentRecord struct {
	From    float `json:"from"`
	To      float `json:"to"`
	TurnDeg float `json:"turn_deg"`
}

// A finishRecord is where an edge of the glued panel is trimmed on the faces of a
// ply.
type finishRecord struct {
	Edge string   `json:"edge"`
	Show []vertex `json:"show"`
	Back []vertex `json:"back"`
}

// setPlies records how a panel is laminated, or bent as it is.
func (r *curveRecord) setPlies(p hood.Plies) {
	if p.Count == 0 {
		return
	}
	r.Method = "as-is"
	if p.Count > 1 {
		r.Method = "laminate"
	}
	r.Plies = &plyRecord{p.Count, float(p.Thickness), float(p.Strain), float(p.Use), float(p.FormRadius), nil}
	for _, l := range p.Lengths {
		r.Plies.Lengths = append(r.Plies.Lengths, float(l))
	}
}

// setBent records how a part bends without kerfs, and where a ply is trimmed.
func (r *partRecord) setBent(p hood.Part) {
	r.Ply, r.Form = p.Ply > 0, p.Kind == hood.KindForm
	for _, b := range p.Bent {
		r.Bent = append(r.Bent, bentRecord{float(b.From), float(b.To), degrees(b.Turn)})
	}
	if p.Ply == 0 {
		return
	}
	for _, e := range p.Edges {
		r.Trimmed = append(r.Trimmed, finishRecord{e.Name, vertices(e.Show), vertices(e.Back)})
	}
}

// plyFacts returns the figures of a panel of plies, or of one sheet.
func plyFacts(p hood.Plies, in say.Format) []fact {
	if p.Count == 0 {
		return nil
	}
	length := in.Length
	f := []fact{{"bent as it is, in one sheet", in.Thin(p.Thickness)}}
	if p.Count > 1 {
		f = []fact{{"plies", fmt.Sprintf("%d of %s", p.Count, in.Thin(p.Thickness))}}
		for i, l := range p.Lengths {
			f = append(f, fact{fmt.Sprintf("net length of ply %d", i+1), length(l)})
		}
		f = append(f, fact{"tightest radius of the form, springback allowed for", length(p.FormRadius)})
	}
	return append(f, fact{"largest strain", say.Percent(p.Strain, 2)}, fact{"used of what the material stands", say.Percent(p.Use, 0)})
}
