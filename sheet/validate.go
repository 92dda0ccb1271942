package sheet

import (
	"fmt"

	"example.com/sagitta/arc"
)

// checkInput reports the first value that cannot be used.
func checkInput(fn string, parts []Part, stock []Stock, opt Options) error {
	if err := opt.check(fn); err != nil {
		return err
	}
	copies := 0
	for i, p := range parts {
		if err := p.check(fn, fmt.Sprintf("parts[%d]", i)); err != nil {
			return err
		}
		if copies += p.Copies(); copies > maxCopies {
			return &ParamError{Func: fn, Param: "parts", Value: copies, Unit: "copies", Need: fmt.Sprintf("<= %d", maxCopies), Err: ErrTooMany}
		}
	}
	for i, s := range stock {
		if err := s.check(fn, fmt.Sprintf("stock[%d]", i)); err != nil {
			return err
		}
	}
	return nil
}

func (p Part) check(fn, at string) error {
	if err := needSize(fn, at+".Thickness", p.Thickness); err != nil {
		return err
	}
	if p.Qty < 0 || p.Qty > maxCopies {
		return &ParamError{Func: fn, Param: at + ".Qty", Value: p.Qty, Need: fmt.Sprintf("0 to %d", maxCopies), Err: arc.ErrRange}
	}
	if p.Grain < AnyGrain || p.Grain > Across {
		return &ParamError{Func: fn, Param: at + ".Grain", Value: int(p.Grain), Need: "AnyGrain, Along or Across", Err: arc.ErrRange}
	}
	if p.Turns < RightAngles || p.Turns > AnyAngle {
		return &ParamError{Func: fn, Param: at + ".Turns", Value: int(p.Turns), Need: "RightAngles, HalfTurns, NoTurn or AnyAngle", Err: arc.ErrRange}
	}
	return checkRegion(fn, at+".Outline", p.Outline)
}

func (s Stock) check(fn, at string) error {
	if err := needSize(fn, at+".Thickness", s.Thickness); err != nil {
		return err
	}
	if err := needNotNegative(fn, at+".Price", s.Price, ""); err != nil {
		return err
	}
	if s.Count < 0 {
		return &ParamError{Func: fn, Param: at + ".Count", Value: s.Count, Need: ">= 0", Err: arc.ErrRange}
	}
	for i, f := range s.Forbidden {
		if err := checkRegion(fn, fmt.Sprintf("%s.Forbidden[%d]", at, i), f); err != nil {
			return err
		}
	}
	if s.irregular() {
		return checkRegion(fn, at+".Outline", s.Outline)
	}
	if err := needSize(fn, at+".Length", s.Length); err != nil {
		return err
	}
	return needSize(fn, at+".Width", s.Width)
}
