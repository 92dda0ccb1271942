package place

import (
	"context"
	"fmt"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

func TestTune(t *testing.T) {
	names := os.Getenv("TUNE")
	if names == "" {
		t.Skip()
	}
	secs, _ := strconv.ParseFloat(os.Getenv("SECS"), 64)
	iters, _ := strconv.Atoi(os.Getenv("ITERS"))
	seeds, _ := strconv.Atoi(os.Getenv("SEEDS"))
	for _, name := range strings.Split(names, ",") {
		in := loadInstance(t, name)
		for s := range max(1, seeds) {
			t0 := time.Now()
			r, err := Strip(context.Background(), in.items(), in.Height, Options{Seed: uint64(s), Workers: 2, Iterations: iters, Time: time.Duration(secs * 1e9),
				Progress: func(p Progress) {
					if os.Getenv("V") != "" {
						fmt.Printf("  %.2fs it %d len %.4f dens %.3f\n", p.Elapsed.Seconds(), p.Iterations, p.Length, 100*p.Density)
					}
				}})
			require.NoError(t, err)
			if os.Getenv("CHECK") != "" {
				requireLegal(t, in.items(), r.Placed, r.Length, in.Height, 0)
			}
			fmt.Printf("%s seed %d: %.3f%% len %.5f iters %d %.1fs\n", name, s, 100*in.Area/(in.Height*r.Length), r.Length, r.Iterations, time.Since(t0).Seconds())
		}
	}
}
