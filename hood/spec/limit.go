package spec

import (
	"math"
	"strings"

	"example.com/sagitta/bend"
)

// safety is the share of the strain at failure that a ply or a panel may be
// bent to: it gives 0.008 for MDF. Common practice, no source.
const safety = 0.8

// A BendLimit is what a sheet stands in bending: a strain at its faces, or a least
// radius of its inside face where that is published.
type BendLimit struct {
	strain, radius float64
	Source         string
}

// BendLimit returns what a sheet of a thickness stands. A published radius comes
// first for a panel bent as it is, a strain that the spec gives for plies.
func (s Sizes) BendLimit(method string, thickness float64) (BendLimit, error) {
	m, _ := s.PlyMaterial()
	table := bend.PlywoodTable()
	radius, err := table.Radius(thickness, bend.GrainOnAxis)
	published := err == nil && Plywood(m)
	switch {
	case published && (method == AsIs || s.Bend.Strain == 0):
		return BendLimit{radius: radius, Source: table.Source}, nil
	case s.Bend.Strain > 0:
		return BendLimit{strain: s.Bend.Strain, Source: "bend.strain"}, nil
	}
	known, err := bend.LookUp(strings.ToLower(m))
	if err != nil {
		return BendLimit{}, err
	}
	limit, err := known.StrainLimit(safety)
	return BendLimit{strain: limit, Source: "strength over modulus of " + known.Name}, err
}

// use returns the share used of what a sheet stands where it is bent with an
// inside radius.
func (s BendLimit) Share(thickness, inside float64) float64 {
	switch {
	case inside <= 0:
		return math.Inf(1)
	case s.radius > 0:
		return s.radius / inside
	}
	return thickness / (2*inside + thickness) / s.strain
}

// least returns the least inside radius it stands.
func (s BendLimit) LeastRadius(thickness float64) float64 {
	if s.radius > 0 {
		return s.radius
	}
	return thickness / 2 * (1/s.strain - 1)
}
