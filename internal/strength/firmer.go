package strength

import (
	"fmt"
	"math"
	"slices"

	"stowright/internal/length"
	"stowright/internal/order"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// firmer are ways to hold a case better that its job can say, each worked out by the method that judges it: a
// longer or a stouter screw, rails in place of a cleat, one more rail, ledgers from stud to stud. How many
// screws each stud takes is settled already, as far as a rail has room for them.
func (s *Scene) firmer(o *part.Owner, h hang) []string {
	var words []string
	try := func(n hang, what string) bool {
		w, fact, _ := s.strained(n)
		if fact == "" && w.ratio <= 1 {
			words = append(words, fmt.Sprintf("%s (ratio %.2f)", what, w.ratio))
			return true
		}
		return false
	}
	if s.ledgerPart(o.ID) == nil {
		for _, item := range s.wallScrews(h) {
			if try(s.driven(h, item), fmt.Sprintf("%s, wall-screw: %s under practice:", item.Name, item.ID)) {
				break
			}
		}
		if h.cleat {
			try(s.twoRails(h), "hang it by an upper and a lower rail that share its weight, hangs-by: {kind: rail}")
		} else if len(h.low) > 0 && !slices.ContainsFunc(h.upper, func(f part.Fixing) bool { return f.Row == "middle" }) {
			try(railed(o, h), "one more rail, between the two, hangs-by: {middle-rail: yes}")
		}
	}
	if l := s.onLedgers(o); l != "" {
		words = append(words, l)
	}
	if w, fact, _ := s.strained(h); len(words) == 0 && fact == "" && w.ratio > 1 {
		words = s.lessIn(h, w.ratio)
	}
	return words
}

// lessIn is the remedy of less in a case that hangs, where a ratio goes by all that it weighs; nothing where it is too heavy
// empty.
func (s *Scene) lessIn(h hang, ratio float64) []string {
	less := (1 - 1/math.Max(ratio, 1.001)) * h.all.kg
	if less >= h.all.kg-h.own {
		return nil
	}
	return []string{fmt.Sprintf("put %s less into it (ratio 1.00)", s.kg(less))}
}

// railed is a case with as many screws again in a rail midway between its two.
func railed(o *part.Owner, h hang) hang {
	list := slices.Clone(h.upper)
	mid := func(list []part.Fixing) (z L) {
		for _, f := range list {
			z += f.At.Z / L(len(list))
		}
		return z
	}
	up := mid(h.upper)
	z := (o.Carcass.Min.Z + o.Carcass.Max.Z) / 2
	for _, f := range h.upper {
		f.Row = "middle"
		f.At.Z += z - up
		list = append(list, f)
	}
	h.upper = list
	return h
}

// twoRails is a case on a cleat as it would hang by rails at its top and its bottom.
func (s *Scene) twoRails(h hang) hang {
	h.cleat = false
	o := s.owners[h.upper[0].Owner]
	t := L(0)
	if p := s.parts[h.upper[0].Part]; p != nil {
		t = p.Size[2]
	}
	half := L(s.railHigh(h)*float64(length.MM)) / 2
	mid := func(list []part.Fixing) (z L) {
		for _, f := range list {
			z += f.At.Z / L(len(list))
		}
		return z
	}
	up, was := slices.Clone(h.upper), mid(h.upper)
	low := slices.Clone(h.upper)
	for i := range up {
		off := up[i].At.Z - was
		up[i].At.Z = o.Carcass.Max.Z - t - half + off
		low[i].At.Z, low[i].Row = o.Carcass.Min.Z+t+half+off, "lower"
		h.bear = math.Max(h.bear, mm(low[i].At.Z))
	}
	h.upper, h.low = up, low
	return h
}

// railHigh is the height of the rail that holds the upper screws.
func (s *Scene) railHigh(h hang) float64 {
	if p := s.parts[h.upper[0].Part]; p != nil {
		return mm(p.Box().Size().Z)
	}
	return 90
}

// wallScrews lists longer or stouter wall screws than those of a case, the shortest first.
func (s *Scene) wallScrews(h hang) []stock.Hardware {
	own, ok := s.Job.Catalogue.Item(h.upper[0].Screw)
	if !ok {
		return nil
	}
	var list []stock.Hardware
	for _, x := range s.Job.Catalogue.Hardware {
		if x.Kind == "screw" && x.Use == "wall" && x.Dia >= own.Dia && x.Length >= own.Length && (x.Dia > own.Dia || x.Length > own.Length) {
			list = append(list, x)
		}
	}
	order.Stable(list, func(a, b stock.Hardware) int { return int(a.Length - b.Length) })
	return list
}

// driven is a case with other screws.
func (s *Scene) driven(h hang, item stock.Hardware) hang {
	other := func(list []part.Fixing) []part.Fixing {
		out := slices.Clone(list)
		for i := range out {
			out[i].Into += item.Length - out[i].Length
			out[i].Screw, out[i].Length = item.ID, item.Length
		}
		return out
	}
	h.upper, h.low = other(h.upper), other(h.low)
	return h
}
