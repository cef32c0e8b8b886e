package shop

import (
	"cmp"
	"slices"
	"strings"

	"stowright/internal/length"
	"stowright/internal/order"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// asked are words of steps and the tool that they ask for beside those that the step is done with.
var asked = [...][2]string{{"rite its mark", "pencil"}, {"ark the ", "pencil"}, {"mark where", "pencil"}, {"mark its", "pencil"}, {"aw off what", "hand saw"}, {"plane the ", "block plane"},
	{"hold a square", "square"}, {"ountersink for", "countersink"}, {"iagonals", "tape"},
	{"y a dowel guide", "dowel guide"}, {"dowel centre points", "dowel centre points"},
	{"ush stick", "push stick"}, {"with a chisel", "chisel"}, {"ush blocks", "push blocks"}, {"featherboard", "featherboard"}, {"ouble-sided tape", "double-sided tape"}, {"thin rod", "thin rod"}, {"blankets", "blankets"}, {"the file", "file"}, {"ile the burr", "file"}, {"twist bit for steel", "twist bit for steel"}, {"low the dust out", "blow-out pump"},
	{"ye and ear protection", "eye and ear protection"}, {"dust mask", "dust mask"}}

// scraps are words of steps and what they take from the scrap for it.
var scraps = [...][2]string{{" card", "card or veneer"}, {"washers", "washers or slips of board"}, {"straight offcut", "a straight offcut for a batten"}, {"a scrap", "offcuts of every board, to try settings in"}}

// Scraps lists what steps take from the scrap, each once.
func Scraps(list []Step) (out []string) {
	for _, x := range scraps {
		if slices.ContainsFunc(list, func(s Step) bool { return strings.Contains(s.Whole(), x[0]) }) {
			out = append(out, x[1])
		}
	}
	return out
}

// supplied are tools of steps that are used up, and on the shopping list.
var supplied = [...]string{"sandpaper", "masking tape", "double-sided tape"}

// Tools lists what the steps and the workings of the parts are done with, each once: machines as the
// practice has them, then hand tools in the order of their first use, then bits and hole saws by size.
func Tools(list []Step, parts []part.Part, p stock.Practice) []string {
	var used []string
	far := map[string]length.Length{}
	add := func(t string) {
		if t = strings.TrimSpace(t); t != "" && t != "hand" && !slices.Contains(supplied[:], t) && !slices.Contains(used, t) {
			used = append(used, t)
		}
	}
	name := func(t stock.Tool) string { return cmp.Or(t.Name, t.ID, t.Kind) }
	for _, s := range list {
		for _, t := range strings.Split(s.Tool, ", ") {
			add(t)
		}
		for _, x := range s.Far {
			far[x.Tool] = max(far[x.Tool], x.Long)
		}
		whole := s.Whole() + " " + s.Caution
		for _, x := range asked {
			if strings.Contains(whole, x[0]) {
				add(x[1])
			}
		}
		if s.Phase == Bore && strings.HasSuffix(s.Tool, " bit") && strings.Contains(s.Text, " deep, ") {
			add("depth stops for the bits")
		}
	}
	for _, q := range parts {
		for _, o := range q.Ops {
			t := o.Tool
			if i := slices.IndexFunc(p.Tools, func(x stock.Tool) bool { return x.ID == t }); i >= 0 {
				t = name(p.Tools[i])
			}
			add(t)
			if strings.HasPrefix(t, "long ") {
				far[t] = max(far[t], o.Depth)
			}
			if o.For == "dowel" {
				for _, x := range p.Tools {
					if x.Kind == "dowel-jig" {
						add(name(x))
					}
				}
			}
			switch o.Kind {
			case part.Pocket:
				add(pocketBit)
				far[pocketBit] = chuckFrom
			case part.Bevel:
				if ledByHand(p, o.Tool) {
					add("double-sided tape")
				}
			case part.Notch:
				add("hand saw")
			}
		}
	}
	round := func(t string) bool {
		return strings.HasSuffix(t, " bit") && t[0] >= '0' && t[0] <= '9' || strings.HasSuffix(t, " hole saw")
	}
	if slices.ContainsFunc(used, round) {
		drill := "drill"
		for _, t := range p.Tools {
			if t.Kind == "drill" {
				drill = name(t)
			}
		}
		add(drill)
		for _, t := range p.Tools {
			if t.Kind == "drill-press" {
				add(name(t))
			}
		}
	}
	if both := "hammer drill with the anchors' bit"; slices.Contains(used, both) { // told once
		used = slices.DeleteFunc(used, func(t string) bool { return t == "the anchors' bit" || t == "hammer drill" })
	}
	var out, bits []string
	for _, t := range p.Tools {
		if slices.Contains(used, name(t)) {
			out = append(out, name(t))
		}
	}
	for _, t := range used {
		if round(t) {
			bits = append(bits, t)
		} else if !slices.Contains(out, t) {
			out = append(out, t)
		}
	}
	size := func(t string) length.Length {
		f := strings.Fields(strings.TrimSuffix(strings.TrimSuffix(strings.TrimSuffix(t, " bit"), " flat"), " hole saw"))
		l, _ := length.Parse(strings.Join(f, " "), length.Millimetres)
		return l
	}
	order.Stable(bits, func(a, b string) int { return cmp.Compare(size(a), size(b)) })
	out = append(out, bits...)
	for i, t := range out {
		if far[t] > 0 {
			out[i] = reaching(t, far[t], p)
		}
	}
	return out
}

// reaching says with a tool how far it must reach.
func reaching(tool string, far length.Length, p stock.Practice) string {
	unit, step := length.Millimetres, 5*length.MM
	if p.InInches() {
		unit, step = length.Inches, length.Inch/4
	}
	long := far.Up(step).In(unit)
	switch {
	case tool == bitHolder:
		return strings.Replace(tool, " or ", " ("+long+") or ", 1)
	case tool == longBit:
		return tool + " (" + long + " past what is beside it)"
	case strings.HasSuffix(tool, " bit"):
		return tool + " (" + long + " deep)"
	}
	return tool + " (" + long + ")"
}

// bits names the bits that a screw's holes are bored with on the spot.
func (s *steps) bits(screws ...string) string {
	js := s.joiner()
	t := ""
	for _, id := range screws {
		h, ok := s.Catalogue.Item(id)
		if !ok || h.Kind != "screw" {
			continue
		}
		clear, _, _ := js.Pilot(cmp.Or(h.Clearance, h.Dia, 9*length.MM/2))
		pilot, _, _ := js.Pilot(cmp.Or(h.Pilot, h.Root, 3*length.MM))
		for _, b := range []string{clear, pilot} {
			if !strings.Contains(t+",", ", "+b+",") {
				t += ", " + b
			}
		}
	}
	return t
}
