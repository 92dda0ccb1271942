package arc

import "context"

// Regions makes regions of closed loops in any order and direction that do not
// cross: a loop inside an even number of others is an outer one, the others are
// holes. It is an error if a loop is open or has no area; whether loops cross
// [Region.Check] tells.
func Regions(loops []Path) ([]Region, error) { return RegionsContext(context.Background(), loops) }

// RegionsContext is [Regions], stopped with the context's error when ctx is
// done.
func RegionsContext(ctx context.Context, loops []Path) ([]Region, error) {
	const fn = "arc.Regions"
	for i, p := range loops {
		if err := p.Usable(); err != nil {
			return nil, err
		}
		if !p.Closed {
			return nil, &ParamError{fn, "loops", i, "", "closed loops", ErrOpen}
		}
		if p.Area() == 0 {
			return nil, &ParamError{fn, "loops", i, "", "loops with area", ErrZeroArea}
		}
	}
	parent, _, err := nest(ctx, loops)
	if err != nil {
		return nil, err
	}
	var out []Region
	at := make([]int, len(loops))
	depth := depths(parent)
	for i, p := range loops {
		if depth[i]%2 == 0 {
			at[i] = len(out)
			out = append(out, Region{Outer: p.Oriented(true)})
		}
	}
	for i, p := range loops {
		if depth[i]%2 == 1 {
			r := &out[at[parent[i]]]
			r.Holes = append(r.Holes, p.Oriented(false))
		}
	}
	return out, nil
}

// depths returns how many loops are around each, by the smallest around it.
func depths(parent []int) []int {
	depth := make([]int, len(parent))
	known := make([]bool, len(parent))
	var chain []int
	for i := range parent {
		chain = chain[:0]
		at := i
		for ; at >= 0 && !known[at]; at = parent[at] {
			chain = append(chain, at)
			known[at] = true
		}
		d := 0
		if at >= 0 {
			d = depth[at] + 1
		}
		for j := len(chain) - 1; j >= 0; j-- {
			depth[chain[j]] = d
			d++
		}
	}
	return depth
}
