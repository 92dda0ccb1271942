package spec

import (
	"example.com/sagitta/arc"
	"example.com/sagitta/hood/curve"
)

// A Spec says what hood to make. Lengths are millimetres of show faces,
// angles radians; the struct tags carry the names, units and meaning of the
// keys of a spec file. What a key's text does not give a default for is
// required.
type Spec struct {
	Version   int         `json:"version" doc:"version of this form of file: 2"`
	Title     string      `json:"title" most:"200" doc:"name of the job, for people; may be empty"`
	Units     string      `json:"units" most:"40" doc:"unit of bare numbers in the file, and of what is printed: mm or in; empty means mm" enum:",mm,in"`
	Fraction  int         `json:"fraction" doc:"finest part of an inch that is printed, such as 64 for 1/64 in; 1, 2, 4, 8, 16, 32 or 64; 0 means 32"`
	Width     float64     `json:"width" unit:"mm" doc:"width over the show faces at the bottom"`
	Height    float64     `json:"height" unit:"mm" doc:"height from the bottom edge to the neck"`
	Depth     float64     `json:"depth" unit:"mm" doc:"depth from the wall to the show face of the front at the bottom"`
	Skirt     float64     `json:"skirt" unit:"mm" doc:"height of the plumb band at the bottom; 0 means none"`
	Neck      Neck        `json:"neck" doc:"the top, where the sweep ends"`
	Sweep     curve.Sweep `json:"sweep" doc:"the curve of the front, from the top of the skirt to the neck"`
	SideSweep curve.Sweep `json:"side_sweep" doc:"the curve of flared sides, where the neck is narrower than the hood; empty means straight"`
	LeftSweep curve.Sweep `json:"left_sweep" doc:"the curve of the left side, where it differs from the right one, seen by one who faces the hood; left out means as side_sweep"`
	Chimney   Chimney     `json:"chimney" doc:"plumb box above the neck"`
	Corner    string      `json:"corner" most:"40" doc:"joint of front and cheeks: miter, front-covers or cheek-covers; empty means miter; flared sides take miter only" enum:",miter,front-covers,cheek-covers"`
	Board     Board       `json:"board" doc:"the panel product of front, sides and deck"`
	Back      Back        `json:"back" doc:"the back, let into rabbets"`
	Liner     Liner       `json:"liner" doc:"the metal insert; 0 by 0 means no liner shelf"`
	Duct      Duct        `json:"duct" doc:"the duct through the deck; diameter 0 means no opening"`
	Bend      Bend        `json:"bend" doc:"how curved panels are made"`
	Cut       Cut         `json:"cut" doc:"what the router needs"`
	Dado      Dado        `json:"dado" doc:"grooves in plumb sides that hold deck and liner shelf; depth 0 means none"`
	Tabs      Tabs        `json:"tabs" doc:"tabs on the rear edges of deck and liner shelf, in slots of the back, and under ribs that stand on the liner shelf; width 0 means none"`
	Pins      Pins        `json:"pins" doc:"matching holes for dowels or pins where parts lie face to face: cleat and back, corner blocks and liner shelf; diameter 0 means none"`
	Ribs      Ribs        `json:"ribs" doc:"ribs behind the front; spacing 0 means none"`
	Cleat     Cleat       `json:"cleat" doc:"the hanging cleat behind the back; height 0 means none"`
	Blocks    Blocks      `json:"blocks" doc:"corner blocks in the skirt; leg 0 means none"`
	Scribe    Scribe      `json:"scribe" doc:"wood left on the rear edges to fit an uneven wall"`
	Cooktop   Cooktop     `json:"cooktop" doc:"the cooking surface below; distance 0 means not known"`
	Doorway   Doorway     `json:"doorway" doc:"the narrowest opening on the way in; 0 by 0 means not known"`
	Molding   Molding     `json:"molding" doc:"moldings around the hood"`
	Joint     float64     `json:"joint" unit:"mm" doc:"largest gap or overlap of a seam of two bent panels; 0 means 0.65 mm, the gap of shaped wood to wood in premium grade (Architectural Woodwork Standards, 1st ed. 2009, section 6, 4.4.1.8)"`
}

// A Neck is the top of a hood, where the sweep ends.
type Neck struct {
	Depth  float64 `json:"depth" unit:"mm" doc:"depth from the wall to the show face of the front at the neck"`
	Width  float64 `json:"width" unit:"mm" doc:"width over the show faces at the neck; 0 means the width of the hood"`
	Offset float64 `json:"offset" unit:"mm" doc:"how far the middle of the neck stands to the right of the middle of the hood; 0 means centered; half the difference of the widths leaves one side plumb"`
}

// A Chimney is the plumb box above the neck.
type Chimney struct {
	Height float64 `json:"height" unit:"mm" doc:"height above the neck; 0 means no chimney"`
	Depth  float64 `json:"depth" unit:"mm" doc:"depth over the show face; 0 means that of the neck"`
	Width  float64 `json:"width" unit:"mm" doc:"width over the show faces; 0 means that of the neck"`
}

// A Board is a panel product.
type Board struct {
	Material  string  `json:"material" most:"60" doc:"name of the material, such as mdf or plywood"`
	Thickness float64 `json:"thickness" unit:"mm" doc:"true thickness"`
	Density   float64 `json:"density" unit:"kg/m3" doc:"density; 0 means that of the material, where it is known by name"`
	Grain     string  `json:"grain" most:"40" doc:"how the fibers of the face run on skirts, sweeps and cheeks: upright (around the bend, kerfs across them), level or any; empty means upright for plywood and any for other panels; a sheet's fibers run along its length" enum:",upright,level,any"`
	Sheets    []Sheet `json:"sheets" most:"40" doc:"the sheets it comes in"`
}

// A Sheet is a size a panel product comes in.
type Sheet struct {
	Length float64 `json:"length" unit:"mm" doc:"length, along the grain"`
	Width  float64 `json:"width" unit:"mm" doc:"width"`
	Count  int     `json:"count" doc:"how many there are; 0 means as many as needed"`
	Price  float64 `json:"price" doc:"price of one sheet; 0 means not known"`
}

// A Back is the panel against the wall, let into rabbets of the sides.
type Back struct {
	Material  string    `json:"material" most:"60" doc:"name of the material"`
	Thickness float64   `json:"thickness" unit:"mm" doc:"true thickness"`
	Density   float64   `json:"density" unit:"kg/m3" doc:"density; 0 means that of the material, where it is known by name"`
	Rabbet    float64   `json:"rabbet" unit:"mm" doc:"how deep the rabbets go into the sides; 0 means the back stands between the sides"`
	Clearance float64   `json:"clearance" unit:"mm" doc:"play left between the back's edge and each rabbet; 0 means none"`
	Openings  []Opening `json:"openings" most:"40" doc:"openings through the back"`
	Sheets    []Sheet   `json:"sheets" most:"40" doc:"the sheets it comes in; none means sheets of the board's sizes, of unknown price"`
}

// An Opening is a hole through the back.
type Opening struct {
	Shape    string  `json:"shape" most:"40" doc:"circle or rectangle" enum:"circle,rectangle"`
	X        float64 `json:"x" unit:"mm" doc:"its middle, to the right of the middle of the hood"`
	Y        float64 `json:"y" unit:"mm" doc:"its middle, above the bottom edge"`
	Diameter float64 `json:"diameter" unit:"mm" doc:"of a circle"`
	Width    float64 `json:"width" unit:"mm" doc:"of a rectangle, across"`
	Height   float64 `json:"height" unit:"mm" doc:"of a rectangle, upright"`
}

// A Liner is the metal insert below.
type Liner struct {
	Length float64 `json:"length" unit:"mm" doc:"opening for the liner, along the front; from the maker's own drawing"`
	Width  float64 `json:"width" unit:"mm" doc:"opening for the liner, front to back"`
	X      float64 `json:"x" unit:"mm" doc:"its middle, to the right of the middle of the hood"`
	Y      float64 `json:"y" unit:"mm" doc:"underside of the liner shelf above the bottom edge"`
	Drop   float64 `json:"drop" unit:"mm" doc:"how far the lowest metal of the insert hangs below the underside of the liner shelf; 0 means not at all"`
	Z      float64 `json:"z" unit:"mm" doc:"its middle, out of the wall; 0 means the middle of the room between back and front, or nearer to the wall where ribs need it"`
}

// A Duct is the exhaust duct through the deck.
type Duct struct {
	Diameter float64 `json:"diameter" unit:"mm" doc:"opening in the deck"`
	X        float64 `json:"x" unit:"mm" doc:"its middle, to the right of the middle of the neck"`
	Z        float64 `json:"z" unit:"mm" doc:"its middle, out of the wall; 0 means the middle of the deck, or nearer to the wall where ribs need it"`
}

// A Bend says how curved panels are made.
type Bend struct {
	Method    string    `json:"method" most:"40" doc:"way to bend curved panels: kerf (kerfs across the back), laminate (plies glued up on a form) or as-is (one sheet of the board's thickness, held by ribs: ribs.spacing must be above 0); empty means kerf; sweep.method and side_sweep.method come first" enum:",kerf,laminate,as-is"`
	KerfWidth float64   `json:"kerf_width" unit:"mm" doc:"width of a kerf; 0 where no panel is kerfed"`
	Web       float64   `json:"web" unit:"mm" doc:"what is left under a kerf, at the show face; 0 where no panel is kerfed"`
	Facet     float64   `json:"facet" unit:"mm" doc:"how far the bent panel may leave the true curve; 0 where no panel is kerfed"`
	Strain    float64   `json:"strain" doc:"largest strain of a web under a kerf, of a ply on its form, and of a panel bent as it is; 0 means no limit of a web, and else what the material stands, where that is known by name; plywood bent as it is goes by published radii"`
	Turn      arc.Angle `json:"turn" unit:"deg" doc:"largest angle one kerf may turn, for a finish that shows the facets, as gloss does; 0 means no limit but 90"`
	Ply       Ply       `json:"ply" doc:"what plies, and a panel bent as it is, are cut from"`
	Trim      float64   `json:"trim" unit:"mm" doc:"how much larger than the glued panel its plies are cut, on every side, to be cut off after glue-up; 0 means none"`
	Form      Form      `json:"form" doc:"the bending form of a laminated panel: ribs cut from the board to the curve before springback; with a spacing or a depth kerfed panels get one too, to the curve itself"`
}

// A Ply is the sheet that plies are cut from.
type Ply struct {
	Material  string  `json:"material" most:"60" doc:"name of the material; empty means that of the board"`
	Thickness float64 `json:"thickness" unit:"mm" doc:"true thickness of a ply with its share of the glue, of which a whole number, two or more, makes the thickness of the board; 0 where no panel is laminated"`
	Density   float64 `json:"density" unit:"kg/m3" doc:"density; 0 means that of the material, where it is known by name"`
	Sheets    []Sheet `json:"sheets" most:"40" doc:"the sheets it comes in; none means sheets of the board's sizes, of unknown price"`
}

// A Form is what plies are pressed to while the glue sets. It is not part of
// the hood.
type Form struct {
	Spacing float64 `json:"spacing" unit:"mm" doc:"largest distance between the ribs of the form; 0 means that of the ribs of the hood, or without them two ribs"`
	Depth   float64 `json:"depth" unit:"mm" doc:"depth of a rib of the form where it is least; 0 means four times the thickness of the board"`
}

// A Cut says what the router needs.
type Cut struct {
	Gap    float64 `json:"gap" unit:"mm" doc:"least distance between parts on a sheet"`
	Margin float64 `json:"margin" unit:"mm" doc:"border of a sheet that is not used"`
	Tool   float64 `json:"tool" unit:"mm" doc:"diameter of the cutter for outlines"`
}

// A Dado is a groove in a plumb side for a level board.
type Dado struct {
	Depth     float64 `json:"depth" unit:"mm" doc:"depth of the grooves; 0 means none"`
	Clearance float64 `json:"clearance" unit:"mm" doc:"play of a board in its groove, in thickness, and at the floor on either side; 0 means none"`
}

// A Molding is bought by the length and mitered around the hood.
type Molding struct {
	Band   bool      `json:"band" doc:"a plumb band around the bottom edge"`
	Crown  bool      `json:"crown" doc:"a crown around the neck, or the top of the chimney where there is one"`
	Spring arc.Angle `json:"spring" unit:"deg" doc:"spring angle of the crown, between its back and the plumb face; over 0 and under 90"`
}

// Ribs stand behind the front, follow its inner face and pass through the
// deck.
type Ribs struct {
	Spacing   float64 `json:"spacing" unit:"mm" doc:"largest distance between ribs, and from the sides; 0 means no ribs"`
	Depth     float64 `json:"depth" unit:"mm" doc:"depth of a rib, square to the front"`
	Clearance float64 `json:"clearance" unit:"mm" doc:"play of a rib in its slot in the deck; 0 means none"`
}

// A Cleat is a strip with an edge at 45 degrees that hooks over its mate on the
// wall. The back stands forward by its thickness, which is that of the board.
type Cleat struct {
	Height float64 `json:"height" unit:"mm" doc:"height of each of the two strips; 0 means no cleat"`
	Short  float64 `json:"short" unit:"mm" doc:"how much the strips are shorter than the room between the sides; 0 means not at all"`
}

// Blocks are triangles glued into the front corners of the skirt.
type Blocks struct {
	Leg float64 `json:"leg" unit:"mm" doc:"length of the sides along front and cheek; 0 means no blocks"`
}

// A Scribe is what is left on the rear edges to be fitted to the wall.
type Scribe struct {
	Allowance float64      `json:"allowance" unit:"mm" doc:"wood left on the rear edges of the sides; 0 means none"`
	Wall      [][2]float64 `json:"wall" most:"100" unit:"mm" doc:"gaps measured between a plumb line and the wall, each [height above the bottom edge, gap], upward; left out where not measured"`
}

// A Cooktop is what the hood hangs over.
type Cooktop struct {
	Distance float64 `json:"distance" unit:"mm" doc:"from the cooking surface to the bottom edge of the hood; 0 means not known"`
	Wood     float64 `json:"wood" unit:"mm" doc:"least distance to wood by the appliance maker's instructions; 0 means not known"`
	Metal    float64 `json:"metal" unit:"mm" doc:"least distance to the metal insert by the appliance maker's instructions; 0 means not known"`
}

// A Doorway is an opening the hood has to pass on its way in.
type Doorway struct {
	Width  float64 `json:"width" unit:"mm" doc:"clear width"`
	Height float64 `json:"height" unit:"mm" doc:"clear height"`
}
