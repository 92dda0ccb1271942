// Command first is the program of the README: the kerfs that bend a board to a
// curve known by its chord and sag.
package main

import (
	"fmt"
	"log"

	"example.com/sagitta/arc"
	"example.com/sagitta/bend"
)

func main() {
	// A cove 760 high with a sag of 45, run so that its board is on the left.
	sweep, err := arc.FromChordSag(760, 45)
	if err != nil {
		log.Fatal(err)
	}
	cove := sweep.Path().Reverse()
	board := bend.Board{Thickness: 19, KerfWidth: 3.2, Web: 1.6}
	plan, err := bend.KerfPlan(cove, board, bend.Limits{Facet: 0.1, Strain: 0.008})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%d kerfs, every %.2f mm, in a blank %.2f mm long\n", len(plan.Kerfs), plan.Pitch, plan.FlatLength)
	fmt.Println("first kerf at", arc.FormatLength(plan.Kerfs[0].At, arc.Inches))
}
