package packet

import (
	"fmt"
	"strings"

	"stowright/internal/draw"
)

// goods sets what is stored and where each kind goes. Nothing for a part of the job.
func (b *book) goods() {
	if len(b.Goods) == 0 || b.OnlyOwner != "" || b.Stage != "" {
		return
	}
	f := b.chapter(0, "Where everything goes", "Goods", "goods", 65)
	t := draw.Table{Columns: []draw.Column{{Head: "Thing", Grow: true}, {Head: "One: width × depth × height"}, {Head: "How many", Align: draw.End}, {Head: "Where they find room", Grow: true}}}
	for _, g := range b.Goods {
		count := ""
		if g.Count > 0 {
			count = fmt.Sprint(g.Count)
		}
		t.Rows = append(t.Rows, draw.Row{Cells: []draw.Cell{{Text: g.Name}, {Text: g.Size}, {Text: count}, {Text: g.where()}}})
	}
	f.Para("They stand in rows from front to back, beside and behind each other, upright and not on each other but where it is said, first where they are in reach. It is one way that fits, and the proof counts what stands so on each board, or an even share of it on all that do as well, where that is heavier: what is moved takes the place of what is as heavy; what must be locked, apart or low is told with the findings.")
	f.Table(t)
}

// where says where a kind goes, case by case.
func (g Stored) where() string {
	var out []string
	for i := 0; i < len(g.Kept); {
		k, n := g.Kept[i], i
		var in []string
		for ; n < len(g.Kept) && g.Kept[n].Owner == k.Owner; n++ {
			in = append(in, strings.TrimSpace(fmt.Sprintf("%d %s", g.Kept[n].Count, g.Kept[n].Where))+g.Kept[n].how())
		}
		out = append(out, k.In+": "+strings.Join(in, ", "))
		i = n
	}
	switch {
	case g.Left > 0 && len(out) > 0 && g.Place != "":
		out = append(out, fmt.Sprintf("%d %s, as the job says", g.Left, kept(g.Place)))
	case g.Left > 0:
		out = append(out, fmt.Sprintf("%d find no room that is known", g.Left))
	case len(out) == 0 && g.Place != "":
		out = append(out, kept(g.Place)+": as the job says; room there is not known")
	case len(out) == 0:
		out = append(out, "nothing says where")
	}
	return strings.Join(out, "; ")
}

// how says how things are put down that neither stand upright nor beside each other alone.
func (k Kept) how() string {
	var list []string
	if k.Lies != "" {
		list = append(list, k.Lies)
	}
	if k.High > 1 {
		list = append(list, fmt.Sprintf("up to %d on each other", k.High))
	}
	if len(list) == 0 {
		return ""
	}
	return " (" + strings.Join(list, ", ") + ")"
}

// kept says in words where the job keeps something that no bay holds.
func kept(p string) string {
	switch p {
	case "open":
		return "in the open"
	case "bench", "floor":
		return "on the " + p
	case "bracket", "hook", "rail":
		return "on a " + p
	}
	return p
}
