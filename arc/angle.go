package arc

import (
	"example.com/sagitta/internal/num"
	"math"
	"strconv"
)

// Lengths in millimetres.
const (
	Millimeter = 1.0
	Inch       = 25.4
	Foot       = 304.8
)

// An Angle is a plane angle in radians.
type Angle float64

// Units of angle: 45 * arc.Degree.
const (
	Radian Angle = 1
	Degree Angle = math.Pi / 180
)

// Degrees returns the angle in degrees.
func (a Angle) Degrees() float64 { return float64(a) * (180 / math.Pi) }

// String returns the angle in degrees, rounded to 1e-4, as "22.5°".
func (a Angle) String() string {
	return strconv.FormatFloat(num.Decimals(a.Degrees(), 4), 'f', -1, 64) + "°"
}

// sincos returns the sine and cosine of a, exact for multiples of 90 degrees
// so that right-angle turns keep coordinates to the last bit.
func (a Angle) sincos() (sin, cos float64) {
	q := math.Round(float64(a) / (math.Pi / 2))
	if math.IsInf(q, 0) {
		return math.NaN(), math.NaN()
	}
	if q*(math.Pi/2) == float64(a) || float64(Angle(q*90)*Degree) == float64(a) {
		switch int64(math.Mod(q, 4)+4) % 4 {
		case 0:
			return 0, 1
		case 1:
			return 1, 0
		case 2:
			return 0, -1
		default:
			return -1, 0
		}
	}
	return math.Sincos(float64(a))
}
