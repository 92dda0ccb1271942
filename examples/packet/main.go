// Command packet makes a whole shop packet from the spec file of a hood: flat
// parts, sheets, cut programs, drawings, model, cut list and report.
//
//	go run ./examples/packet [-spec FILE] [-shop FILE] [-out DIR] [-units mm|in] [-seed N] [-budget D] [-force]
//
// Without -spec it makes a demo; -spec - reads the spec from standard input. It
// exits with 0 when the packet is written, 1 when the hood cannot be built, a
// proof fails, the folder cannot be written or it is interrupted, and 2 for bad
// use or a bad spec; then it writes one line a fault to standard error and
// nothing else. On a terminal it says what it does when that takes over half a
// second. A shop file says what cutters there are, how they are used and in which
// dialect programs are written; without -shop an embedded one holds.
package main

import (
	"bytes"
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood"
	"example.com/sagitta/hood/packet"
	"example.com/sagitta/hood/quote"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop) // a second signal ends the process at once
	os.Exit(start(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// errUse is bad use of the command or a bad spec.
var errUse = errors.New("bad use")

func run(args []string, stdout, stderr io.Writer) int {
	return start(context.Background(), args, os.Stdin, stdout, stderr)
}

func start(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	err := command(ctx, args, stdin, stdout, stderr)
	switch {
	case err == nil:
		return 0
	case errors.Is(err, errUse):
		return 2
	case errors.Is(err, context.Canceled):
		err = errors.New("interrupted: no packet was written")
	}
	fmt.Fprintln(stderr, err)
	return 1
}

func command(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) error {
	f := flag.NewFlagSet("packet", flag.ContinueOnError)
	f.SetOutput(io.Discard)
	file := f.String("spec", "", "spec `file` of the hood, - for standard input; none makes a demo")
	shop := f.String("shop", "", "shop `file`: cutters, habits and dialect of the machine; none means a plain router")
	rates := f.String("rates", "", "rates `file` of the shop, for a quote; none means no quote")
	out := f.String("out", "packet", "`folder` to write, new or empty")
	units := f.String("units", "", "`unit` of what is printed, mm or in; none means that of the spec")
	var o packet.Options
	f.Uint64Var(&o.Seed, "seed", 0, "seed of the search for a layout")
	f.DurationVar(&o.Budget, "budget", 0, "`time` for that search, such as 10s; 0 means a fixed number of steps")
	force := f.Bool("force", false, "write into a folder that holds something, over an earlier packet")
	version := f.Bool("version", false, "print the version and the form of spec files it reads")
	switch err := f.Parse(args); {
	case errors.Is(err, flag.ErrHelp):
		usage(f, stdout)
		return nil
	case err != nil:
		return use(stderr, fmt.Errorf("%w (-h tells of the use)", err))
	case f.NArg() > 0:
		return use(stderr, fmt.Errorf("argument = %.40q: need flags only", f.Arg(0)))
	case *units != "" && *units != "mm" && *units != "in":
		return use(stderr, fmt.Errorf("-units = %.40q: need mm or in", *units))
	case o.Budget < 0:
		return use(stderr, fmt.Errorf("-budget = %v: need >= 0", o.Budget))
	case *version:
		printVersion(stdout)
		return nil
	}
	spec, err := read(*file, stdin)
	if err != nil {
		return use(stderr, err)
	}
	if *shop != "" {
		s, err := readShop(*shop)
		if err != nil {
			return use(stderr, err)
		}
		o.Shop = &s
	}
	if *rates != "" {
		r, err := readRates(*rates)
		if err != nil {
			return use(stderr, err)
		}
		o.Rates = &r
	}
	if *units == "in" || *units == "" && spec.Units == "in" {
		o.Unit = arc.Inches
	}
	files, err := makePacket(ctx, spec, o, stderr)
	if err != nil {
		return err
	}
	if err := packet.WriteFolder(ctx, *out, files, packet.FolderOptions{Force: *force}); err != nil {
		return err
	}
	fmt.Fprintf(stdout, "%s: %d files; open %s/report.html\n", *out, len(files), *out)
	return nil
}

// read returns the spec of a file, or of the demo, with its values judged.
func read(file string, stdin io.Reader) (hood.Spec, error) {
	var r io.Reader = bytes.NewReader(packet.Demo())
	switch file {
	case "":
	case "-":
		r = stdin
	default:
		f, err := os.Open(file)
		if err != nil {
			return hood.Spec{}, err
		}
		defer f.Close()
		r = f
	}
	spec, err := packet.ReadSpec(r)
	if err != nil {
		return hood.Spec{}, err
	}
	return spec, spec.Validate()
}

func readShop(file string) (packet.Shop, error) {
	f, err := os.Open(file)
	if err != nil {
		return packet.Shop{}, err
	}
	defer f.Close()
	return packet.ReadShop(f)
}

func readRates(file string) (quote.Rates, error) {
	f, err := os.Open(file)
	if err != nil {
		return quote.Rates{}, err
	}
	defer f.Close()
	return packet.ReadRates(f)
}

// use prints a fault of use and marks it.
func use(stderr io.Writer, err error) error {
	fmt.Fprintln(stderr, err)
	return errUse
}
