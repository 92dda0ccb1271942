package main

import (
	"context"
	"fmt"
	"time"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
)

// curvedCase is the parts of an invented case with a swept front: cheeks, ribs, a
// back with an opening, skirt, deck, sweep, cleats, rails, collars and braces.
func curvedCase() []sheet.Part {
	loop := func(v ...arc.Vertex) arc.Region { return arc.Region{Outer: arc.Path{V: v, Closed: true}} }
	cheek := loop(arc.V(0, 0, 0), arc.V(510, 0, 0), arc.V(510, 130, 0), arc.V(510, 131, -0.16), arc.V(290, 820, 0), arc.V(0, 820, 0))
	rib := loop(arc.V(0, 0, 0), arc.V(90, 0, 0), arc.V(90, 1, -0.16), arc.V(-130, 690, 0), arc.V(-220, 690, 0.16))
	back := arc.Region{Outer: arc.Rect(0, 0, 960, 800), Holes: []arc.Path{arc.Circle(r2.Vec{X: 480, Y: 620}, 85).Reverse()}}
	rect := func(l, w float64) arc.Region { return arc.Region{Outer: arc.Rect(0, 0, l, w)} }
	part := func(name string, qty int, r arc.Region, t sheet.Turns) sheet.Part {
		return sheet.Part{Name: name, Qty: qty, Material: "mdf", Thickness: 19, Outline: r, Turns: t}
	}
	return []sheet.Part{
		part("cheek", 2, cheek, sheet.RightAngles), part("rib", 8, rib, sheet.AnyAngle), part("back", 1, back, sheet.RightAngles),
		part("skirt", 1, rect(1000, 140), sheet.RightAngles), part("deck", 1, rect(960, 300), sheet.RightAngles),
		part("sweep", 1, rect(1000, 735), sheet.RightAngles), part("cleat", 8, rect(300, 60), sheet.RightAngles),
		part("rail", 6, rect(480, 80), sheet.RightAngles), part("collar", 2, arc.Region{Outer: arc.Circle(r2.Vec{}, 110)}, sheet.NoTurn),
		part("brace", 10, bracket(160, 160, 45), sheet.RightAngles),
	}
}

// bracket is an angle with a leg that bulges and a hole in its corner.
func bracket(l, w, leg float64) arc.Region {
	return arc.Region{
		Outer: arc.Path{V: []arc.Vertex{arc.V(0, 0, 0), arc.V(l, 0, 0), arc.V(l, leg, 0), arc.V(leg, leg, 0), arc.V(leg, w, 0.4), arc.V(0, w, 0)}, Closed: true},
		Holes: []arc.Path{arc.Circle(r2.Vec{X: leg / 2, Y: leg / 2}, leg/4).Reverse()},
	}
}

// distinct is brackets of which no two are alike.
func distinct(n int) (parts []sheet.Part) {
	for i := range n {
		t := float64(i)
		parts = append(parts, sheet.Part{Name: fmt.Sprint(i), Material: "mdf", Thickness: 19, Outline: bracket(150+0.37*t, 120+0.21*t, 40+0.05*t), MirrorOK: true})
	}
	return parts
}

func board() sheet.Stock {
	return sheet.Stock{Material: "mdf", Thickness: 19, Length: 2465, Width: 1245, Price: 58}
}

// used is the sheets a layout takes, the last of them only so far as its offcuts
// leave it.
func used(l sheet.Layout) float64 {
	n := float64(len(l.Sheets))
	if n > 0 {
		for _, o := range l.Sheets[len(l.Sheets)-1].Offcuts {
			n -= o.Stock.Area() / board().Area()
		}
	}
	return n
}

// mean lays parts out from a few seeds and returns the mean of what is used.
func (b bench) mean(parts []sheet.Part, limit time.Duration, seeds int) (float64, error) {
	sum := 0.0
	for seed := range seeds {
		opt := b.options(limit, seed)
		opt.Gap, opt.Margin = 10, 10
		l, err := sheet.Nest(context.Background(), parts, []sheet.Stock{board()}, opt)
		if err != nil {
			return 0, err
		}
		if len(l.Unplaced) > 0 {
			return 0, fmt.Errorf("%d copies are left out", len(l.Unplaced))
		}
		sum += used(l)
	}
	return sum / float64(seeds), nil
}

// cases lays out invented jobs of a shop. There is nothing published of them: the
// figures beside are what was asked for.
func (b bench) cases() error {
	fmt.Printf("curved cases of 40 parts and 500 distinct brackets; sheets used, the last as far as its offcuts leave it\n")
	fmt.Printf("%-26s %8s %8s\n", "job", "found", "asked")
	if b.wants("case") {
		late, err := b.mean(curvedCase(), b.time, 1)
		if err != nil {
			return err
		}
		soon, err := b.mean(curvedCase(), b.time/60, 4*b.seeds)
		if err != nil {
			return err
		}
		fmt.Printf("%-26s %8.4f\n%-26s %8.4f %8.4f (%+.2f %%)\n", fmt.Sprintf("case, %v", b.time), late, fmt.Sprintf("case, %v", b.time/60), soon, 1.01*late, 100*(soon/late-1))
	}
	if b.wants("distinct") {
		parts, sum := distinct(500), 0.0
		for _, p := range parts {
			sum += p.Outline.Area()
		}
		n, err := b.mean(parts, b.time/6, 1)
		if err != nil {
			return err
		}
		least := sum / board().Area()
		fmt.Printf("%-26s %8.4f %8.4f (%.1f %% used, 70 asked)\n", fmt.Sprintf("distinct, %v", b.time/6), n, least/0.7, 100*least/n)
	}
	return nil
}
