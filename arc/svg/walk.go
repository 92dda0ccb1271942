package svg

import (
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// A place is where an element is drawn: how its coordinates become mm, how
// large the viewport is in them, and on which layer.
type place struct {
	m     matrix
	view  r2.Vec
	layer string
	named bool // by data-layer
	hide  bool
	uses  int
}

func (d *decoder) children(n *node, at place) error {
	for _, k := range n.kids {
		if err := d.draw(k, at); err != nil {
			return err
		}
	}
	return nil
}

// silent are elements that draw nothing where they stand.
var silent = map[string]bool{
	"defs": true, "symbol": true, "clipPath": true, "mask": true, "marker": true, "pattern": true, "linearGradient": true,
	"radialGradient": true, "filter": true, "style": true, "title": true, "desc": true, "metadata": true, "script": true, "view": true,
	"cursor": true, "color-profile": true,
}

// draw reads an element at a place.
func (d *decoder) draw(n *node, at place) error {
	if d.drawn++; d.drawn > maxElements {
		return fault("elements", d.drawn, "", "at most "+strconv.Itoa(maxElements), arc.ErrRange)
	}
	if d.work += n.size; d.work > maxWork {
		return fault("elements", d.work, "bytes", "at most "+strconv.Itoa(maxWork)+" of attributes that are used", arc.ErrRange)
	}
	if err := d.ctx.Err(); err != nil {
		return err
	}
	switch {
	case silent[n.name] || strings.Contains(n.name, ":"):
		return nil
	}
	if !d.shown(n, &at) {
		return nil
	}
	m, ok := transforms(n.attr("transform"))
	if !ok || n.prop("transform") != strings.ToLower(n.attr("transform")) || n.prop("transform-origin") != "" {
		d.skip(n, n.name, &at, "a transform that is not in the attribute's form")
		return nil
	}
	if n.styled() {
		d.skip(n, n.name, &at, "sizes in a style and not in attributes")
		return nil
	}
	at.m = at.m.of(m)
	switch n.name {
	case "g", "a":
		if name := n.attr("data-layer"); name != "" {
			at.layer, at.named = name, true
		} else if id := n.attr("id"); at.layer == "" && !at.named {
			at.layer = id
		}
		return d.children(n, at)
	case "svg":
		return d.nested(n, at, n.attr("width"), n.attr("height"))
	case "use":
		return d.use(n, at)
	}
	if at.hide {
		d.skip(n, n.name, &at, "not visible")
		return nil
	}
	if why := d.shape(n, &at); why != "" {
		d.skip(n, n.name, &at, why)
	}
	return nil
}

// hides reports whether a style sheet may change where or whether things show.
func hides(css string) bool {
	for _, word := range [...]string{"display", "visibility", "transform", "translate", "rotate", "scale", "offset", "clip", "mask", "import"} {
		if strings.Contains(css, word) {
			return true
		}
	}
	return false
}

// shown tells whether an element is drawn, and lists what would change how it
// looks and is not read.
func (d *decoder) shown(n *node, at *place) bool {
	if n.prop("display") == "none" {
		d.skip(n, n.name, at, "display is none")
		return false
	}
	switch n.prop("visibility") {
	case "hidden", "collapse":
		at.hide = true
	case "visible":
		at.hide = false
	}
	for _, p := range [...]string{"clip-path", "mask", "marker", "marker-start", "marker-mid", "marker-end"} {
		if v := n.prop(p); v != "" && v != "none" && v != "inherit" {
			d.skip(n, p, at, "not read; the lines of the "+n.name+" are read whole")
		}
	}
	return true
}

// nested draws the children of an svg or symbol element in a viewport of its
// own.
func (d *decoder) nested(n *node, at place, width, height string) error {
	size := &node{at: n.at}
	x, ok1 := size.length("x", 0, at.view.X)
	y, ok2 := size.length("y", 0, at.view.Y)
	side := func(s string, of float64) (float64, bool) {
		if s == "" || s == "auto" {
			return of, true
		}
		v, unit, ok := splitLength(s)
		if unit == "%" {
			return v / 100 * of, ok && v >= 0
		}
		f, known := toMM[unit]
		return v * (f / toMM["px"]), ok && known && v >= 0
	}
	w, ok3 := side(width, at.view.X)
	h, ok4 := side(height, at.view.Y)
	if !ok1 || !ok2 || !ok3 || !ok4 {
		d.skip(n, n.name, &at, "a size that cannot be used")
		return nil
	}
	at.m = at.m.of(move(x, y))
	at.view = r2.Vec{X: w, Y: h}
	if n.attr("viewBox") != "" {
		box, ok := n.viewBox()
		if !ok {
			d.skip(n, n.name, &at, "a viewBox that cannot be used")
			return nil
		}
		sx, sy, fx, fy := n.fit(w/box[2], h/box[3])
		at.m = at.m.of(move(fx*(w-sx*box[2]), fy*(h-sy*box[3]))).of(matrix{a: sx, d: sy}).of(move(-box[0], -box[1]))
		at.view = r2.Vec{X: box[2], Y: box[3]}
	}
	return d.children(n, at)
}

// use draws another element again.
func (d *decoder) use(n *node, at place) error {
	target := d.ids[n.href()]
	x, ok1 := n.length("x", 0, at.view.X)
	y, ok2 := n.length("y", 0, at.view.Y)
	at.uses++
	switch {
	case target == nil:
		d.skip(n, "use", &at, "of what is not in the file")
		return nil
	case !ok1 || !ok2:
		d.skip(n, "use", &at, "a place that cannot be used")
		return nil
	case at.uses > maxUses:
		d.skip(n, "use", &at, "uses in uses too deep, or of themselves")
		return nil
	}
	at.m = at.m.of(move(x, y))
	if target.name != "symbol" && target.name != "svg" {
		return d.draw(target, at)
	}
	if !d.shown(target, &at) {
		return nil
	}
	w, h := n.attr("width"), n.attr("height")
	if w == "" {
		w = target.attr("width")
	}
	if h == "" {
		h = target.attr("height")
	}
	return d.nested(target, at, w, h)
}

// shape reads an element that is a shape, and returns why not.
func (d *decoder) shape(n *node, at *place) string {
	pen := &pen{d: d, at: at}
	if pen.full() {
		return pen.why
	}
	diagonal := math.Sqrt((at.view.X*at.view.X + at.view.Y*at.view.Y) / 2)
	bad := false
	size := func(name string, of float64) float64 {
		v, ok := n.length(name, 0, of)
		bad = bad || !ok
		return v
	}
	x := func(name string) float64 { return size(name, at.view.X) }
	y := func(name string) float64 { return size(name, at.view.Y) }
	switch n.name {
	case "path":
		pen.data(n.attr("d"))
	case "line":
		a, b := r2.Vec{X: x("x1"), Y: y("y1")}, r2.Vec{X: x("x2"), Y: y("y2")}
		pen.move(a)
		pen.line(b)
	case "polyline", "polygon":
		pen.points(n.attr("points"), n.name == "polygon")
	case "rect":
		rx, ry := x("rx"), y("ry")
		if v := n.attr("rx"); v == "" || v == "auto" {
			rx = ry
		}
		if v := n.attr("ry"); v == "" || v == "auto" {
			ry = rx
		}
		pen.rect(x("x"), y("y"), x("width"), y("height"), rx, ry)
	case "circle":
		r := size("r", diagonal)
		pen.ellipse(x("cx"), y("cy"), r, r)
	case "ellipse":
		rx, ry := x("rx"), y("ry")
		if v := n.attr("rx"); v == "" || v == "auto" {
			rx = ry
		}
		if v := n.attr("ry"); v == "" || v == "auto" {
			ry = rx
		}
		pen.ellipse(x("cx"), y("cy"), rx, ry)
	default:
		return "not a kind that is read"
	}
	if bad {
		return "a length that cannot be used"
	}
	pen.finish()
	for _, p := range pen.paths {
		if why := d.put(p, at); why != "" && pen.why == "" {
			pen.why = why
		}
	}
	return pen.why
}
