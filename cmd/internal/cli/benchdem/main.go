// Command benchdem writes an invented ranch of some size as an elevation model, for
// scripts/bench: benchdem MILLIONS FILE. It prints the number of columns.
package main

import (
	"context"
	"fmt"
	"math"
	"os"
	"strconv"

	"siltstep/cmd/internal/demo"
	"siltstep/raster/gdal"
)

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "benchdem:", err)
		os.Exit(1)
	}
}

func run(args []string) error {
	if len(args) != 2 {
		return fmt.Errorf("give the millions of cells and a file to make, got %d words", len(args))
	}
	millions, err := strconv.ParseFloat(args[0], 64)
	if err != nil || !(millions >= 1.44) {
		return fmt.Errorf("%s million cells; give a number of at least 1.44", args[0])
	}
	side := int(math.Round(1000 * math.Sqrt(millions)))
	for seed := demo.DefaultSeed; seed < demo.DefaultSeed+20; seed++ {
		ranch, err := demo.Generate(demo.Size{Cols: side, Rows: side, CellM: 1}, seed)
		if err != nil {
			fmt.Fprintln(os.Stderr, "benchdem:", err)
			continue // not every seed has a place for all that a ranch must hold
		}
		fmt.Println(side)
		return gdal.WriteDEM(context.Background(), args[1], ranch.Grid, demo.CRS)
	}
	return fmt.Errorf("no ranch of %d x %d cells among 20 seeds", side, side)
}
