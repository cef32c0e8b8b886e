// Package hutch builds the removable frame with a hook board that stands on a counter: two
// uprights and cross rails of one stock, the board before them with air behind it for hooks, and
// the place and cable hole of a batten light. Where it stands is decided by others.
//
// Parts are in the frame of the hutch's box: x along the wall, y towards it, z up.
package hutch

import (
	"cmp"
	"fmt"
	"strings"

	"stowright/internal/finding"
	"stowright/internal/fitting"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/length"
	"stowright/internal/part"
)

type L = length.Length

const mm = length.MM

// Codes of the findings of this package.
const (
	// NoStock: the board or the frame's stock is not known.
	NoStock finding.Code = "hutch-no-stock"
	// Small: there is no room for a frame and a board.
	Small finding.Code = "hutch-small"
	// SheetSmall: the board is larger than its sheet.
	SheetSmall finding.Code = "hutch-sheet-small"
	// LightLong: the batten light is longer than the hutch is wide inside.
	LightLong finding.Code = "hutch-light-long"
	// OtherAir: the frame's stock gives no spacer of the thickness that is wanted.
	OtherAir finding.Code = "hutch-other-air"
	// NoBit: no bit or hole saw passes the light's cable.
	NoBit finding.Code = "no-bit"
	// Loose: no screw goes down through the frame and stays in the counter.
	// Example: a rail of 70 mm on a top of 18 mm.
	Loose finding.Code = "hutch-loose"
)

// Common practice, no source.
const (
	usualPitch = 25400 * mm / 1000
	usualAir   = 19 * mm  // behind the board for hooks
	thinSpacer = 4 * mm   // thinner ones are left out
	leastAir   = 10 * mm  // hooks do not go in with less
	furring    = 400 * mm // cross rails no further apart
	footScrews = 400 * mm // that hold the lowest rail to the counter, no further apart
	footClear  = 15 * mm  // from a screw that crosses the rail
	usualUnder = 30 * mm  // of counter, where it is not known
	footFirst  = 80 * mm  // of them, from a rail's end
	common     = "common practice, no source"
)

// Spec is a hutch with every size stated.
type Spec struct {
	Name   string
	Box    geom.Box // overall, from the counter's top; its rear at the wall
	Board  string   // hook board
	Frame  string   // stick or board; the practice's strip when empty
	Spacer L        // air behind the board; 0 for the frame's thickness, or the usual where that is too thin
	Pitch  L        // of the board's holes; 0 for the usual
	Brace  L        // how far feet stand out on the counter before the board, 0 for none
	Under  L        // thickness of what it stands on, 0 when not known
	Hooks  int      // how many things hang on it
	Light  *Light
}

// Whole gives the largest size at most most in which the first and the last row of holes are
// whole: a whole number of pitches, cut midway between two rows.
func Whole(most, pitch L) L { return most.Down(pitch) }

// Build makes a hutch. Local names are unique in it.
func Build(env fitting.Env, id string, s Spec) (part.Assembly, finding.List) {
	env.Owner = id
	var a part.Assembly
	var found finding.List
	text := func(l L) string {
		if env.Practice.InInches() {
			return l.In(length.Inches)
		}
		return l.In(length.Millimetres)
	}
	say := func(c finding.Code, sev finding.Severity, t, hint string, by L) {
		found.Add(finding.Finding{Code: c, Severity: sev, At: "hutch/" + id, Text: t, Hint: hint, Source: common, Demand: float64(by.DivNear(int64(mm)/10)) / 10, Unit: "mm"})
	}
	done := func() (part.Assembly, finding.List) {
		for i := range a.Parts {
			a.Parts[i].Owner = id
		}
		a.Owners = []part.Owner{{ID: id, Kind: "hutch", Name: s.Name, Box: s.Box, Carcass: s.Box}}
		for i := range found {
			found[i].At = "hutch/" + id
		}
		return a, found
	}
	shop := joinery.Shop{Practice: env.Practice, Catalogue: env.Catalogue, Owner: id}
	frame := cmp.Or(s.Frame, env.Practice.StripStick, env.Practice.Case)
	t, w, material := L(0), L(0), part.Stick
	if st, ok := env.Catalogue.Stick(frame); ok {
		t, w = st.Thickness, st.Width
	} else if bd, ok := env.Catalogue.Board(frame); ok {
		t, w, material = bd.Thickness, 60*mm, part.Board
	}
	boardID := cmp.Or(s.Board, env.Practice.BackBoard)
	board, ok := env.Catalogue.Board(boardID)
	if t == 0 || !ok {
		say(NoStock, finding.Error, fmt.Sprintf("the frame is to be of %q and the board of %q; one is not known", frame, boardID), "name stock of the job or the catalogue", 0)
		return done()
	}
	pitch := cmp.Or(s.Pitch, usualPitch)
	bx := s.Box
	plate, _ := env.Catalogue.Board(env.Practice.Case)
	if s.Brace > 0 && plate.Thickness > 0 { // the plates stand beside the frame
		bx.Min.X, bx.Max.X = bx.Min.X+plate.Thickness, bx.Max.X-plate.Thickness
	}
	size := bx.Size()
	if size.X < 4*w || size.Z < 3*w {
		say(Small, finding.Error, fmt.Sprintf("a hutch %s wide and %s high leaves no room inside a frame %s wide", text(size.X), text(size.Z), text(w)), "make it larger", 4*w)
		return done()
	}
	// The board, its first and last rows of holes whole, in the middle of the frame.
	bw, bh := Whole(size.X, pitch), Whole(size.Z, pitch)
	if bw <= 0 || bh <= 0 {
		say(Small, finding.Error, fmt.Sprintf("a hutch %s wide and %s high has no room for two rows of holes %s apart", text(size.X), text(size.Z), text(pitch)), "state hook-pitch as the board has it, or make it larger", pitch)
		return done()
	}
	rear := bx.Max.Y
	// The frame is laid flat to the wall; where the air wanted is more than its thickness, spacers
	// go between frame and board.
	air := s.Spacer
	if air == 0 {
		air = t
		if t < leastAir {
			air = usualAir
		}
	}
	if air < leastAir {
		say(Small, finding.Warning, fmt.Sprintf("%s of air behind the board are too little for hooks, which need %s", text(air), text(leastAir)), "state a thicker spacer", leastAir-air)
	}
	extra, resawn := max(air-t, 0), ""
	switch {
	case extra < thinSpacer:
		extra = 0
	case extra > t || material == part.Board:
		extra = t
	case extra < t:
		resawn = fmt.Sprintf("resawn on edge to %s thick, from %s", text(extra), text(t))
	}
	if got := t + extra; s.Spacer > 0 && (got-air).Abs() > mm {
		sev := finding.Note
		if got < air {
			sev = finding.Warning
		}
		say(OtherAir, sev, fmt.Sprintf("the board stands %s off the wall's face instead of %s: a frame %s thick and spacers of the same stock give no other air", text(got), text(air), text(t)), "state a thicker or a thinner frame, or leave it so", (got - air).Abs())
	}
	face := rear - t // front of the frame
	add := func(local string, role part.Role, name, stock string, m part.Material, b geom.Box, u, v geom.Dir) *part.Part {
		p := part.New(local, role, name, stock, b, u, v)
		p.Material = m
		a.Parts = append(a.Parts, p)
		return &a.Parts[len(a.Parts)-1]
	}
	var told joinery.Told
	lie := func(f joinery.Flat, n int, first L) {
		f.At = joinery.Along(f.Contact, n, first)
		r := shop.Screwed(f)
		if len(f.Between) > 0 { // what it touches is the board between
			r.Joint.B = f.Between[0].Local
		}
		r.Joint.A, r.Joint.B = r.Joint.B, r.Joint.A
		a.Joints = append(a.Joints, r.Joint)
		a.Hardware = append(a.Hardware, r.Items...)
		told.Add(r)
	}
	add("upright-left", part.Frame, "left upright", frame, material, geom.B(bx.Min.X, face, bx.Min.Z, bx.Min.X+w, rear, bx.Max.Z), geom.Up, geom.Right)
	add("upright-right", part.Frame, "right upright", frame, material, geom.B(bx.Max.X-w, face, bx.Min.Z, bx.Max.X, rear, bx.Max.Z), geom.Up, geom.Right)
	// Cross rails between the uprights, the lowest and the highest flush.
	n := max((size.Z - w).DivUp(int64(max(furring, w+30*mm))), 1)
	var rails []L
	for i := range int64(n) + 1 {
		z := bx.Min.Z + (size.Z-w).MulDiv(i, int64(n))
		rails = append(rails, z)
		local := fmt.Sprintf("rail-%d", i+1)
		add(local, part.HangRail, fmt.Sprintf("frame rail %d", i+1), frame, material, geom.B(bx.Min.X+w, face, z, bx.Max.X-w, rear, z+w), geom.Right, geom.Up)
		for k, d := range []geom.Dir{geom.Left, geom.Right} {
			x := bx.Min.X + w
			if d == geom.Right {
				x = bx.Max.X - w
			}
			// Edge to edge in one plane: pockets in the rear face do not show.
			res := shop.Make("pocket-screw", joinery.Between{A: &a.Parts[k], B: &a.Parts[len(a.Parts)-1], To: d,
				Contact: geom.B(x, face, z, x, rear, z+w), Pockets: []geom.Dir{geom.Back}, Heads: true, Butt: true, Most: 2})
			a.Joints = append(a.Joints, res.Joint)
			a.Hardware = append(a.Hardware, res.Items...)
			told.Add(res)
		}
		// Every second rail is not needed at the wall: the highest and the lowest hold it.
		if i == 0 || i == int64(n) {
			row := "lower"
			if i > 0 {
				row = "upper"
			}
			layers := []part.Layer{{Name: "frame", Stock: frame, Thickness: t}}
			if extra > 0 { // which lies on the rail before that is at the wall
				layers = append([]part.Layer{{Name: "spacer", Stock: frame, Thickness: extra}}, layers...)
			}
			a.Wanted = append(a.Wanted, part.Wanted{Part: local, From: bx.Min.X + w, To: bx.Max.X - w, Y: rear, Z: z + w/2, Row: row, Layers: layers})
		}
		if extra > 0 {
			add(fmt.Sprintf("spacer-%d", i+1), part.Spacer, fmt.Sprintf("spacer %d", i+1), frame, material, geom.B(bx.Min.X+w, face-extra, z, bx.Max.X-w, face, z+w), geom.Right, geom.Up).Note = resawn
			k := len(a.Parts)
			lie(joinery.Flat{First: &a.Parts[k-1], Second: &a.Parts[k-2], To: geom.Back, Contact: geom.B(bx.Min.X+w, face, z, bx.Max.X-w, face, z+w), Kind: part.WoodScrew, Glue: true, For: "spacers"}, 4, 40*mm)
		}
	}
	line, wired := cableOf(shop, env, s, bx, w, rails[len(rails)-1], bx.Min.Z+(size.Z-bh)/2+bh, text, say)
	if upright := 1; wired && extra == 0 && (s.Brace == 0 || bracing{in: bx, w: w}.high(s.Brace) < line.z-line.dia-bx.Min.Z) {
		if s.Light.Left {
			upright = 0
		}
		line.leaveBy(&a.Parts[upright])
	}
	if l, c := max(board.Length, board.Width), min(board.Length, board.Width); board.Length > 0 && (max(bw, bh) > l || min(bw, bh) > c) {
		say(SheetSmall, finding.Error, fmt.Sprintf("the hook board is %s by %s; its sheet is %s by %s", text(bw), text(bh), text(l), text(c)), "make the hutch smaller, or two of it", max(bw, bh)-l)
	}
	x0, z0, y1 := bx.Min.X+(size.X-bw)/2, bx.Min.Z+(size.Z-bh)/2, face-extra
	hb := add("board", part.HookBoard, "hook board", boardID, part.Board, geom.B(x0, y1-board.Thickness, z0, x0+bw, y1, z0+bh), geom.Right, geom.Up)
	hb.Note = "plain: hooks are screwed where they are wanted"
	holed := s.Pitch > 0 || strings.Contains(board.Name, "holes")
	a.Hardware = append(a.Hardware, hooks(shop, s.Hooks, holed, board.Thickness, air)...)
	if holed {
		hb.Note = fmt.Sprintf("trim midway between two rows of holes; rows every %s", text(pitch))
	}
	hb.Removable = true
	// It is screwed on so that it can be taken off: to the frame, or through the spacers.
	board1 := len(a.Parts) - 1
	for i := range board1 {
		p := a.Parts[i]
		if p.Role != part.Frame && p.Role != part.HangRail || extra > 0 && p.Role == part.Frame {
			continue
		}
		f := joinery.Flat{First: &a.Parts[board1], Second: &a.Parts[i], To: geom.Back, Kind: part.Undone, For: "hook board"}
		on := p.Box()
		if extra > 0 {
			f.Between = []*part.Part{&a.Parts[i+1]}
			on = a.Parts[i+1].Box()
		}
		c := on.And(geom.B(x0, on.Min.Y, z0, x0+bw, on.Max.Y, z0+bh))
		c.Min.Y, c.Max.Y = y1, y1
		f.Contact = c
		lie(f, max(2, int(max(c.Max.X-c.Min.X, c.Max.Z-c.Min.Z)/cmp.Or(env.Practice.BackScrews, furring))+1), 20*mm)
	}
	if s.Brace > 0 {
		b := bracing{shop: shop, s: s, in: bx, plate: plate, frame: frame, t: t, w: w, rear: rear, front: y1 - board.Thickness}
		for _, side := range []geom.Dir{geom.Left, geom.Right} {
			b.build(&a, add, lie, side, say)
		}
	}
	low, high := z0, z0+bh
	if s.Brace > 0 {
		low = max(low, bx.Min.Z+t) // over the feet
	}
	if s.Light != nil {
		if s.Light.Length > size.X-2*w {
			say(LightLong, finding.Error, fmt.Sprintf("the light is %s long; %s are free between the uprights", text(s.Light.Length), text(size.X-2*w)), "take a shorter light, or a wider hutch", s.Light.Length-(size.X-2*w))
		}
		if wired {
			line.through(&a.Parts[board1], s.Light.Left)
		}
		high -= 60 * mm // the light's own place, along the upper rail
	}
	a.Bays = append(a.Bays, part.Bay{ID: id + "/hooks", Owner: id, Box: geom.B(x0, y1-board.Thickness-150*mm, low, x0+bw, y1-board.Thickness, high), Kind: "hook-board", Hung: true, Use: part.Tools})
	// Screws down through the lowest rail hold it to the counter, clear of those of the board.
	foot := &a.Parts[2]
	under := cmp.Or(s.Under, usualUnder)
	held, ok := shop.Reaching(w, under)
	if !ok {
		held, ok = shop.ScrewFor("wood", w, under)
	}
	if !ok || held.Length < w+joinery.Grip*held.Dia {
		why := "stays"
		if ok {
			why = fmt.Sprintf("holds %d diameters", joinery.Grip)
		}
		say(Loose, finding.Warning, fmt.Sprintf("no screw of the catalogue goes down through %s of frame and %s in %s of counter", text(w), why, text(under)), "state a narrower frame, or add a screw to hardware", w)
	}
	if ok {
		tool, dia, _ := shop.Pilot(cmp.Or(held.Clearance, held.Dia))
		var level []L // places of screws that cross the rail
		for _, o := range foot.Ops {
			if o.Kind == part.Hole && (o.Face == part.Upper || o.Face == part.Lower) {
				level = append(level, o.X)
			}
		}
		long := foot.Size[0]
		c := geom.B(bx.Min.X+w, face, bx.Min.Z, bx.Max.X-w, rear, bx.Min.Z)
		at := joinery.Along(c, 2*max(1, int((long+2*footScrews-1)/footScrews/2)), footFirst) // even: none in the middle
		for _, v := range at {
			for _, x := range level {
				// Out of the way towards the middle, from either side alike.
				switch d := v.X - c.Min.X - x; {
				case d.Abs() >= footClear:
				case v.X-c.Min.X < long/2:
					v.X = c.Min.X + x + footClear
				default:
					v.X = c.Min.X + x - footClear
				}
			}
			foot.Bore(part.Hole, foot.Facing(geom.Up), v, dia, w, joinery.LongBit(tool, dia, w), part.ScrewToCounter)
			a.Fixings = append(a.Fixings, part.Fixing{Owner: id, Kind: part.ToCase, Part: foot.Local, At: v, Screw: held.ID, Length: held.Length, Row: "counter",
				Layers: []part.Layer{{Name: "frame", Stock: frame, Thickness: w}}, Into: held.Length - w})
		}
		a.Hardware = append(a.Hardware, part.Item{Owner: id, ID: held.ID, Kind: "screw", Count: len(at), Length: held.Length, For: part.HutchToCounter})
	}
	found.Add(told.List("hutch/" + id)...)
	return done()
}
