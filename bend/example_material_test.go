package bend_test

import (
	"fmt"

	"example.com/sagitta/arc"
	"example.com/sagitta/bend"
)

// What is known of a board, with where it is from.
func ExampleLookUp() {
	m, err := bend.LookUp("mdf")
	if err != nil {
		fmt.Println(err)
		return
	}
	strain, err := m.StrainLimit(0.8)
	fmt.Printf("density %.0f to %.0f %s (%v)\n", m.Density.Low, m.Density.High, m.Density.Unit, m.Density.Mark)
	fmt.Printf("bends to a strain of %.2f %%, %v\n", 100*strain, err)
	_, err = bend.LookUp("moonwood")
	fmt.Println(err != nil)
	// Output:
	// density 673 to 833 kg/m³ (published)
	// bends to a strain of 0.80 %, <nil>
	// true
}

// Nine grooves fold a 19 mm panel with a foil of 0.4 mm through a right angle.
func ExampleFoldWithV() {
	v, err := bend.FoldWithV(19, 0.4, 90*arc.Degree, 9)
	fmt.Printf("%d grooves %.3f mm wide, %.1f deep, cutter %v, %v\n", v.Count, v.Width, v.Depth, v.Turn, err)
	// Output:
	// 9 grooves 3.255 mm wide, 18.6 deep, cutter 10°, <nil>
}

// The strip to try before the panel, and the stages to bend it through.
func ExamplePlan_TestStrip() {
	a, _ := arc.FromChordSag(760, 45)
	p, err := bend.KerfPlan(a.Path().Reverse(), bend.Board{Thickness: 19, KerfWidth: 3.2, Web: 1.6}, bend.Limits{Facet: 0.1})
	if err != nil {
		fmt.Println(err)
		return
	}
	s, err := p.TestStrip()
	fmt.Printf("%d kerfs, pitch %.2f mm as the panel's %.2f, opens: %v, stages: %v, %v\n", len(s.Slots), s.Pitch, p.Pitch, s.Opens, len(s.Stages) > 1, err)
	// Output:
	// 12 kerfs, pitch 36.55 mm as the panel's 36.55, opens: true, stages: true, <nil>
}
