package papertest

// Set is what a plan set tells.
type Set struct {
	Inches bool
	Parts  []Part // in the order of the tables
	Steps  []Step // by number
	Things []Thing
	Spare  int      // percent of what comes in packs
	Faults []string // what cannot be read, or contradicts itself
}

// Read makes of pages what they tell.
func Read(pages []Page) Set {
	r := &reader{parts: map[string]*Part{}}
	for i, p := range pages {
		list := runs(p, i+1)
		r.runs = append(r.runs, list)
		for _, x := range list {
			if len(x.text) > 16 && x.text[:16] == "Sizes in inches," {
				r.inches = true
			}
		}
	}
	r.tables()
	r.beforeEdging()
	r.works()
	s := Set{Inches: r.inches}
	s.Things, s.Spare = r.shopping()
	s.Steps = r.steps(s.Things)
	for _, m := range r.order {
		s.Parts = append(s.Parts, *r.parts[m])
	}
	s.Faults = r.faults
	return s
}
