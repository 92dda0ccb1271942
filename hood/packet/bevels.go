package packet

import (
	"math"

	"example.com/sagitta/sheet/cut"
)

// facesOff is how far measuring may be off what a plan says of a face, mm: the
// coordinates of a program have four digits, and probes are single precision.
const facesOff = 0.02

// faces records how true the beveled faces of a program are, and what a miter
// of two of them is.
func (m *maker) faces(name string, p cut.Program, rep cut.Report) {
	var worst cut.Face
	for _, f := range rep.Bevels {
		worst.Stand, worst.Bite = math.Max(worst.Stand, f.Stand), math.Max(worst.Bite, f.Bite)
	}
	if len(rep.Bevels) == 0 {
		return
	}
	stands, behind := 0.0, 0.0
	for _, b := range p.Bevels {
		stands, behind = math.Max(stands, b.Made.Stands), math.Max(behind, b.Made.Behind)
	}
	open, gap := cut.Joint(worst, worst)
	for _, c := range []struct {
		what        string
		value, most float64
	}{
		{"wood stands off a beveled face by at most", worst.Stand, stands + facesOff},
		{"a beveled face is bitten by at most", worst.Bite, behind + facesOff},
		{"a miter of two such faces, not sanded, is open at the show edge by at most", open, 2 * (stands + facesOff)},
		{"and gapes behind it, its steps sanded off, by at most", gap, 2 * (behind + facesOff)},
	} {
		m.rec.Checks = append(m.rec.Checks, checkRecord{Name: name + ": " + c.what, Value: float(c.value), Limit: float(c.most), Unit: "mm", OK: c.value <= c.most})
		m.page.Checks = append(m.page.Checks, checkPage{name + ": " + c.what, measured(c.value, "mm", m.in), measured(c.most, "mm", m.in), c.value <= c.most})
	}
}
