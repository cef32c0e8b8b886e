// Package planjson writes plan.json: the whole result for other programs. Fields are only
// ever added. Lengths are millimetres as exact decimal numbers, masses kilograms, in the
// right-handed frame of each wall: x to the right along the wall seen from the room, y towards
// the wall (0 at the lining's face), z up from the floor at the wall's left end.
package planjson

import (
	"math"
	"strconv"

	"stowright/internal/bill"
	"stowright/internal/cutlist"
	"stowright/internal/cutting"
	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/mass"
	"stowright/internal/part"
	"stowright/internal/shop"
)

// MM is a length written in millimetres as an exact decimal.
type MM length.Length

// MarshalJSON writes the number.
func (m MM) MarshalJSON() ([]byte, error) { return []byte(length.Length(m).MM()), nil }

// Num is a rounded figure: six significant digits at most.
type Num float64

// MarshalJSON writes the number; what is no number is written as null.
func (n Num) MarshalJSON() ([]byte, error) {
	if math.IsNaN(float64(n)) || math.IsInf(float64(n), 0) {
		return []byte("null"), nil
	}
	return strconv.AppendFloat(nil, float64(n), 'g', 6, 64), nil
}

// Vec is a point: x, y, z.
type Vec [3]MM

// Box is a box by two corners.
type Box struct {
	Min Vec `json:"min"`
	Max Vec `json:"max"`
}

func vec(v geom.Vec) Vec { return Vec{MM(v.X), MM(v.Y), MM(v.Z)} }
func box(b geom.Box) Box { return Box{vec(b.Min), vec(b.Max)} }

// Input is what there is to write.
type Input struct {
	Job      string
	Currency string
	Walls    []Wall
	Assembly part.Assembly
	Goods    []Goods
	Plan     cutting.Plan
	Marks    [][]string
	Bill     bill.Bill
	Findings finding.List
	Steps    []shop.Step
}

// File is plan.json.
type File struct {
	Version  int        `json:"version"`
	Job      string     `json:"job"`
	Currency string     `json:"currency"`
	Build    bool       `json:"mayBeBuilt"` // false: the job must not be built as it stands
	Walls    []Wall     `json:"walls"`
	Cases    []Case     `json:"cases"`
	Parts    []Part     `json:"parts"`
	Joints   []Joint    `json:"joints"`
	Bays     []Bay      `json:"bays"`
	Motions  []Motion   `json:"motions"`
	Fronts   []Front    `json:"fronts"`
	Goods    []Goods    `json:"goods"`
	Sheets   []Sheet    `json:"sheets"`
	Bounds   Bounds     `json:"bounds"`
	Findings []Finding  `json:"findings"`
	Shopping []Shopping `json:"shopping"`
	Total    Money      `json:"total"`
	Missing  []string   `json:"missingPrices"`
	Supports []Support  `json:"supports"`
	Fixings  []Fixing   `json:"fixings"`
	Steps    []Step     `json:"steps"`
	Weights  []Weight   `json:"weights"`
}

// Money is an amount as an exact decimal.
type Money int64

// MarshalJSON writes the number.
func (m Money) MarshalJSON() ([]byte, error) {
	s := strconv.FormatInt(int64(m)/10000, 10)
	if r := int64(m) % 10000; r != 0 {
		f := strconv.FormatInt(r+10000, 10)[1:]
		for f[len(f)-1] == '0' {
			f = f[:len(f)-1]
		}
		s += "." + f
	}
	return []byte(s), nil
}

// Wall is where a wall's frame lies in the room: its left end, and the direction of its x
// axis as degrees against the first wall's, anticlockwise from above.
type Wall struct {
	ID     string `json:"id"`
	Origin Vec    `json:"origin"`
	Angle  Num    `json:"angle"`
	Length MM     `json:"length"`
	Height *MM    `json:"height"` // null when not known
}

// Case is a case, counter, base, hutch or standing thing.
type Case struct {
	ID       string `json:"id"`
	Kind     string `json:"kind"`
	Wall     string `json:"wall"`
	Name     string `json:"name"`
	Min      Vec    `json:"min"`
	Max      Vec    `json:"max"`
	Standing bool   `json:"standing"`
	Hung     bool   `json:"hung"`
	Stage    string `json:"stage"`
}

// Pose says where the part's own frame lies in the wall's: origin, and the directions of its
// first (along grain), second and third axis.
type Pose struct {
	Origin Vec       `json:"origin"`
	Axes   [3][3]int `json:"axes"`
}

// Part is one piece.
type Part struct {
	Mark   string    `json:"mark"`
	Owner  string    `json:"owner"`
	Wall   string    `json:"wall"`
	Name   string    `json:"name"`
	Role   string    `json:"role"`
	Made   string    `json:"made"` // board, stick or bought
	Stock  string    `json:"stock"`
	Size   [3]MM     `json:"size"`
	Cut    [3]MM     `json:"cut"`
	Grain  string    `json:"grain"`
	Edging [4]string `json:"edging"` // start, end, near, far
	Box    Box       `json:"box"`
	Pose   Pose      `json:"pose"`
	Ops    []Op      `json:"ops"`
	Mass   *Num      `json:"mass"` // kg, null when not known
	Motion string    `json:"motion"`
}

// Op is one working; see the schema for faces and coordinates.
type Op struct {
	Kind    string `json:"kind"`
	Face    string `json:"face"`
	X       MM     `json:"x"`
	Y       MM     `json:"y"`
	Depth   MM     `json:"depth"`
	Dia     *MM    `json:"dia,omitempty"`
	L       *MM    `json:"l,omitempty"`
	W       *MM    `json:"w,omitempty"`
	Angle   int    `json:"angle,omitempty"`
	Towards string `json:"towards,omitempty"`
	Tool    string `json:"tool"`
	For     string `json:"for"`
}

// Joint holds two parts together.
type Joint struct {
	Kind     string `json:"kind"`
	A        string `json:"a"`
	B        string `json:"b"`
	Contact  Box    `json:"contact"`
	Fastener string `json:"fastener"`
	Count    int    `json:"count"`
	Glue     bool   `json:"glue"`
}

// Bay is a clear space.
type Bay struct {
	ID     string `json:"id"`
	Owner  string `json:"owner"`
	Kind   string `json:"kind"`
	Box    Box    `json:"box"`
	Floor  string `json:"floor"`
	Locked bool   `json:"locked"`
	Door   bool   `json:"door"`
	Motion string `json:"motion"`
	Places int    `json:"places"`
}

// Motion is what opens.
type Motion struct {
	ID     string   `json:"id"`
	Owner  string   `json:"owner"`
	Kind   string   `json:"kind"`
	Parts  []string `json:"parts"`
	Closed Box      `json:"closed"`
	Swept  Box      `json:"swept"`
	Pivot  *Vec     `json:"pivot,omitempty"`
	Hinge  string   `json:"hinge,omitempty"`
	Angle  int      `json:"angle,omitempty"`
	Travel *MM      `json:"travel,omitempty"`
	Rating *Num     `json:"rating"` // kg, null when not known
}

// Front is a door or a drawer front.
type Front struct {
	Part   string `json:"part"`
	Kind   string `json:"kind"`
	Hinge  string `json:"hinge,omitempty"`
	Hinges []MM   `json:"hinges"`
	Lock   bool   `json:"lock"`
}

// Goods is what is stored, and where.
type Goods struct {
	ID    string `json:"id"`
	Count int    `json:"count"`
	Place string `json:"place"` // as the job says it; "" when it says nothing
	// Stowed is where they find room; what is left of the count finds none, or nobody knows.
	Stowed []Stowed `json:"stowed"`
}

// Stowed is so many of some goods in one place.
type Stowed struct {
	At    string `json:"at"` // id of a bay, or of what they stand on or in
	Count int    `json:"count"`
}

// Sheet is one sheet of the cutting plan.
type Sheet struct {
	Stock   string   `json:"stock"`
	Board   string   `json:"board"`
	Size    [2]MM    `json:"size"`
	OnHand  bool     `json:"onHand"`
	Pieces  []Piece  `json:"pieces"`
	Cuts    []Cut    `json:"cuts"`
	Offcuts []Offcut `json:"offcuts"`
}

// Piece is a part at its cut size.
type Piece struct {
	Mark   string `json:"mark"`
	X      MM     `json:"x"`
	Y      MM     `json:"y"`
	L      MM     `json:"l"`
	W      MM     `json:"w"`
	Turned bool   `json:"turned"`
}

// Cut goes edge to edge through one piece.
type Cut struct {
	Seq     int      `json:"seq"`
	Axis    string   `json:"axis"`
	At      MM       `json:"at"`
	Kerf    MM       `json:"kerf"`
	Setting MM       `json:"setting"`
	Of      [4]MM    `json:"of"` // x, y, l, w of the piece that is cut
	Work    string   `json:"work"`
	Frees   []string `json:"frees"`
}

// Offcut is what is left.
type Offcut struct {
	X     MM   `json:"x"`
	Y     MM   `json:"y"`
	L     MM   `json:"l"`
	W     MM   `json:"w"`
	Scrap bool `json:"scrap"`
	Keeps int  `json:"keeps,omitempty"` // the sheet, counted from 1, that it is for a later stage
}

// Bounds say how good any plan could be.
type Bounds struct {
	Stocks map[string]int `json:"stocks"`
	Sheets int            `json:"sheets"`
	Cost   *Money         `json:"cost"` // null when a price is not known
}

// Finding is one thing to know.
type Finding struct {
	Code     string   `json:"code"`
	Severity string   `json:"severity"`
	At       string   `json:"at"`
	Text     string   `json:"text"`
	Hint     string   `json:"hint"`
	Verdict  string   `json:"verdict"` // holds, near, fails, not-known, or "" for no check
	Demand   *Num     `json:"demand"`
	Capacity *Num     `json:"capacity"`
	Unit     string   `json:"unit"`
	Ratio    *Num     `json:"ratio"`
	Source   string   `json:"source"`
	Working  []string `json:"working,omitempty"`
	Also     []string `json:"also,omitempty"`     // further places of which the same is true
	Shape    []Bent   `json:"shape,omitempty"`    // the bent board, after years, from one end to the other
	Accepted string   `json:"accepted,omitempty"` // why the job accepts it
}

// Bent is a place on a bent board: how far along it, and how far it has gone down.
type Bent struct {
	Along Num `json:"along"` // mm
	Down  Num `json:"down"`  // mm
}

// Shopping is one line of the shopping list.
type Shopping struct {
	Item  string `json:"item"`
	Kind  string `json:"kind"`
	Name  string `json:"name"`
	Qty   int    `json:"qty"`
	Unit  string `json:"unit"`
	Price *Money `json:"price"` // null when not known
	Cost  *Money `json:"cost"`
	Need  string `json:"need"`
	Have  int    `json:"onHand"`
	Stage string `json:"stage"`
}

// Support is one foot, shim or castor. Its place is the top of the support.
type Support struct {
	Kind   string `json:"kind"`
	Owner  string `json:"owner"`
	Wall   string `json:"wall"`
	X      MM     `json:"x"`
	Y      MM     `json:"y"`
	Height MM     `json:"height"`
}

// Fixing is one screw or anchor.
type Fixing struct {
	Kind    string `json:"kind"`
	Owner   string `json:"owner"`
	Wall    string `json:"wall"`
	Part    string `json:"part"`
	X       MM     `json:"x"`
	Y       MM     `json:"y"`
	Z       MM     `json:"z"`
	Stud    string `json:"stud"`
	Screw   string `json:"screw"`
	Length  MM     `json:"length"`
	Packing MM     `json:"packing"`
}

// Step is one step of the work.
type Step struct {
	N       int      `json:"n"`
	Owner   string   `json:"owner"`
	Text    string   `json:"text"`
	Parts   []string `json:"parts"`
	Tool    string   `json:"tool"`
	Caution string   `json:"caution"`
	New     []string `json:"new"` // marks of the boards that come in with it
	Fits    []Fit    `json:"fits"`
	Also    []string `json:"also,omitempty"` // owners that are built exactly like owner, by the same step: parts, new and fits are those of all
}

// Fit is hardware that a step takes.
type Fit struct {
	Item string `json:"item"`
	Qty  int    `json:"qty"`
}

// Weight is what an owner weighs, empty.
type Weight struct {
	Owner string `json:"owner"`
	Mass  Num    `json:"mass"`
	Whole bool   `json:"whole"` // false: the mass of some part is not known
}

// Make gives the file as a value.
func Make(in Input) File {
	a := in.Assembly
	f := File{Version: 1, Job: in.Job, Currency: in.Currency, Build: !in.Findings.Blocking(), Walls: in.Walls, Goods: in.Goods, Total: Money(in.Bill.Total), Missing: in.Bill.Missing}
	wall := map[string]string{}
	for _, o := range a.Owners {
		wall[o.ID] = o.Wall
		f.Cases = append(f.Cases, Case{o.ID, o.Kind, o.Wall, o.Name, vec(o.Box.Min), vec(o.Box.Max), o.Standing, o.Hung, o.Stage})
	}
	for _, p := range a.Parts {
		f.Parts = append(f.Parts, onePart(p, wall[p.Owner], in.Bill))
	}
	for _, j := range a.Joints {
		f.Joints = append(f.Joints, Joint{string(j.Kind), j.A, j.B, box(j.Contact), j.Fastener, j.Count, j.Glue})
	}
	for _, b := range a.Bays {
		f.Bays = append(f.Bays, Bay{b.ID, b.Owner, b.Kind, box(b.Box), b.Floor, b.Locked, b.Door, b.Moves, len(b.Places)})
	}
	for _, m := range a.Motions {
		f.Motions = append(f.Motions, oneMotion(m))
	}
	for _, r := range a.Fronts {
		g := Front{Part: r.Part, Kind: string(r.Kind), Lock: r.Lock, Hinges: []MM{}}
		if r.Kind == part.DoorFront {
			g.Hinge = r.Hinge.String()
		}
		for _, h := range r.Hinges {
			g.Hinges = append(g.Hinges, MM(h))
		}
		f.Fronts = append(f.Fronts, g)
	}
	for i, s := range in.Plan.Sheets {
		f.Sheets = append(f.Sheets, sheet(s, in.Marks[i]))
	}
	f.Bounds = Bounds{Stocks: map[string]int{}, Sheets: in.Plan.Bounds.Sheets}
	if in.Plan.Totals.Priced {
		cost := Money(in.Plan.Bounds.Cost)
		f.Bounds.Cost = &cost
	}
	for _, b := range in.Plan.Bounds.Stocks {
		f.Bounds.Stocks[b.ID] = b.Least
	}
	for _, x := range in.Findings {
		f.Findings = append(f.Findings, oneFinding(x))
	}
	for _, l := range in.Bill.Lines {
		f.Shopping = append(f.Shopping, oneLine(l))
	}
	for _, s := range a.Feet {
		f.Supports = append(f.Supports, Support{s.Kind, s.Owner, wall[s.Owner], MM(s.At.X), MM(s.At.Y), MM(s.Height)})
	}
	for _, x := range a.Fixings {
		f.Fixings = append(f.Fixings, Fixing{string(x.Kind), x.Owner, x.Wall, x.Part, MM(x.At.X), MM(x.At.Y), MM(x.At.Z), x.Stud, x.Screw, MM(x.Length), MM(x.Packing)})
	}
	for _, s := range in.Steps {
		fits := []Fit{}
		for _, x := range s.Fits {
			fits = append(fits, Fit{x.ID, x.Count})
		}
		f.Steps = append(f.Steps, Step{s.N, s.Owner, s.Whole(), list(s.Parts), s.Tool, s.Caution, list(s.New), fits, s.Also})
	}
	for _, w := range in.Bill.Weights {
		f.Weights = append(f.Weights, Weight{w.Owner, kilos(w.Mass), w.Whole})
	}
	return f
}

// Write gives the bytes of plan.json, indented, with a newline at the end. Lists that are
// empty are written as [].
func Write(in Input) []byte {
	f := Make(in)
	fill(&f)
	return append(encode(f), '\n')
}

func fill(f *File) {
	f.Walls, f.Cases, f.Parts, f.Joints = list(f.Walls), list(f.Cases), list(f.Parts), list(f.Joints)
	f.Bays, f.Motions, f.Fronts, f.Goods = list(f.Bays), list(f.Motions), list(f.Fronts), list(f.Goods)
	f.Sheets, f.Findings, f.Shopping, f.Missing = list(f.Sheets), list(f.Findings), list(f.Shopping), list(f.Missing)
	f.Supports, f.Fixings, f.Steps, f.Weights = list(f.Supports), list(f.Fixings), list(f.Steps), list(f.Weights)
}

func list[T any](l []T) []T {
	if l == nil {
		return []T{}
	}
	return l
}

func kilos(m mass.Mass) Num { return Num(float64(m) / 1e9) }

func onePart(p part.Part, wall string, b bill.Bill) Part {
	q := Part{Mark: p.Mark, Owner: p.Owner, Wall: wall, Name: p.Name, Role: string(p.Role), Stock: p.Stock, Grain: p.Grain.String(), Box: box(p.Box()), Ops: []Op{}, Motion: p.Moves}
	q.Made = [...]string{"board", "stick", "bought"}[p.Material]
	cut := p.Cut()
	for i := range 3 {
		q.Size[i], q.Cut[i] = MM(p.Size[i]), MM(cut[i])
	}
	for i, e := range p.Bands {
		q.Edging[i] = e.Edging
	}
	q.Pose.Origin = vec(p.Pose.Origin)
	for i, d := range []geom.Dir{p.Pose.U, p.Pose.V, p.Pose.W()} {
		q.Pose.Axes[i][d.Axis()] = int(d.Sign())
	}
	if m, ok := b.Parts[p.Mark]; ok {
		k := kilos(m)
		q.Mass = &k
	}
	for _, o := range p.Ops {
		q.Ops = append(q.Ops, oneOp(o))
	}
	return q
}

func oneOp(o part.Op) Op {
	r := Op{Kind: o.Kind.String(), Face: o.Face.String(), X: MM(o.X), Y: MM(o.Y), Depth: MM(o.Depth), Angle: o.Angle, Tool: o.Tool, For: o.For}
	if o.Dia != 0 {
		d := MM(o.Dia)
		r.Dia = &d
	}
	if o.L != 0 || o.W != 0 {
		l, w := MM(o.L), MM(o.W)
		r.L, r.W = &l, &w
	}
	if o.Kind == part.Pocket || o.Kind == part.Bevel {
		r.Towards = o.Towards.String()
	}
	return r
}

func oneMotion(m part.Motion) Motion {
	r := Motion{ID: m.ID, Owner: m.Owner, Kind: string(m.Kind), Parts: list(m.Parts), Closed: box(m.Closed), Swept: box(m.Swept)}
	if m.Kind == part.Swing {
		v := vec(m.Pivot)
		r.Pivot, r.Hinge, r.Angle = &v, m.Hinge.String(), m.Angle
	} else {
		t := MM(m.Travel)
		r.Travel = &t
	}
	if m.Rating > 0 {
		k := kilos(m.Rating)
		r.Rating = &k
	}
	return r
}

func sheet(s cutting.Sheet, marks []string) Sheet {
	r := Sheet{Stock: s.Stock, Board: cutlist.Board(s.Stock), Size: [2]MM{MM(s.L), MM(s.W)}, OnHand: s.OnHand, Pieces: []Piece{}, Cuts: []Cut{}, Offcuts: []Offcut{}}
	for i, p := range s.Pieces {
		r.Pieces = append(r.Pieces, Piece{marks[i], MM(p.X), MM(p.Y), MM(p.L), MM(p.W), p.Turned})
	}
	for _, c := range s.Cuts {
		q := Cut{Seq: c.Seq, Axis: c.Axis.String(), At: MM(c.At), Kerf: MM(c.Kerf), Setting: MM(c.Setting), Of: [4]MM{MM(c.Of.X), MM(c.Of.Y), MM(c.Of.L), MM(c.Of.W)}, Work: c.Work.String(), Frees: []string{}}
		for _, i := range c.Frees {
			q.Frees = append(q.Frees, marks[i])
		}
		r.Cuts = append(r.Cuts, q)
	}
	for _, o := range s.Offcuts {
		r.Offcuts = append(r.Offcuts, Offcut{MM(o.X), MM(o.Y), MM(o.L), MM(o.W), o.Scrap, o.Keeps})
	}
	return r
}

func oneFinding(x finding.Finding) Finding {
	v := x.Verdict.String()
	if x.Verdict == finding.NotKnown {
		v = "not-known"
	}
	r := Finding{Code: string(x.Code), Severity: x.Severity.String(), At: x.At, Text: x.Text, Hint: x.Hint, Verdict: v, Unit: x.Unit, Source: x.Source, Working: x.Working, Also: x.Also, Accepted: x.Accepted}
	for _, p := range x.Shape {
		r.Shape = append(r.Shape, Bent{Num(p.Along), Num(p.Down)})
	}
	if x.Demand != 0 || x.Capacity != 0 {
		d, c := Num(x.Demand), Num(x.Capacity)
		r.Demand, r.Capacity = &d, &c
		if x.Capacity != 0 {
			q := Num(x.Ratio())
			r.Ratio = &q
		}
	}
	return r
}

func oneLine(l bill.Line) Shopping {
	r := Shopping{Item: l.Item, Kind: l.Kind, Name: l.Name, Qty: l.Buy, Unit: l.Unit, Need: l.Need, Have: l.OnHand, Stage: l.Stage}
	if l.Price != nil {
		p := Money(*l.Price)
		r.Price = &p
	}
	if c, ok := l.Cost(); ok {
		m := Money(c)
		r.Cost = &m
	}
	return r
}
