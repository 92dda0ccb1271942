package boards

import (
	"example.com/sagitta/hood/spec"
	"math"
	"slices"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/internal/plate"
	"example.com/sagitta/hood/part"
	"gonum.org/v1/gonum/spatial/r3"
)

// levelPlate draws a level board as seen from above: x to the right, y from the
// front edge of its lower face to the back. Its edges follow the slopes of the
// inner faces. Notches are cut into the front edge.
func (b *builder) levelPlate(kind part.Kind, height float64, notches []plate.Notch) plate.Plate {
	p := b.board(kind, "", string(kind))
	l := b.levelAt(height)
	deep := l.front[0] - b.BackFace()
	p.Sides = plate.Rectangle(-l.left[0]-b.tongue(b.left), 0, l.right[0]+b.tongue(b.right), deep, [4]arc.Angle{
		slope(l.front[0]-l.front[1], b.t), slope(l.right[0]-l.right[1], b.t), 0, slope(l.left[0]-l.left[1], b.t),
	})
	rear := b.withTabs(kind, p.Sides[2])
	p.Sides = slices.Concat(plate.Notched(p.Sides[0], notches), p.Sides[1:2], rear, p.Sides[3:])
	p.Pose = part.Pose{At: r3.Vec{Y: height, Z: l.front[0]}, Right: r3.Vec{X: 1}, Up: r3.Vec{Z: -1}, In: r3.Vec{Y: 1}}
	return p
}

// deckPlate draws the deck, with its top at the neck, slots for the ribs and
// the opening for the duct.
func (b *builder) deckPlate() plate.Plate {
	height := b.Height - b.t
	l := b.levelAt(height)
	var notches []plate.Notch
	for _, r := range b.ribs() {
		if r.through {
			half := (b.t + b.Ribs.Clearance) / 2
			notches = append(notches, plate.Notch{X0: r.x - half, X1: r.x + half, Y: l.front[0] - l.front[1] + b.Ribs.Depth/2})
		}
	}
	p := b.levelPlate(KindDeck, height, notches)
	if d := b.Duct.Diameter; d > 0 {
		at := b.ductAt(l)
		p.Holes = []arc.Path{arc.Circle(at, d/2).Reverse()}
	}
	return p
}

// shelfPlate draws the shelf that carries the liner.
func (b *builder) shelfPlate() plate.Plate {
	p := b.levelPlate(KindShelf, b.Liner.Y, nil)
	l := b.levelAt(b.Liner.Y)
	o := b.linerAt(l)
	hole := arc.Rect(o.X-o.Width/2, o.Y-o.Height/2, o.X+o.Width/2, o.Y+o.Height/2)
	box := hole.Bounds()
	if box.Min.Y < l.front[0]-l.front[1]+rounding || box.Max.Y > l.front[0]-b.BackFace()-rounding ||
		box.Min.X < -min(l.left[0], l.left[1])+rounding || box.Max.X > min(l.right[0], l.right[1])-rounding {
		b.faults.Add("liner", b.Liner.Width, "mm", "an opening inside the shelf", spec.ErrPlace)
		return p
	}
	p.Holes = []arc.Path{hole.Reverse()}
	p.Pockets = slices.Concat(b.mortises(l), b.shelfPins(l))
	p.Marks = []part.Mark{{Name: "screw line of the liner", Path: arc.Rect(
		box.Min.X-screwLine, box.Min.Y-screwLine, box.Max.X+screwLine, box.Max.Y+screwLine)}}
	return p
}

// screwLine is how far from the liner's opening its screws go, mm: common
// practice, no source; the liner maker's drawing comes first.
const screwLine = 12

// checkShelf asks the shelf to lie beside one board of each side: all in the
// skirt or all in the sweep.
func (b *builder) checkShelf() {
	low, high := b.Liner.Y, b.Liner.Y+b.t
	if high >= b.Height-b.t {
		b.faults.Add("liner.y", low, "mm", "a shelf below the deck", spec.ErrPlace)
	}
	if b.Skirt == 0 {
		return
	}
	from, to := b.Skirt, b.Skirt // of the folds, outside and inside
	for _, p := range []arc.Path{b.front.Inner, b.left.Inner, b.right.Inner} {
		if len(p.V) > 2 {
			from, to = math.Min(from, p.V[1].P.Y), math.Max(to, p.V[1].P.Y)
		}
	}
	if high <= from+rounding || low >= to-rounding {
		return
	}
	need := "at least " + b.faults.In.Up(to)
	if from >= b.t {
		need = "at most " + b.faults.In.Down(from-b.t) + ", or " + need
	}
	b.faults.Add("liner.y", low, "mm", need+", to lie all below the folds of skirt and sweep or all above", spec.ErrPlace)
}
