package place

import (
	"context"
	"errors"
	"fmt"
	"time"

	"gonum.org/v1/gonum/spatial/r2"
)

// Sentinels wrapped by every error of this package.
var (
	ErrItem      = errors.New("bad item")
	ErrContainer = errors.New("bad container")
	ErrOptions   = errors.New("bad options")
	// ErrTooLarge says that an item does not fit an empty container in any
	// allowed turn. Only Strip returns it; Fit lists such items as unplaced.
	ErrTooLarge = errors.New("item does not fit the container")
)

// Error says which value of which argument was refused and why.
type Error struct {
	Func  string // Strip or Fit
	Param string // for example items[3].Outer
	Need  string // what the value has to be
	Err   error  // a sentinel of this package
}

func (e *Error) Error() string {
	return fmt.Sprintf("place: %s: %s: %v: need %s", e.Func, e.Param, e.Err, e.Need)
}

func (e *Error) Unwrap() error { return e.Err }

// Item is a polygon with holes to be placed Demand times.
type Item struct {
	Outer       []r2.Vec   // simple polygon, counter-clockwise or clockwise
	Holes       [][]r2.Vec // simple polygons inside Outer, apart from each other
	Core        [][]r2.Vec // Fit: an outline within Outer, then its holes, that alone has to stay within Container.Outer and off forbidden regions; nil means all of the item
	Rotations   []float64  // allowed turns in radians; nil means 0 only
	AnyRotation bool       // any turn: those of Rotations, or of a list where that is nil, are tried first
	Mirror      bool       // may be mirrored as well
	Demand      int        // copies; 0 means 1
	Priority    int        // Fit places higher values first; 0 is neutral
	// Containers lists the indices of the containers that Fit may use for
	// this item; nil means all.
	Containers []int
}

// Container is a sheet: a rectangle from the origin to (Width, Height) or,
// where Outer is given, a simple polygon.
type Container struct {
	Width, Height float64
	Outer         []r2.Vec   // replaces Width and Height where given
	Beyond        float64    // by how much items with a Core may reach beyond the box of Outer
	Forbidden     []Obstacle // what no item may overlap
}

// Obstacle is a simple polygon; in its holes, simple polygons too, items may lie.
type Obstacle struct {
	Outer []r2.Vec
	Holes [][]r2.Vec
}

// Placement puts a copy of an item: the item is mirrored in x where Mirrored
// (x becomes -x), turned by Rotation about its own origin, then moved by At.
type Placement struct {
	Item, Copy int
	Container  int // index of the container; 0 for Strip
	Rotation   float64
	Mirrored   bool
	At         r2.Vec
}

// Apply returns where the placement puts a point of the item.
func (p Placement) Apply(v r2.Vec) r2.Vec {
	if p.Mirrored {
		v.X = -v.X
	}
	c, s := cosSin(p.Rotation)
	return r2.Vec{
		X: float64(float64(c*v.X)-float64(s*v.Y)) + p.At.X,
		Y: float64(float64(s*v.X)+float64(c*v.Y)) + p.At.Y,
	}
}

// Options bound the search. At least one of Iterations and Time has to be
// positive.
type Options struct {
	Seed       uint64
	Iterations int              // sweeps of each search lane; 0 means no limit
	Time       time.Duration    // 0 means no limit
	Now        func() time.Time // the clock that Time goes by; nil means time.Now
	Workers    int              // goroutines; 0 means 1. Never changes an iteration-bounded result
	Rough      bool             // Fit only: the last container is not squeezed at the end
	Start      []Placement      // Fit only: a legal layout to begin with; nil means none
	Memory     *Memory          // Fit only: of earlier calls; nil means none
	// Progress, where not nil, is called from one goroutine at a time
	// after each better layout.
	Progress func(Progress)
}

// Progress describes the best layout so far.
type Progress struct {
	Length     float64 // used length (Strip), or used length of the last container (Fit)
	Density    float64 // area of the items by area used
	Placed     int
	Iterations int // sweeps done by the reporting lane
	Elapsed    time.Duration
}

// Result is a legal layout.
type Result struct {
	Placed     []Placement // ordered by item, then copy
	Unplaced   []Unplaced  // Fit only
	Length     float64     // Strip: used length. Fit: used length of the last used container
	Containers int         // index of the last container used, plus 1
	Density    float64     // area of the placed items by area used
	Iterations int         // sweeps of all lanes
	Stopped    bool        // the context ended the search
}

// Reason says why Fit left a copy out.
type Reason int

const (
	// NoRoom: the search found no place within its budget.
	NoRoom Reason = iota + 1
	// TooLarge: it does not fit any container that it may use, even empty.
	TooLarge
)

func (r Reason) String() string {
	switch r {
	case NoRoom:
		return "no room"
	case TooLarge:
		return "too large"
	}
	return "unknown"
}

// Unplaced is a copy that Fit left out.
type Unplaced struct {
	Item, Copy int
	Reason     Reason
}

// Strip places all copies of all items in a strip of the given height that
// starts at x = 0 and makes the used length as small as it can within the
// budget. It returns an *Error for a bad argument and for an item that is
// higher than the strip in every allowed turn. When ctx ends it returns the
// best legal layout so far, with Stopped set; that is none if ctx ends before
// the items are read.
func Strip(ctx context.Context, items []Item, height float64, opt Options) (Result, error) {
	if err := checkStrip(items, height, opt); err != nil {
		return Result{}, err
	}
	return strip(ctx, items, height, opt)
}

// Fit places the copies in the containers, filling the first before it opens
// the next and those of higher Priority and size first. The last container
// used is then shortened, so that a rectangle of its full height is left at
// its right end. Of two results, the one that leaves out less, then the one
// with fewer containers, then the one with the shorter last container is
// better. A copy that finds no place is listed, which is no error. No copy is
// listed at all where ctx or the time ends before the items are read.
func Fit(ctx context.Context, items []Item, containers []Container, opt Options) (Result, error) {
	if err := checkFit(items, containers, opt); err != nil {
		return Result{}, err
	}
	return fit(ctx, items, containers, opt)
}
