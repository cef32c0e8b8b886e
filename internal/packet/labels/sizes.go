package labels

// Size is a sheet of labels: what the stationery trade sells under its size and number to the
// sheet, whoever makes it. Lengths are in mm.
type Size struct {
	Name       string // "a4-14": the paper and how many are on it
	PaperW     float64
	PaperH     float64
	Across     int
	Down       int
	W, H       float64 // of one label
	Left, Top  float64 // to the first label
	StepX      float64 // from one label to the next
	StepY      float64
	SaysInName string // the size as it is sold
}

// Count is how many labels a sheet has.
func (s Size) Count() int { return s.Across * s.Down }

const inch = 25.4

// Sizes gives the sheets that we know. The figures are from memory: label and number to the
// sheet are how they are sold; the margins follow from them, the sheet being symmetrical, and
// from the usual gap between columns (2.5 mm on A4; 1/8 and 3/16 in on Letter).
func Sizes() []Size {
	a4 := func(across, down int, w, h, gap float64, sold string) Size {
		return even(210, 297, "a4", across, down, w, h, gap, sold)
	}
	letter := func(across, down int, w, h, gap float64, sold string) Size {
		return even(8.5*inch, 11*inch, "letter", across, down, w*inch, h*inch, gap*inch, sold)
	}
	return []Size{
		a4(2, 7, 99.1, 38.1, 2.5, "99.1 × 38.1 mm"),
		a4(3, 7, 63.5, 38.1, 2.5, "63.5 × 38.1 mm"),
		a4(3, 8, 70, 37, 0, "70 × 37 mm"),
		a4(2, 4, 99.1, 67.7, 2.5, "99.1 × 67.7 mm"),
		letter(2, 7, 4, 4.0/3, 3.0/16, "4 × 1 1/3 in"),
		letter(3, 10, 2.625, 1, 1.0/8, "2 5/8 × 1 in"),
		letter(2, 5, 4, 2, 3.0/16, "4 × 2 in"),
	}
}

// even lays out a symmetrical sheet whose rows touch.
func even(paperW, paperH float64, paper string, across, down int, w, h, gap float64, sold string) Size {
	s := Size{PaperW: paperW, PaperH: paperH, Across: across, Down: down, W: w, H: h, StepX: w + gap, StepY: h, SaysInName: sold}
	s.Left = (paperW - float64(across)*w - float64(across-1)*gap) / 2
	s.Top = (paperH - float64(down)*h) / 2
	s.Name = paper + "-" + digits(s.Count())
	return s
}

func digits(n int) string {
	if n < 10 {
		return string(rune('0' + n))
	}
	return digits(n/10) + string(rune('0'+n%10))
}

// Named gives a size by its name.
func Named(name string) (Size, bool) {
	for _, s := range Sizes() {
		if s.Name == name {
			return s, true
		}
	}
	return Size{}, false
}
