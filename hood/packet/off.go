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

// offFacts says what a zero or a cutter that is 0.1 mm off does to the kerfs of
// a hood, at the largest turn of one; nothing where there is none.
func offFacts(d hood.Design, in say.Format) []curvePage {
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
	p := curvePage{Name: "Kerfs where zero or cutter is " + in.Thin(offBy) + " off"}
	for _, r := range []struct {
		name       string
		zero, wide float64
	}{
		{"as planned", 0, 0}, {"zero of Z too high", offBy, 0}, {"zero of Z too low", -offBy, 0},
		{"cutter too wide", 0, offBy}, {"cutter too narrow", 0, -offBy},
	} {
		o := b.Off(r.zero, r.wide)
		value := "no web is left"
		if o.Check() == nil {
			value = "web " + in.Thin(o.Web) + ", strain " + say.Percent(o.Strain(turn), 2) + ", closes at " + say.Program(o.ClosingAngle())
		}
		p.Facts = append(p.Facts, fact{r.name, value})
	}
	return []curvePage{p}
}
