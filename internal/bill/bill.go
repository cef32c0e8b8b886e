// Package bill counts what a job takes: sheets, sticks, edging, hardware, glue and finish, in
// the packs they are sold in, less what is on hand; what it costs, what it weighs, and about
// how long it takes. A price that is not known is named, never counted as nothing.
package bill

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"stowright/internal/cutlist"
	"stowright/internal/cutting"
	"stowright/internal/length"
	"stowright/internal/mass"
	"stowright/internal/money"
	"stowright/internal/order"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// L is a length.
type L = length.Length

// Line is one thing to buy or to take from what is on hand.
type Line struct {
	Item    string
	Kind    string // "sheet", "stick", "edging", "hardware kind", "glue", "finish"
	Name    string
	Need    string        // what the job takes, spares included: "46", "31.2 m", "12.5 m2"
	OnHand  int           // in Units, taken from the shop
	Damaged int           // of those, sheets with a bad place
	Had     string        // what is taken of those, where they are used by measure: "27 ft"; "" where Units are counted
	Buy     int           // Units to buy
	Unit    string        // "sheet", "stick", "roll of 50 ft", "pack of 50", "piece", "pair", "can of 112 ft2"; "as needed" when the size of a pack is not known
	Over    string        // left of the last pack, "" for nothing
	Price   *money.Amount // of one Unit, nil when not known
	Stage   string        // stage that first needs it, "" where there are no stages
	Least   int           // sheets: no plan can buy fewer, all stages together; 0 when not said
	For     []string
}

// Cost gives price times what is bought, and false when the price is not known.
func (l Line) Cost() (money.Amount, bool) {
	if l.Buy == 0 {
		return 0, true
	}
	if l.Price == nil {
		return 0, false
	}
	return *l.Price * money.Amount(l.Buy), true
}

// Bill is everything counted.
type Bill struct {
	Currency string
	Lines    []Line
	Total    money.Amount         // of the lines whose price is known
	Missing  []string             // items that are bought and have no price, sorted
	Asked    []string             // their names, each length of what is sold in lengths by itself, sorted: as the shopping list has them
	Unsized  []string             // items needed in several lengths of which some are on hand, of a length that is not known: none is counted
	Stages   []StageCost          // in the order of the job's stages
	Parts    map[string]mass.Mass // by mark; a part of unknown density is absent
	Weights  []Weight             // owners in the assembly's order
	Hours    []Hours
	Finish   length.Area // area finished, both faces of every board, one coat
	EdgeRun  map[string]L
}

// StageCost is what one stage costs.
type StageCost struct {
	Stage   string
	Cost    money.Amount
	Missing int
}

// Input is what there is to count.
type Input struct {
	Assembly  part.Assembly
	Plan      cutting.Plan
	Marks     [][]string // marks of the plan's pieces, by sheet
	Sticks    []cutlist.Stick
	Catalogue stock.Catalogue
	Practice  stock.Practice
	Stages    []string
	Currency  string
	Supplies  []part.Item // what the work uses up beside the assembly's hardware
}

// Count makes the bill.
func Count(in Input) Bill {
	c := tally(in)
	c.total()
	return c.b
}

// Stage gives the bill of one stage of a bill of the whole: the lines that the whole lists under it, and the
// weights, hours and areas of what in holds, which is built in it. The stages' bills add up to the whole.
func (b Bill) Stage(stage string, in Input) Bill {
	c := tally(in)
	c.b.Lines = nil
	for _, l := range b.Lines {
		if l.Stage == stage {
			c.b.Lines = append(c.b.Lines, l)
		}
	}
	c.total()
	c.b.Stages = slices.DeleteFunc(c.b.Stages, func(s StageCost) bool { return s.Stage != stage })
	return c.b
}

// tally counts everything but the money.
func tally(in Input) *counter {
	c := &counter{in: in, stage: map[string]string{}, b: Bill{Currency: in.Currency, Parts: Masses(in.Assembly, in.Catalogue), EdgeRun: map[string]L{}}}
	for _, o := range in.Assembly.Owners {
		c.stage[o.ID] = o.Stage
	}
	c.owner = map[string]string{}
	for _, p := range in.Assembly.Parts {
		c.owner[p.Mark] = p.Owner
	}
	c.sheets()
	c.sticks()
	c.edging()
	c.hardware()
	c.glueAndFinish()
	c.weigh()
	c.hours()
	return c
}

type counter struct {
	in    Input
	b     Bill
	stage map[string]string // owner -> stage
	owner map[string]string // mark -> owner
}

// earliest gives the first of the job's stages among those named.
func (c *counter) earliest(stages []string) string {
	for _, s := range c.in.Stages {
		if slices.Contains(stages, s) {
			return s
		}
	}
	return ""
}

// oneKey says of locks that all have one key, and are bought for several stages, how those of the later ones get it.
func (c *counter) oneKey(stage string, all []string) string {
	first := c.earliest(all)
	switch {
	case !slices.ContainsFunc(all, func(s string) bool { return s != first }):
		return ""
	case stage == first:
		return "; note the number of their key: later stages buy theirs by it"
	}
	return "; of the key whose number was noted in stage " + first
}

func (c *counter) stagesOf(marks []string) []string {
	var out []string
	for _, m := range marks {
		out = append(out, c.stage[c.owner[m]])
	}
	return out
}

func (c *counter) sheets() {
	type key struct {
		board, stage string
		onHand       bool
	}
	n, bad := map[key]int{}, map[key]int{}
	var keys []key
	for i, s := range c.in.Plan.Sheets {
		k := key{cutlist.Board(s.Stock), c.earliest(c.stagesOf(c.in.Marks[i])), s.OnHand}
		if s.OnHand && s.Stock != k.board+"/on-hand" && !strings.Contains(s.Stock, "/spoilt") {
			continue // offcuts are listed with the cutting plan
		}
		if n[k] == 0 {
			keys = append(keys, k)
		}
		n[k]++
		if len(s.Damage) > 0 {
			bad[k]++
		}
	}
	least := map[string]int{}
	for _, b := range c.in.Plan.Bounds.Stocks {
		least[b.ID] = b.Least
	}
	for _, k := range keys {
		b, _ := c.in.Catalogue.Board(k.board)
		l := Line{Item: k.board, Kind: "sheet", Name: name(b.Name, k.board), Unit: "sheet", Stage: k.stage, Need: fmt.Sprint(n[k])}
		if k.onHand {
			l.OnHand, l.Damaged = n[k], bad[k]
		} else {
			l.Buy, l.Price, l.Least = n[k], b.Price, least[k.board]
		}
		c.b.Lines = append(c.b.Lines, l)
	}
}

func (c *counter) sticks() {
	type key struct {
		id, stage string
		onHand    bool
	}
	n := map[key]int{}
	var keys []key
	for _, s := range c.in.Sticks {
		if s.Over {
			continue // paid for by the stage that left it
		}
		var marks []string
		for _, p := range s.Pieces {
			marks = append(marks, p.Marks...)
		}
		k := key{s.Stock, c.earliest(c.stagesOf(marks)), s.OnHand}
		if n[k] == 0 {
			keys = append(keys, k)
		}
		n[k]++
	}
	for _, k := range keys {
		s, _ := c.in.Catalogue.Stick(k.id)
		l := Line{Item: k.id, Kind: "stick", Name: name(s.Name, k.id), Unit: "stick", Stage: k.stage, Need: fmt.Sprint(n[k])}
		if k.onHand {
			l.OnHand = n[k]
		} else {
			l.Buy, l.Price = n[k], s.Price
		}
		c.b.Lines = append(c.b.Lines, l)
	}
}

// edging: 1 in over for every piece and 10 % in all; common practice, no source.
func (c *counter) edging() {
	need := map[string]map[string]int64{}
	var ids []string
	for _, p := range c.in.Assembly.Parts {
		for i, b := range p.Bands {
			if b.Edging == "" {
				continue
			}
			l := p.Size[0]
			if i < 2 {
				l = p.Size[1]
			}
			if need[b.Edging] == nil {
				need[b.Edging] = map[string]int64{}
				ids = append(ids, b.Edging)
			}
			need[b.Edging][c.stage[p.Owner]] += int64(l + length.Inch)
			c.b.EdgeRun[b.Edging] += l + length.Inch
		}
	}
	for _, id := range ids {
		for stage := range need[id] {
			need[id][stage] = need[id][stage] * 11 / 10
		}
		e, _ := c.in.Catalogue.Edging(id)
		c.supply(Line{Item: id, Kind: "edging", Name: name(e.Name, id), Unit: "roll", Price: e.Price}, int64(e.Roll), 0, need[id], c.long, c.longStep())
	}
}

// supply buys what is used by measure and sold by the pack, stage by stage: what is left of one
// stage's last pack serves the next. Where the size of a pack is not known the line says what is
// needed, and has no price. What is told is what is needed to the nearest step, and what is left follows from that, so that the figures add up
// as they are read.
func (c *counter) supply(l Line, pack int64, onHand int, need map[string]int64, words func(int64) string, step float64) {
	left := pack * int64(onHand)
	nearest := func(v int64) int64 { // as it is read
		s := step
		if s == areaFoot && float64(v) < 10*s {
			s /= 10
		}
		if r := int64(math.Round(math.Round(float64(v)/s) * s)); r > 0 {
			return r
		}
		return v
	}
	told := nearest(pack) * int64(onHand)
	for _, stage := range append([]string{""}, c.in.Stages...) {
		want := need[stage]
		if want <= 0 {
			continue
		}
		l := l
		l.Stage, l.Need = stage, words(nearest(want))
		if pack > 0 {
			l.Unit += " of " + words(pack)
		}
		if pack <= 0 {
			l.Unit, l.Buy, l.Price = "as needed", 1, nil
			c.b.Lines = append(c.b.Lines, l)
			continue
		}
		had := min(left, want)
		read := nearest(want)
		if l.OnHand = int((had + pack - 1) / pack); had > 0 {
			l.Had = words(min(told, read))
		}
		short := want - had
		if told >= read && float64(short) < step { // what is left does, as it is read
			short = 0
		}
		told -= read
		left -= had
		if short > 0 {
			l.Buy = int((short + pack - 1) / pack)
			left += int64(l.Buy)*pack - short
			told += int64(l.Buy) * nearest(pack)
		}
		if told = max(told, 0); left > 0 && told > 0 {
			l.Over = words(told)
		}
		c.b.Lines = append(c.b.Lines, l)
	}
}

// unit is the unit that the shop measures in.
func (c *counter) unit() length.Unit {
	if c.in.Practice.Unit == "in" {
		return length.Inches
	}
	return length.Millimetres
}

// long gives a length of what comes on a roll, as the shop buys it.
func (c *counter) long(l int64) string {
	if c.in.Practice.Unit == "in" {
		return fmt.Sprintf("%.0f ft", float64(l)/float64(length.Foot))
	}
	return fmt.Sprintf("%.1f m", float64(l)/float64(1000*length.MM))
}

// areaFoot is a square foot in mm².
const areaFoot = 304.8 * 304.8

// longStep is the step of lengths as they are told, a foot or 0.1 m; areaStep that of areas, a square foot or 0.1 m², in mm².
func (c *counter) longStep() float64 {
	if c.in.Practice.Unit == "in" {
		return float64(length.Foot)
	}
	return float64(100 * length.MM)
}

func (c *counter) areaStep() float64 {
	if c.in.Practice.Unit == "in" {
		return areaFoot
	}
	return 1e5
}

// area gives an area of glue or finish in mm², as the shop buys it.
func (c *counter) area(a int64) string {
	v, unit := float64(a)/1e6, "m2"
	if c.in.Practice.Unit == "in" {
		v, unit = float64(a)/(304.8*304.8), "ft2"
	}
	switch { // never nothing of what is needed
	case v < 0.1:
		return "under 0.1 " + unit
	case v < 10 || unit == "m2":
		return fmt.Sprintf("%.1f %s", v, unit)
	}
	return strings.TrimSuffix(fmt.Sprintf("%.1f", v), ".0") + " " + unit
}

func (c *counter) hardware() {
	type key struct {
		id    string
		size  L
		stage string
	}
	n := map[key]int{}
	uses, kinds := map[key][]string{}, map[string]string{}
	stagesOf := map[string][]string{}
	var keys []key
	tape := map[string]map[string]int64{}
	var tapes []string
	for _, h := range slices.Concat(c.in.Assembly.Hardware, c.in.Supplies) {
		if h.Kind == "tape" {
			if tape[h.ID] == nil {
				tape[h.ID] = map[string]int64{}
				tapes = append(tapes, h.ID)
			}
			tape[h.ID][cmp.Or(h.Stage, c.stage[h.Owner])] += int64(h.Count) * int64(h.Length)
			continue
		}
		k := key{h.ID, c.in.Catalogue.Size(h.ID, h.Kind, h.Length), cmp.Or(h.Stage, c.stage[h.Owner])}
		if n[k] == 0 {
			keys = append(keys, k)
		}
		n[k] += h.Count
		stagesOf[k.id] = append(stagesOf[k.id], k.stage)
		if kinds[k.id] = "other"; h.Kind == "bit" {
			kinds[k.id] = h.Kind
		}
		if h.For != "" && !slices.Contains(uses[k], h.For) {
			uses[k] = append(uses[k], h.For)
		}
	}
	order.Stable(keys, func(a, b key) int {
		return cmp.Or(cmp.Compare(a.id, b.id), cmp.Compare(a.size, b.size), cmp.Compare(slices.Index(c.in.Stages, a.stage), slices.Index(c.in.Stages, b.stage)))
	})
	// How long those are that are on hand is not known where several lengths are needed: none is counted.
	sizes := map[string]map[L]bool{}
	for _, k := range keys {
		if sizes[k.id] == nil {
			sizes[k.id] = map[L]bool{}
		}
		sizes[k.id][k.size] = true
		if h, _ := c.in.Catalogue.Item(k.id); h.OnHand > 0 && len(sizes[k.id]) > 1 && !slices.Contains(c.b.Unsized, k.id) {
			c.b.Unsized = append(c.b.Unsized, k.id)
		}
	}
	// What is on hand, and what is over of a pack, goes to the next stage.
	spare := map[string]int{}
	seen := map[string]bool{}
	for _, k := range keys {
		h, ok := c.in.Catalogue.Item(k.id)
		id := k.id
		if k.size > 0 {
			id += " " + k.size.Exact(length.Millimetres)
		}
		if !seen[id] {
			seen[id] = true
			if spare[id] = h.OnHand; slices.Contains(c.b.Unsized, k.id) {
				spare[id] = 0
			}
		}
		need := n[k]
		if ok && (h.Kind == "screw" || h.Kind == "pin" || h.Kind == "dowel") {
			need += (need*c.in.Practice.Spares + 99) / 100
		}
		l := Line{Item: k.id, Kind: h.Kind, Name: name(h.Name, k.id), Price: h.Price, Stage: k.stage, Need: fmt.Sprint(need), For: uses[k]}
		if k.size > 0 {
			l.Name += h.Sized(k.size, c.unit())
		}
		if h.Alike {
			l.Name += c.oneKey(k.stage, stagesOf[k.id])
		}
		if l.Kind = h.Kind; !ok {
			l.Kind = kinds[k.id]
		}
		pack := max(1, h.Pack)
		l.Unit = "piece"
		if h.Kind == "slide" {
			l.Unit = "pair"
		}
		if pack > 1 {
			l.Unit = fmt.Sprintf("pack of %d", pack)
		}
		l.OnHand = min(need, spare[id])
		spare[id] -= l.OnHand
		if left := need - l.OnHand; left > 0 {
			l.Buy = max((left+pack-1)/pack, h.Least)
			over := l.Buy*pack - left
			spare[id] += over
			if over > 0 {
				l.Over = fmt.Sprint(over)
			}
		}
		c.b.Lines = append(c.b.Lines, l)
	}
	for _, id := range tapes {
		h, _ := c.in.Catalogue.Item(id)
		_, roll := covers(h.Coverage)
		c.supply(Line{Item: id, Kind: "tape", Name: name(h.Name, id), Unit: "roll", Price: h.Price}, roll, h.OnHand, tape[id], c.long, c.longStep())
	}
}

// glueAndFinish: glue by the area of the joints, finish by the area of both faces of every part
// and the coats that the practice states; how far a pack goes is in the catalogue.
func (c *counter) glueAndFinish() {
	glue, finish := map[string]int64{}, map[string]int64{}
	square := func(a length.Area) int64 { return int64(math.Round(a.SquareMetres() * 1e6)) }
	for _, j := range c.in.Assembly.Joints {
		if j.Glue {
			glue[c.stage[c.owner[j.A]]] += square(contact(j.Contact))
		}
	}
	pr := c.in.Practice
	for _, p := range c.in.Assembly.Parts {
		if p.Material == part.Bought {
			continue
		}
		a, coats := p.Size[0].Times(p.Size[1]).Scale(2), pr.Coats
		if p.Role == part.CounterLayer || p.Role == part.CounterEdge {
			coats = pr.CoatsTop
		}
		c.b.Finish = c.b.Finish.Add(a)
		finish[c.stage[p.Owner]] += square(a) * int64(coats)
	}
	add := func(id, kind, unit string, need map[string]int64) {
		if id == "" {
			return
		}
		h, _ := c.in.Catalogue.Item(id)
		pack, _ := covers(h.Coverage)
		c.supply(Line{Item: id, Kind: kind, Name: name(h.Name, id), Unit: unit, Price: h.Price}, pack, h.OnHand, need, c.area, c.areaStep())
	}
	add(pr.GlueStock, "glue", "bottle", glue)
	add(pr.Finish, "finish", "can", finish)
}

// covers reads how far one pack goes: an area in mm² ("112 ft2", "10 m2") or a length in ticks
// ("50 ft", "20 m"); zeros for what it cannot read.
func covers(s string) (area, long int64) {
	words := strings.Fields(s)
	if len(words) != 2 {
		return 0, 0
	}
	n, err := strconv.ParseFloat(words[0], 64)
	if err != nil || !(n > 0 && n <= 1e6) {
		return 0, 0
	}
	switch words[1] {
	case "m2":
		area = int64(math.Round(n * 1e6))
	case "ft2":
		area = int64(math.Round(n * (304.8 * 304.8)))
	case "m":
		long = int64(math.Round(n * float64(1000*length.MM)))
	case "ft":
		long = int64(math.Round(n * float64(length.Foot)))
	}
	return area, long
}

func contact(b part.Box) length.Area {
	s := b.Size()
	d := []L{s.X, s.Y, s.Z}
	order.Up(d)
	return d[2].Times(d[1])
}

func (c *counter) total() {
	by := map[string]*StageCost{}
	for _, s := range c.in.Stages {
		c.b.Stages = append(c.b.Stages, StageCost{Stage: s})
	}
	for i := range c.b.Stages {
		by[c.b.Stages[i].Stage] = &c.b.Stages[i]
	}
	for _, l := range c.b.Lines {
		cost, ok := l.Cost()
		if !ok && !slices.Contains(c.b.Missing, l.Item) {
			c.b.Missing = append(c.b.Missing, l.Item)
		}
		if !ok && !slices.Contains(c.b.Asked, l.Name) {
			c.b.Asked = append(c.b.Asked, l.Name)
		}
		c.b.Total += cost
		if s := by[l.Stage]; s != nil {
			s.Cost += cost
			if !ok {
				s.Missing++
			}
		}
	}
	order.Up(c.b.Missing)
	order.Up(c.b.Asked)
}

func name(s, id string) string { return cmp.Or(s, id) }
