package place

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

const (
	maxCopies   = 2000   // copies of all items together
	maxVertices = 100000 // vertices of all items together
	maxHoles    = 200    // of one item
)

func checkStrip(items []Item, height float64, opt Options) error {
	if err := checkOptions("Strip", opt); err != nil {
		return err
	}
	if !(height > 0) || math.IsInf(height, 1) {
		return &Error{"Strip", "height", "a positive finite number", ErrContainer}
	}
	return checkItems("Strip", items)
}

func checkFit(items []Item, containers []Container, opt Options) error {
	if err := checkOptions("Fit", opt); err != nil {
		return err
	}
	if len(containers) > 1000 {
		return &Error{"Fit", "containers", "at most 1000", ErrContainer}
	}
	for i, c := range containers {
		if err := checkContainer(fmt.Sprintf("containers[%d]", i), c); err != nil {
			return err
		}
	}
	for i, it := range items {
		for _, c := range it.Containers {
			if c < 0 || c >= len(containers) {
				return &Error{"Fit", fmt.Sprintf("items[%d].Containers", i), "indices of containers", ErrItem}
			}
		}
	}
	return checkItems("Fit", items)
}

func checkContainer(name string, c Container) error {
	good := func(v float64) bool { return v > 0 && v <= 1e9 }
	if c.Outer == nil && !(good(c.Width) && good(c.Height)) {
		return &Error{"Fit", name, "a positive Width and Height of at most 1e9, or Outer", ErrContainer}
	}
	if !(c.Beyond >= 0 && c.Beyond <= 1e9) {
		return &Error{"Fit", name + ".Beyond", "0 to 1e9", ErrContainer}
	}
	if c.Outer != nil {
		if need := polygonFault(c.Outer); need != "" {
			return &Error{"Fit", name + ".Outer", need, ErrContainer}
		}
	}
	if len(c.Forbidden) > 1000 {
		return &Error{"Fit", name + ".Forbidden", "at most 1000 regions", ErrContainer}
	}
	for k, f := range c.Forbidden {
		if len(f.Holes) > maxHoles {
			return &Error{"Fit", fmt.Sprintf("%s.Forbidden[%d].Holes", name, k), fmt.Sprintf("at most %d holes", maxHoles), ErrContainer}
		}
		for _, l := range append([][]r2.Vec{f.Outer}, f.Holes...) {
			if need := polygonFault(l); need != "" {
				return &Error{"Fit", fmt.Sprintf("%s.Forbidden[%d]", name, k), need, ErrContainer}
			}
		}
	}
	return nil
}

func checkOptions(fn string, opt Options) error {
	if opt.Iterations < 0 || opt.Time < 0 || opt.Workers < 0 {
		return &Error{fn, "opt", "no negative value", ErrOptions}
	}
	if opt.Iterations == 0 && opt.Time == 0 {
		return &Error{fn, "opt", "Iterations or Time above 0", ErrOptions}
	}
	return nil
}

func checkItems(fn string, items []Item) error {
	copies, vertices := 0, 0
	for i, it := range items {
		name := fmt.Sprintf("items[%d]", i)
		if err := checkItem(fn, name, it); err != nil {
			return err
		}
		copies += it.demand()
		for _, l := range it.polygons() {
			vertices += len(l)
		}
		if copies > maxCopies || vertices > maxVertices {
			return &Error{fn, "items", fmt.Sprintf("at most %d copies and %d vertices", maxCopies, maxVertices), ErrItem}
		}
	}
	return nil
}

func checkItem(fn, name string, it Item) error {
	if it.Demand < 0 || it.Demand > maxCopies {
		return &Error{fn, name + ".Demand", "a number of copies", ErrItem}
	}
	if len(it.Rotations) > 360 {
		return &Error{fn, name + ".Rotations", "at most 360 turns", ErrItem}
	}
	for _, a := range it.Rotations {
		if !(math.Abs(a) <= 1e3) {
			return &Error{fn, name + ".Rotations", "finite radians within ±1000", ErrItem}
		}
	}
	if need := polygonFault(it.Outer); need != "" {
		return &Error{fn, name + ".Outer", need, ErrItem}
	}
	if len(it.Holes) > maxHoles {
		return &Error{fn, name + ".Holes", fmt.Sprintf("at most %d holes", maxHoles), ErrItem}
	}
	for k, h := range it.Holes {
		if need := polygonFault(h); need != "" {
			return &Error{fn, fmt.Sprintf("%s.Holes[%d]", name, k), need, ErrItem}
		}
	}
	for k, l := range it.Core {
		if need := polygonFault(l); need != "" {
			return &Error{fn, fmt.Sprintf("%s.Core[%d]", name, k), need, ErrItem}
		}
	}
	return nil
}

// polygonFault returns what is needed of a polygon, or nothing if it is good.
func polygonFault(p []r2.Vec) string {
	if len(p) < 3 {
		return "at least three vertices"
	}
	if len(p) > 5000 {
		return "at most 5000 vertices"
	}
	for _, v := range p {
		if !(math.Abs(v.X) <= 1e9 && math.Abs(v.Y) <= 1e9) {
			return "finite coordinates within ±1e9"
		}
	}
	lo, hi := bounds(p)
	if !(math.Abs(area(p)) > 1e-9*(hi.X-lo.X)*(hi.Y-lo.Y)) {
		return "an area"
	}
	if crossesItself(p) {
		return "an outline that does not cross itself"
	}
	return ""
}

func (it Item) demand() int {
	if it.Demand == 0 {
		return 1
	}
	return it.Demand
}
