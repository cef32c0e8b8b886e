package bill

import (
	"stowright/internal/joinery"
	"stowright/internal/mass"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// Weight is what an owner weighs, empty.
type Weight struct {
	Owner string
	Mass  mass.Mass
	Whole bool // false when the mass of some part of it is not known
}

// weigh adds up what each owner weighs, hardware included.
func (c *counter) weigh() {
	sum := map[string]mass.Mass{}
	unknown := map[string]bool{}
	for _, p := range c.in.Assembly.Parts {
		m, ok := c.b.Parts[p.Mark]
		if !ok {
			unknown[p.Owner] = true
			continue
		}
		sum[p.Owner] += m
	}
	for _, h := range c.in.Assembly.Hardware {
		if i, ok := c.in.Catalogue.Item(h.ID); ok && i.Mass != nil {
			sum[h.Owner] += *i.Mass * mass.Mass(h.Count)
		}
	}
	for _, o := range c.in.Assembly.Owners {
		if !o.Standing {
			c.b.Weights = append(c.b.Weights, Weight{o.ID, sum[o.ID], !unknown[o.ID]})
		}
	}
}

// Masses gives the mass of every part of an assembly, by mark; one of unknown density is absent.
func Masses(a part.Assembly, cat stock.Catalogue) map[string]mass.Mass {
	list := map[string]mass.Mass{}
	for _, p := range a.Parts {
		if m, ok := joinery.Mass(p, cat); ok {
			list[p.Mark] = m
		}
	}
	return list
}
