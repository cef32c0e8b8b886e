package rules_test

import (
	"strings"
	"testing"

	"stowright/internal/finding"
	"stowright/internal/geom"
	"stowright/internal/length"
	"stowright/internal/part"
	"stowright/internal/rules"
)

// A leaf that reaches R from its pivot and stands g from a wall is stopped when R·sin a = g, a
// past 90 degrees: asin(60/560) = 6.15, so at 96; asin(300/560) = 32.4, so at 122; 500 mm leave
// asin(500/560) = 63.2, so the hinge's 155 are reached (geometry).
func TestADoorThatTraysRelyOn(t *testing.T) {
	for _, c := range []struct {
		from  length.Length
		angle int
		trays bool
		at    string
		sev   finding.Severity
	}{
		{60, 155, true, "at 96 degrees", finding.Error},
		{300, 155, true, "at 122 degrees", finding.Warning},
		{500, 155, true, "", finding.Error},
		{60, 155, false, "at 96 degrees", finding.Note}, // shelves behind it
		{60, 110, true, "at 96 degrees", finding.Note},  // trays packed out
		{300, 110, true, "", finding.Error},
	} {
		b := newBed().wide(c.from, c.angle, c.trays)
		l := b.check().With(rules.DoorStopped)
		if c.at == "" {
			if len(l) > 0 {
				t.Errorf("%+v: %v", c, l)
			}
			continue
		}
		if len(l) != 1 || !strings.Contains(l[0].Text, "wall west "+c.at) || l[0].Severity != c.sev {
			t.Errorf("%+v: %v", c, l)
		}
	}
}

// A counter stands out 19 before the fronts, 2 from the hinged edge of a door that lies over its side by 16. At a degrees
// past 90 the leaf is beside the counter's corner d = (19 + 16 sin a)/cos a along its face, and 16 cos a + d sin a from
// the pivot's line: 17.7 at 5 degrees, 18.1 at 6, where 18 are free (geometry).
func TestADoorIsStoppedByACounterBesideIt(t *testing.T) {
	b := newBed()
	b.put("north", "a", 1000, 500, 0, 1560, 800).door("a", geom.Left)
	m := &b.all.Motions[0]
	m.Angle = 110
	m.Pivot.X = m.Closed.Min.X + 16*mm
	b.put("north", "c", 400, 539, 700, 998, 740)
	l := b.check().With(rules.DoorStopped)
	if len(l) != 1 || !strings.Contains(l[0].Text, "at 95 degrees") || l[0].Severity != finding.Note {
		t.Error(l)
	}
}

// wide puts a case 560 wide so far from the west wall, its door hinged beside it, with or without a
// tray behind it.
func (b *bed) wide(from length.Length, angle int, tray bool) *bed {
	b.put("north", "a", from, 500, 0, from+560, 800).door("a", geom.Left)
	b.all.Motions[0].Angle = angle
	if tray {
		x := b.owner("a").Box
		box := geom.B(x.Min.X+20*mm, -480*mm, 100*mm, x.Max.X-20*mm, -40*mm, 160*mm)
		b.all.Motions = append(b.all.Motions, part.Motion{ID: "a/tray", Owner: "a", Kind: part.Slide, Closed: box, Dir: geom.Front, Travel: 450 * mm, Needs: "a/door", Swept: box.Or(box.Shift(geom.Front.Vec(450 * mm)))})
	}
	return b
}

// A door at an end of a wall that nobody surveyed may be stopped there: that is told as not known, and not where it stands
// far enough off or where a wall is known to meet this one.
func TestADoorThatOpensPastTheEndOfItsWall(t *testing.T) {
	for _, c := range []struct {
		wall string
		from length.Length
		told bool
	}{{"north", 60, false}, {"west", 60, true}, {"west", 500, false}} {
		b := newBed()
		b.put(c.wall, "a", c.from, 500, 0, c.from+560, 800).door("a", geom.Left)
		b.all.Motions[0].Angle = 110
		told := false
		for _, f := range b.check().With(rules.DoorStopped) {
			told = told || f.Verdict == finding.NotKnown && strings.Contains(f.Text, "left end of wall "+c.wall)
		}
		if told != c.told {
			t.Errorf("%d from the left end of %s: told %v", c.from, c.wall, told)
		}
	}
}
