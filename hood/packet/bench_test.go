package packet

import (
	"context"
	"strings"
	"testing"
)

func BenchmarkMakeDemo(b *testing.B) {
	s, err := ReadSpec(strings.NewReader(demo(b)))
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Make(context.Background(), s, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
