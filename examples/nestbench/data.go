package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
)

// published lists the best densities of 100 runs of 20 minutes on three
// threads: J. Gardeyn, G. Vanden Berghe, T. Wauters, arXiv 2509.13329, 2025,
// tables 2 and 3. Of gardeyn9, which was published with zones of quality that are
// left out here, there is none: 0.
var published = []publishedSet{
	{"albano", 89.82}, {"dagli", 90.17}, {"fu", 92.41}, {"jakobs1", 89.26}, {"shapes0", 69.98},
	{"shirts", 90.92}, {"swim", 79.83}, {"gardeyn0", 89.85}, {"gardeyn4", 79.92},
	{"gardeyn3", 88.68}, {"gardeyn7", 87.02}, {"gardeyn9", 0},
}

type publishedSet struct {
	name    string
	density float64
}

// best returns the published density, and what it means that there is none.
func (s publishedSet) best() string {
	if s.density == 0 {
		return "none"
	}
	return fmt.Sprintf("%.2f", s.density)
}

type irregular struct {
	Height float64 `json:"strip_height"`
	Pieces int     `json:"pieces"`
	Items  []struct {
		Demand  int          `json:"demand"`
		Turns   []float64    `json:"allowed_rotations_deg"`
		Polygon [][2]float64 `json:"polygon"`
	} `json:"items"`
}

type rectStrip struct {
	Name  string       `json:"name"`
	Width float64      `json:"strip_width"`
	Best  float64      `json:"optimal_height"`
	Items [][2]float64 `json:"items"`
}

type binSet struct {
	Name     string       `json:"name"`
	Bin      [2]float64   `json:"bin"`
	Items    [][2]float64 `json:"items"`
	Best     int          `json:"best_known_bins_rotation"`
	Straight int          `json:"best_known_3stage_guillotine_rotation"`
}

func readIrregular(path string) (irregular, error) {
	var s irregular
	data, err := os.ReadFile(path)
	if err == nil {
		err = json.Unmarshal(data, &s)
	}
	return s, err
}

// read fills v from a file of rectangles; ok is false where there is none.
func (b bench) read(name string, v any) (ok bool, err error) {
	data, err := os.ReadFile(filepath.Join(b.data, "rect", name))
	if os.IsNotExist(err) {
		b.skip(name, "no data")
		return false, nil
	}
	if err == nil {
		err = json.Unmarshal(data, v)
	}
	return err == nil, err
}

func (s irregular) parts() []sheet.Part {
	var parts []sheet.Part
	for i, it := range s.Items {
		p := sheet.Part{Name: fmt.Sprint(i), Qty: it.Demand, Thickness: 1, Turns: turns(it.Turns)}
		var v []r2.Vec
		for _, q := range it.Polygon {
			v = append(v, r2.Vec{X: q[0], Y: q[1]})
		}
		p.Outline.Outer = arc.Polygon(v...)
		parts = append(parts, p)
	}
	return parts
}

// turns reads the list of angles of a piece; none means any.
func turns(deg []float64) sheet.Turns {
	switch len(deg) {
	case 0:
		return sheet.AnyAngle
	case 1:
		return sheet.NoTurn
	case 2:
		return sheet.HalfTurns
	}
	return sheet.RightAngles
}

func rectangles(sizes [][2]float64) []sheet.Part {
	var parts []sheet.Part
	for i, s := range sizes {
		parts = append(parts, sheet.Part{Name: fmt.Sprint(i), Thickness: 1, Outline: arc.Region{Outer: arc.Rect(0, 0, s[0], s[1])}})
	}
	return parts
}
