package miter

import (
	"math"

	"example.com/sagitta/arc"
)

// A Step is a stretch of a seam that is cut with one bevel on each board. U
// holds where it begins and ends as developed lengths, on the first panel and
// on the second.
type Step struct {
	From, To      float64 // heights
	U             [2][2]float64
	First, Second arc.Angle // bevels
}

// stepSamples is how many heights of the seam are looked at, and at least four
// of each smooth stretch. Between two of them a bevel passes both by at most an
// eighth of its second difference, some 1e-5 of its whole change.
const stepSamples = 512

// Steps cuts the seam into at most k >= 1 stretches with one bevel each, so
// that the largest gap left is as small as can be, and returns them from the
// bottom with that gap in mm; k = 1 is the constant bevel.
//
// A step takes the largest bevel it asks for, so that the show edges close and
// a gap opens toward the back: where β is cut and β' is right, each board of
// thickness t leaves t·sin(β − β')/cos β square to the joint at its back.
func (s Seam) Steps(k int) ([]Step, float64, error) {
	const fn = "miter.Seam.Steps"
	if s.panel[0].show == nil {
		return nil, 0, fault(fn, "Seam", "zero", "", "a solved seam", arc.ErrEmpty)
	}
	if k < 1 {
		return nil, 0, fault(fn, "k", k, "", "at least 1 step", arc.ErrRange)
	}
	all := s.stretches()
	if len(all) == 0 {
		return nil, 0, fault(fn, "Seam", s.Upper-s.Lower, "mm", "a rise that can be measured", ErrNoSeam)
	}
	lo, hi := 0.0, math.Inf(1)
	best := s.chain(all, hi)
	hi = s.gap(best[0])
	for range 40 {
		mid := (lo + hi) / 2
		if c := s.chain(all, mid); len(c) <= k {
			best, hi = c, mid
		} else {
			lo = mid
		}
	}
	steps, gap := make([]Step, len(best)), 0.0
	for i, b := range best {
		gap = math.Max(gap, s.gap(b))
		steps[i] = Step{From: b.from, To: b.to, U: b.u, First: b.hi[0], Second: b.hi[1]}
	}
	return steps, gap, nil
}

// A stretch is a piece of the seam with the range of its bevels.
type stretch struct {
	from, to float64
	u        [2][2]float64 // developed lengths, as in Step
	lo, hi   [2]arc.Angle
}

// stretches cuts the seam at the samples, bottom first.
func (s Seam) stretches() []stretch {
	var out []stretch
	var cells []cell
	show := s.panel[0].show
	for run := show.find(s.Lower).run; run <= show.below(s.Upper).run; run++ {
		cells = append(cells, s.cells(faces.showFace, 0, run, s.Lower, s.Upper)...)
	}
	n := max(4, stepSamples/max(1, len(cells)))
	for _, c := range cells {
		last := s.point(c.lo, c.span[0], c.span[1])
		for i := 1; i <= n; i++ {
			h := math.Sin(float64(i) / float64(n) * math.Pi / 2)
			next := s.point(c.lo+(c.hi-c.lo)*h*h, c.span[0], c.span[1])
			out = append(out, last.joined(next))
			last = next
		}
	}
	return out
}

// point returns a stretch of no length.
func (s Seam) point(z float64, a, b span) stretch {
	m := s.cross(z, a, b)
	p := stretch{from: z, to: z}
	for i := range p.u {
		p.u[i] = [2]float64{m.mark[i].Y, m.mark[i].Y}
	}
	p.lo[0], p.lo[1] = s.bevels(s.turn(m.slope[0], m.slope[1]))
	p.hi = p.lo
	return p
}

// joined returns the stretch from the start of p to the end of q.
func (p stretch) joined(q stretch) stretch {
	p.to = q.to
	for i := range p.u {
		p.u[i][1] = q.u[i][1]
		p.lo[i], p.hi[i] = min(p.lo[i], q.lo[i]), max(p.hi[i], q.hi[i])
	}
	return p
}

// gap returns the gap left where the stretch is cut with its largest bevels.
func (s Seam) gap(p stretch) float64 {
	sum := 0.0
	for i, f := range s.panel {
		sum += f.t * math.Sin(float64(p.hi[i]-p.lo[i])) / math.Cos(float64(p.hi[i]))
	}
	return sum
}

// chain joins stretches from the bottom up as long as the gap stays within the
// limit, which gives the fewest.
func (s Seam) chain(all []stretch, limit float64) []stretch {
	var out []stretch
	for _, p := range all {
		if n := len(out); n > 0 {
			if j := out[n-1].joined(p); s.gap(j) <= limit {
				out[n-1] = j
				continue
			}
		}
		out = append(out, p)
	}
	return out
}
