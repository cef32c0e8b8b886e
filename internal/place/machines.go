package place

import (
	"cmp"
	"fmt"
	"slices"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/length"
)

// levelled gives the counters that are to be level with a machine's bed, on one wall or on all.
func (l *layout) levelled(machine string, wall *string) []Seat {
	var list []Seat
	for _, o := range l.room.Seats {
		if o.Kind != Counter || wall != nil && o.Wall != *wall {
			continue
		}
		if c := l.counter(o.ID); c != nil && (c.Level == machine || l.benchOf(o, machine)) {
			list = append(list, o)
		}
	}
	return list
}

// bedLevel holds counters against the bed of a machine whose feet stand at z; where nothing says
// what carries it, z is what the first of them asks for, and that is told.
func (l *layout) bedLevel(s Seat, z, bed L, levelled []Seat, known bool) {
	if !known {
		l.found.Add(finding.Finding{Code: MachineStands, Severity: finding.Note, At: "machine/" + s.ID, Source: "arithmetic",
			Text: fmt.Sprintf("%s must stand %s above the floor's high point for its bed to be level with counter %s.", s.Name, l.in(z-s.Level), levelled[0].ID)})
	}
	for _, c := range levelled {
		d := c.Top - (z + bed)
		if d.Abs() < length.MM/2 {
			continue
		}
		how := "above"
		if d < 0 {
			how = "below"
		}
		l.found.Add(finding.Finding{Code: BedLevel, Severity: finding.Error, At: "counter/" + c.ID, Source: "common practice, no source",
			Text: fmt.Sprintf("Counter %s is %s %s the bed of %s (%s against %s).", c.ID, l.in(d.Abs()), how, s.Name, l.in(c.Top-s.Level), l.in(z+bed-s.Level)),
			Hint: fmt.Sprintf("Move one of them by %s.", l.in(d.Abs())), Verdict: finding.Fails, Demand: mm(d.Abs()), Capacity: 0.5, Unit: "mm"})
	}
}

// stand seats machines: on the case or counter under them, or so that the bed is level with
// the counter beside it that asks to be.
func (l *layout) stand() {
	for _, m := range l.job.Machines {
		if slices.ContainsFunc(l.machines, func(w waiting) bool { return w.id == m.ID }) {
			continue
		}
		// It stands somewhere in the room: how high its feet must be is still known.
		if levelled := l.levelled(m.ID, nil); m.Value.Bed != nil && len(levelled) > 0 {
			s := Seat{ID: m.ID, Name: cmp.Or(m.Value.Name, m.ID), Level: levelled[0].Level}
			l.bedLevel(s, levelled[0].Top-*m.Value.Bed, *m.Value.Bed, levelled, false)
		} else {
			l.found.Add(finding.Finding{Code: NotPlaced, Severity: finding.Note, At: "machine/" + m.ID, Verdict: finding.NotKnown, Source: "the job",
				Text: fmt.Sprintf("Where %s stands is not stated: it is not drawn, and its weight and the room that it needs are not checked.", cmp.Or(m.Value.Name, m.ID)),
				Hint: "Put it in the order of a run: machine: " + m.ID + ", over a case or by itself."})
		}
	}
	for _, m := range l.machines {
		v, _ := l.machine(m.id)
		w := l.wallOf(m.wall)
		mid := m.from + (m.to-m.from)/2
		s := Seat{ID: m.id, Kind: Machine, Name: cmp.Or(v.Name, m.id), Wall: m.wall, Run: m.run, On: m.on, Level: l.level[m.run]}
		z, known := L(0), false
		levelled := l.levelled(m.id, &m.wall)
		for _, o := range l.room.Seats {
			if o.Kind != Counter || o.Wall != m.wall || slices.ContainsFunc(levelled, func(c Seat) bool { return c.ID == o.ID }) {
				continue
			}
			if o.Box.Min.X <= mid && mid <= o.Box.Max.X && (m.on == "" || o.Run == m.run) {
				z, known, s.On = o.Top, true, o.ID
			}
		}
		if !known && m.on != "" {
			if c := l.room.Seat(m.on); c != nil {
				z, known = c.Top, true
			}
		}
		if v.Bed != nil && len(levelled) > 0 {
			if !known {
				z = levelled[0].Top - *v.Bed
			}
			l.bedLevel(s, z, *v.Bed, levelled, known)
		} else if !known {
			z = s.Level
		}
		high := L(0)
		if v.Height != nil {
			high = *v.Height
		} else if v.Bed != nil {
			high = *v.Bed
		}
		rear := L(0)
		if w != nil {
			rear = w.Proudest(max(0, m.from), max(0, min(m.to, w.Length)), z, z+high).Down(l.job.Print.Step())
		}
		s.Rear, s.Top = rear, z+high
		s.Box = geom.B(mid-v.Width/2, rear-v.Depth, z, mid-v.Width/2+v.Width, rear, z+high)
		if v.Bed != nil {
			s.Bed = z + *v.Bed
		}
		if v.SwingWidth != nil || v.SwingDepth != nil {
			wide, deep := v.Width, v.Depth
			if v.SwingWidth != nil {
				wide = *v.SwingWidth
			}
			if v.SwingDepth != nil {
				deep = *v.SwingDepth
			}
			from := z
			if s.Bed > 0 {
				from = s.Bed
			}
			s.Swing = geom.B(mid-wide/2, rear-deep, from, mid-wide/2+wide, rear, max(z+high, from+12*length.Inch))
		}
		l.add(s)
	}
}

// benchOf reports whether the run that a counter lies on asks for a level bench with a machine.
func (l *layout) benchOf(s Seat, machine string) bool {
	for _, n := range l.job.Runs {
		if n.ID == s.Run && n.Value.Bench == machine {
			return true
		}
	}
	return false
}
