package packet

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
	"example.com/sagitta/arc/say"
	"example.com/sagitta/hood"
	"example.com/sagitta/sheet"
	"example.com/sagitta/sheet/cut"
)

//go:embed bench.html
var benchText string

var benchTemplate = template.Must(template.New("bench").Parse(benchText))

// What both A4 (210 by 297 mm) and Letter (215.9 by 279.4) hold inside margins of
// 12 mm: the paper of a part's sheet.
const (
	paperW, paperH = 186.0, 250.0
	lettering      = 2.5 // of labels, mm (ISO 3098)
	headline       = 5.0
	lineStep       = 4.6 // of text below one another
	runRoom        = 26  // for running dimensions below and beside the wood
)

// A bench draws the sheets of parts: each on one page, in mm of paper, with every
// measure from the lower and the left edge.
type bench struct {
	in say.Format
	of int // parts in all
}

// file returns the sheets of all parts as one page to print.
func (b bench) file(title string, parts []hood.Part) (File, error) {
	var pages []figure
	for i, p := range parts {
		f, err := inline(b.sheet(p, i+1))
		if err != nil {
			return File{}, err
		}
		pages = append(pages, f)
	}
	var out bytes.Buffer
	err := benchTemplate.Execute(&out, map[string]any{"Title": title, "Pages": pages})
	return File{"bench.html", out.Bytes()}, err
}

// A benchSheet is one part being drawn.
type benchSheet struct {
	bench
	p     hood.Part
	scale float64
	low   r2.Vec // where the lower left corner of the wood lies on paper
	box   r2.Box // of the wood, in the part's own coordinates
	rows  []edgeRow
}

// An edgeRow is a line of the table of edges: edges that are alike share one.
type edgeRow struct {
	letter, text string
	bevel        arc.Angle
	edges        []hood.Edge
}

// sheet draws the sheet of a part.
func (b bench) sheet(p hood.Part, number int) draw.Drawing {
	s := benchSheet{bench: b, p: p, rows: edgeRows(p, b.in)}
	s.box = extentOf(p)
	notes := s.notes()
	foot := lineStep*float64(s.lines()+len(notes)+1) + 8
	size := r2.Sub(s.box.Max, s.box.Min)
	roomX, roomY := paperW-runRoom-8, paperH-26-foot-runRoom
	s.scale = max(scaleFor(size.X, roomX), scaleFor(size.Y, roomY))
	s.low = r2.Vec{X: runRoom + max(0, (roomX-size.X/s.scale)/2), Y: foot + runRoom + max(0, (roomY-size.Y/s.scale)/2)}
	layers := slices.Concat(s.wood(), s.running(), []draw.Layer{s.letters(), s.head(number), s.table(notes, foot)})
	return draw.Drawing{
		Title:  p.Name,
		Desc:   fmt.Sprintf("Sheet of the part %s, back face up, scale 1:%.0f; measures run from the lower and the left edge.", p.Name, s.scale),
		Page:   r2.Box{Max: r2.Vec{X: paperW, Y: paperH}},
		Layers: present(layers),
	}
}

// extentOf returns the extent of both faces of a part.
func extentOf(p hood.Part) r2.Box {
	b := p.Outline.Bounds()
	if len(p.Back.Outer.V) > 0 {
		c := p.Back.Bounds()
		b.Min = r2.Vec{X: min(b.Min.X, c.Min.X), Y: min(b.Min.Y, c.Min.Y)}
		b.Max = r2.Vec{X: max(b.Max.X, c.Max.X), Y: max(b.Max.Y, c.Max.Y)}
	}
	return b
}

// motion takes the part's coordinates to paper.
func (s benchSheet) motion() arc.Motion {
	return arc.Shift(r2.Scale(-1, s.box.Min)).Then(arc.Scale(1 / s.scale)).Then(arc.Shift(s.low))
}

func (s benchSheet) at(v r2.Vec) r2.Vec { return s.motion().Apply(v) }

// wood draws the part as the machine sees it, what is hidden dashed.
func (s benchSheet) wood() []draw.Layer {
	m := s.motion()
	wash := draw.Layer{Name: "wood", Weight: 0.13, Color: wood, Fill: wood, Regions: []arc.Region{s.p.Outline.Transform(m)}}
	out := []draw.Layer{wash}
	hidden := draw.Layer{Name: "hidden", Weight: 0.25, Color: ink, Dash: []float64{2, 1}}
	for _, l := range cutLayers(s.p) {
		c := l
		c.Paths, c.Regions = nil, nil
		place(&c, l, m)
		switch l.Name {
		case draw.Outline:
			c.Weight = 0.5
		case draw.Bevel: // the outline of the face that is up
			c.Weight, c.Color, c.Dash = 0.25, ink, nil
		default:
			c.Weight = 0.25
		}
		out = append(out, c)
	}
	for _, e := range s.p.Edges { // an edge that undercuts is hidden below
		if e.Bevel < 0 {
			hidden.Paths = append(hidden.Paths, e.Show.Transform(m))
		}
	}
	centers := draw.Layer{Name: draw.Centering, Weight: 0.18, Color: far}
	for _, c := range circles(s.p) {
		at, r := s.at(c.at), c.d/2/s.scale+1
		centers.Paths = append(centers.Paths, arc.Polyline(r2.Vec{X: at.X - r, Y: at.Y}, r2.Vec{X: at.X + r, Y: at.Y}),
			arc.Polyline(r2.Vec{X: at.X, Y: at.Y - r}, r2.Vec{X: at.X, Y: at.Y + r}))
	}
	return append(out, hidden, centers)
}

// A circleAt is a round hole or pocket.
type circleAt struct {
	at r2.Vec
	d  float64
}

func circles(p hood.Part) []circleAt {
	var out []circleAt
	add := func(q arc.Path) {
		b := q.Bounds()
		d := b.Max.X - b.Min.X
		if math.Abs(d-(b.Max.Y-b.Min.Y)) < 1e-6 && math.Abs(math.Abs(q.Area())-math.Pi*d*d/4) < 1e-6*d*d {
			out = append(out, circleAt{r2.Scale(0.5, r2.Add(b.Min, b.Max)), d})
		}
	}
	for _, h := range p.Outline.Holes {
		add(h)
	}
	for _, k := range p.Work.Pockets {
		add(k.Area.Outer)
	}
	return out
}

// stations returns where along x, or along y, something is to be measured: ends
// of edges, kerfs and grooves, sides of pockets and openings, middles of holes.
func (s benchSheet) stations(along func(r2.Vec) float64) []float64 {
	var out []float64
	corners := func(p arc.Path) {
		for _, v := range p.V {
			out = append(out, along(v.P))
		}
	}
	for _, e := range s.p.Edges {
		if e.Name == "tab" || e.Name == "slot" || e.Name == "notch" {
			b := e.Show.Bounds()
			out = append(out, along(b.Min), along(b.Max))
			continue
		}
		if len(e.Show.V) <= 8 { // more are of a fitted curve, whose ordinates stand below
			corners(e.Show)
			continue
		}
		out = append(out, along(e.Show.V[0].P), along(e.Show.V[len(e.Show.V)-1].P))
	}
	round := circles(s.p)
	for _, c := range round {
		out = append(out, along(c.at))
	}
	rect := func(p arc.Path) {
		b := p.Bounds()
		mid := r2.Scale(0.5, r2.Add(b.Min, b.Max))
		if slices.ContainsFunc(round, func(c circleAt) bool { return c.at == mid }) {
			return
		}
		corners(arc.Polyline(b.Min, b.Max))
	}
	for _, h := range s.p.Outline.Holes {
		rect(h)
	}
	for _, k := range s.p.Work.Pockets {
		rect(k.Area.Outer)
	}
	for _, k := range s.p.Work.Slots {
		if d := r2.Sub(k.To, k.From); math.Abs(along(d)) < r2.Norm(d)/2 { // it runs across this way
			out = append(out, along(k.From))
		}
	}
	return s.sifted(out, along)
}

// sifted returns stations in order, those that read alike once.
func (s benchSheet) sifted(v []float64, along func(r2.Vec) float64) []float64 {
	low, high := along(s.box.Min), along(s.box.Max)
	v = append(v, low, high)
	slices.Sort(v)
	var out []float64
	for _, x := range v {
		if x < low-1e-6 || x > high+1e-6 {
			continue
		}
		if n := len(out); n == 0 || s.in.Bare(x-low) != s.in.Bare(out[n-1]-low) {
			out = append(out, x)
		}
	}
	return out
}

// running draws the dimensions from the left edge, below the wood, and from the
// lower edge, to the left of it: a mark at each place, and its distance from the
// first mark.
func (s benchSheet) running() []draw.Layer {
	x := s.stations(func(v r2.Vec) float64 { return v.X })
	y := s.stations(func(v r2.Vec) float64 { return v.Y })
	return []draw.Layer{
		s.run("along x", x, s.box.Min.X, s.low.X, 90*arc.Degree, func(at, off float64) r2.Vec { return r2.Vec{X: at, Y: s.low.Y - off} }),
		s.run("along y", y, s.box.Min.Y, s.low.Y, 0, func(at, off float64) r2.Vec { return r2.Vec{X: s.low.X - off, Y: at} }),
	}
}

// run draws one row of running dimensions. Where marks are close their labels
// stand apart, led by a line.
func (s benchSheet) run(name string, stations []float64, datum, low float64, turn arc.Angle, point func(at, off float64) r2.Vec) draw.Layer {
	l := draw.Layer{Name: name, Weight: 0.18, Color: ink}
	places := make([]float64, len(stations))
	for i, v := range stations {
		places[i] = low + (v-datum)/s.scale
	}
	spread := spreadOut(places, 1.5*lettering)
	for i, at := range places {
		l.Paths = append(l.Paths, arc.Polyline(point(at, 1), point(at, 5), point(spread[i], 9)))
		l.Texts = append(l.Texts, draw.Text{At: label(point(spread[i], 10), turn), Text: s.in.Bare(stations[i] - datum), Height: lettering, Angle: turn, Align: draw.Right})
	}
	return l
}

// label returns the right end of the baseline of a text whose middle line ends
// at a point.
func label(at r2.Vec, turn arc.Angle) r2.Vec {
	return r2.Add(at, arc.Rotate(turn).Apply(r2.Vec{Y: -lettering / 2}))
}

// spreadOut moves places in rising order apart so that none is nearer to the
// next than step, and none far from where it was.
func spreadOut(places []float64, step float64) []float64 {
	type block struct {
		sum  float64 // of where its first would be if each had its place
		n    int
		from float64
	}
	var blocks []block
	for _, p := range places {
		b := block{p, 1, p}
		for len(blocks) > 0 {
			last := blocks[len(blocks)-1]
			if last.from+step*float64(last.n) <= b.from {
				break
			}
			b.sum += last.sum - step*float64(last.n*b.n)
			b.n += last.n
			b.from = b.sum / float64(b.n)
			blocks = blocks[:len(blocks)-1]
		}
		blocks = append(blocks, b)
	}
	var out []float64
	for _, b := range blocks {
		for i := range b.n {
			out = append(out, b.from+step*float64(i))
		}
	}
	return out
}

// edgeRows gathers the edges of a part: one row for those that are made alike
// and have one name.
func edgeRows(p hood.Part, in say.Format) []edgeRow {
	var out []edgeRow
	for _, e := range p.Edges {
		text := e.Name + ": " + edgeSays(e)
		i := slices.IndexFunc(out, func(r edgeRow) bool { return r.text == text })
		if i < 0 {
			i = len(out)
			out = append(out, edgeRow{letter: string(rune('a' + i%26)), text: text, bevel: e.Bevel})
		}
		out[i].edges = append(out[i].edges, e)
	}
	for i := range out {
		long := 0.0
		for _, e := range out[i].edges {
			long += e.Show.Length()
		}
		if n := len(out[i].edges); n == 1 {
			out[i].text += ", " + in.Length(long)
		}
	}
	return out
}

// edgeSays tells how an edge is cut.
func edgeSays(e hood.Edge) string {
	how := "square, by the outline cutter"
	if e.Bevel != 0 || e.Saw {
		sense, _, _ := strings.Cut(cut.Sense(e.Bevel), ",")
		how = say.Saw(max(e.Bevel, -e.Bevel)) + " off square, " + sense + ", by the program"
		if e.Saw {
			how = strings.TrimSuffix(how, "by the program") + "by saw (" + e.Why + ")"
		}
	}
	if e.Band {
		how += ", shows"
	}
	return how
}

// letters names the edges on the drawing, each just outside its middle.
func (s benchSheet) letters() draw.Layer {
	l := draw.Layer{Name: "edges", Weight: 0.18, Color: ink}
	for _, r := range s.rows {
		e := r.edges[0]
		for _, f := range r.edges { // at its longest stretch
			if f.Show.Length() > e.Show.Length() {
				e = f
			}
		}
		at, dir := middleOf(e.Show)
		out := r2.Vec{X: dir.Y, Y: -dir.X} // outlines run counter-clockwise
		l.Texts = append(l.Texts, draw.Text{At: r2.Add(s.at(at), r2.Scale(-3, out)), Text: r.letter, Height: 3.5, Align: draw.Middle})
	}
	return apart(l)
}

// apart leaves out letters that would lie on one another.
func apart(l draw.Layer) draw.Layer {
	var out []draw.Text
	for _, t := range l.Texts {
		if !slices.ContainsFunc(out, func(o draw.Text) bool { return r2.Norm(r2.Sub(o.At, t.At)) < 5 }) {
			out = append(out, t)
		}
	}
	l.Texts = out
	return l
}

// middleOf returns the point halfway along a path and its direction there.
func middleOf(p arc.Path) (at, dir r2.Vec) {
	half := p.Length() / 2
	for i := range p.NumSegments() {
		g := p.Segment(i)
		if l := g.Length(); half <= l || i == p.NumSegments()-1 {
			return g.At(min(half, l))
		}
		half -= g.Length()
	}
	return r2.Vec{}, r2.Vec{X: 1}
}

// head is the title of the sheet: what the part is, and how it lies.
func (s benchSheet) head(number int) draw.Layer {
	p := s.p
	l := draw.Layer{Name: draw.Note, Color: ink, Weight: 0.35}
	top := paperH - 6.0
	l.Texts = append(l.Texts,
		draw.Text{At: r2.Vec{X: 2, Y: top}, Text: p.Name, Height: headline},
		draw.Text{At: r2.Vec{X: paperW - 2, Y: top}, Text: fmt.Sprintf("%d of %d", number, s.of), Height: 3.5, Align: draw.Right},
		draw.Text{At: r2.Vec{X: 2, Y: top - 8}, Height: 3.5, Text: fmt.Sprintf("%s, %s, ×%d, %s each", p.Material, s.in.Thin(p.Thickness), p.Copies(), s.in.Mass(p.Mass))},
		draw.Text{At: r2.Vec{X: 2, Y: top - 14}, Height: 3.5, Text: fmt.Sprintf("back face up, show face down; scale 1:%.0f; measures in %s", s.scale, s.in.Unit)},
	)
	l.Paths = append(l.Paths, arc.Polyline(r2.Vec{X: 2, Y: top - 17}, r2.Vec{X: paperW - 2, Y: top - 17}))
	return s.grain(l, r2.Vec{X: paperW - 20, Y: top - 13})
}

// grain draws the arrow of the grain, or says that any will do.
func (s benchSheet) grain(l draw.Layer, at r2.Vec) draw.Layer {
	dir := r2.Vec{X: 1}
	switch s.p.Grain {
	case sheet.Along:
	case sheet.Across:
		dir = r2.Vec{Y: 1}
	default:
		l.Texts = append(l.Texts, draw.Text{At: r2.Vec{X: paperW - 2, Y: at.Y - 1}, Text: "any grain", Height: 3.5, Align: draw.Right})
		return l
	}
	a, b := r2.Sub(at, r2.Scale(5, dir)), r2.Add(at, r2.Scale(5, dir))
	side := r2.Vec{X: -dir.Y, Y: dir.X}
	head := r2.Sub(b, r2.Scale(2.5, dir))
	l.Paths = append(l.Paths, arc.Polyline(a, b), arc.Polyline(r2.Add(head, side), b, r2.Sub(head, side)))
	l.Texts = append(l.Texts, draw.Text{At: r2.Vec{X: at.X - 8, Y: at.Y - 1}, Text: "grain", Height: 3.5, Align: draw.Right})
	return l
}

// notes tells the depths of what is cut, and what else is said of the part.
func (s benchSheet) notes() []string {
	p := s.p
	var out []string
	if len(p.Kerfs) > 0 {
		out = append(out, kerfSays(p, s.in)+"; places in the table of the report")
	}
	for _, k := range p.Work.Slots[min(len(p.Kerfs), len(p.Work.Slots)):] {
		d := p.SlotDepth(k)
		out = append(out, "groove "+s.in.Thin(k.Width)+" wide, "+s.in.Thin(d)+" deep, "+s.in.Thin(p.Thickness-d)+" of wood left")
	}
	for _, k := range p.Work.Pockets {
		b := k.Area.Outer.Bounds()
		text := "pocket " + s.in.Size(b.Max.X-b.Min.X, b.Max.Y-b.Min.Y) + ", " + s.in.Thin(k.Depth) + " deep, " + s.in.Thin(p.Thickness-k.Depth) + " of wood left"
		out = append(out, text)
	}
	for _, h := range p.Outline.Holes {
		b := h.Bounds()
		out = append(out, "opening right through, "+s.in.Size(b.Max.X-b.Min.X, b.Max.Y-b.Min.Y))
	}
	return wrapped(counted(append(append(out, s.curves()...), p.Notes...)), noteLetters)
}

// curves returns ordinates of the edges that curve: pairs of the distances from
// the lower and the left edge, evenly along the longer way.
func (s benchSheet) curves() []string {
	const steps = 8
	var out []string
	for _, r := range s.rows {
		for _, e := range r.edges {
			if !slices.ContainsFunc(e.Show.V, func(v arc.Vertex) bool { return v.K != 0 }) || e.Show.Length() < 100 {
				continue
			}
			var pairs []string
			for i := range steps + 1 {
				at := pointAlong(e.Show, e.Show.Length()*float64(i)/steps)
				pairs = append(pairs, s.in.Bare(at.X-s.box.Min.X)+" | "+s.in.Bare(at.Y-s.box.Min.Y))
			}
			out = append(out, "curve "+r.letter+", from the left | from below: "+strings.Join(pairs, ",  "))
		}
	}
	return out
}

// pointAlong returns the point of a path at a length from its start.
func pointAlong(p arc.Path, at float64) r2.Vec {
	for i := range p.NumSegments() {
		g := p.Segment(i)
		if l := g.Length(); at <= l || i == p.NumSegments()-1 {
			q, _ := g.At(min(at, l))
			return q
		}
		at -= g.Length()
	}
	return r2.Vec{}
}

// counted says what stands more than once only once, with how often.
func counted(lines []string) []string {
	n := map[string]int{}
	var out []string
	for _, l := range lines {
		if n[l]++; n[l] == 1 {
			out = append(out, l)
		}
	}
	for i, l := range out {
		if n[l] > 1 {
			out[i] = fmt.Sprintf("%d × %s", n[l], l)
		}
	}
	return out
}

// wrapped breaks lines at spaces so that none has more than so many letters.
func wrapped(lines []string, most int) []string {
	var out []string
	for _, l := range lines {
		line := ""
		for _, w := range strings.Fields(l) {
			if line != "" && len([]rune(line))+1+len([]rune(w)) > most {
				out = append(out, line)
				line = " "
			}
			if line != "" {
				line += " "
			}
			line += w
		}
		out = append(out, line)
	}
	return out
}

// table lists the edges, each with a small view of its end, back face up, and
// the notes, at the foot of the page.
func (s benchSheet) table(notes []string, foot float64) draw.Layer {
	l := draw.Layer{Name: "table", Color: ink, Weight: 0.25, Fill: wood}
	y := foot - 4.0
	for _, r := range s.rows {
		l.Texts = append(l.Texts, draw.Text{At: r2.Vec{X: 2, Y: y}, Text: r.letter, Height: lettering})
		l.Regions = append(l.Regions, arc.Region{Outer: endView(r2.Vec{X: 8, Y: y - 0.4}, r.bevel)})
		for _, line := range wrapped([]string{r.text}, rowLetters) {
			l.Texts = append(l.Texts, draw.Text{At: r2.Vec{X: 22, Y: y}, Text: line, Height: lettering})
			y -= lineStep
		}
	}
	for _, n := range notes {
		l.Texts = append(l.Texts, draw.Text{At: r2.Vec{X: 2, Y: y}, Text: n, Height: lettering})
		y -= lineStep
	}
	return l
}

// rowLetters is how many letters of a row of the table have room, and noteLetters
// how many of a note.
const (
	rowLetters  = int((paperW - 24) / (letterWidth * lettering))
	noteLetters = int((paperW - 4) / (letterWidth * lettering))
)

// lines returns how many lines the rows of the table take.
func (s benchSheet) lines() int {
	n := 0
	for _, r := range s.rows {
		n += len(wrapped([]string{r.text}, rowLetters))
	}
	return n
}

// endView is a board 3 mm thick on paper as one looks along an edge at its right
// end, back face up.
func endView(at r2.Vec, bevel arc.Angle) arc.Path {
	const thick, long = 3.0, 9.0
	lean := thick * math.Tan(float64(max(-60*arc.Degree, min(60*arc.Degree, bevel))))
	end := at.X + long - max(0, -lean) // the back's end may stand beyond the show face's
	return arc.Polygon(at, r2.Vec{X: end, Y: at.Y}, r2.Vec{X: end - lean, Y: at.Y + thick}, r2.Vec{X: at.X, Y: at.Y + thick})
}
