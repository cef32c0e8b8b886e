package parttest

import (
	"strings"

	"stowright/internal/part"
)

// Slot gives how high what stands in a rack is kept in, by the highest of its rails or its bored board, and how high
// the lowest part of another rack over it on the same door begins; false where none hangs over it. Both are heights in
// the frame of the assembly.
func Slot(a part.Assembly, b part.Bay) (kept, above part.L, ok bool) {
	if !b.Door {
		return 0, 0, false
	}
	rack := func(local string) string { return local[:strings.LastIndex(local, "-rack-")+len("-rack-")+1] }
	own := ""
	for _, p := range a.Parts {
		if p.Mark != "" && p.Mark == b.Floor || p.Mark == "" && p.Local == b.Floor {
			own = rack(p.Local)
		}
	}
	if own == "" {
		return 0, 0, false
	}
	for _, p := range a.Parts {
		if p.Moves != b.Moves || p.Owner != b.Owner || !strings.Contains(p.Local, "-rack-") {
			continue
		}
		box := p.Box()
		switch {
		case rack(p.Local) == own && (p.Role == part.Rail && box.Min.Y >= b.Box.Max.Y || p.Role == part.RackShelf):
			kept = max(kept, box.Max.Z)
		case rack(p.Local) != own && box.Min.Z > b.Box.Min.Z && (!ok || box.Min.Z < above):
			above, ok = box.Min.Z, true
		}
	}
	return kept, above, ok
}
