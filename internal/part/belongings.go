package part

// Belongings are what is of one owner, each in the order of the assembly.
type Belongings struct {
	Parts    []*Part
	Joints   []*Joint // into its parts: those whose A is one
	Bays     []*Bay
	Fronts   []*Front // that are one of its parts
	Motions  []*Motion
	Fixings  []Fixing
	Feet     []Foot
	Hardware []Item
}

// Whose gathers what is of each owner, so that nobody has to look through the whole job for it.
type Whose map[string]*Belongings

// Whose gathers what is of each owner of an assembly, which may not grow while it is in use.
func (a *Assembly) Whose() Whose {
	w := Whose{}
	of := func(owner string) *Belongings {
		if w[owner] == nil {
			w[owner] = &Belongings{}
		}
		return w[owner]
	}
	owner := map[string]string{} // of a part
	for i := range a.Parts {
		p := &a.Parts[i]
		owner[p.Mark] = p.Owner
		b := of(p.Owner)
		b.Parts = append(b.Parts, p)
	}
	for i := range a.Joints {
		if o, ok := owner[a.Joints[i].A]; ok {
			b := of(o)
			b.Joints = append(b.Joints, &a.Joints[i])
		}
	}
	for i := range a.Fronts {
		if o, ok := owner[a.Fronts[i].Part]; ok {
			b := of(o)
			b.Fronts = append(b.Fronts, &a.Fronts[i])
		}
	}
	for i := range a.Bays {
		b := of(a.Bays[i].Owner)
		b.Bays = append(b.Bays, &a.Bays[i])
	}
	for i := range a.Motions {
		b := of(a.Motions[i].Owner)
		b.Motions = append(b.Motions, &a.Motions[i])
	}
	for _, f := range a.Fixings {
		b := of(f.Owner)
		b.Fixings = append(b.Fixings, f)
	}
	for _, f := range a.Feet {
		b := of(f.Owner)
		b.Feet = append(b.Feet, f)
	}
	for _, h := range a.Hardware {
		b := of(h.Owner)
		b.Hardware = append(b.Hardware, h)
	}
	return w
}

// Of gives what is of an owner; nothing of one that is not there.
func (w Whose) Of(owner string) *Belongings {
	if b := w[owner]; b != nil {
		return b
	}
	return &Belongings{}
}
