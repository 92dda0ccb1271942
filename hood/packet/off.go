package packet

import (
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/say"
	"example.com/sagitta/bend"
	"example.com/sagitta/hood"
)

// offBy is how far zero and cutter are taken to be off, mm.
const offBy = 0.1

// An offRecord is what is left of a kerf where zero or cutter is off. Without a
// web, nothing is.
type offRecord struct {
	What      string `json:"what"`
	Zero      float  `json:"zero"`   // of Z too high, mm
	Cutter    float  `json:"cutter"` // too wide, mm
	Web       float  `json:"web"`
	Strain    float  `json:"strain"`
	ClosesDeg float  `json:"closes_deg"`

	closes arc.Angle
}

// off returns what a zero or a cutter that is 0.1 mm off does to the kerfs of
// a hood, at the largest turn of one; nothing where there is none.
func off(d hood.Design) []offRecord {
	turn := arc.Angle(0)
	for _, c := range []hood.Curve{d.Front, d.Left.Curve, d.Right.Curve} {
		for _, a := range append(c.Arcs, c) {
			if a.Kerfs.Count > 0 {
				turn = arc.Angle(math.Max(float64(turn), math.Abs(float64(a.Kerfs.Turn))))
			}
		}
	}
	b := bend.Board{Thickness: d.Spec.Board.Thickness, KerfWidth: d.Spec.Bend.KerfWidth, Web: d.Spec.Bend.Web}
	if turn == 0 {
		return nil
	}
	var out []offRecord
	for _, r := range []offRecord{
		{What: "as planned"}, {What: "zero of Z too high", Zero: offBy}, {What: "zero of Z too low", Zero: -offBy},
		{What: "cutter too wide", Cutter: offBy}, {What: "cutter too narrow", Cutter: -offBy},
	} {
		if o := b.Off(float64(r.Zero), float64(r.Cutter)); o.Check() == nil {
			r.Web, r.Strain, r.closes = float(o.Web), float(o.Strain(turn)), o.ClosingAngle()
			r.ClosesDeg = degrees(r.closes)
		}
		out = append(out, r)
	}
	return out
}

// offFacts says so to people.
func offFacts(d hood.Design, in say.Format) []curvePage {
	list := off(d)
	if list == nil {
		return nil
	}
	p := curvePage{Name: "Kerfs where zero or cutter is " + in.Thin(offBy) + " off"}
	for _, r := range list {
		value := "no web is left"
		if r.Web > 0 {
			value = "web " + in.Thin(float64(r.Web)) + ", strain " + say.Percent(float64(r.Strain), 2) + ", closes at " + say.Program(r.closes)
		}
		p.Facts = append(p.Facts, fact{r.What, value})
	}
	return []curvePage{p}
}
