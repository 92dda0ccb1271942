package curve_test

import (
	"fmt"

	"example.com/sagitta/bend"
	"example.com/sagitta/hood/curve"
)

// The section of a front that sweeps back from 520 to 290 mm, hollow by 48: what
// the show face measures, and the kerfs that bend a board to it.
func Example() {
	e := curve.Ends{Bottom: 520, Top: 290, Skirt: 135, Height: 905}
	s, err := e.Sketch(curve.Sweep{Shape: "cove", Sag: 48})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("chord %.2f mm, radius %.1f mm, %.2f mm on the show face\n", s.Curve.Chord, s.Curve.Radius, s.Sweep.Length())
	if !s.Fold(e, 19) {
		fmt.Println("the back folds over")
		return
	}
	err = s.PlanKerfs(bend.Board{Thickness: 19, KerfWidth: 3.2, Web: 1.6}, bend.Limits{Facet: 0.1})
	fmt.Printf("%d kerfs, the blank %.2f mm long, %v\n", s.Curve.Kerfs.Count, s.Curve.FlatLength, err)
	// Output:
	// chord 803.62 mm, radius 1705.8 mm, 811.24 mm on the show face
	// 22 kerfs, the blank 811.65 mm long, <nil>
}
