package strength_test

import (
	"cmp"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	yaml "go.yaml.in/yaml/v4"

	"stowright/internal/finding"
	"stowright/internal/strength"
)

const lengthIn = `([\d./ ]+? (?:mm|in))`
const weightIn = `([\d.]+ (?:kg|lb))`

func everyRemedy(t0 *testing.T) []done {
	return []done{
		{`^put ` + weightIn + ` less into it$`, less, 0.4},
		{`^put ` + weightIn + ` less on it$`, func(d doc, _ finding.Finding, e map[string]any, m []string) bool {
			return eachLoad(d, e, func(kg float64) float64 { return max(kg-1.002*massOf(m[1]), 0) })
		}, 0.3},
		{`^put ` + weightIn + ` less into what stands on it$`, func(d doc, f finding.Finding, _ map[string]any, m []string) bool {
			all := 0.0
			for _, c := range in(d, "cases") {
				all += total(c.(map[string]any))
			}
			for _, c := range in(d, "cases") {
				eachLoad(d, c.(map[string]any), func(kg float64) float64 { return kg * (1 - 1.002*massOf(m[1])/all) })
			}
			return all > massOf(m[1])
		}, 0.03},
		{`^(?:keep|put|hang) no more than ` + weightIn + ` (?:in|on) it$`, func(d doc, f finding.Finding, e map[string]any, m []string) bool {
			if f.Code == strength.RackScrews || strings.Contains(f.Text, "of the rack") {
				return racked(d, f, e, m)
			}
			return keep(d, f, e, m)
		}, 0.03},
		{`^put no more than ` + weightIn + ` in its racks$`, racked, 0.3},
		{`^keep no more than ` + weightIn + ` in all that opens$`, func(d doc, _ finding.Finding, e map[string]any, m []string) bool {
			all := 0.0
			bays(e["inside"].(map[string]any), func(b map[string]any) {
				if v, ok := b["load"].(string); ok && (b["drawers"] != nil || b["trays"] != nil) {
					all += massOf(v)
				}
			})
			bays(e["inside"].(map[string]any), func(b map[string]any) {
				if v, ok := b["load"].(string); ok && (b["drawers"] != nil || b["trays"] != nil) {
					b["load"] = fmt.Sprintf("%.3f kg", massOf(v)*massOf(m[1])/all)
				}
			})
			return all > 0
		}, 0.01},
		{`wall-screw: (\S+) under practice:$`, practice("wall-screw"), 0.6},
		{`back-screws: under practice:$`, nil, 0},
		{`^make it of \S+, .* thick, box-bottom: and box-bottom-heavy: under practice:$`, func(d doc, f finding.Finding, e map[string]any, m []string) bool {
			id := strings.TrimSuffix(strings.Fields(m[0])[3], ",")
			in(d, "practice")["box-bottom"], in(d, "practice")["box-bottom-heavy"] = id, id
			return true
		}, 0.05},
		{`^set the groove ` + lengthIn + ` above the lower edge, box-groove-up: under practice:$`, practice("box-groove-up"), 0.02},
		{`box-bottom-how: (under) under practice:$`, func(d doc, _ finding.Finding, _ map[string]any, m []string) bool {
			in(d, "practice")["box-bottom-how"] = m[1]
			return true
		}, 9},
		{`^use two drawers side by side`, halves, 0.4},
		{`^where their maker rates them in full .* rated-to: of (\S+) under hardware:$`, func(d doc, _ finding.Finding, e map[string]any, m []string) bool {
			in(d, "hardware", m[1])["rated-to"] = "2000 mm"
			return true
		}, 0.01},
		{`^make it no wider than .*, width: ` + lengthIn + ` less$`, by("width", -1), 0.05},
		{`^make its span .*, width: ` + lengthIn + ` less$`, by("width", -1), 0.05},
		{`^make its case narrower, width: ` + lengthIn + ` less$`, by("width", -1), 0.1},
		{`^make its span .*, length: ` + lengthIn + ` less$`, by("length", -1), 0.05},
		{`^make the case ` + lengthIn + ` deeper, depth:, for slides`, by("depth", 1), 0.02},
		{`^make it larger, depth: ` + lengthIn + `$`, entry("depth"), 0.1},
		{`^make it larger, length: ` + lengthIn + `$`, entry("free", "length"), 0.1},
		{`^take .*, slide: (\S+)$`, fitted([]string{"drawers", "trays"}, func(s map[string]any, m []string) { s["slide"] = m[1] }), 0.05},
		{`^take .*, foot: (\S+) under stands-on:$`, entry("stands-on", "foot"), 0.05},
		{`^take .*, foot: (\S+) under practice:$`, practice("foot"), 0.05},
		{`^take .*, feet: (\S+) under free:$`, entry("free", "feet"), 0.05},
		{`^put it on \d+ feet, pairs: (\d+) under stands-on:$`, entry("stands-on", "pairs"), 0.05},
		{`^put a pair of feet under its middle, pairs: (3) under stands-on:$`, entry("stands-on", "pairs"), 0.05},
		{`^put its rungs closer, rungs: ` + lengthIn + ` under bases:$`, entry("rungs"), 0.7},
		{`^make the base of .*, stock: (\S+) under bases:$`, entry("stock"), 0.02},
		{`^fasten it to the sides, shelves: \{fixed: yes\}$`, fitted([]string{"shelves"}, func(s map[string]any, _ []string) { s["fixed"] = true }), 9},
		{`^glue a strip of (.*) ` + lengthIn + ` by ` + lengthIn + ` under its front edge, such a stick under sticks:, strip: under practice: and strip: yes under shelves:$`, func(d doc, f finding.Finding, e map[string]any, m []string) bool {
			in(d, "sticks", "tall")["species"] = map[string]string{"white ash": "white-ash", "yellow-poplar": "yellow-poplar"}[m[1]]
			s := in(d, "sticks", "tall")
			s["thickness"], s["width"], s["length"] = m[2], m[3], "2440 mm"
			in(d, "practice")["strip"] = "tall"
			return fitted([]string{"shelves"}, func(s map[string]any, _ []string) { s["strip"] = true })(d, f, e, m)
		}, 0.02},
		{`^lay its grain along the span, grain: along-length of (\S+) under boards:$`, func(d doc, _ finding.Finding, _ map[string]any, m []string) bool {
			in(d, "boards", m[1])["grain"] = "along-length"
			return true
		}, 0.01},
		{`^make it of (\S+), .* thick, board: under shelves:$`, fitted([]string{"shelves"}, func(s map[string]any, m []string) { s["board"] = m[1] }), 0.02},
		{`^make it of (\S+), .* thick, board: under trays:$`, fitted([]string{"trays"}, func(s map[string]any, m []string) { s["board"] = m[1] }), 0.05},
		{`^make it of (\S+), .* thick, board: of the case$`, entry("board"), 0.05},
		{`^make it of (\S+), .* thick, board: of the rack$`, func(d doc, f finding.Finding, e map[string]any, m []string) bool {
			return eachRack(e, func(r map[string]any) {
				for k, v := range r {
					if x, ok := v.(map[string]any); ok && strings.HasSuffix(k, "rack") || k == "box-holder" {
						x, _ = v.(map[string]any)
						if x == nil {
							x = map[string]any{}
							r[k] = x
						}
						x["board"] = m[1]
					}
				}
			})
		}, 0.1},
		{`^make it of (\S+), .* thick, layers:$`, layersOf(func(list []any, m []string) []any { return []any{map[string]any{"board": m[1]}} }), 0.05},
		{`^glue (two|three|four) boards of (\S+) together, .*, layers:$`, layersOf(func(_ []any, m []string) (list []any) {
			for range map[string]int{"two": 2, "three": 3, "four": 4}[m[1]] {
				list = append(list, map[string]any{"board": m[2]})
			}
			return list
		}), 0.05},
		{`^glue two boards together, ` + lengthIn + `, as a board of its own under boards:$`, func(d doc, f finding.Finding, e map[string]any, m []string) bool {
			c := read(t0, "job", d.text(t0))
			a := strings.Split(f.At, "/")
			twice := map[string]any{}
			for _, p := range input(c).All.Parts {
				if p.Mark == a[2] {
					b, _ := c.Catalogue.Board(p.Stock)
					twice = map[string]any{"material": b.Material, "called": "36 mm", "measures": millimetres(2 * mmOf(b.Thickness)), "length": "2440 mm", "width": "1220 mm", "grain": cmp.Or(b.Grain, "along-length")}
				}
			}
			in(d, "boards")["twice"] = twice
			return fitted([]string{"shelves"}, func(s map[string]any, _ []string) { s["board"] = "twice" })(d, f, e, m)
		}, 0.05},
		{`^glue (\d) more layers? of (\S+) under (?:it|its top), layers:$`, func(d doc, f finding.Finding, e map[string]any, m []string) bool {
			n, _ := strconv.Atoi(m[1])
			return layersOf(func(list []any, m []string) []any {
				for range n {
					list = append(list, map[string]any{"board": m[2]})
				}
				return list
			})(d, f, e, m)
		}, 0.2},
		{`^make it without joints, all layers of (\S+), layers:$`, layersOf(func(list []any, m []string) []any {
			for i := range list {
				list[i] = map[string]any{"board": m[1]}
			}
			return list
		}), 0.05},
		{`^carry it there by rails in front and behind, .* rails: \{(stick|height): ([^}]*)\}$`, func(_ doc, _ finding.Finding, e map[string]any, m []string) bool {
			e["rails"] = map[string]any{m[1]: m[2]}
			return true
		}, 0.1},
		{`^stand a case under the middle of that way, in the order: of the run$`, func(d doc, _ finding.Finding, _ map[string]any, _ []string) bool {
			for _, r := range in(d, "runs") {
				run := r.(map[string]any)
				var order []any
				done := false
				for _, x := range run["order"].([]any) {
					m := x.(map[string]any)
					if m["space"] == nil || done {
						order = append(order, x)
						continue
					}
					var first map[string]any
					for _, y := range run["order"].([]any) {
						if id, ok := y.(map[string]any)["case"].(string); ok {
							first = in(d, "cases")[id].(map[string]any)
							break
						}
					}
					more := map[string]any{}
					b, _ := yaml.Marshal(first)
					_ = yaml.Unmarshal(b, &more)
					in(d, "cases")["between"] = more
					half := millimetres((size(d, m["space"]) - size(d, first["width"])) / 2)
					order = append(order, map[string]any{"space": half}, map[string]any{"case": "between"}, map[string]any{"space": half})
					done = true
				}
				run["order"] = order
				return done
			}
			return false
		}, 0.5},
		{`^put a partition in the middle, and a shelf on each side of it, across: of the bay$`, func(d doc, f finding.Finding, e map[string]any, m []string) bool {
			if !halves(d, f, e, m) {
				return false
			}
			return true
		}, 0.1},
		{`^put a partition under its middle, across: of the bay(?: below)?$`, nil, 0},
		{`^make it two leaves, count: 2(?:, half of its racks on each, left: and right:)?$`, twoLeaves, 0.6},
		{`^use two leaves, count: 2$`, twoLeaves, 0.05},
		{`^split the bay by a partition, a pair of doors before each half, across:$`, func(d doc, f finding.Finding, e map[string]any, m []string) bool {
			bay := e["inside"].(map[string]any)
			if doors, ok := bay["doors"].(map[string]any); ok {
				doors["count"] = 2
				delete(doors, "hinge")
			}
			return halves(d, f, e, m)
		}, 0.2},
		{`^make it of (\S+), board: under doors:$`, func(_ doc, _ finding.Finding, e map[string]any, m []string) bool {
			n := 0
			bays(e["inside"].(map[string]any), func(b map[string]any) {
				if doors, ok := b["doors"].(map[string]any); ok {
					doors["board"] = m[1]
					n++
				}
			})
			return n > 0
		}, 0.1},
		{`^leave its racks away, for they alone bring it to `, func(_ doc, _ finding.Finding, e map[string]any, _ []string) bool {
			bays(e["inside"].(map[string]any), func(b map[string]any) {
				if doors, ok := b["doors"].(map[string]any); ok {
					delete(doors, "left")
					delete(doors, "right")
				}
			})
			return true
		}, 0.1},
		{`hangs-by: (\{[^}]*\})(?:, and make it ` + lengthIn + ` deeper, for they stand behind it)?$`, func(d doc, _ finding.Finding, e map[string]any, m []string) bool {
			h := map[string]any{}
			if err := yaml.Unmarshal([]byte(m[1]), &h); err != nil {
				return false
			}
			if w, ok := h["width"]; ok && w == "…" {
				re := regexp.MustCompile(`make the rail ` + lengthIn + ` high`).FindStringSubmatch(m[0])
				h["width"] = re[1]
			}
			old := in(e, "hangs-by")
			for k, v := range h {
				old[k] = v
			}
			if m[2] != "" {
				e["depth"] = millimetres(size(d, e["depth"]) + size(d, m[2]))
			}
			return true
		}, 0.3},
		{`^move (?:it|the case) ` + lengthIn + ` to the (?:right|left), (at|from): ` + lengthIn + `$`, func(_ doc, _ finding.Finding, e map[string]any, m []string) bool {
			e[m[2]] = m[3]
			return true
		}, 0.5},
		{`^move it to the (?:right|left), (at): ` + lengthIn + `, so that its last screws`, func(_ doc, _ finding.Finding, e map[string]any, m []string) bool {
			e[m[1]] = m[2]
			return true
		}, 0.1},
		{`^fix its top to the wall.*, without free:$`, func(_ doc, _ finding.Finding, e map[string]any, _ []string) bool {
			delete(e, "free")
			return true
		}, 0.6},
		{`^hold ` + weightIn + ` (?:more )?of ballast down in its rear half(?:, as ballast: of a bay)?$`, ballasted, 0.05},
		{`^fit a bar that lets out one drawer at a time, one-at-a-time: yes$`, oneOut, 0.05},
		{`^fit a bar that lets out one drawer at a time, one-at-a-time: yes, and hold ` + weightIn + ` (?:more )?of ballast down in its rear half(?:, as ballast: of a bay)?$`, func(d doc, f finding.Finding, e map[string]any, m []string) bool {
			return oneOut(d, f, e, m) && ballasted(d, f, e, m)
		}, 0.05},
		{`^screw it on all round at every ` + lengthIn + `, back-screws: under practice:$`, practice("back-screws"), 0.02},
		{`^drive \d+ × .* joint: (wood-screw)$`, entry("joint"), 0.5},
		{`^hold its legs to the floor by steel angles, floor: (\S+) under free:, it and floor-angle with rating: ` + weightIn + ` or more$`, func(d doc, _ finding.Finding, e map[string]any, m []string) bool {
			in(e, "free")["floor"] = m[1]
			for _, id := range []string{m[1], "floor-angle"} {
				in(d, "hardware", id)["rating"] = m[2]
			}
			return true
		}, 0.1},
		{`^brace it with feet on the counter, brace: ` + lengthIn + `$`, entry("brace"), 0.3},
		{`^make it no higher than ` + lengthIn + `, height:$`, entry("height"), 0.3},
		{`^let it stand out no more than ` + lengthIn + `, (over-front|over-left|over-right):$`, func(d doc, f finding.Finding, e map[string]any, m []string) bool {
			for _, k := range []string{"over-front", "over-left", "over-right"} {
				if e[k] != nil && size(d, e[k]) > size(d, m[1]) {
					e[k] = m[1]
				}
			}
			return true
		}, 0.3},
		{`^take anchors whose maker gives them a shear of ` + weightIn + ` and a tension of ` + weightIn + ` or more, anchor: of the wall$`, func(d doc, _ finding.Finding, _ map[string]any, m []string) bool {
			for _, w := range in(d, "walls") {
				a := in(w.(map[string]any), "anchor")
				a["shear"], a["tension"] = m[1], m[2]
			}
			return true
		}, 0.02},
		{`^hang each on (\d+), hooks: \d+ under goods:$`, func(d doc, f finding.Finding, _ map[string]any, m []string) bool {
			id := f.At[strings.LastIndex(f.At, "/")+1:]
			in(d, "goods", id)["hooks"] = value(m[1])
			return true
		}, 0.01},
	}
}

func racked(_ doc, _ finding.Finding, e map[string]any, m []string) bool {
	return eachRack(e, func(r map[string]any) {
		r["load"] = fmt.Sprintf("%.3f kg", massOf(m[1])*0.9999)
		delete(r, "goods")
	})
}

func eachRack(e map[string]any, f func(map[string]any)) bool {
	n := 0
	if e == nil || e["inside"] == nil {
		return false
	}
	bays(e["inside"].(map[string]any), func(b map[string]any) {
		if doors, ok := b["doors"].(map[string]any); ok {
			for _, side := range []string{"left", "right"} {
				if list, ok := doors[side].([]any); ok {
					for _, r := range list {
						f(r.(map[string]any))
						n++
					}
				}
			}
		}
	})
	return n == 1 // with several the words are of one of them
}

func layersOf(f func([]any, []string) []any) func(doc, finding.Finding, map[string]any, []string) bool {
	return func(_ doc, _ finding.Finding, e map[string]any, m []string) bool {
		list, ok := e["layers"].([]any)
		if !ok {
			return false
		}
		e["layers"] = f(list, m)
		return true
	}
}

func twoLeaves(_ doc, _ finding.Finding, e map[string]any, _ []string) bool {
	n := 0
	bays(e["inside"].(map[string]any), func(b map[string]any) {
		doors, ok := b["doors"].(map[string]any)
		if !ok {
			return
		}
		n++
		doors["count"] = 2
		delete(doors, "hinge")
		list, ok := doors["left"].([]any)
		if !ok {
			return
		}
		var other []any
		for _, r := range list {
			copy := map[string]any{}
			y, _ := yaml.Marshal(r)
			_ = yaml.Unmarshal(y, &copy)
			for _, x := range []map[string]any{r.(map[string]any), copy} {
				if v, ok := x["load"].(string); ok {
					x["load"] = fmt.Sprintf("%.3f kg", massOf(v)/2)
				}
			}
			other = append(other, copy)
		}
		doors["right"] = other
	})
	return n > 0
}

func oneOut(d doc, f finding.Finding, e map[string]any, m []string) bool {
	return fitted([]string{"drawers"}, func(s map[string]any, _ []string) { s["one-at-a-time"] = true })(d, f, e, m)
}

func ballasted(_ doc, _ finding.Finding, e map[string]any, m []string) bool {
	n := 0
	bays(e["inside"].(map[string]any), func(b map[string]any) {
		_, open := b["open"]
		if _, shelves := b["shelves"]; n == 0 && (open || shelves) {
			had := 0.0
			if v, ok := b["ballast"].(string); ok {
				had = massOf(v)
			}
			b["ballast"] = fmt.Sprintf("%.3f kg", had+massOf(m[1]))
			n++
		}
	})
	return n > 0 // a case of drawers alone has no bay for it
}
