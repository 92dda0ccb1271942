package sheet

import (
	"errors"
	"fmt"

	"example.com/sagitta/arc"
)

// A collector gathers the faults of an input.
type collector struct{ faults ParamErrors }

// add notes a fault, if it is one, of something that has a name.
func (c *collector) add(err error, called string) {
	var p *ParamError
	if !errors.As(err, &p) {
		return
	}
	if called != "" {
		q := *p
		q.Need += fmt.Sprintf(" (%q)", called)
		p = &q
	}
	c.faults = append(c.faults, p)
}

// err returns what there is: nothing, a *ParamError, or ParamErrors.
func (c *collector) err() error {
	switch len(c.faults) {
	case 0:
		return nil
	case 1:
		return c.faults[0]
	}
	return c.faults
}

// checkInput reports all values that cannot be used.
func checkInput(fn string, parts []Part, stock []Stock, opt Options) error {
	c := &collector{}
	opt.check(fn, c)
	copies := 0
	for i, p := range parts {
		p.check(fn, fmt.Sprintf("parts[%d]", i), c)
		copies += max(0, min(p.Copies(), maxCopies+1))
	}
	if copies > maxCopies && len(c.faults) == 0 {
		c.add(&ParamError{Func: fn, Param: "parts", Value: copies, Unit: "copies", Need: fmt.Sprintf("<= %d", maxCopies), Err: ErrTooMany}, "")
	}
	for i, s := range stock {
		s.check(fn, fmt.Sprintf("stock[%d]", i), c)
	}
	return c.err()
}

func (p Part) check(fn, at string, c *collector) {
	c.add(needSize(fn, at+".Thickness", p.Thickness), p.Name)
	if p.Qty < 0 || p.Qty > maxCopies {
		c.add(&ParamError{Func: fn, Param: at + ".Qty", Value: p.Qty, Need: fmt.Sprintf("0 to %d", maxCopies), Err: arc.ErrRange}, p.Name)
	}
	if p.Grain < AnyGrain || p.Grain > Across {
		c.add(&ParamError{Func: fn, Param: at + ".Grain", Value: int(p.Grain), Need: "AnyGrain, Along or Across", Err: arc.ErrRange}, p.Name)
	}
	if p.Turns < RightAngles || p.Turns > AnyAngle {
		c.add(&ParamError{Func: fn, Param: at + ".Turns", Value: int(p.Turns), Need: "RightAngles, HalfTurns, NoTurn or AnyAngle", Err: arc.ErrRange}, p.Name)
	}
	c.add(checkRegion(fn, at+".Outline", p.Outline), p.Name)
}

func (s Stock) check(fn, at string, c *collector) {
	c.add(needSize(fn, at+".Thickness", s.Thickness), s.Name)
	c.add(needNotNegative(fn, at+".Price", s.Price, ""), s.Name)
	c.add(needNotNegative(fn, at+".Worth", s.Worth, ""), s.Name)
	c.add(needNotNegative(fn, at+".LeastGain", s.LeastGain, ""), s.Name)
	if s.Count < 0 {
		c.add(&ParamError{Func: fn, Param: at + ".Count", Value: s.Count, Need: ">= 0", Err: arc.ErrRange}, s.Name)
	}
	for i, f := range s.Forbidden {
		c.add(checkRegion(fn, fmt.Sprintf("%s.Forbidden[%d]", at, i), f), s.Name)
	}
	if s.irregular() {
		c.add(checkRegion(fn, at+".Outline", s.Outline), s.Name)
		return
	}
	c.add(needSize(fn, at+".Length", s.Length), s.Name)
	c.add(needSize(fn, at+".Width", s.Width), s.Name)
}
