package proof

import (
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/bend"
	"example.com/sagitta/hood/part"
)

// A Form claims that a pack bent on a form springs back to what its plies are
// marked to bend to.
type Form struct{ Rib string }

// measure lets the pack go.
func (c Form) measure(p *prover) {
	rib := p.parts[c.Rib].Part
	plies := p.plies(rib.Panel)
	off := math.Inf(1)
	if len(plies) > 1 {
		off = springOff(rib, plies)
	}
	p.add(rib.Name+": springs back off the curve", off, Exact, "mm")
}

// springOff returns how far the ends of any stretch of the pack come to lie off
// after springing back, in length and by its turn over its length.
func springOff(rib part.Part, plies []placed) float64 {
	face, _ := rib.Edge("face")
	var arcs []arc.Segment
	for i := range face.Show.NumSegments() {
		if s := face.Show.Segment(i); s.K != 0 {
			arcs = append(arcs, s)
		}
	}
	if len(arcs) != len(plies[0].Bent) {
		return math.Inf(1)
	}
	off, n := 0.0, float64(len(plies))
	for i, s := range arcs {
		half, length := 0.0, 0.0
		for _, ply := range plies {
			half += ply.Thickness / 2
			length += (ply.Bent[i].To - ply.Bent[i].From) / n
		}
		middle := s.Radius() + math.Copysign(half, s.K)
		turn := float64(s.Angle())
		off = math.Max(off, math.Abs(middle*math.Abs(turn)-length))
		released, err := bend.Springback(middle, len(plies))
		if err != nil {
			return math.Inf(1)
		}
		off = math.Max(off, math.Abs(math.Copysign(length/released, turn)-float64(plies[0].Bent[i].Turn))*length)
	}
	return off
}
