package sheet

import (
	"cmp"
	"example.com/sagitta/internal/num"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// A group is the parts and the stock of one material and thickness, in an
// order that does not depend on how they were listed.
type group struct {
	parts []int
	stock []int
}

// groups sorts the parts that there is stock for into groups.
func groups(parts []Part, stock []Stock) []group {
	var out []group
	for _, i := range canonical(parts) {
		at := slices.IndexFunc(out, func(g group) bool { return alike(parts[g.parts[0]], parts[i]) })
		if at < 0 {
			at = len(out)
			out = append(out, group{stock: stockFor(parts[i], stock)})
		}
		out[at].parts = append(out[at].parts, i)
	}
	return out
}

func alike(a, b Part) bool { return a.Material == b.Material && a.Thickness == b.Thickness }

// stockFor lists the stock of a part, the cheapest by area first.
func stockFor(p Part, stock []Stock) []int {
	var out []int
	for i, s := range stock {
		if s.Material == p.Material && s.Thickness == p.Thickness {
			out = append(out, i)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int {
		s, t := stock[a], stock[b]
		return cmp.Or(cmp.Compare(s.price()*t.Area(), t.price()*s.Area()), cmp.Compare(s.Area(), t.Area()))
	})
	return out
}

// canonical lists the parts from large to small, and by their other fields
// where these are equal, so that the order of the list does not matter.
func canonical(parts []Part) []int {
	order := make([]int, len(parts))
	areas := make([]float64, len(parts))
	for i := range parts {
		order[i], areas[i] = i, num.Decimals(parts[i].Outline.Area(), areaDecimals)
	}
	slices.SortStableFunc(order, func(i, j int) int {
		a, b := parts[i], parts[j]
		return cmp.Or(
			cmp.Compare(a.Material, b.Material), cmp.Compare(a.Thickness, b.Thickness),
			-cmp.Compare(areas[i], areas[j]),
			cmp.Compare(a.Name, b.Name), cmp.Compare(a.Set, b.Set), cmp.Compare(a.Near, b.Near), cmp.Compare(a.Grain, b.Grain),
			cmp.Compare(a.Turns, b.Turns), cmp.Compare(a.Priority, b.Priority), cmp.Compare(a.Copies(), b.Copies()),
			cmp.Compare(b2i(a.MirrorOK), b2i(b.MirrorOK)),
			compareLoops(a.Outline, b.Outline))
	})
	return order
}

func compareLoops(a, b arc.Region) int {
	return slices.CompareFunc(a.Loops(), b.Loops(), func(p, q arc.Path) int {
		return slices.CompareFunc(p.V, q.V, func(u, v arc.Vertex) int {
			return cmp.Or(cmp.Compare(u.P.X, v.P.X), cmp.Compare(u.P.Y, v.P.Y), cmp.Compare(u.K, v.K))
		})
	})
}

func (p Part) anyTurn() bool { return p.Turns == AnyAngle && p.Grain == AnyGrain }

// angles returns the turns that the search begins with for a part on a sheet.
func angles(p Part, s Stock) []arc.Angle {
	all := []arc.Angle{0, 90 * arc.Degree, 180 * arc.Degree, 270 * arc.Degree}
	switch {
	case p.Turns == NoTurn:
		all = all[:1]
	case p.Turns == HalfTurns:
		all = []arc.Angle{0, 180 * arc.Degree}
	case p.anyTurn():
		return manyAngles(p)
	}
	if p.Grain == AnyGrain {
		return all
	}
	level := s.GrainAcross == (p.Grain == Across)
	return slices.DeleteFunc(all, func(a arc.Angle) bool {
		return level != (math.Abs(math.Sin(float64(a))) < 0.5)
	})
}

// manyAngles returns right angles from several tilts: as drawn, those that
// bring one of the longest edges to the sheet's axes, and halves and thirds of
// a right angle.
func manyAngles(p Part) []arc.Angle {
	tilts := []float64{0}
	add := func(t float64) {
		for _, o := range tilts {
			if d := math.Abs(t - o); math.Min(d, math.Pi/2-d) < 0.01 {
				return
			}
		}
		tilts = append(tilts, t)
	}
	for _, e := range longEdges(p.Outline.Outer, 3) {
		add(math.Mod(2*math.Pi-math.Atan2(e.Y, e.X), math.Pi/2))
	}
	for _, t := range [3]float64{math.Pi / 4, math.Pi / 6, math.Pi / 3} {
		add(t)
	}
	var out []arc.Angle
	for _, t := range tilts {
		for i := range 4 {
			out = append(out, arc.Angle(float64(i)*math.Pi/2+t))
		}
	}
	return out
}

// longEdges returns the longest lines of a path, at most n.
func longEdges(p arc.Path, n int) []r2.Vec {
	var out []r2.Vec
	for i := range p.NumSegments() {
		if s := p.Segment(i); s.K == 0 && s.Chord() > 0 {
			out = append(out, r2.Sub(s.B, s.A))
		}
	}
	slices.SortStableFunc(out, func(a, b r2.Vec) int { return -cmp.Compare(r2.Norm2(a), r2.Norm2(b)) })
	return out[:min(n, len(out))]
}

func sortedPoints(p []r2.Vec) []r2.Vec {
	p = slices.Clone(p)
	slices.SortFunc(p, func(a, b r2.Vec) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y)) })
	return slices.Compact(p)
}
