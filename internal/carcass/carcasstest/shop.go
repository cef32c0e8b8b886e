// Package carcasstest gives tests of several packages shops to build in and random cases to
// build: every joint, back, top, base, hanging and fitting comes up.
package carcasstest

import (
	"stowright/internal/fitting"
	"stowright/internal/length"
	"stowright/internal/mass"
	"stowright/internal/stock"
)

type L = length.Length

const (
	mm = length.MM
	in = length.Inch
)

// Set is the fittings of the whole program that a generator may use; the caller lists them, so
// that this package depends on none.
type Set = fitting.Set

// Catalogue is a small catalogue with what both shops use, thicknesses as measured.
func Catalogue() stock.Catalogue {
	kg := func(n int64) *mass.Mass { m := mass.Mass(n) * mass.Kilogram; return &m }
	board := func(id string, t L) stock.Board {
		return stock.Board{ID: id, Name: id, Material: "birch", Thickness: t, Length: 2500 * mm, Width: 1250 * mm}
	}
	screw := func(id, use, sold string, long, dia, pilot, clear L) stock.Hardware {
		return stock.Hardware{ID: id, Kind: "screw", Use: use, Sold: sold, Length: long, Dia: dia, Pilot: pilot, Clearance: clear, Pack: 100}
	}
	var m []L
	for l := 250 * mm; l <= 700*mm; l += 50 * mm {
		m = append(m, l)
	}
	var i []L
	for l := 10 * in; l <= 28*in; l += 2 * in {
		i = append(i, l)
	}
	return stock.Catalogue{
		Boards: []stock.Board{
			board("m18", 17700*mm/1000), board("m12", 11800*mm/1000), board("m9", 8800*mm/1000), board("m6", 5900*mm/1000),
			board("i34", 705*in/1000), board("i12", 472*in/1000), board("i14", 205*in/1000),
		},
		Sticks:    []stock.Stick{{ID: "strip", Species: "oak", Thickness: 20 * mm, Width: 40 * mm, Length: 2400 * mm}},
		Materials: []stock.Material{{ID: "birch", Density: "680"}},
		Edgings:   []stock.Edging{{ID: "abs", Thickness: mm}, {ID: "iron", Thickness: in / 50}},
		Hardware: []stock.Hardware{
			{ID: "h110", Kind: "hinge", Overlay: 15 * mm, Boring: 5 * mm, Plate: 2 * mm, Plates: []L{0, 2 * mm, 4 * mm}, CupDia: 35 * mm, CupDepth: 13 * mm, CupScrews: 45 * mm, CupScrewBack: 9500 * mm / 1000, PlateRow: 37 * mm, PlatePitch: 32 * mm, Opens: 110},
			{ID: "h155", Kind: "hinge", Overlay: 15 * mm, Boring: 5 * mm, Plate: 2 * mm, Plates: []L{0, 2 * mm, 4 * mm}, CupDia: 35 * mm, CupDepth: 13 * mm, CupScrews: 45 * mm, CupScrewBack: 9500 * mm / 1000, PlateRow: 37 * mm, PlatePitch: 32 * mm, Opens: 155},
			{ID: "h110h", Kind: "hinge", Overlay: 5500 * mm / 1000, Boring: 5 * mm, Plate: 2 * mm, Plates: []L{0, 2 * mm, 4 * mm}, CupDia: 35 * mm, CupDepth: 13 * mm, CupScrews: 45 * mm, CupScrewBack: 9500 * mm / 1000, PlateRow: 37 * mm, PlatePitch: 32 * mm, Opens: 110},
			{ID: "side-m", Kind: "slide", SlideKind: "side", Sold: "mm", Lengths: m, Section: 12700 * mm / 1000, SideRoom: 13 * mm, Height: 45 * mm, Extends: "full", Rating: kg(45), ScrewsEach: 4},
			{ID: "side-i", Kind: "slide", SlideKind: "side", Sold: "in", Lengths: i, Section: in / 2, SideRoom: 17 * in / 32, Height: 9 * in / 5, Extends: "full", Rating: kg(45), ScrewsEach: 4},
			{ID: "under-m", Kind: "slide", SlideKind: "under", Sold: "mm", Lengths: m, Section: 13 * mm, SideRoom: 21 * mm, Height: 13 * mm, Extends: "full", Rating: kg(40), ScrewsEach: 4},
			{ID: "plate-0", Kind: "plate"}, {ID: "plate-2", Kind: "plate", Plate: 2 * mm}, {ID: "plate-4", Kind: "plate", Plate: 4 * mm},
			{ID: "pin", Kind: "pin", Dia: 5 * mm}, {ID: "pin4", Kind: "pin", Dia: in / 4},
			{ID: "foot-100", Kind: "foot", Height: 95 * mm, Greatest: 125 * mm, TurnFrom: "front", Rating: kg(50)},
			{ID: "foot-bolt", Kind: "foot", Height: 13 * mm, Greatest: 100 * mm, TurnFrom: "above", Dia: 10 * mm, Rating: kg(90)},
			{ID: "castor", Kind: "castor", Height: 100 * mm, Rating: kg(50), Locks: true},
			{ID: "bow", Kind: "handle", Length: 128 * mm}, {ID: "cam", Kind: "lock"}, {ID: "lock-one-drawer", Kind: "lock"},
			{ID: "dowel-8-30", Kind: "dowel", Dia: 8 * mm, Length: 30 * mm},
			{ID: "hanging-rail-25", Kind: "other", Dia: 25 * mm}, {ID: "hang-rail-flange", Kind: "rail-flange", ScrewsEach: 3},
			screw("pocket-25", "pocket", "both", in, 4*mm, 0, 0), screw("pocket-32", "pocket", "both", 5*in/4, 4*mm, 0, 0),
			screw("connect-50", "connecting", "mm", 50*mm, 7*mm, 5*mm, 7*mm),
			screw("wood-30", "wood", "both", 30*mm, 4*mm, 3*mm, 4500*mm/1000), screw("wood-50", "wood", "both", 50*mm, 4*mm, 3*mm, 4500*mm/1000),
			screw("slide-12", "slide", "both", 12*mm, 4*mm, 3*mm, 4*mm), screw("slide-8", "slide", "both", 8*mm, 4*mm, 3*mm, 4*mm),
			screw("slide-16", "slide", "both", 16*mm, 4*mm, 3*mm, 4*mm), screw("hinge-16", "hinge", "both", 16*mm, 3500*mm/1000, 2500*mm/1000, 0),
			screw("front-25", "front", "both", 25*mm, 4*mm, 3*mm, 6*mm), screw("join-30", "joining", "both", 30*mm, 4*mm, 3*mm, 4500*mm/1000),
		},
	}
}

// Metric is a metric shop on the 32 mm grid.
func Metric() fitting.Env {
	step := 32 * mm
	return fitting.Env{Catalogue: Catalogue(), Owner: "c", Practice: stock.Practice{
		ID: "metric", Unit: "mm", Joint: "dowel", JointElse: "connecting-screw", JointFirst: 37 * mm, JointPitch: 128 * mm, JointLeast: 3, Glue: true,
		DadoDepth: 6 * mm, Back: "captured", BackSetback: 12 * mm, Top: "stretchers", StretcherWidth: 96 * mm, RailWidth: 96 * mm,
		FrontGap: 3 * mm, SideGap: 1500 * mm / 1000, TopGap: 3 * mm, DoorAir: 2 * mm, LeastMargin: 6 * mm,
		GridPitch: 32 * mm, GridFront: 37 * mm, GridRear: 37 * mm, GridStep: &step, GridEnds: 96 * mm, PinDia: 5 * mm, PinDepth: 12 * mm, ShelfEnd: mm, ShelfSetback: 3 * mm,
		BoxJoint: "dowel", BoxSide: "m12", BoxBottom: "m6", BoxBottomHeavy: "m9", BoxGroove: 6 * mm, BoxGrooveUp: 13 * mm, BoxBottomHow: "grooved", BoxUnder: 6 * mm, BoxOver: 12 * mm,
		Case: "m18", FrontBoard: "m18", BackBoard: "m6", ShelfBoard: "m18", Edging: "abs", BandAll: true, Hinge: "h110", Slide: "side-m", Pin: "pin", Foot: "foot-100", Castor: "castor", Handle: "bow", Lock: "cam",
		RackSide: "m12", StripStick: "strip", Bits: []L{2500 * mm / 1000, 3 * mm, 3500 * mm / 1000, 4 * mm, 4500 * mm / 1000, 5 * mm, 6 * mm, 7 * mm, 8 * mm, 10 * mm, 35 * mm},
		Tools: []stock.Tool{{ID: "panel saw", Kind: "panel-saw", Bevels: true, Grooves: true}, {ID: "drill", Kind: "drill"}, {ID: "dowel jig", Kind: "dowel-jig"}, {ID: "pocket jig", Kind: "pocket-jig"}},
	}}
}

// Inch is an inch shop with pocket screws.
func Inch() fitting.Env {
	return fitting.Env{Catalogue: Catalogue(), Owner: "c", Practice: stock.Practice{
		ID: "inch", Unit: "in", Joint: "pocket-screw", JointElse: "wood-screw", JointFirst: 2 * in, JointPitch: 6 * in, JointLeast: 2, Glue: true,
		DadoDepth: in / 4, Back: "captured", BackSetback: in / 2, Top: "full", StretcherWidth: 7 * in / 2, RailWidth: 7 * in / 2,
		FrontGap: in / 8, SideGap: in / 16, TopGap: in / 8, BottomGap: in / 16, DoorAir: in / 16, LeastMargin: in / 4,
		GridPitch: 5 * in / 4, GridFront: 3 * in / 2, GridRear: 3 * in / 2, GridEnds: 5 * in, PinDia: in / 4, PinDepth: 7 * in / 16, ShelfEnd: in / 16, ShelfSetback: in / 8,
		BoxJoint: "pocket-screw", BoxSide: "i12", BoxBottom: "i14", BoxBottomHeavy: "i12", BoxGroove: in / 4, BoxGrooveUp: in / 4, BoxBottomHow: "grooved", BoxUnder: in / 4, BoxOver: in / 2,
		Case: "i34", FrontBoard: "i34", BackBoard: "i14", ShelfBoard: "i34", Edging: "iron", BandAll: true, Hinge: "h110", Slide: "side-i", Pin: "pin4", Foot: "foot-bolt", Castor: "castor", Handle: "bow", Lock: "cam",
		RackSide: "i12", StripStick: "strip", Bits: []L{3 * in / 32, 7 * in / 64, in / 8, 9 * in / 64, 5 * in / 32, 11 * in / 64, 3 * in / 16, in / 4, 5 * in / 16, 3 * in / 8, 35 * mm},
		Tools: []stock.Tool{{ID: "table saw", Kind: "table-saw", Bevels: true, Grooves: true}, {ID: "drill", Kind: "drill"}, {ID: "pocket jig", Kind: "pocket-jig"}},
	}}
}

// OneSaw is a shop of one circular saw and a drill: nothing grooves.
func OneSaw() fitting.Env {
	e := Metric()
	e.Practice.ID, e.Practice.Joint, e.Practice.JointElse, e.Practice.Back = "one-saw", "wood-screw", "wood-screw", "captured"
	e.Practice.Tools = []stock.Tool{{ID: "circular saw", Kind: "circular-saw", Bevels: true}, {ID: "drill", Kind: "drill"}}
	return e
}
