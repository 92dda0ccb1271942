package packet

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"example.com/sagitta/hood"
	"example.com/sagitta/sheet"
)

// flared is a larger hood than the demo: flared sides, many ribs, a chimney.
const flared = `{"version":2,"title":"Flared hood for a test","width":1525,"height":1100,"depth":610,"skirt":150,
"neck":{"depth":330,"width":760},"sweep":{"shape":"cove","sag":70},"side_sweep":{"shape":"cove","sag":60},
"chimney":{"height":450,"depth":330,"width":760},"corner":"miter",
"board":{"material":"mdf","thickness":19,"sheets":[{"length":2465,"width":1245,"price":46}]},
"back":{"material":"plywood","thickness":12,"rabbet":9},
"liner":{"length":1100,"width":380,"y":40},"duct":{"diameter":200},
"ribs":{"spacing":200,"depth":70,"clearance":0.3},"cleat":{"height":90},"blocks":{"leg":60},
"bend":{"method":"kerf","kerf_width":3.2,"web":1.6,"facet":0.1,"strain":0.03},
"cut":{"gap":8,"margin":10,"tool":9.525}}`

// BenchmarkNestHoods lays the parts of hoods out within a second and within ten
// and reports the parts, the sheets, their cost, their area less the offcuts of
// the last sheet of each material, and the longest used length of these last
// sheets.
func BenchmarkNestHoods(b *testing.B) {
	for _, h := range []struct{ name, text string }{{"demo", demo(b)}, {"flared", flared}} {
		s, err := ReadSpec(strings.NewReader(h.text))
		require.NoError(b, err)
		d, err := hood.Build(s)
		require.NoError(b, err)
		for _, budget := range []time.Duration{time.Second, 10 * time.Second} {
			b.Run(fmt.Sprintf("%s/%v", h.name, budget), func(b *testing.B) {
				for b.Loop() {
					n, err := nest(context.Background(), d, Options{Budget: budget})
					require.NoError(b, err)
					reportNested(b, n)
				}
			})
		}
	}
}

func reportNested(b *testing.B, n nested) {
	b.Helper()
	area, copies := 0.0, 0
	last := map[string]sheet.Sheet{}
	for _, s := range n.layout.Sheets {
		area += n.stock[s.Stock].Area() / 1e6
		copies += len(s.Placements)
		last[n.stock[s.Stock].Material] = s
	}
	length := 0.0
	for _, s := range last {
		for _, o := range s.Offcuts {
			area -= o.Stock.Area() / 1e6
		}
		for _, p := range s.Placements {
			length = max(length, n.parts[p.Part].Outline.Transform(p.Motion()).Bounds().Max.X)
		}
	}
	b.ReportMetric(float64(copies), "parts")
	b.ReportMetric(float64(len(n.layout.Sheets)), "sheets")
	b.ReportMetric(n.layout.Cost, "cost")
	b.ReportMetric(area, "used-m2")
	b.ReportMetric(length, "last-mm")
}
