package strength

import (
	"fmt"
	"math"

	"stowright/internal/finding"
	"stowright/internal/part"
)

// HookLoad: a thing on a hook board is heavier than its hooks are rated for.
const HookLoad finding.Code = "hook-load"

func hooks() Rule {
	return Rule{Name: "hooks", Codes: []finding.Code{HookLoad},
		Doc:     "Each thing that the job hangs on a hook board hangs on one hook, or on as many as its hooks: says, and is within their rating. The heaviest for its hooks is told.",
		Source:  "the rating of the hook, as the list gives it",
		Example: "A saw of 6 kg on a hook rated at 2.3 kg.",
		Run:     checkHooks}
}

func checkHooks(s *Scene) finding.List {
	var f finding.List
	unknown := blank{code: HookLoad, source: "the rating of the hook"}
	for i := range s.All.Owners {
		o := &s.All.Owners[i]
		if o.Kind != "hutch" || o.Standing {
			continue
		}
		hook := ""
		for _, h := range s.of(o.ID).Hardware {
			if h.Kind == "hook" && h.For == part.HangsOnBoard {
				hook = h.ID
			}
		}
		item, _ := s.Job.Catalogue.Item(hook)
		var worst finding.Finding
		for _, w := range s.where {
			if w.bay == nil || w.owner != o.ID || w.bay.Kind != "hook-board" {
				continue
			}
			at := s.at(o.ID, "") + "/" + w.goods.ID
			switch {
			case w.goods.Each == nil:
				unknown.add("the weight of "+called(w.goods), "Give weighs: to those goods.", called(w.goods), at)
				continue
			case item.Rating == nil:
				unknown.add("the rating of a hook for "+o.Name, "Give a hook of kind: hook with a rating: under hardware:.", called(w.goods), at)
				continue
			}
			n := max(w.goods.Hooks, 1)
			kg, may := w.goods.Each.Kilograms(), item.Rating.Kilograms()
			x := finding.Finding{Code: HookLoad, At: at, Demand: kg / float64(n), Capacity: may, Unit: "kg", Source: "rating of " + item.Name + ": " + item.Source}
			if worst.Code != "" && worst.Ratio() >= x.Ratio() {
				continue
			}
			worst = verdict(x, finding.Warning)
			worst.Text = fmt.Sprintf("%s on %s weigh %s each and hang on %s; one is rated at %s.", called(w.goods), o.Name, s.kg(kg), many(n, "hook"), s.kg(may))
			worst.Working = []string{fmt.Sprintf("%s / %d = %s against %s. Ratio %.2f.", s.kg(kg), n, s.kg(kg/float64(n)), s.kg(may), worst.Ratio())}
			if worst.Verdict == finding.Fails {
				if need := int(math.Ceil(kg/may - 1e-9)); need <= 20 {
					worst.Hint = fmt.Sprintf("Hang each on %d, hooks: %d under goods: (ratio %.2f).", need, need, kg/float64(need)/may)
				}
			}
		}
		if worst.Code != "" {
			f.Add(worst)
		}
	}
	f.Add(unknown.findings("Whether its hooks carry it", finding.Note)...)
	return f
}

// onTheWall notes goods that are to hang on a wall by something that the job does not make.
func (s *Scene) onTheWall(unknown *blank) {
	for i := range s.Job.Goods {
		g := &s.Job.Goods[i]
		if g.Place != "bracket" && g.Place != "rail" && g.Place != "hook" {
			continue
		}
		n := max(g.Count, 1)
		if all := s.spots(g); len(all) > 0 { // it is for what finds no room elsewhere
			n = int(s.left(g, all))
		}
		if n <= 0 {
			continue
		}
		what := called(g)
		if g.Each != nil {
			what += fmt.Sprintf(" (%s)", s.kg(g.Each.Kilograms()*float64(n)))
		}
		unknown.add("how a "+g.Place+" that the job does not make is fastened", "Fasten it to studs, or in masonry by anchors, by the rating that its maker gives for that; or list them under a case, a counter or a hook board.", what, "goods/"+g.ID)
	}
}
