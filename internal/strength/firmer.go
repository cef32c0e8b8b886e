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

// firmer are ways to hold a case better, each worked out by the method that judges it: more
// screws in each stud, a longer or a stouter screw, one more upper rail, a ledger; several of them
// together where none alone is enough.
func (s *Scene) firmer(h hang) []string {
	var words []string
	try := func(n hang, what string) bool {
		w, fact, _ := s.strained(n)
		if fact == "" && w.ratio <= 1 {
			words = append(words, fmt.Sprintf("%s (ratio %.2f)", what, w.ratio))
			return true
		}
		return false
	}
	now := len(h.upper) / len(single(h.upper))
	each := func(n hang, what string) bool {
		for k := now + 1; k <= mostScrews; k++ {
			pitch := s.pitch(n.upper[0].Screw)
			if try(doubled(n, k, pitch), fmt.Sprintf("%s%d screws in each stud where there is %s, %s apart", what, k, few(now), pitch.In(s.Job.Print))) {
				return true
			}
		}
		return false
	}
	each(h, "")
	for _, item := range s.wallScrews(h) {
		if try(s.driven(h, item), item.Name) {
			break
		}
	}
	high := s.railHigh(h)
	if !h.cleat {
		n := railed(h, high)
		_ = try(n, "a second upper rail with as many screws, right below the first") || each(n, "a second upper rail right below the first, and ")
		s.ledger(h, now, &words)
	}
	if h.cleat {
		n := s.twoRails(h)
		_ = try(n, "hang it by an upper and a lower rail that share its weight, hangs-by: {kind: rail}") || each(n, "hang it by an upper and a lower rail that share its weight, hangs-by: {kind: rail}, and ")
	}
	for _, item := range s.wallScrews(h) {
		if len(words) > 0 {
			break
		}
		n := s.driven(h, item)
		_ = each(n, item.Name+", and ") || !h.cleat && each(railed(n, high), item.Name+", a second upper rail right below the first, and ")
	}
	if len(words) == 0 {
		words = append(words, "put less into it, or let it stand on the floor: no screw that is listed holds it")
	}
	return words
}

// doubled is a case with k screws in each stud, in all its rows, about the middle of the rail.
func doubled(h hang, k int, pitch L) hang {
	more := func(list []part.Fixing) []part.Fixing {
		var out []part.Fixing
		for _, f := range list {
			if slices.ContainsFunc(out, func(x part.Fixing) bool { return x.Part == f.Part && x.Row == f.Row && x.At.X == f.At.X }) {
				continue // the next of this stud's screws
			}
			mid, n := L(0), L(0)
			for _, x := range list {
				if x.Part == f.Part && x.Row == f.Row && x.At.X == f.At.X {
					mid, n = mid+x.At.Z, n+1
				}
			}
			for i := range k {
				g := f
				g.At.Z = mid/n + pitch*L(k-1)/2 - pitch*L(i)
				out = append(out, g)
			}
		}
		return out
	}
	h.upper, h.low = more(h.upper), more(h.low)
	return h
}

// railed is a case with its upper screws repeated in a rail below.
func railed(h hang, high float64) hang {
	list := slices.Clone(h.upper)
	for _, f := range h.upper {
		f.Row += ", second"
		f.At.Z -= L(high * float64(length.MM))
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

// ledger is a board under the case, of the rail's thickness, screwed to each stud; it takes all of
// the weight, and the upper screws hold the case back.
func (s *Scene) ledger(h hang, now int, words *[]string) {
	for k := now; k <= mostScrews; k++ {
		n := doubled(h, k, s.pitch(h.upper[0].Screw))
		n.ledger = true
		back, fact, _ := s.strained(n)
		if fact != "" || back.ratio > 1 || back.grip.z <= 0 {
			continue
		}
		one := single(h.upper)
		studs := len(one)
		for m := 1; m <= 6; m++ {
			down := make([]float64, studs)
			for _, l := range h.loads {
				for i, share := range shares(one, l.x) {
					down[i] += newtons(l.kg) * math.Max(share, 0)
				}
			}
			own := slices.Max(down) / float64(m) / back.grip.z
			if own > 1 {
				continue
			}
			also := ""
			if k > now {
				also = fmt.Sprintf(", and %d screws in each stud above", k)
			}
			*words = append(*words, fmt.Sprintf("a ledger under it with %s in each stud, that takes its weight%s (ratio %.2f)", many(m, "such screw"), also, math.Max(own, back.ratio)))
			return
		}
	}
}
