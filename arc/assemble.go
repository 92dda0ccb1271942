package arc

import "context"

// assemble makes regions of loops that do not cross: every clockwise loop
// becomes a hole of the smallest counter-clockwise one around it.
func assemble(ctx context.Context, loops []Path) ([]Region, error) {
	parent, area, err := nest(ctx, loops)
	if err != nil {
		return nil, err
	}
	var out []Region
	at := make([]int, len(loops)) // of the regions
	for i, p := range loops {
		if area[i] > 0 {
			at[i] = len(out)
			out = append(out, Region{Outer: p})
		}
	}
	for i, h := range loops {
		if area[i] > 0 {
			continue
		}
		around := parent[i]
		for around >= 0 && !(area[around] > 0) {
			around = parent[around]
		}
		if around >= 0 {
			r := &out[at[around]]
			r.Holes = append(r.Holes, h)
		}
	}
	return out, nil
}
