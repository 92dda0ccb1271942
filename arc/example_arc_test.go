package arc_test

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// A curved front is measured by a straightedge and a rule: chord and sag.
func ExampleFromChordSag() {
	a, err := arc.FromChordSag(758.9, 45)
	fmt.Println(err)
	fmt.Printf("radius %.1f mm, turn %v, length %.2f mm\n", a.Radius(), a.Turn(), a.Length())
	// Output:
	// <nil>
	// radius 1622.3 mm, turn 27.0531°, length 766.00 mm
}

// Two arcs have a chord of 8 and a radius of 5.
func ExampleFromChordRadius() {
	minor, _ := arc.FromChordRadius(8, 5, false)
	major, _ := arc.FromChordRadius(8, 5, true)
	fmt.Printf("sag %.0f or %.0f\n", minor.Sag(), major.Sag())
	_, err := arc.FromChordRadius(8, 3, false)
	fmt.Println(err)
	// Output:
	// sag 2 or 8
	// arc.FromChordRadius: radius = 3 mm: need >= half the chord
}

// A strip 1 % longer than the opening it is sprung into stands out by far more
// than one expects.
func ExampleFromChordLength() {
	a, err := arc.FromChordLength(1000, 1010)
	fmt.Printf("%v: sag %.1f mm\n", err, a.Sag())
	// Output:
	// <nil>: sag 61.3 mm
}

// The table from which a maker marks a template: heights over the chord.
func ExampleArc_Ordinates() {
	a, _ := arc.FromChordSag(36*arc.Inch, 4*arc.Inch)
	var stations []float64
	for i := range 7 {
		stations = append(stations, float64(6*i)*arc.Inch)
	}
	y, err := a.Ordinates(stations)
	for i := range y {
		fmt.Println(arc.FormatLength(stations[i], arc.Inches), "->", arc.FormatLength(y[i], arc.Inches))
	}
	fmt.Println(err)
	// Output:
	// 0 in -> 0 in
	// 6 in -> 2 9/32 in
	// 12 in -> 3 9/16 in
	// 18 in -> 4 in
	// 24 in -> 3 9/16 in
	// 30 in -> 2 9/32 in
	// 36 in -> 0 in
	// <nil>
}

// The back face of a 19 mm board lies outside a hollow curve.
func ExampleArc_Concentric() {
	show, _ := arc.FromChordSag(600, 60)
	back, err := show.Concentric(19)
	fmt.Printf("%v: %.2f mm longer\n", err, back.Length()-show.Length())
	// Output:
	// <nil>: 15.00 mm longer
}

// Three points measured on a wall give its curve.
func ExampleThreePoints() {
	s, err := arc.ThreePoints(r2.Vec{X: 0, Y: 0}, r2.Vec{X: 500, Y: -40}, r2.Vec{X: 1000, Y: 0})
	fmt.Printf("%v: radius %.1f mm, length %.1f mm\n", err, s.Radius(), s.Length())
	// Output:
	// <nil>: radius 3145.0 mm, length 1004.3 mm
}

// An arch of an opening as wide as two doors, in the shapes it can take.
func ExampleBasketArch() {
	const span, rise = 1600, 500
	basket, _ := arc.BasketArch(span, rise)
	ellipse, _ := arc.EllipticalArch(span, rise, 0.1)
	four, _ := arc.FourCenteredArch(span, rise)
	for _, p := range []arc.Path{basket, ellipse, four} {
		fmt.Printf("%2d arcs, %.0f mm long\n", p.NumSegments(), p.Length())
	}
	// Output:
	//  3 arcs, 2078 mm long
	// 16 arcs, 2069 mm long
	//  4 arcs, 2037 mm long
}

// A quarter of an ellipse for a router that cuts lines and arcs only.
func ExampleEllipticalArc() {
	p, err := arc.EllipticalArc(600, 200, 0, 90*arc.Degree, 0.01)
	fmt.Println(err, p.NumSegments(), "arcs within 0.01 mm")
	// Output:
	// <nil> 18 arcs within 0.01 mm
}

// An S-curve: two tangent arcs, each standing 30 mm off its half of the chord.
func ExampleOgee() {
	p, err := arc.Ogee(r2.Vec{}, r2.Vec{X: 600}, 30)
	fmt.Println(err, p)
	// Output:
	// <nil> 0,0,0.2 300,0,-0.2 600,0
}

// Five points measured along a shelf that should be round.
func ExampleFitCircle() {
	f, err := arc.FitCircle([]r2.Vec{{X: 0, Y: 0}, {X: 250, Y: 56}, {X: 500, Y: 75.5}, {X: 750, Y: 56.5}, {X: 1000, Y: -0.5}})
	fmt.Printf("%v: radius %.0f mm, the worst point %.1f mm off\n", err, f.Radius, f.Max)
	// Output:
	// <nil>: radius 1696 mm, the worst point 0.6 mm off
}

// A chain of 1200 mm span that hangs 400 mm deep, and the arch of that shape.
func ExampleCatenary() {
	length, _ := arc.CatenaryLength(1200, 400)
	p, err := arc.Catenary(1200, 400, 0.1)
	fmt.Printf("%v: chain %.1f mm, path %.1f mm in %d arcs\n", err, length, p.Length(), p.NumSegments())
	// Output:
	// <nil>: chain 1502.4 mm, path 1502.4 mm in 12 arcs
}
