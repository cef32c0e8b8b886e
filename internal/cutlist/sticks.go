package cutlist

import (
	"cmp"
	"slices"

	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// Stick is one length of solid lumber and what is crosscut from it, longest first.
type Stick struct {
	Stock  string
	Length L
	OnHand bool
	Pieces []StickPiece
	Left   L // what remains after the last kerf
}

// StickPiece is a part, or several of the same length side by side, ripped from one length.
type StickPiece struct {
	Marks []string
	At    L // from the stick's first end, the squaring cut included
	Len   L
	Rip   L // ripped to this width, 0 for full width
}

// Unfit is a part longer than the stick that it should come from.
type Unfit struct {
	Mark, Stock string
	Over        L
}

// Sticks lays parts out on sticks: longest first, each into the stick where the least
// remains. Every stick loses one kerf for squaring its end, and one behind every piece but
// one that ends flush. Narrow parts share a length when they can be ripped side by side.
func Sticks(parts []part.Part, cat stock.Catalogue, pr stock.Practice) ([]Stick, []Unfit) {
	_, kerf := kerfs(pr)
	var out []Stick
	var unfit []Unfit
	for _, s := range cat.Sticks {
		var want []StickPiece
		shared := map[[2]L]int{} // length and rip width -> entry that still has room beside it
		for _, p := range parts {
			if p.Material != part.Stick || p.Stock != s.ID {
				continue
			}
			c := p.Cut()
			if c[0]+kerf > s.Length && c[0] != s.Length {
				unfit = append(unfit, Unfit{p.Mark, s.ID, c[0] - s.Length})
				continue
			}
			w := max(c[1], c[2])
			if w == s.Thickness {
				w = min(c[1], c[2]) // it stands on edge: its wider size is the stick's thickness
			}
			if w >= s.Width {
				want = append(want, StickPiece{Marks: []string{p.Mark}, Len: c[0]})
				continue
			}
			fit := int((s.Width + kerf) / (w + kerf))
			k := [2]L{c[0], w}
			if i, ok := shared[k]; ok && len(want[i].Marks) < fit {
				want[i].Marks = append(want[i].Marks, p.Mark)
				continue
			}
			shared[k] = len(want)
			want = append(want, StickPiece{Marks: []string{p.Mark}, Len: c[0], Rip: w})
		}
		slices.SortStableFunc(want, func(a, b StickPiece) int { return cmp.Compare(b.Len, a.Len) })
		first := len(out)
		for _, w := range want {
			best := -1
			for i := first; i < len(out); i++ {
				if out[i].Left >= w.Len && (best < 0 || out[i].Left < out[best].Left) {
					best = i
				}
			}
			if best < 0 {
				n := Stick{Stock: s.ID, Length: s.Length, OnHand: len(out)-first < s.OnHand, Left: s.Length}
				if w.Len < s.Length {
					n.Left -= kerf // the end is squared
				}
				out = append(out, n)
				best = len(out) - 1
			}
			o := &out[best]
			w.At = o.Length - o.Left
			o.Pieces = append(o.Pieces, w)
			o.Left = max(0, o.Left-w.Len-kerf)
		}
	}
	return out, unfit
}

// LeastSticks is a bound: no way of cutting takes fewer, by length alone.
func LeastSticks(sticks []Stick) map[string]int {
	total := map[string]L{}
	size := map[string]L{}
	for _, s := range sticks {
		size[s.Stock] = s.Length
		for _, p := range s.Pieces {
			total[s.Stock] += p.Len
		}
	}
	out := map[string]int{}
	for id, t := range total {
		out[id] = int((t + size[id] - 1) / max(size[id], length.Tick))
	}
	return out
}
