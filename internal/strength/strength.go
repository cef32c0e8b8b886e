// Package strength proves a job: every shelf, drawer, door, wall fixing, counter and case is
// checked by a published method, with the demand, the capacity, the source and the worked
// calculation. Each check is one file with its codes, its sentence and an example; the pure
// methods are the packages below this one and know no cases.
//
// Quantities are N, mm, MPa and kg. What is not known gives "not known", one line for one
// missing fact, and never passes. A load that nobody stated is the practice's, and is called
// assumed.
package strength

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/job"
	"stowright/internal/length"
	"stowright/internal/mass"
	"stowright/internal/order"
	"stowright/internal/part"
	"stowright/internal/place"
	"stowright/internal/stock"
	"stowright/internal/strength/unit"
)

type L = length.Length

// Input is what is proved. Masses are of parts, by mark; a part that is missing has a mass
// that is not known.
type Input struct {
	Job    *job.Checked
	Room   *place.Room
	All    *part.Assembly
	Masses map[string]mass.Mass
}

// Rule is one check.
type Rule struct {
	Name    string
	Codes   []finding.Code
	Doc     string // what it compares with what, a few sentences
	Source  string
	Example string // what fails it
	Run     func(*Scene) finding.List
}

// All lists the checks in the order they are made.
func All() []Rule {
	return []Rule{
		sag(), stress(), person(), bottoms(), pins(), tubes(), slides(), fronts(), hinges(), doors(),
		racks(), hooks(), studs(), fixings(), edges(), rails(), joints(), tipping(), feet(), bearing(), racking(),
		reaching(), lifting(), hazards(), sparks(), carrying(), keeping(),
	}
}

// Check proves everything. The findings are sorted, worst first.
func Check(in Input) finding.List {
	s := NewScene(in)
	var f finding.List
	for _, r := range All() {
		f.Add(r.Run(s)...)
	}
	f.Sort()
	return f
}

// Acceptable says whether a job may accept a failure of this code with a reason. What hangs
// and what could fall on somebody may not be accepted away.
func Acceptable(c finding.Code) bool {
	switch c {
	case WallFixing, WallStuds, TipOver, RailBending, CarcassJoint:
		return false
	}
	return true
}

// Scene is what checks look at: the assembly by name, and what everything carries.
type Scene struct {
	Input
	parts   map[string]*part.Part
	owners  map[string]*part.Owner
	bays    map[string]*part.Bay
	motions map[string]*part.Motion
	own     map[string]*belongings    // by owner
	joints  map[string][]*part.Joint  // by board, of either side
	spans   map[string]bool           // boards that hang between supports
	riding  map[string][]*part.Part   // by motion
	inside  map[string][]*part.Bay    // by motion
	loads   map[string]load           // by bay
	tops    map[string]load           // by counter, hutch or standing thing: the goods the job puts on it
	listed  []stored                  // which goods may be where, as the job says
	spotsOf map[*stock.Goods][]spot   // the places that each kind is listed under
	lying   map[string][]stored       // what is listed, by the board that is the floor of its bay
	where   []stored                  // which goods are where: as they find room in what is listed
	put     map[*stock.Goods][]stored // the same, by what they are
	solved  solved                    // plates that were bent
	boards  []board                   // what carries, once a remedy has asked for it
	ways    map[string][]geom.Box     // what takes room at each wall
	looked  int                       // how many of these were looked at
	trial   bool                      // a remedy is being tried: no more are looked for
}

// NewScene gathers parts and loads once for all checks.
func NewScene(in Input) *Scene {
	s := &Scene{Input: in, parts: map[string]*part.Part{}, owners: map[string]*part.Owner{}, bays: map[string]*part.Bay{}, motions: map[string]*part.Motion{}, solved: solved{}}
	for i := range in.All.Parts {
		s.parts[in.All.Parts[i].Mark] = &in.All.Parts[i]
	}
	for i := range in.All.Owners {
		s.owners[in.All.Owners[i].ID] = &in.All.Owners[i]
	}
	for i := range in.All.Bays {
		s.bays[in.All.Bays[i].ID] = &in.All.Bays[i]
	}
	for i := range in.All.Motions {
		s.motions[in.All.Motions[i].ID] = &in.All.Motions[i]
	}
	s.index()
	s.stow()
	s.carried()
	return s
}

// at names a place: the owner, and the part or bay in it.
func (s *Scene) at(owner, what string) string {
	kind := "case"
	if o := s.owners[owner]; o != nil {
		kind = o.Kind
	}
	if what = strings.TrimPrefix(what, owner+"/"); what == "" {
		return kind + "/" + owner
	}
	return kind + "/" + owner + "/" + what
}

// name gives what a person calls a part: "shelf 1 of ink case (B.shelf1)".
func (s *Scene) name(p *part.Part) string {
	return fmt.Sprintf("%s of %s (%s)", p.Name, s.called(p.Owner), p.Mark)
}

func (s *Scene) called(owner string) string {
	if o := s.owners[owner]; o != nil && o.Name != "" {
		return o.Name
	}
	return owner
}

// weight gives a part's mass in kg, and whether it is known.
func (s *Scene) weight(p *part.Part) (float64, bool) {
	m, ok := s.Masses[p.Mark]
	return m.Kilograms(), ok
}

// weightOf is the fact that is missing where a part's mass is not known: the same for all that is of one board.
func weightOf(p *part.Part) string {
	if p.Stock == "" {
		return "the weight of " + p.Mark
	}
	return "the weight of what is made of " + p.Stock
}

// body is a mass with its centre in the frame of its wall.
type body struct {
	kg      float64
	x, y, z float64
}

// sum is the common centre of bodies.
func sum(list []body) body {
	var t body
	for _, b := range list {
		t.kg += b.kg
		t.x += b.kg * b.x
		t.y += b.kg * b.y
		t.z += b.kg * b.z
	}
	if t.kg > 0 {
		t.x, t.y, t.z = t.x/t.kg, t.y/t.kg, t.z/t.kg
	}
	return t
}

// bodies are the parts of an owner, doors turned open when open says so. Lacks says what mass is
// not known.
func (s *Scene) bodies(owner string, open bool) (list []body, lacks []string) {
	for _, p := range s.of(owner).Parts {
		kg, ok := s.weight(p)
		if !ok {
			lacks = append(lacks, weightOf(p))
			continue
		}
		b := centre(p.Box(), kg)
		if m := s.motions[p.Moves]; open && m != nil && m.Kind == part.Swing {
			b = swung(b, m)
		}
		list = append(list, b)
	}
	return list, lacks
}

// swung puts the centre of what rides on a door where it is with the door open at 90 degrees.
func swung(b body, m *part.Motion) body {
	px, py := mm(m.Pivot.X), mm(m.Pivot.Y)
	dx, dy := b.x-px, b.y-py
	if m.Hinge == geom.Left {
		b.x, b.y = px+dy, py-dx
	} else {
		b.x, b.y = px-dy, py+dx
	}
	return b
}

func centre(b geom.Box, kg float64) body {
	return body{kg, mm(b.Min.X+b.Max.X) / 2, mm(b.Min.Y+b.Max.Y) / 2, mm(b.Min.Z+b.Max.Z) / 2}
}

// hardware is what an owner's hinges, slides and the rest weigh, as far as the tables say, and
// a twentieth of its boards for screws, edging and glue (common practice, no source). It is
// counted as a load, never as what holds something down.
func (s *Scene) hardware(owner string, boards float64) float64 {
	kg := boards / 20
	for _, h := range s.of(owner).Hardware {
		if i, ok := s.Job.Catalogue.Item(h.ID); ok && i.Mass != nil {
			kg += i.Mass.Kilograms() * float64(h.Count)
		}
	}
	return kg
}

// contents are the goods of an owner's bays, in place. Lacks names bays whose load is not
// known; assumed says that some load is the practice's.
func (s *Scene) contents(owner string, open bool) (list []body, lacks []string, assumed bool) {
	for _, b := range s.of(owner).Bays {
		l := s.loads[b.ID]
		if !l.known {
			lacks = append(lacks, l.lacks...)
			continue
		}
		assumed = assumed || l.assumed
		c := centre(b.Box, l.kg)
		if m := s.motions[b.Moves]; open && m != nil && m.Kind == part.Swing {
			c = swung(c, m)
		}
		list = append(list, c)
	}
	return list, lacks, assumed
}

// verdict fills in what every comparison has: figures to four places, the verdict, and the
// severity of a failure.
func verdict(f finding.Finding, failed finding.Severity) finding.Finding {
	f.Demand, f.Capacity = round(f.Demand), round(f.Capacity)
	f.Verdict, f.Severity = f.Judge(), finding.Note
	if f.Verdict == finding.Fails {
		f.Severity = failed
	}
	return f
}

// overload is the severity of too great a stress: an error when it is gross and the load is no
// assumption.
func overload(ratio float64, assumed bool) finding.Severity {
	if ratio > 1.5 && !assumed {
		return finding.Error
	}
	return finding.Warning
}

// round keeps four places, so that no verdict hangs on a last bit.
func round(v float64) float64 {
	if v == 0 || math.IsInf(v, 0) || math.IsNaN(v) {
		return v
	}
	d := math.Pow(10, 3-math.Floor(math.Log10(math.Abs(v))))
	return math.Round(v*d) / d
}

// blank gathers places at which the same fact is missing.
type blank struct {
	code   finding.Code
	source string
	list   []gap
}

type gap struct {
	fact  string
	hint  string
	where []string
	at    []string
}

// add notes that a fact is missing for something.
func (b *blank) add(fact, hint, what, at string) {
	for i := range b.list {
		if b.list[i].fact == fact && b.list[i].hint == hint {
			b.list[i].where = append(b.list[i].where, what)
			b.list[i].at = append(b.list[i].at, at)
			return
		}
	}
	b.list = append(b.list, gap{fact, hint, []string{what}, []string{at}})
}

// findings gives one line for each fact that is missing.
func (b *blank) findings(judged string, sev finding.Severity) finding.List {
	var f finding.List
	for _, g := range b.list {
		order.Up(g.where)
		g.where = slices.Compact(g.where)
		order.Up(g.at)
		g.at = slices.Compact(g.at)
		what := strings.Join(g.where[:min(3, len(g.where))], ", ")
		if n := len(g.where); n > 3 {
			what += fmt.Sprintf(" and %d more", n-3)
		}
		f.Add(finding.Finding{Code: b.code, Severity: sev, Verdict: finding.NotKnown, At: g.at[0], Also: g.at[1:], Source: b.source,
			Text: fmt.Sprintf("%s is not known for %s: %s is not known.", judged, what, g.fact), Hint: g.hint})
	}
	return f
}

func mm(v L) float64 { return float64(v) / float64(length.MM) }

// newtons is the weight of a mass in kg.
func newtons(kg float64) float64 { return kg * unit.Gravity }

// inch says that the job prints inches and pounds.
func (s *Scene) inch() bool { return s.Job.Print == length.Inches }

// Words for quantities in the job's units.
func (s *Scene) kg(v float64) string {
	if s.inch() {
		return three(v/unit.Pound) + " lb"
	}
	return three(v) + " kg"
}

// atMost prints a mass that is not to be passed: rounded down to what a scale shows.
func (s *Scene) atMost(kg float64) string {
	word, places := " kg", 1
	if s.inch() {
		kg, word = kg/unit.Pound, " lb"
	}
	if kg >= 100 {
		places = 0
	}
	one := math.Pow10(places)
	return strconv.FormatFloat(math.Floor(kg*one+1e-9)/one, 'f', places, 64) + word
}

func (s *Scene) force(n float64) string {
	if s.inch() {
		return three(n/unit.PoundForce) + " lb"
	}
	return three(n) + " N"
}

// stated prints a force that its source states in whole pounds, as it is stated: "222 N (50 lb)".
func stated(n float64) string { return fmt.Sprintf("%s N (%.0f lb)", three(n), n/unit.PoundForce) }

// pounds prints such a force for a calculation, to four figures.
func (s *Scene) pounds(n float64) string {
	if s.inch() {
		return fmt.Sprintf("%.0f lb", n/unit.PoundForce)
	}
	return fmt.Sprintf("%.4g N", n)
}

// push prints a force that is no less than a stated one: as that is stated, where it is that.
func (s *Scene) push(n, least float64) string {
	if n == least {
		return stated(n)
	}
	return s.force(n)
}

// three prints three figures, and never a power of ten.
func three(v float64) string {
	if v == 0 || math.IsInf(v, 0) || math.IsNaN(v) {
		return fmt.Sprint(v)
	}
	d := math.Pow(10, 2-math.Floor(math.Log10(math.Abs(v))))
	return strconv.FormatFloat(math.Round(v*d)/d, 'f', max(0, 2-int(math.Floor(math.Log10(math.Abs(v))))), 64)
}

// stress prints a stress in MPa: pounds to the square inch where the job is in inches.
func (s *Scene) stress(mpa float64) string {
	if s.inch() {
		return three(mpa/unit.PSI) + " psi"
	}
	if mpa < 0.1 {
		return three(mpa) + " MPa"
	}
	return fmt.Sprintf("%.2f MPa", mpa)
}

// turning prints a moment in N·m: foot pounds where the job is in inches.
func (s *Scene) turning(nm float64) string {
	if s.inch() {
		return three(nm*1000/(unit.PoundForce*unit.Foot)) + " ft·lb"
	}
	return three(nm) + " N·m"
}

// small prints a sag.
func (s *Scene) small(v float64) string {
	if s.inch() {
		return fmt.Sprintf("%.3f in", v/unit.Inch)
	}
	return fmt.Sprintf("%.2f mm", v)
}

// long prints a size as a tape shows it.
func (s *Scene) long(v float64) string {
	return L(math.Round(v * float64(length.MM))).In(s.Job.Print)
}

// exact prints a size for a calculation: to a hundredth of a mm, or a thousandth of an inch.
func (s *Scene) exact(v float64) string {
	places, word := 100.0, " mm"
	if s.inch() {
		v, places, word = v/unit.Inch, 1000, " in"
	}
	return strconv.FormatFloat(math.Round(v*places)/places, 'f', -1, 64) + word
}

// perLong prints a load in N/mm of length, or pounds to the inch.
func (s *Scene) perLong(v float64) string {
	if s.inch() {
		return three(v/unit.PoundPerInch) + " lb/in"
	}
	return three(v) + " N/mm"
}

// pressure prints a load on a plate: kPa, or pounds to the square inch.
func (s *Scene) pressure(mpa float64) string {
	if s.inch() {
		return three(mpa/unit.PSI) + " psi"
	}
	return three(mpa) + " MPa"
}

// modulus prints a stiffness in MPa, or psi in thousands.
func (s *Scene) modulus(mpa float64) string {
	if s.inch() {
		return fmt.Sprintf("%.0f psi", math.Round(mpa/unit.PSI/1000)*1000)
	}
	return fmt.Sprintf("%.0f MPa", mpa)
}

// inertia prints a second moment of area in mm⁴, or in⁴.
func (s *Scene) inertia(v float64) string {
	if s.inch() {
		return fmt.Sprintf("%.4g in⁴", v/math.Pow(unit.Inch, 4))
	}
	return fmt.Sprintf("%.0f mm⁴", v)
}

// flat prints an area in mm², or square inches.
func (s *Scene) flat(v float64) string {
	if s.inch() {
		return fmt.Sprintf("%.4g in²", v/unit.Inch/unit.Inch)
	}
	return fmt.Sprintf("%.1f mm²", v)
}

// joined joins words.
func joined(words []string) string { return strings.Join(words, "; ") }

// hint joins remedies, the cheapest first, each a sentence part.
func hint(words []string) string {
	switch len(words) {
	case 0:
		return ""
	case 1:
		return strings.ToUpper(words[0][:1]) + words[0][1:] + "."
	}
	return "One of: " + joined(words) + "."
}

// opening names what moves as its parts do: "drawer 3", "tray 1", "left door".
func (s *Scene) opening(motion string) string {
	for _, p := range s.riding[motion] {
		if _, name, ok := strings.Cut(p.Name, " of "); ok {
			return name
		}
		if p.Role == part.Door {
			return p.Name
		}
	}
	return "what moves"
}

// many counts in words: "1 screw", "2 screws".
func many(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
