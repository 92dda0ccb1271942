package place

import "math"

const (
	tiltExplore = 0.65 // as exploreShare, where copies may take any turn
	tiltStart   = 0.75 // share of the budget at which the squeezing ends and the tilting starts

	firstTilt = 0.15 // radians that a copy may turn in the first round
	lastTilt  = 1e-4 // under which it is let turn as far again
	tiltStep  = 0.02 // of the length in a round, per radian
	tiltTries = 4    // tries to shorten in a round
)

// shares returns the parts of the budget at which the exploration ends and
// the squeezing.
func (p *problem) shares() (explore, squeeze float64) {
	for it := range p.items[:p.fixed] {
		if p.loose(int32(it), p.turns[it][0]) {
			return tiltExplore, tiltStart
		}
	}
	return exploreShare, 1
}

// tilt spends the rest of the budget on small turns of the copies that may
// take any: rounds of squeezing, each with other turns about the present ones,
// smaller ones after a round without success. The function reset goes back to
// the legal layout and try shortens that by a share.
func (l *shortener) tilt(reset func(), try func(share float64) bool) {
	for tilt := firstTilt; l.spent() < 1 && l.length > l.least(); {
		before := l.sweeps
		reset()
		l.loosen(tilt)
		l.fine = fineStep * math.Min(1, 10*tilt)
		l.legal.copyFrom(l.layout)
		if tiltRound(tiltStep*tilt, try) {
			tilt = math.Min(1.5*tilt, firstTilt)
		} else if tilt *= 0.7; tilt < lastTilt {
			tilt = firstTilt
		}
		if l.sweeps == before { // nothing can be shortened
			return
		}
	}
}

// tiltRound tries a few steps and reports whether one succeeded.
func tiltRound(step float64, try func(float64) bool) bool {
	any := false
	for range tiltTries {
		if try(step) {
			step, any = math.Min(4*step, firstShrink), true
		} else {
			step /= 2
		}
	}
	return any
}

func (l *shortener) tiltStrip() {
	l.phase(1)
	l.tilt(func() { l.restore(l.legal) }, func(share float64) bool {
		return l.tighten(share, effort{40, 2})
	})
}
