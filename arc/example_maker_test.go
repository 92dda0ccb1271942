package arc_test

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// A pattern piece and the line to cut it along: the seam line, an allowance of
// 10 mm outside it, corners kept sharp.
func Example_seamAllowance() {
	seam := arc.Path{V: []arc.Vertex{arc.V(0, 0, 0), arc.V(300, 0, 0), arc.V(300, 200, 0.25), arc.V(0, 200, 0)}, Closed: true}
	cut, err := seam.Offset(10, arc.OffsetOptions{Join: arc.MiterJoin})
	if err != nil {
		fmt.Println(err)
		return
	}
	g, err := seam.Gap(cut[0])
	fmt.Printf("seam %.1f mm, cut %.1f mm, %.3f mm between, %v\n", seam.Length(), cut[0].Length(), g.Distance, err)
	fmt.Print("radius of the top")
	for _, p := range []arc.Path{seam, cut[0]} {
		for i := range p.NumSegments() {
			if s := p.Segment(i); s.K != 0 {
				fmt.Printf(" %.1f mm", s.Radius())
			}
		}
	}
	fmt.Println()
	// Output:
	// seam 1012.3 mm, cut 1086.1 mm, 10.000 mm between, <nil>
	// radius of the top 318.8 mm 328.8 mm
}

// A pocket cleared by a cutter of 12 mm: its center runs 6 mm inside the edge,
// then 5 mm farther in each time, until nothing is left.
func Example_parallelPocket() {
	edge, err := arc.RoundedRect(0, 0, 120, 80, 20)
	if err != nil {
		fmt.Println(err)
		return
	}
	boss := arc.Circle(r2.Vec{X: 60, Y: 40}, 10).Reverse()
	left := []arc.Region{{Outer: edge, Holes: []arc.Path{boss}}}
	for step := 6.0; len(left) > 0; step = 5 {
		var next []arc.Region
		for _, r := range left {
			in, err := r.Offset(-step, arc.OffsetOptions{})
			if err != nil {
				fmt.Println(err)
				return
			}
			next = append(next, in...)
		}
		loops, length := 0, 0.0
		for _, r := range next {
			loops += len(r.Loops())
			length += r.Length()
		}
		fmt.Printf("%d loops, %.1f mm\n", loops, length)
		left = next
	}
	// Output:
	// 2 loops, 428.5 mm
	// 2 loops, 428.5 mm
	// 2 loops, 347.4 mm
	// 2 loops, 215.8 mm
	// 4 loops, 21.3 mm
	// 0 loops, 0.0 mm
}

// The ordinates of any outline at stations 100 mm apart, to mark a template
// from: here of a smooth curve through measured points.
func Example_ordinatesOfAnyPath() {
	top, err := arc.SmoothThrough([]r2.Vec{{X: 0, Y: 40}, {X: 180, Y: 95}, {X: 330, Y: 70}, {X: 500, Y: 120}}, false)
	if err != nil {
		fmt.Println(err)
		return
	}
	for x := 50.0; x < 500; x += 100 {
		fmt.Printf("%3.0f:", x)
		for i := range top.NumSegments() {
			s := top.Segment(i)
			l, n := s.Crossings(r2.Vec{X: x}, r2.Vec{Y: 1})
			for _, l := range l[:n] {
				p, _ := s.At(l)
				fmt.Printf(" %.2f", p.Y)
			}
		}
		fmt.Println()
	}
	// Output:
	// 50: 65.82
	// 150: 92.56
	// 250: 84.33
	// 350: 71.41
	// 450: 95.63
}

// A figure eight is refused by name, with the place where it crosses.
func ExamplePath_Check() {
	eight := arc.Polygon(r2.Vec{}, r2.Vec{X: 40, Y: 30}, r2.Vec{X: 40}, r2.Vec{Y: 36})
	fmt.Println(eight.Check(0))
	fmt.Println(arc.Rect(0, 0, 40, 30).Reverse().Check(0))
	// Output:
	// arc.Path.Check: crossing = {21.818181818181817 16.363636363636363} mm: need loops that do not cross and holes inside
	// <nil>
}
