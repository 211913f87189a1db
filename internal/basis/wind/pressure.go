package wind

import "math"

// Exposure is how open the ground around is, by the letters of ASCE 7.
type Exposure string

const (
	Built Exposure = "B" // among houses and trees
	Open  Exposure = "C" // open ground, scattered obstacles
	Water Exposure = "D" // before open water or flats
)

// Factors for the velocity pressure and the force, with the values of ASCE 7 for buildings and signs.
const (
	Directional = 0.85 // Kd
	GustEffect  = 0.85 // G, rigid structures
	// Wall is the pressure on the windward and the suction on the leeward side of a closed box, 0.8 + 0.5 (ASCE 7,
	// external pressure coefficients, from memory).
	Wall = 1.3
)

// terrain is alpha and zg in metres (ASCE 7-05, Table 6-2: 7.0 and 1200 ft, 9.5 and 900 ft, 11.5 and 700 ft).
var terrain = map[Exposure][2]float64{Built: {7, 365.76}, Open: {9.5, 274.32}, Water: {11.5, 213.36}}

// HeightFactor is Kz at the height z in metres: 2.01 (z/zg)^(2/alpha), not less than at 15 ft (ASCE 7-05, Table 6-3).
func HeightFactor(e Exposure, z float64) float64 {
	t := terrain[e]
	return 2.01 * math.Pow(max(z, 4.572)/t[1], 2/t[0])
}

// halfDensity is half the density of air in kg/m³, so chosen that 0.00256 psf at 1 mph, which ASCE 7 prints for customary
// units, comes out exactly; its SI edition prints 0.613, which is the same to three digits.
const halfDensity = 0.00256 * psf / (MilesPerHour * MilesPerHour)

// psf is a pound of force on a square foot, in pascals: lb × g ÷ ft².
const psf = 0.45359237 * Gravity / (0.3048 * 0.3048)

// Pressure is the velocity pressure q = 0.00256 Kz Kzt Kd V² (psf, mph; ASCE 7-10, 29.3), in pascals, for a gust of
// speed m/s on level ground (Kzt = 1).
func Pressure(speed, kz, kd float64) float64 { return halfDensity * kz * kd * speed * speed }
