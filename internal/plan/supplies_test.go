package plan_test

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"stowright/internal/bill"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/plan/plantest"
	"stowright/internal/shop"
)

// Whatever a step uses up is bought, and every bit that it bores with is owned, bought or named among the tools with
// what is special about it.
func TestWhatStepsUseUpIsBought(t *testing.T) {
	seen := map[string]int{}
	for _, name := range plantest.Examples() {
		r := plantest.Result(t, name)
		bought := func(id string) bool {
			return slices.ContainsFunc(r.Bill.Lines, func(l bill.Line) bool { return l.Item == id })
		}
		tools := shop.Tools(r.Steps, r.Assembly.Parts, r.Job.Practice)
		for _, s := range r.Steps {
			whole := strings.ToLower(s.Whole() + " " + s.Tool)
			for word, ids := range map[string][]string{"120 to 180 grit": {"sandpaper-120", "sandpaper-180"}, "sandpaper": {"sandpaper-120", "sandpaper-180"}, "masking tape": {"masking-tape"}, "double-sided tape": {"double-sided-tape"},
				"what its maker names, clamped": {"edging-adhesive"}, "another length: these are on the shopping list": {"handle-screw-m4", "handle-screw-8-32"}} {
				if !strings.Contains(whole, word) {
					continue
				}
				seen[word]++
				one := false // of the screws, the shop's own
				for _, id := range ids {
					one = one || bought(id)
					if !bought(id) && !strings.HasPrefix(id, "handle") {
						t.Errorf("%s, step %d uses up %s, which nobody buys: %s", name, s.N, id, s.Whole())
					}
				}
				if !one {
					t.Errorf("%s, step %d uses up %q, which nobody buys", name, s.N, ids)
				}
			}
			for word, tool := range map[string]string{"dust mask": "dust mask", "eye and ear protection": "eye and ear"} {
				if strings.Contains(whole+" "+strings.ToLower(s.Caution), word) && !slices.ContainsFunc(tools, func(x string) bool { return strings.Contains(x, tool) }) {
					t.Errorf("%s, step %d asks for %s, which is not among the tools", name, s.N, tool)
				}
			}
		}
		scraps := strings.Join(shop.Scraps(r.Steps), ", ")
		for _, s := range r.Steps {
			for word, what := range map[string]string{" card": "card or veneer", "washers": "washers", "straight offcut": "straight offcut"} {
				if strings.Contains(s.Whole(), word) && !strings.Contains(scraps, what) {
					t.Errorf("%s, step %d takes %s, which is not told to come from the scrap", name, s.N, what)
				}
			}
		}
		js := joinery.Shop{Practice: r.Job.Practice, Catalogue: r.Job.Catalogue}
		owned := map[string]bool{}
		for _, b := range slices.Concat(r.Job.Practice.Bits, r.Job.Practice.HoleSaws) {
			x, _ := js.Bit(b)
			owned[x] = true
		}
		for _, x := range tools {
			if (strings.HasSuffix(x, " bit") || strings.HasSuffix(x, " hole saw")) && x[0] >= '0' && x[0] <= '9' && !strings.HasSuffix(x, " flat bit") {
				seen["bits"]++
				if !owned[x] {
					seen["bits that are not owned"]++
				}
				if !owned[x] && !bought(x) {
					t.Errorf("%s: %s is neither owned nor bought", name, x)
				}
			}
		}
		for _, l := range r.Bill.Lines {
			if owned[l.Item] {
				t.Errorf("%s: %s is owned, and bought", name, l.Item)
			}
		}
	}
	if testing.Short() {
		return
	}
	for _, x := range []string{"sandpaper", "masking tape", "double-sided tape", "what its maker names, clamped", "another length: these are on the shopping list", "bits", "bits that are not owned"} {
		if seen[x] == 0 {
			t.Errorf("no step of an example asks for %q: nothing was looked at", x)
		}
	}
}

// Every bit longer than usual is among the tools with how far it reaches, and that is as far as any hole or step asks.
func TestToolsTellTheirReach(t *testing.T) {
	looked := 0
	for _, name := range plantest.Examples() {
		r := plantest.Result(t, name)
		tools := shop.Tools(r.Steps, r.Assembly.Parts, r.Job.Practice)
		told := func(tool string) (far length.Length) {
			tool, _, _ = strings.Cut(tool, " or ")
			for _, x := range tools {
				rest, ok := strings.CutPrefix(x, tool)
				if !ok || rest != "" && rest[0] != ' ' || strings.HasPrefix(rest, " for") {
					continue // another tool
				}
				for i := range rest {
					if rest[i] >= '0' && rest[i] <= '9' {
						w := strings.Fields(strings.Replace(rest[i:], ")", " ", 1))
						for k := len(w); k > 0 && far == 0; k-- {
							far, _ = length.Parse(strings.Join(w[:k], " "), length.Millimetres)
						}
						return far
					}
				}
			}
			return 0
		}
		need := map[string]length.Length{}
		for _, p := range r.Assembly.Parts {
			for _, o := range p.Ops {
				if strings.HasPrefix(o.Tool, "long ") {
					need[o.Tool] = max(need[o.Tool], o.Depth)
				}
				if o.Kind == part.Pocket {
					need["long driver bit for pockets"] = 100 * length.MM
				}
			}
		}
		for _, s := range r.Steps {
			for _, x := range strings.Split(s.Tool, ", ") {
				if strings.HasPrefix(x, "long ") {
					need[x] = max(need[x], length.MM)
				}
			}
			// "on behind with a long 1/8 in bit, 3 in deep"
			for _, x := range strings.Split(s.Whole(), "long ")[1:] {
				bit, rest, ok := strings.Cut(x, " bit, ")
				deep, _, ok2 := strings.Cut(rest, " deep")
				if l, err := length.Parse(deep, length.Millimetres); ok && ok2 && err == nil && len(bit) < 10 {
					need["long "+bit+" bit"] = max(need["long "+bit+" bit"], l)
				}
			}
			if strings.Contains(s.Tool, "long driver bit") && !strings.Contains(s.Whole(), "long driver bit") {
				t.Errorf("%s, step %d wants a long driver bit and does not say so: %s", name, s.N, s.Whole())
			}
		}
		for tool, far := range need {
			looked++
			if got := told(tool); got < far {
				t.Errorf("%s: %s must reach %s, and the tools tell %s: %q", name, tool, far.In(length.Millimetres), got.In(length.Millimetres), tools)
			}
		}
	}
	if looked < 5 && !testing.Short() {
		t.Errorf("only %d long bits were looked at", looked)
	}
}

// A price is asked for as often as the shopping list has a name without one.
func TestPricesAskedAreCountedByName(t *testing.T) {
	more := 0
	for _, name := range plantest.Examples() {
		r := plantest.Result(t, name)
		names := map[string]bool{}
		for _, l := range r.Bill.Lines {
			if l.Buy > 0 && l.Price == nil {
				names[l.Name] = true
			}
		}
		if len(names) != len(r.Bill.Asked) {
			t.Errorf("%s: %d names without a price, %d told", name, len(names), len(r.Bill.Asked))
		}
		more += len(r.Bill.Asked) - len(r.Bill.Missing)
		if f := r.Findings.With("price-missing"); len(f) != 1 || !strings.Contains(f[0].Text, strconv.Itoa(len(names))+" thing") {
			t.Errorf("%s: %s", name, fmt.Sprint(f))
		}
	}
	if more == 0 && !testing.Short() {
		t.Error("no example asks for one thing in two lengths: nothing was looked at")
	}
}
