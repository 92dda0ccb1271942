package hood

import "testing"

func benchmarkBuild(b *testing.B, s Spec) {
	b.ReportAllocs()
	var d Design
	for b.Loop() {
		var err error
		if d, err = Build(s); err != nil {
			b.Fatal(err)
		}
	}
	gap := 0.0
	for _, c := range d.Checks {
		if c.Unit == "mm" {
			gap = max(gap, c.Value)
		}
	}
	b.ReportMetric(gap, "mm-gap")
}

func BenchmarkBuildPlumbCove(b *testing.B) { benchmarkBuild(b, demo()) }

func BenchmarkBuildFlaredOgeeRibs(b *testing.B) {
	s := flaredDemo()
	s.Sweep = Sweep{Shape: "ogee", Sag: 18}
	s.SideSweep = Sweep{Shape: "ogee", Sag: 12}
	s.Ribs = Ribs{Spacing: 300, Depth: 60}
	benchmarkBuild(b, s)
}

// Tabs and pins everywhere, with ribs in mortises.
func BenchmarkBuildRegistered(b *testing.B) { benchmarkBuild(b, registered()) }

func BenchmarkModel(b *testing.B) {
	d, err := Build(flaredDemo())
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() { // Model itself makes them once
		meshes(d.made.folded)
	}
}

func BenchmarkBuildPlumbLaminate(b *testing.B) { benchmarkBuild(b, laminated(demo(), 3)) }

func BenchmarkBuildFlaredLaminate(b *testing.B) {
	s := flaredDemo()
	s.Sweep = Sweep{Shape: "ogee", Sag: 18}
	s.SideSweep = Sweep{Shape: "ogee", Sag: 12}
	s.Ribs = Ribs{Spacing: 300, Depth: 60}
	benchmarkBuild(b, laminated(s, 3))
}
