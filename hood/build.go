package hood

import (
	"fmt"

	"example.com/sagitta/hood/internal/boards"
	"example.com/sagitta/hood/internal/proof"
	"example.com/sagitta/hood/spec"
)

// Build works out the hood and proves that it closes. The error is Faults of
// the spec.
func Build(s Spec) (Design, error) {
	if err := s.Validate(); err != nil {
		return Design{}, err
	}
	sizes := s.Sizes()
	h, err := boards.Make(sizes)
	if err != nil {
		return Design{}, err
	}
	faults := spec.Checker{Func: "hood.Build", In: s.Format()}
	d := Design{
		Spec: sizes.Spec, Front: h.Front.Curve, Left: flareOf(h.Front, h.Left, s.Skirt, s.Board.Thickness), Right: flareOf(h.Front, h.Right, s.Skirt, s.Board.Thickness),
		Parts: h.Parts, Trim: moldings(sizes, &faults),
	}
	checks, folded := proof.Prove(h.Parts, h.Claims)
	d.made = &made{folded: folded}
	for _, c := range checks {
		d.Checks = append(d.Checks, Check(c))
		blame(&faults, c)
	}
	if err := faults.Err(); err != nil {
		return Design{}, err
	}
	for _, p := range d.Parts {
		if p.Kind != KindForm {
			d.Mass += p.Mass * float64(p.Copies())
		}
	}
	d.Cautions = cautions(sizes, d)
	return d, nil
}

// blame adds the fault of a check that does not hold.
func blame(faults *spec.Checker, c proof.Check) {
	switch {
	case c.OK:
	case c.Param == "bend.method":
		faults.Add(c.Param, "kerf", "", fmt.Sprintf("laminate, or another curve, as the bevel runs into kerfs: %s by %s", c.Name, faults.In.Thin(c.Value)), ErrBend)
	case c.Param != "":
		faults.Add(c.Param, c.Limit, "mm", "at least "+faults.In.Up(c.Value)+" for "+c.Name+", or a smaller bend.facet", ErrBend)
	default:
		faults.Add("proof: "+c.Name, c.Value, c.Unit, fmt.Sprintf("at most %g %s", c.Limit, c.Unit), ErrOpen)
	}
}
