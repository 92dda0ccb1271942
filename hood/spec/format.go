package spec

import (
	"example.com/sagitta/arc"
	"example.com/sagitta/arc/say"
)

// Format returns how a spec asks for lengths to be printed. All that is said of
// its design to people is written by it.
func (s Spec) Format() say.Format {
	f := say.Format{Fraction: s.Fraction}
	if s.Units == "in" {
		f.Unit = arc.Inches
	}
	return f
}

// checkFormat looks at what is asked of print.
func (s Spec) checkFormat(c *Checker) {
	c.word("units", s.Units, "mm", "in")
	switch s.Fraction {
	case 0, 1, 2, 4, 8, 16, 32, 64:
	default:
		c.Add("fraction", s.Fraction, "", "1, 2, 4, 8, 16, 32 or 64", arc.ErrRange)
	}
}

// LowestMetal returns how far the lowest metal of the insert is above the bottom
// edge: its underside, or the shelf's, where it hangs no lower.
func (s Spec) LowestMetal() float64 { return s.Liner.Y - s.Liner.Drop }
