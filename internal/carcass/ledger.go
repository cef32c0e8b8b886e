package carcass

import (
	"fmt"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/joinery"
	"stowright/internal/part"
)

// LedgerRails: a ledger is asked for where no rails stand before it.
const LedgerRails finding.Code = "ledger-rails"

const (
	ledgerPast  = 50 * mm  // of a ledger past the centre of its last stud
	ledgerPitch = 100 * mm // between the screws that hold a rail to its ledger, no more
	ledgerFirst = 40 * mm  // the first of them, from the rail's end
	ledgerEdge  = 4 * mm   // of the ledger behind their points
	ledgerGrip  = 6        // diameters that they reach into it at least (NDS 2018 12.1.4)
)

// Studs is how far the ledgers of a case reach along its wall, from its left side; zero where that is not
// known. They end with the case where it has a neighbour.
type Studs struct {
	First, Last         L
	EndsLeft, EndsRight bool
}

// ledgerStock settles the ledgers of a case that hangs by rails: their stock, and how far they hold it off the
// wall, which its depth includes.
func (b *build) ledgerStock() {
	id := b.spec.Hangs.Ledger
	if id == "" || !b.wall {
		return
	}
	if b.spec.Hangs.Kind == "cleat" {
		b.say(LedgerRails, finding.Warning, "", "the case hangs by a cleat: its ledger is left out", "say hangs-by: {kind: rail}, whose rails are screwed to ledgers")
		return
	}
	if st, ok := b.env.Catalogue.Stick(id); ok {
		b.off, b.ledgerHigh, b.ledgerOf = min(st.Thickness, st.Width), max(st.Thickness, st.Width), part.Stick
	} else if bd, ok := b.env.Catalogue.Board(id); ok {
		b.off, b.ledgerHigh, b.ledgerOf = bd.Thickness, 90*mm, part.Board
	} else {
		b.say(NoBoard, finding.Error, "", fmt.Sprintf("its ledgers are to be of %q, which is no stick and no board", id), "name a stick or a board")
		return
	}
	b.d -= b.off
}

// ledger puts a ledger behind a rail, as far as the studs, and the screws from the rail into it. The wall's
// screws are then the ledger's.
func (b *build) ledger(rail string, z L, row string, layers []part.Layer) {
	x0, x1 := min(0, b.site.Studs.First-ledgerPast), max(b.w, b.site.Studs.Last+ledgerPast)
	if at := b.site.Studs; at.First == 0 && at.Last == 0 {
		x0, x1 = 0, b.w
	}
	if b.site.Studs.EndsLeft {
		x0 = 0
	}
	if b.site.Studs.EndsRight {
		x1 = b.w
	}
	high := b.ledgerHigh
	p := part.New("ledger-"+row, part.Ledger, row+" ledger", b.spec.Hangs.Ledger, geom.B(x0, b.d, z-high/2, x1, b.d+b.off, z-high/2+high), geom.Right, geom.Up)
	p.Material = b.ledgerOf
	p.Note = "fixed to the wall first, level; the case's rail is screwed to it"
	b.put(p)
	b.a.Wanted = append(b.a.Wanted, part.Wanted{Part: p.Local, From: x0 + ledgerFirst, To: x1 - ledgerFirst, Y: b.d + b.off, Z: z, Low: z, High: z, Row: row,
		Layers: []part.Layer{{Name: "ledger", Stock: b.spec.Hangs.Ledger, Thickness: b.off}}})
	through := L(0)
	for _, l := range layers {
		through += l.Thickness
	}
	hw, ok := b.shop.ScrewFor("wall", through, b.off+4*mm-ledgerEdge)
	if w, is := b.shop.ScrewFor("wood", through, b.off+4*mm-ledgerEdge); is && (!ok || w.Length > hw.Length) {
		hw, ok = w, true
	}
	if !ok || hw.Length-through < ledgerGrip*hw.Dia {
		b.say(LedgerRails, finding.Error, "", fmt.Sprintf("no screw goes through %s of rail and back, holds %d diameters in %s of ledger and stays in it", b.text(through), ledgerGrip, b.text(b.off)), "take a thicker ledger: a stick of 38 mm or more")
		if !ok {
			return
		}
	}
	at := joinery.Places(b.w-2*b.t, ledgerFirst, ledgerPitch, 2)
	for _, x := range at {
		b.a.Fixings = append(b.a.Fixings, part.Fixing{Owner: b.id, Kind: part.ToLedger, Part: rail, At: geom.V(b.t+x, b.d, z), Screw: hw.ID, Length: hw.Length, Layers: layers, Into: hw.Length - through, Row: row})
	}
	b.item(part.Item{ID: hw.ID, Kind: "screw", Count: len(at), Length: hw.Length, For: "rails to ledgers"})
}
