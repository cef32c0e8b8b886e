// Package shop puts the work in order: sawing, boring, assembling each case, finishing and
// installing, as steps that one person can follow, with the usual cautions where they matter.
// Steps are derived from the parts, the joints and the cutting plan; nothing here is typed in
// for a particular case.
package shop

import (
	"cmp"
	"slices"
	"strings"

	"stowright/internal/bill"
	"stowright/internal/cutlist"
	"stowright/internal/cutting"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/mass"
	"stowright/internal/order"
	"stowright/internal/part"
	"stowright/internal/stock"
)

// Phase is where in the work a step belongs.
type Phase string

// Phases, in order.
const (
	Prove    Phase = "before the first cut"
	Saw      Phase = "sawing"
	Bore     Phase = "boring and grooving"
	Ready    Phase = "making ready" // of one owner, as all that follow but the last
	Assemble Phase = "assembling"
	Finish   Phase = "finishing"
	FitOut   Phase = "fitting out"
	Install  Phase = "installing"
)

// Bench reports whether the steps of a phase are about one owner at the bench.
func (p Phase) Bench() bool { return p == Ready || p == Assemble || p == Finish || p == FitOut }

// Step is one step of the work.
type Step struct {
	N       int
	Phase   Phase
	Owner   string   // "" for all
	Also    []string // owners that are put together by the same step, as their own would read alike
	Head    string   // what the step is about, said before it where that is not plain; "" for none
	Text    string
	Parts   []string // marks of what is handled
	New     []string // marks of what comes in with this step; each board of an owner comes in once
	Fits    []Fit    // hardware that goes in with this step
	Points  []string // lines of their own: places, settings
	Tool    string
	Caution string
	Hidden  []Hidden // screws of this step that no driver reaches
	Far     []Far    // which of its tools must reach how far
}

// Far is how far a tool must reach, of all steps: a bit how deep it bores, one for screws how far past what stands beside.
type Far struct {
	Tool string
	Long length.Length
}

// Hidden is a joint whose screws no driver reaches by the time it is made, for a board is in the way.
type Hidden struct {
	A, B string // marks of its boards
	By   string // mark of what is in the way
}

// Fit is hardware that a step takes.
type Fit struct {
	ID    string
	Count int
	Size  length.Length // of what is bought in sizes: slides, rails; 0 for none
}

// Whole is the step in one run of text, its points included.
func (s Step) Whole() string {
	t := s.Text
	if s.Head != "" {
		t = s.Head + ": " + lower(t)
	}
	for _, p := range s.Points {
		t += " " + p + ";"
	}
	return strings.TrimSuffix(t, ";")
}

// Input is what the steps are derived from.
type Input struct {
	Assembly  part.Assembly
	Plan      cutting.Plan
	Marks     [][]string
	Sticks    []cutlist.Stick
	Masses    map[string]mass.Mass // of boards, by mark
	Catalogue stock.Catalogue
	Practice  stock.Practice
	Weights   []bill.Weight
	Print     length.Unit
	Stages    []string // ids, in the order they are built
	Walls     []Wall
	CutAway   []string // what is in the way at the wall and may be cut away, from where to where, a sentence each
}

// Wall is what steps need to know of one.
type Wall struct {
	ID     string
	Length length.Length
	Face   func(x, z length.Length) length.Length // y of its face at a place
	Out    length.Length                          // how far out its floor was measured, 0 for at the wall alone
	Guess  func(out length.Length) bool           // whether the floor so far out is only drawn on from there
}

// Steps gives all steps in order, numbered from 1.
func Steps(in Input) []Step {
	s := steps{Input: in, parts: map[string]part.Part{}, local: map[[2]string]string{}, reach: map[string]length.Length{}, left: map[string][]part.Item{}, around: part.About(in.Assembly.Parts), whose: in.Assembly.Whose(), joints: map[string][]part.Joint{}, loose: map[string]bool{}}
	for _, p := range in.Assembly.Parts {
		s.parts[p.Mark] = p
		if k := [2]string{p.Owner, p.Local}; s.local[k] == "" {
			s.local[k] = p.Mark
		}
	}
	for _, j := range in.Assembly.Joints {
		a, b := s.parts[j.A].Owner, s.parts[j.B].Owner
		s.joints[a] = append(s.joints[a], j)
		if a != b {
			s.joints[b] = append(s.joints[b], j)
		}
	}
	for _, h := range in.Assembly.Hardware {
		s.left[h.Owner] = append(s.left[h.Owner], h)
	}
	s.prove()
	s.saw()
	s.sticks()
	s.edge()
	s.bore()
	first := Alike(&s.Assembly)
	var told []telling
	for _, k := range []string{"case", "counter", "base", "hutch", "filler", "panel"} {
		for _, o := range s.owners(k) {
			if first[o.ID] != o.ID {
				continue
			}
			var twins []part.Owner
			for _, t := range s.owners(k) {
				if first[t.ID] == o.ID && t.ID != o.ID {
					twins = append(twins, t)
				}
			}
			from := len(s.list)
			s.assemble(o, twins)
			told = s.tellOnce(told, from, append([]part.Owner{o}, twins...))
		}
	}
	s.install()
	s.once()
	for i := range s.list {
		s.list[i].N = i + 1
		for _, t := range strings.Split(s.list[i].Tool, ", ") {
			if long := s.reach[t]; long > 0 {
				s.list[i].Far = append(s.list[i].Far, Far{t, long})
			}
		}
	}
	s.refer()
	return s.list
}

type steps struct {
	Input
	parts    map[string]part.Part
	local    map[[2]string]string    // marks, by owner and local name
	whose    part.Whose              // what is of each owner
	joints   map[string][]part.Joint // at the parts of each owner
	around   part.Around
	left     map[string][]part.Item   // hardware of each owner that no step has taken yet
	reach    map[string]length.Length // how far tools must reach
	list     []Step
	rules    []rule          // sentences that more than one step may say
	now      string          // the stage that is installed
	batten   bool            // one is up, on which wall cases rest
	battened []Fit           // the screws of that batten
	loose    map[string]bool // cases whose first screws are not tight yet
}

// far remembers that a tool must reach so far, and gives the tool.
func (s *steps) far(tool string, long length.Length) string {
	s.reach[tool] = max(s.reach[tool], long)
	return tool
}

// bored names the bit for a hole so deep, and remembers how far a long one must reach.
func (s *steps) bored(name string, dia, depth length.Length) string {
	bit := joinery.LongBit(name, dia, depth)
	if bit != name {
		s.far(bit, depth)
	}
	return bit
}

func (s *steps) add(st Step) { s.list = append(s.list, st) }

func (s *steps) in(l length.Length) string { return l.In(s.Print) }

func (s *steps) owners(kind string) []part.Owner {
	var out []part.Owner
	for _, o := range s.Assembly.Owners {
		if o.Kind == kind && !o.Standing {
			out = append(out, o)
		}
	}
	if len(s.Stages) > 0 {
		order.Stable(out, func(a, b part.Owner) int {
			return cmp.Compare(slices.Index(s.Stages, a.Stage), slices.Index(s.Stages, b.Stage))
		})
	}
	return out
}

// joiner is the shop that the steps are made in: its bits and screws.
func (s *steps) joiner() joinery.Shop {
	return joinery.Shop{Practice: s.Practice, Catalogue: s.Catalogue}
}

// The usual cautions; common practice, no source.
const (
	eyes      = "Wear eye and ear protection; collect the dust at its source or wear a mask."
	tableSaw  = "Riving knife and guard on. Push stick where the hand would come within a hand's length of the blade. Stand out of the line of the cut. Unplug to change the blade."
	handSaw   = "Clamp the straightedge, support both halves so that the cut cannot close, good face down, and keep the cord clear."
	heavy     = "Too heavy for one person: two people, or break it down first with a hand-held saw."
	rags      = "Oily rags heat by themselves: dry them flat and single outdoors, or keep them in a lidded metal can."
	wall      = "Look for wires and pipes before driving long screws, above and below outlets most of all. Switch the circuit off where in doubt; leave electrical work to the licensed."
	tips      = "A case with open drawers tips: fix it to the wall before it is loaded, and open one drawer at a time."
	topples   = "A case can be pulled over: fix it to the wall before it is loaded, and let nobody climb it."
	loose     = "What is not fixed tips when it is leaned on or climbed: heavy things low, and nobody on it."
	floorCare = "Look for pipes, wires and heating in the floor before boring into it. Bore tiles without hammering, and wear eye and ear protection."
	leaned    = "Board and bench go over together when somebody leans on the board, where nothing holds the bench: hang nothing on it and lean on it nowhere before the proof says that both stand (tip over)."
	thinEdge  = "Hold a thin edge between two blocks with a clamp while screws go into it, or it splits."
	leadCare  = "Lead is a poison: gloves on, neither saw nor file nor melt it, and wash the hands before you eat or smoke."
	rolls     = "What rolls tips when drawers stand open: brakes on, open one drawer at a time."
)

// tipping is the caution for what may go over, as it is made and held.
func (s *steps) tipping(o part.Owner) string {
	slides := slices.ContainsFunc(s.whose.Of(o.ID).Motions, func(m *part.Motion) bool { return m.Kind == part.Slide })
	switch {
	case o.Moves && slides:
		return rolls
	case o.Moves:
		return loose
	}
	text := topples
	if slides {
		text = tips
	}
	all := s.Assembly.Fixings
	byNeighbour := slices.ContainsFunc(all, func(f part.Fixing) bool { return f.Kind == part.ToCase && (f.Owner == o.ID || f.Stud == o.ID) })
	if byNeighbour && !slices.ContainsFunc(all, func(f part.Fixing) bool { return f.Owner == o.ID && f.Kind != part.ToCase }) { // no screw of its own holds it
		text = strings.Replace(text, "fix it to the wall", "join it to its neighbours, which are fixed,", 1)
	}
	return text
}
