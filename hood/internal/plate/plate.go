package plate

import (
	"fmt"

	"example.com/sagitta/arc"
	"example.com/sagitta/bend"
	"example.com/sagitta/hood/part"
	"example.com/sagitta/sheet"
	"example.com/sagitta/sheet/cut"
)

// A Recess is a pocket: the area it takes from the part, and the area to run
// the cutter over.
type Recess struct {
	Area, Run arc.Region
	Depth     float64
}

// A Plate is a part in the making, in any coordinates in which its sides run
// counter-clockwise as the machine sees it.
type Plate struct {
	Kind      part.Kind
	Hand      part.Hand
	Panel     string // its name, or that of the panel it is a ply of
	Ply       int    // from 1, where it is a ply
	Material  string
	Label     string // what to write after its name
	Thickness float64
	Density   float64
	Grain     sheet.Grain
	Sides     []Side
	Holes     []arc.Path // clockwise
	Slots     []cut.Slot // kerfs, from edge to edge
	Grooves   []cut.Slot // dadoes, from edge to edge
	Pockets   []Recess
	Kerfs     []bend.Kerf
	Pose      part.Pose // of the coordinates the plate is drawn in
	Notes     []string
	Marks     []part.Mark
	Bent      []part.Stretch
	Blank     arc.Path // of a ply, what is cut: the sides are those of the glued panel
	Cells     bool     // bottom, right, top and left, with grooves along and across
}

// Name returns the name of the part.
func (p Plate) Name() string {
	if p.Ply == 0 {
		return p.Panel
	}
	return fmt.Sprintf("%s-ply-%d", p.Panel, p.Ply)
}
