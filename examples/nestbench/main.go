// Nestbench lays out published benchmark sets of the EURO special interest
// group on cutting and packing and prints what it reaches beside the best
// results published. The data is no part of this project: put it in a folder
// and name that, or leave it in shared/datasets beside the checkout.
//
// Invented jobs of a shop are laid out too, which need no data. At the end it lists
// what was not run. With -cpu all times are processor time, shared by the workers,
// so that a busy machine does not count.
//
//	go run ./examples/nestbench [-data DIR] [-time 60s] [-cpu] [-seeds 3] [-only irregular,strip,bins,straight,cases] [name ...]
package main

import (
	"context"
	"flag"
	"fmt"
	"log"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"example.com/sagitta/sheet"
)

type bench struct {
	data    string
	time    time.Duration
	seeds   int
	workers int
	cpu     bool
	names   []string
	skipped *[]string // what was not run, and why
}

func main() {
	log.SetFlags(0)
	var b bench
	flag.StringVar(&b.data, "data", "", "folder of the data; empty looks for shared/datasets here and above")
	flag.DurationVar(&b.time, "time", 60*time.Second, "for each irregular set; strips of rectangles take a sixth, bins a thirtieth")
	flag.IntVar(&b.seeds, "seeds", 3, "runs of each irregular set")
	flag.IntVar(&b.workers, "workers", 2, "goroutines")
	only := flag.String("only", strings.Join(families, ","), "which families")
	flag.BoolVar(&b.cpu, "cpu", false, "let times be processor time, shared by the workers")
	flag.Parse()
	b.names, b.skipped = flag.Args(), new([]string)
	if b.data == "" {
		b.data = find()
	}
	if err := b.run(strings.Split(*only, ",")); err != nil {
		log.Fatal(err)
	}
}

var families = []string{"irregular", "strip", "bins", "straight", "cases"}

// run runs families and lists what was not run.
func (b bench) run(only []string) error {
	how := map[string]func(bench) error{"irregular": bench.irregular, "strip": bench.strip, "bins": bench.bins, "straight": bench.straight, "cases": bench.cases}
	for _, f := range only {
		if how[f] == nil {
			return fmt.Errorf("-only %s: need %s", f, strings.Join(families, ", "))
		}
		if b.data == "" && f != "cases" {
			b.skip(f, "no shared/datasets here or above: name a folder with -data")
			continue
		}
		if err := how[f](b); err != nil {
			return err
		}
	}
	for _, f := range families {
		if !slices.Contains(only, f) {
			b.skip(f, "not asked for")
		}
	}
	if len(*b.skipped) > 0 {
		fmt.Println("not run:")
	}
	for _, s := range *b.skipped {
		fmt.Println("  " + s)
	}
	return nil
}

func (b bench) skip(what, why string) { *b.skipped = append(*b.skipped, what+": "+why) }

// options returns those of a search, of which the workers share the time.
func (b bench) options(limit time.Duration, seed int) sheet.Options {
	opt := sheet.Options{Seed: uint64(seed), Time: limit, Workers: b.workers}
	if b.cpu {
		opt.Time *= time.Duration(max(1, b.workers))
		opt.Clock = processor
	}
	return opt
}

// find walks up to a folder that holds shared/datasets.
func find() string {
	dir, err := os.Getwd()
	for err == nil {
		if d := filepath.Join(dir, "shared", "datasets"); exists(d) {
			return d
		}
		up := filepath.Dir(dir)
		if up == dir {
			break
		}
		dir = up
	}
	return ""
}

func exists(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}

func (b bench) wants(name string) bool { return len(b.names) == 0 || slices.Contains(b.names, name) }

// irregular packs strips of irregular pieces.
func (b bench) irregular() error {
	fmt.Printf("irregular strip packing, %v on %d workers, %d seeds; density %%\n", b.time, b.workers, b.seeds)
	fmt.Printf("%-10s %7s %8s %8s %8s %9s\n", "set", "pieces", "least", "median", "best", "published")
	for _, k := range published {
		if !b.wants(k.name) {
			b.skip(k.name, "not named")
			continue
		}
		set, err := readIrregular(filepath.Join(b.data, "irregular", k.name+".json"))
		if os.IsNotExist(err) {
			b.skip(k.name, "no data")
			continue
		}
		if err != nil {
			return err
		}
		var use []float64
		for seed := range b.seeds {
			s, err := sheet.NestStrip(context.Background(), set.parts(), set.Height, b.options(b.time, seed))
			if err != nil {
				return err
			}
			use = append(use, 100*s.Use)
		}
		slices.Sort(use)
		n := len(use)
		fmt.Printf("%-10s %7d %8.2f %8.2f %8.2f %9s\n", k.name, set.Pieces, use[0], use[n/2], use[n-1], k.best())
	}
	return nil
}

// strip packs rectangles that cut up a larger one: the best is known.
func (b bench) strip() error {
	var sets []rectStrip
	if ok, err := b.read("hopper_turton_C.json", &sets); !ok {
		return err
	}
	fmt.Printf("rectangles in a strip, %v each, turns allowed; length\n", b.time/6)
	fmt.Printf("%-8s %7s %9s %9s %8s\n", "set", "pieces", "found", "optimum", "seconds")
	for _, s := range sets {
		if !b.wants(s.Name) {
			b.skip(s.Name, "not named")
			continue
		}
		begin := time.Now()
		l, err := sheet.NestStrip(context.Background(), rectangles(s.Items), s.Width, b.options(b.time/6, 0))
		if err != nil {
			return err
		}
		fmt.Printf("%-8s %7d %9.4g %9.4g %8.1f\n", s.Name, len(s.Items), l.Length, s.Best, time.Since(begin).Seconds())
	}
	return nil
}

// bins packs rectangles in as few bins as it can, straight for a saw.
func (b bench) bins() error {
	return b.classes("free layouts", func(s binSet) int { return s.Best }, func(parts []sheet.Part, stock []sheet.Stock, opt sheet.Options) (sheet.Layout, error) {
		return sheet.Nest(context.Background(), parts, stock, opt)
	})
}

func (b bench) straight() error {
	return b.classes("three stages of straight cuts", func(s binSet) int { return s.Straight }, func(parts []sheet.Part, stock []sheet.Stock, opt sheet.Options) (sheet.Layout, error) {
		l, err := sheet.NestStraight(context.Background(), parts, stock, sheet.Saw{Stages: 3}, opt)
		return l.Layout, err
	})
}

type nest func([]sheet.Part, []sheet.Stock, sheet.Options) (sheet.Layout, error)

func (b bench) classes(title string, best func(binSet) int, pack nest) error {
	var sets []binSet
	if ok, err := b.read("class_bins.json", &sets); !ok {
		return err
	}
	fmt.Printf("rectangles in bins, %s, %v each, turns allowed; bins\n", title, b.time/30)
	got, want := 0, 0
	for _, s := range sets {
		if !b.wants(s.Name) {
			b.skip(s.Name, "not named")
			continue
		}
		stock := []sheet.Stock{{Thickness: 1, Length: s.Bin[0], Width: s.Bin[1]}}
		l, err := pack(rectangles(s.Items), stock, b.options(b.time/30, 0))
		if err != nil {
			return err
		}
		got, want = got+len(l.Sheets), want+best(s)
		if len(l.Sheets) != best(s) {
			fmt.Printf("%-16s %3d, published %d\n", s.Name, len(l.Sheets), best(s))
		}
	}
	fmt.Printf("total %d, published %d: %+.2f %%\n", got, want, 100*(float64(got)/float64(want)-1))
	return nil
}
