package bend_test

import (
	"fmt"

	"example.com/sagitta/arc"
	"example.com/sagitta/bend"
	"gonum.org/v1/gonum/spatial/r2"
)

// counter is the front of a bowed counter, 1800 mm wide and 120 mm proud at its
// middle. It runs from right to left, with the board, which is behind the show
// face, on its left.
func counter() arc.Path {
	a, _ := arc.FromChordSag(1800, 120)
	return arc.Path{V: []arc.Vertex{arc.V(1800, 0, a.K()), arc.V(0, 0, 0)}}
}

func ExampleKerfPlan() {
	board := bend.Board{Thickness: 18, KerfWidth: 3, Web: 2}
	p, err := bend.KerfPlan(counter(), board, bend.Limits{Facet: 0.2, Strain: 0.008})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d kerfs, set by %v\n", len(p.Kerfs), p.Limit)
	fmt.Printf("blank %.2f mm for %.2f mm of curve\n", p.FlatLength, p.ShowLength)
	fmt.Printf("first kerf %.2f, then every %.2f mm\n", p.Kerfs[0].At, p.Pitch)
	fmt.Printf("facet %.3f mm, strain %.4f, mouths close to %.2f mm\n", p.Facet, p.Strain, p.Mouth)
	// Output:
	// 25 kerfs, set by facet
	// blank 1820.79 mm for 1821.26 mm of curve
	// first kerf 36.42, then every 72.83 mm
	// facet 0.185 mm, strain 0.0071, mouths close to 2.64 mm
}

// What cannot be planned says which number is in the way.
func ExampleKerfPlan_refused() {
	tight := arc.Path{V: []arc.Vertex{arc.V(120, 0, 1), arc.V(0, 0, 0)}}
	_, err := bend.KerfPlan(tight, bend.Board{Thickness: 18, KerfWidth: 3, Web: 2}, bend.Limits{Facet: 0.2, Strain: 0.008})
	fmt.Println(err)
	// Output:
	// bend.KerfPlan: Limits.Strain (bend from vertex 0 to 1, least radius 60 mm) = 0.008: need at least 0.0171673, or a web of about 0.932 mm: 131 kerfs are needed and only 61 fit
}

func ExampleRefold() {
	p, _ := bend.KerfPlan(counter(), bend.Board{Thickness: 18, KerfWidth: 3, Web: 2}, bend.Limits{Facet: 0.2})
	// The curve begins at its right end, heading up and to the left.
	heading := 180*arc.Degree - counter().Segment(0).Angle()/2
	s, _ := bend.Refold(p.Blank(), r2.Vec{X: 1800}, heading)
	end := s.Show.V[len(s.Show.V)-1].P
	fmt.Printf("%.6f mm from where it should end\n", r2.Norm(end))
	// Output:
	// 0.000000 mm from where it should end
}

func ExampleWays() {
	mdf, _ := bend.LookUp("mdf")
	ways, err := bend.Ways(bend.Job{
		Profile: counter(), Width: 900,
		Board:    bend.Board{Thickness: 18, KerfWidth: 3, Web: 2},
		Limits:   bend.Limits{Facet: 0.2},
		Material: mdf, Factor: 0.8,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, w := range ways {
		switch {
		case w.Err != nil:
			fmt.Printf("%v: no\n", w.Method)
		case w.Method == bend.Kerfed:
			fmt.Printf("%v: %d kerfs, %.1f m to cut\n", w.Method, len(w.Plan.Kerfs), w.CutLength/1000)
		case w.Method == bend.Laminated:
			fmt.Printf("%v: %d plies of %.1f mm on a form of R %.0f mm\n", w.Method, w.Pieces, w.Lamination.Ply, w.Lamination.FormRadius)
		default:
			fmt.Printf("%v: stands R %.0f mm\n", w.Method, w.LeastRadius)
		}
	}
	// Output:
	// bent as it is: stands R 1116 mm
	// kerfed: 25 kerfs, 22.5 m to cut
	// laminated: 2 plies of 9.0 mm on a form of R 2560 mm
}

func ExampleCalibrate() {
	set := bend.Board{Thickness: 18, KerfWidth: 3, Web: 2}
	// The strip was to close to 425 mm: its kerfs came out narrower than set.
	c, err := bend.Calibrate(bend.StripTest{Board: set, Pitch: 75, Radius: 447})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("kerfs work as %.2f mm\n", c.KerfWidth)
	p, _ := bend.KerfPlan(counter(), c.Apply(set), bend.Limits{Facet: 0.2})
	fmt.Printf("%d kerfs\n", len(p.Kerfs))
	// Output:
	// kerfs work as 2.85 mm
	// 25 kerfs
}

func ExampleLaminate() {
	l, err := bend.Laminate(600, bend.Pack{Thickness: 24, Strain: 0.005, SawKerf: 3, Width: 90, Length: 1100})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d plies of %.2f mm on a form of R %.1f mm spring back to R %.0f mm\n", l.Plies, l.Ply, l.FormRadius, l.Radius)
	fmt.Printf("glue %.2f m², stock %.0f mm thick\n", l.GlueArea/1e6, l.RipStock)
	// Output:
	// 5 plies of 4.80 mm on a form of R 575.5 mm spring back to R 600 mm
	// glue 0.40 m², stock 36 mm thick
}

func ExampleRadiusTable_Radius() {
	r, _ := bend.PlywoodTable().Radius(3*arc.Inch/8, bend.GrainOnAxis)
	fmt.Printf("%.1f ft\n", r/arc.Foot)
	_, err := bend.PlywoodTable().Radius(25, bend.GrainOnAxis)
	fmt.Println(err)
	// Output:
	// 3.0 ft
	// bend.RadiusTable.Radius: thickness = 25 mm: need 6.35 to 19.05 mm (APA plywood, bent dry)
}
