package main

import "github.com/tempstage/tempstage/section"

// Right halves of the standard beams (in), from the centre-line of the soffit
// upwards. The heights of the layers are from memory; that the tables' areas,
// centroids and second moments come out proves them.
var (
	typeI   = []float64{8, 0, 8, 5, 3, 10, 3, 21, 6, 24, 6, 28}
	typeII  = []float64{9, 0, 9, 6, 3, 12, 3, 27, 6, 30, 6, 36}
	typeIII = []float64{11, 0, 11, 7, 3.5, 14.5, 3.5, 33.5, 8, 38, 8, 45}
	typeIV  = []float64{13, 0, 13, 8, 4, 17, 4, 40, 10, 46, 10, 54}
	typeVI  = []float64{14, 0, 14, 8, 4, 18, 4, 60, 8, 64, 21, 67, 21, 72}
	bulb54  = []float64{13, 0, 13, 6, 3, 10.5, 3, 46.5, 5, 48.5, 21, 50.5, 21, 54}
	bulb72  = []float64{13, 0, 13, 6, 3, 10.5, 3, 64.5, 5, 66.5, 21, 68.5, 21, 72}
	// Layers read, from the top: 49 × 1, 49 to 10 × 3, 10 to 6 × 2, 6 × 33,
	// 6 to 25 × 3, 25 × 5, 25 to 23 × 1.
	bulb48 = []float64{11.5, 0, 12.5, 1, 12.5, 6, 3, 9, 3, 42, 5, 44, 24.5, 47, 24.5, 48}
)

func iBeams() []Check {
	const (
		manual  = "AASHTO I-beams and bulb-tees, PCI Bridge Design Manual, Appendix B"
		journal = "Brice and Pickings, PCI Journal, May-June 2021, Table A.1"
		sheet   = "section sheet of a 48 in bulb-tee, given by its layers"
		rounded = "0.011 %: the table itself was rounded on its way"
	)
	one, two, three, four, six := symmetric(typeI), symmetric(typeII), symmetric(typeIII), symmetric(typeIV), symmetric(typeVI)
	b54, b72, b48 := symmetric(bulb54), symmetric(bulb72), symmetric(bulb48)
	top := func(p section.Properties) float64 { return p.Top }
	return []Check{
		property("AASHTO Type I, Ix", one, iy).from(Published, journal).is(22744, "in⁴", 0.5, lastDigit),
		property("AASHTO Type I, Iy", one, iz).from(Published, journal).is(3352, "in⁴", 0.5, lastDigit),
		property("AASHTO Type I, yt", one, top).from(Published, journal).is(15.41, "in", 0.005, lastDigit),
		property("AASHTO Type II, Ix", two, iy).from(Published, journal).is(50979, "in⁴", 0.5, lastDigit),
		property("AASHTO Type II, Iy", two, iz).from(Published, journal).is(5333, "in⁴", 0.51, lastDigit+", a tie"),
		property("AASHTO Type II, yt", two, top).from(Published, journal).is(20.17, "in", 0.005, lastDigit),
		property("AASHTO Type III, A", three, area).from(Published, journal).is(559.5, "in²", 0.05, lastDigit),
		property("AASHTO Type III, Ix", three, iy).from(Published, journal).is(125390, "in⁴", 0.5, lastDigit),
		property("AASHTO Type III, Iy", three, iz).from(Published, journal).is(12217, "in⁴", 0.5, lastDigit),
		property("AASHTO Type IV, A", four, area).from(Remembered, manual).is(789, "in²", 0.5, lastDigit),
		property("AASHTO Type IV, yb", four, bottom).from(Remembered, manual).is(24.73, "in", 0.005, lastDigit),
		property("AASHTO Type IV, Ix", four, iy).from(Published, journal).is(260741, "in⁴", 0.5, lastDigit),
		property("AASHTO Type IV, Iy", four, iz).from(Published, journal).is(24374, "in⁴", 0.51, lastDigit+", a tie"),
		property("AASHTO Type VI, A", six, area).from(Remembered, manual).is(1085, "in²", 0.5, lastDigit),
		property("AASHTO Type VI, yb", six, bottom).from(Remembered, manual).is(36.38, "in", 0.005, lastDigit),
		property("AASHTO Type VI, Ix", six, iy).from(Remembered, manual).is(733320, "in⁴", 0.5, lastDigit),
		property("bulb-tee BT-54, yb", b54, bottom).from(Remembered, manual).is(27.63, "in", 0.005, lastDigit),
		property("bulb-tee BT-54, Ix", b54, iy).from(Remembered, manual).is(268077, "in⁴", 1.1e-4*268077, rounded),
		property("bulb-tee BT-72, A", b72, area).from(Remembered, manual).is(767, "in²", 0.5, lastDigit),
		property("bulb-tee BT-72, yb", b72, bottom).from(Remembered, manual).is(36.60, "in", 0.005, lastDigit),
		property("bulb-tee BT-72, Ix", b72, iy).from(Remembered, manual).is(545894, "in⁴", 1.1e-4*545894, rounded),
		property("bulb-tee BT-72, Iy", b72, iz).from(Remembered, manual).is(37634, "in⁴", 0.5, lastDigit),
		property("48 in bulb-tee, A", b48, area).from(Published, sheet).is(547, "in²", 0.0005, lastDigit),
		property("48 in bulb-tee, Ix", b48, iy).from(Published, sheet).is(172658.07, "in⁴", 0.005, lastDigit),
		property("48 in bulb-tee, yb", b48, bottom).from(Published, sheet).is(23.594, "in", 0.0005, lastDigit),
		property("48 in bulb-tee, St", b48, section.Properties.TopModulus).from(Published, sheet).is(7074.45, "in³", 0.005, lastDigit),
		property("48 in bulb-tee, Sb", b48, section.Properties.BottomModulus).from(Published, sheet).is(7317.83, "in³", 0.005, lastDigit),
		property("48 in bulb-tee, Iy", b48, iz).from(Published, sheet).is(28656.29, "in⁴", 0.005, lastDigit),
	}
}
