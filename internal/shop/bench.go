package shop

import (
	"fmt"
	"slices"
	"strings"

	"stowright/internal/part"
)

// A bench is a frame and a top. The frame is put together by itself, where a driver reaches every screw; then
// the top, screwed up by itself too, lies face down and the frame stands on it upside down.

// counterRank is the order for counters: their layers first, that what goes under them is set out and
// screwed against the whole thickness; the lower shelf of a frame when its rails are there.
func counterRank(p part.Part) int {
	switch p.Role {
	case part.CounterLayer:
		return -2
	case part.FixedShelf:
		return 100
	}
	return rank(p)
}

// bench parts what has legs into its frame and its top; no frame where there are none.
func (w *maker) bench(parts []part.Part) (frame, top []part.Part) {
	if !slices.ContainsFunc(parts, func(p part.Part) bool { return p.Role == part.Leg }) {
		return nil, parts
	}
	rails := map[string]bool{}
	for _, p := range parts {
		rails[p.Mark] = p.Role == part.Rail
	}
	for _, p := range parts {
		railed := slices.ContainsFunc(w.own.Joints, func(j part.Joint) bool { return j.A == p.Mark && rails[j.B] || j.B == p.Mark && rails[j.A] })
		switch {
		case p.Role == part.Leg || p.Role == part.Rail || p.Role == part.Frame || p.Role == part.FixedShelf || p.Role == part.Spacer && railed:
			frame = append(frame, p)
		default:
			top = append(top, p)
		}
	}
	return frame, top
}

// topOn screws a top to its frame.
func (w *maker) topOn(frame, top []part.Part) {
	own, all := map[string]bool{}, map[string]bool{}
	for _, p := range frame {
		own[p.Mark], all[p.Mark] = true, true
	}
	for _, p := range top {
		all[p.Mark] = true
	}
	b := newBench(slices.Concat(frame, top), w.own.Joints, w.onSpotDrills)
	for _, p := range top {
		var js []part.Joint
		for _, j := range w.own.Joints {
			if j.A == p.Mark && own[j.B] || j.B == p.Mark && own[j.A] {
				js = append(js, j)
			}
		}
		if len(js) == 0 {
			continue
		}
		st := Step{Parts: append([]string{p.Mark}, w.across(js, p.Mark)...), Tool: w.driver(js), Caution: w.tooHeavy(w.owner)}
		w.fits(&st, js)
		text, spots := w.join(p, js)
		st.Text = fmt.Sprintf("lay the top face down on blankets and set the frame on it upside down. %s", text)
		st.Points = spots
		w.reach(&st, b, p.Mark, all)
		st.Text += " Then turn the whole over."
		w.step(st)
	}
}

// longBit drives screws that stand close beside a board.
const (
	longBit   = "long driver bit"
	pocketBit = "long driver bit for pockets"
)

// reach names a long driver bit where the drill would foul what is there, and says it again where a step is told anew.
func (w *maker) reach(st *Step, b *bench, mark string, made map[string]bool) {
	tools := func() []string { return strings.Split(st.Tool, ", ") }
	if far := b.tight(mark, made); far > 0 {
		w.far(longBit, far)
		if !slices.Contains(tools(), longBit) {
			st.Tool += ", " + longBit
		}
	}
	const close = " A board stands close beside some of these screws: "
	if slices.Contains(tools(), longBit) && !strings.Contains(st.Text, close) {
		bored := ""
		if strings.Contains(st.Text, "ore for them on the spot") {
			bored = "bore for them leaning a little away from it, and "
		}
		st.Text += close + bored + "drive them with a " + longBit + "."
	}
}
