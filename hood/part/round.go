package part

import (
	"math"

	"example.com/sagitta/arc"
)

// Round reports whether a loop is a circle of two halves.
func Round(p arc.Path) bool {
	return len(p.V) == 2 && math.Abs(p.V[0].K) == 1 && math.Abs(p.V[1].K) == 1
}
