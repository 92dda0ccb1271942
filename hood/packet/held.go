package packet

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood"
	"example.com/sagitta/sheet/cut"
)

var (
	roomNeeded = regexp.MustCompile(`([\d.]+) mm between parts or ([\d.]+) mm to the sheet's edge`)
	partOfJob  = regexp.MustCompile(`^job\.Parts\[(\d+)\]`)
)

// asHeld returns what a program lacks to hold a part as the fault of the field of
// the spec that gives it room.
func asHeld(err error, s hood.Spec, job cut.Job) error {
	var p *arc.ParamError
	if !errors.As(err, &p) || !errors.Is(p.Err, cut.ErrNoHold) {
		return err
	}
	room, part := roomNeeded.FindStringSubmatch(p.Need), partOfJob.FindStringSubmatch(p.Param)
	if room == nil || part == nil {
		return err
	}
	i, _ := strconv.Atoi(part[1])
	gap, _ := strconv.ParseFloat(room[1], 64)
	margin, _ := strconv.ParseFloat(room[2], 64)
	if i >= len(job.Parts) {
		return err
	}
	in := s.Format()
	return &arc.ParamError{
		Param: "cut.gap", Value: in.Value(s.Cut.Gap), Unit: in.Unit.String(),
		Need: fmt.Sprintf("at least %s, or a cut.margin of at least %s, for tabs that hold %s to the frame", in.Up(gap), in.Up(margin), job.Parts[i].Name),
		Err:  p.Err,
	}
}
