package spec

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/say"
	"example.com/sagitta/hood/curve"
)

// maxLength bounds every length of a spec, mm. Nothing larger hangs on a wall,
// and it bounds the work a spec can ask for.
const maxLength = 10000

// A Checker collects the faults of a spec.
type Checker struct {
	Func   string
	In     say.Format // how the faults speak of lengths
	faults Faults
}

// Add keeps a fault. A length is said as the spec gives it, in its unit.
func (c *Checker) Add(param string, v any, unit, need string, kind error) {
	if mm, ok := v.(float64); ok && unit == "mm" {
		v, unit = c.In.Value(mm), c.In.Unit.String()
	}
	c.faults = append(c.faults, &ParamError{Func: c.Func, Param: param, Value: v, Unit: unit, Need: need, Err: kind})
}

// Err returns the faults as an error, nil where there are none.
func (c *Checker) Err() error {
	if len(c.faults) == 0 {
		return nil
	}
	return c.faults
}

// finite reports whether v is a number a length may be; where not, it adds the
// fault.
func (c *Checker) finite(param string, v float64, unit string) bool {
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		c.Add(param, v, unit, "a finite number", arc.ErrNotFinite)
	case math.Abs(v) > maxLength:
		c.Add(param, v, unit, c.most(unit), arc.ErrRange)
	default:
		return true
	}
	return false
}

// most says the most that any number of a unit may be.
func (c *Checker) most(unit string) string {
	if unit == "mm" {
		return "at most " + c.In.Down(maxLength)
	}
	return fmt.Sprintf("at most %d", maxLength)
}

func (c *Checker) positive(param string, v float64, unit string) bool {
	if !c.finite(param, v, unit) {
		return false
	}
	if v <= 0 {
		c.Add(param, v, unit, "> 0", arc.ErrRange)
		return false
	}
	return true
}

func (c *Checker) notNegative(param string, v float64, unit string) bool {
	if !c.finite(param, v, unit) {
		return false
	}
	if v < 0 {
		c.Add(param, v, unit, ">= 0", arc.ErrRange)
		return false
	}
	return true
}

// below asks v to be less than most; what says what most is.
func (c *Checker) below(param string, v, most float64, what string) {
	if v >= most {
		c.Add(param, v, "mm", "less than "+c.In.Down(most)+", "+what, arc.ErrRange)
	}
}

// atMost asks v not to exceed most by more than rounding.
func (c *Checker) atMost(param string, v, most float64, what string) {
	if v > most*(1+1e-12) {
		c.Add(param, v, "mm", "at most "+c.In.Down(most)+", "+what, arc.ErrRange)
	}
}

// word asks for one of the words, or none.
func (c *Checker) word(param, v string, words ...string) bool {
	if v == "" {
		return true
	}
	for _, w := range words {
		if v == w {
			return true
		}
	}
	c.Add(param, v, "", "one of "+strings.Join(words, ", "), ErrWord)
	return false
}

// Count returns how many faults there are, to see later whether more came.
func (c *Checker) Count() int { return len(c.faults) }

// clean tells whether no fault is of these keys or of those below them.
func (c *Checker) clean(keys ...string) bool {
	for _, f := range c.faults {
		key, _, _ := strings.Cut(f.Param, ".")
		if slices.Contains(keys, key) {
			return false
		}
	}
	return true
}

// AddSize adds the fault of the field that sets how strongly a sweep is bent.
func (c *Checker) AddSize(at string, w curve.Sweep, need string, kind error) {
	switch {
	case w.TakesSag():
		c.Add(at+".sag", w.Sag, "mm", need, kind)
	case w.Shape == "points":
		c.Add(at+".points", w.Name(), "", need, kind)
	default:
		c.Add(at+".shape", w.Name(), "", need, kind)
	}
}
