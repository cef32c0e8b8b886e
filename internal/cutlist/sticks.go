package cutlist

import (
	"cmp"
	"slices"

	"stowright/internal/length"
	"stowright/internal/order"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// Stick is one length of solid lumber and what is crosscut from it, longest first.
type Stick struct {
	Stock  string
	Length L
	OnHand bool
	Over   bool // what an earlier stage has left of a stick; its end is square
	Pieces []StickPiece
	Left   L // what remains after the last kerf
}

// StickPiece is a part, or several of the same length side by side, ripped from one length; or a blank
// for parts too short to be ripped by themselves.
type StickPiece struct {
	Marks  []string
	At     L // from the stick's first end, the squaring cut included
	Len    L
	Rip    L       // ripped to this width, 0 for full width
	Strips []Strip // a blank is ripped into these first, and they are crosscut; nil where the piece is the part
}

// Strip is ripped from a blank and then crosscut into parts of one length.
type Strip struct {
	Rip, Each L
	Marks     []string
}

// LeastHeld: what is shorter is not pushed past a blade by hand, which has no place on it (common practice, no source).
const LeastHeld = 12 * length.Inch

// leastHold: a strip is not ripped off the last of a blank, which the push stick holds (common practice, no source).
const leastHold = 20 * length.MM

// shortPart is a part that must be ripped and is too short for it.
type shortPart struct {
	mark      string
	each, rip L
}

// blanks lays short parts out on blanks of a stick: as many of one width behind each other as make a
// blank long enough to be ripped, strips of several widths beside each other.
func blanks(short []shortPart, s stock.Stick, kerf L) []StickPiece {
	order.Stable(short, func(a, b shortPart) int { return cmp.Or(cmp.Compare(b.each, a.each), cmp.Compare(b.rip, a.rip)) })
	var out []StickPiece
	var room []L // of each blank, beside its strips
	for i := 0; i < len(short); {
		x := short[i]
		n := (LeastHeld + kerf).DivUp(int64(x.each + kerf)) // so many behind each other
		for n > 1 && L(n)*(x.each+kerf) > s.Length {
			n--
		}
		one := Strip{Rip: x.rip, Each: x.each}
		for ; i < len(short) && short[i].each == x.each && short[i].rip == x.rip && len(one.Marks) < int(n); i++ {
			one.Marks = append(one.Marks, short[i].mark)
		}
		long := L(n)*(x.each+kerf) - kerf
		at := -1
		for k := range out {
			if out[k].Len == long && room[k] >= x.rip+kerf+leastHold {
				at = k
				break
			}
		}
		if at < 0 {
			out, room = append(out, StickPiece{Len: long}), append(room, s.Width)
			at = len(out) - 1
		}
		room[at] -= x.rip + kerf
		out[at].Strips = append(out[at].Strips, one)
		out[at].Marks = append(out[at].Marks, one.Marks...)
	}
	return out
}

// Unfit is a part longer than the stick that it should come from, or wider or thicker than that is.
type Unfit struct {
	Mark, Stock string
	Over        L
	Across      bool // it is wider or thicker, not longer
}

// Sticks lays parts out on sticks: longest first, each into the stick where the least
// remains. Every stick loses one kerf for squaring its end, and one behind every piece but
// one that ends flush. Narrow parts share a length when they can be ripped side by side; short ones are
// ripped from a blank of a foot or more and then crosscut.
func Sticks(parts []part.Part, cat stock.Catalogue, pr stock.Practice) ([]Stick, []Unfit) {
	return sticks(parts, cat, pr, &rack{used: map[string]int{}, left: map[string][]L{}})
}

// rack is what stages that follow each other find: sticks used up of those on hand, and what is left of
// sticks, by stick.
type rack struct {
	used map[string]int
	left map[string][]L
}

func sticks(parts []part.Part, cat stock.Catalogue, pr stock.Practice, have *rack) ([]Stick, []Unfit) {
	kerf := BreakDown(pr).Kerf
	var out []Stick
	var unfit []Unfit
	for _, s := range cat.Sticks {
		var want []StickPiece
		var short []shortPart
		shared := map[[2]L]int{} // length and rip width -> entry that still has room beside it
		for _, p := range parts {
			if p.Material != part.Stick || p.Stock != s.ID {
				continue
			}
			c := p.Cut()
			wide, thin := max(c[1], c[2]), min(c[1], c[2])
			if over := max(wide-max(s.Width, s.Thickness), thin-min(s.Width, s.Thickness)); over > 0 {
				unfit = append(unfit, Unfit{p.Mark, s.ID, over, true})
				continue
			}
			if c[0]+kerf > s.Length && c[0] != s.Length {
				over := c[0] - s.Length
				if over < 0 {
					over += kerf // it is cut off, and the end squared
				}
				unfit = append(unfit, Unfit{p.Mark, s.ID, over, false})
				continue
			}
			w := wide
			if w == s.Thickness {
				w = thin // it stands on edge: its wider size is the stick's thickness
			}
			if w >= s.Width {
				want = append(want, StickPiece{Marks: []string{p.Mark}, Len: c[0]})
				continue
			}
			if c[0] < LeastHeld && LeastHeld < s.Length {
				short = append(short, shortPart{p.Mark, c[0], w})
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
		want = append(want, blanks(short, s, kerf)...)
		order.Stable(want, func(a, b StickPiece) int { return cmp.Compare(b.Len, a.Len) })
		first := len(out)
		for _, w := range want {
			best := -1
			for i := first; i < len(out); i++ {
				if out[i].Left >= w.Len && (best < 0 || out[i].Left < out[best].Left) {
					best = i
				}
			}
			old := -1
			for i, l := range have.left[s.ID] {
				if l >= w.Len && (best < 0 || l < out[best].Left) && (old < 0 || l < have.left[s.ID][old]) {
					old = i
				}
			}
			switch {
			case old >= 0:
				l := have.left[s.ID][old]
				have.left[s.ID] = slices.Delete(have.left[s.ID], old, old+1)
				out = append(out, Stick{Stock: s.ID, Length: l, OnHand: true, Over: true, Left: l})
				best = len(out) - 1
			case best < 0:
				n := Stick{Stock: s.ID, Length: s.Length, OnHand: have.used[s.ID] < s.OnHand, Left: s.Length}
				if n.OnHand {
					have.used[s.ID]++
				}
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
		for _, o := range out[first:] {
			shortFirst(o.Pieces, kerf)
			if o.Left > 0 {
				have.left[s.ID] = append(have.left[s.ID], o.Left)
			}
		}
	}
	return out, unfit
}

// shortFirst puts the pieces of a stick in the order in which they are cut: the short ones while the stick is long and
// the hand that holds it far from the blade.
func shortFirst(list []StickPiece, kerf L) {
	at := list[0].At
	order.Stable(list, func(a, b StickPiece) int { return cmp.Compare(a.Len, b.Len) })
	for i := range list {
		list[i].At = at
		at += list[i].Len + kerf
	}
}
