package place

import (
	"cmp"

	"stowright/internal/carcass"
	"stowright/internal/finding"
	"stowright/internal/job"
	"stowright/internal/order"
)

// Kind says what sits in a seat.
type Kind string

// Kinds of seat.
const (
	Case     Kind = "case"
	Counter  Kind = "counter"
	Base     Kind = "base"
	Hutch    Kind = "hutch"
	Filler   Kind = "filler"
	Standing Kind = "standing"
	Machine  Kind = "machine"
)

// Seat is where one thing is and how big it is there.
type Seat struct {
	ID    string
	Kind  Kind
	Name  string
	Wall  string
	Run   string
	Stage string
	Box   Box // envelope in the wall's frame, fronts closed
	Level L   // level line that it is measured from: the floor's high point under its run
	Top   L   // top of the carcass, or of the counter
	Rear  L   // y of its back plane
	Hung  bool
	Moves bool // rolls, slides or stands free
	Left  string
	Right string    // neighbours whose sides touch: ids of cases or standing cases
	Odd   [2]string // cases: why the rows of joining holes do not meet those of the left and right neighbour, "" where they do
	Joins [2]bool   // cases: they are joined to the left and right neighbour by the family's row
	Row   Joining   // cases: where the screws of that row go

	Spec carcass.Spec // cases: with the sizes that the room gives
	Site carcass.Site

	Pieces  []Piece // counters and bases: what it lies on, or stands under, from left to right
	Knees   []Knee  // counters: spaces to sit at or to roll into
	Over    L       // counters: past the fronts
	Of      string  // bases: the entry of the job that asks for it; one for each stretch without a gap
	On      string  // hutches and machines: the counter or case they stand on
	Bed     L       // machines: height of the bed in the wall's frame, 0 when not known
	Swing   Box     // machines: room to work in
	Play    [2]L    // cases in a gap: what both sides together leave at the narrowest and at the widest place measured
	Unfix   string  // cases: the neighbour that must be unfixed and drawn aside to let it in, "" for none
	Sides   bool    // standing things: a case, or a cupboard whose boards are measured, whose sides take screws; a steel cupboard, a machine or an open table has none
	Butt    string  // counters: the one round the corner against whose front it butts, "" for none
	Butts   bool    // fillers: ends at the run round the corner, not at a wall
	Reserve string  // cases: the counter whose knee space they slide or roll into
}

// Joining is where the screws that join neighbours go, every size from the nearest edge of the
// carcass: behind its front edge, before its back, above its bottom's lower edge, below its top.
type Joining struct {
	Front, Rear, Low, High L
	Screw                  string // hardware id, "" for whatever fits
}

// Piece is a stretch under a counter or over a base.
type Piece struct {
	ID       string // case
	From, To L
}

// Knee is a space to sit at under a counter, in the wall's frame.
type Knee struct {
	Run      string
	From, To L
	Want     job.Knee
	Gap      bool // no knee space of the job: cases stand apart there
	Clear    L    // clear height under the rails, above the level line
}

// Room is the surveyed room with everything in its place.
type Room struct {
	Walls []Wall
	Seats []Seat
	Depth *L
	Aisle *L
}

// Wall gives a wall by its id, nil when there is none.
func (r *Room) Wall(id string) *Wall {
	for i := range r.Walls {
		if r.Walls[i].ID == id {
			return &r.Walls[i]
		}
	}
	return nil
}

// Seat gives a seat by its id, nil when there is none.
func (r *Room) Seat(id string) *Seat {
	for i := range r.Seats {
		if r.Seats[i].ID == id {
			return &r.Seats[i]
		}
	}
	return nil
}

// At gives the seats on a wall, in their order.
func (r *Room) At(wall string) []*Seat {
	var list []*Seat
	for i := range r.Seats {
		if r.Seats[i].Wall == wall {
			list = append(list, &r.Seats[i])
		}
	}
	return list
}

// layout is the work of All.
type layout struct {
	job   *job.Checked
	room  *Room
	found finding.List
	cases map[string]job.CheckedCase
	level map[string]L    // of runs
	lines map[string]bool // runs laid out
	// entries of the runs as laid: knee spaces and machines wait for counters
	knees    []Knee
	nowhere  Wall // for a job without walls: straight, level, endless
	machines []waiting
	ends     []end // of the runs, for fillers
}

type waiting struct {
	id, run, wall, on string
	from, to          L
}

// All puts everything in its place. Seats come wall by wall: what stands, cases from left to
// right by run, then bases, counters, machines and hutches.
func All(c *job.Checked) (Room, finding.List) {
	r := Room{Depth: c.File.Room.Depth, Aisle: c.File.Room.Aisle}
	for _, w := range c.Walls {
		r.Walls = append(r.Walls, Survey(w))
	}
	r.join(c.Walls)
	l := &layout{job: c, room: &r, cases: map[string]job.CheckedCase{}, level: map[string]L{}, lines: map[string]bool{}, nowhere: Wall{Kind: "not-known", Length: Far}}
	for _, x := range c.Cases {
		l.cases[x.ID] = x
	}
	l.standing()
	l.levels()
	l.runs("floor")
	l.gaps()
	l.loose("floor")
	l.bases()
	l.counters()
	l.rolling()
	l.stand()
	l.runs("wall")
	l.loose("wall")
	l.left()
	for _, e := range l.ends {
		l.fill(e)
	}
	l.hutches()
	l.neighbours()
	l.sites()
	l.missing()
	l.staged()
	rank := map[Kind]int{Standing: 0, Case: 1, Filler: 2, Base: 3, Counter: 4, Machine: 5, Hutch: 6}
	order.Stable(r.Seats, func(a, b Seat) int { return rank[a.Kind] - rank[b.Kind] })
	l.found.Sort()
	return r, l.found
}

// staged gives what names no stage to the first one: it is there before anything later is.
func (l *layout) staged() {
	if len(l.job.File.Stages) == 0 {
		return
	}
	for i := range l.room.Seats {
		if s := &l.room.Seats[i]; s.Kind != Standing {
			s.Stage = cmp.Or(s.Stage, l.job.File.Stages[0].ID)
		}
	}
}

// wallOf gives the wall of a name, or the first; nowhere when there is none.
func (l *layout) wallOf(id string) *Wall {
	if id == "" && len(l.room.Walls) > 0 {
		return &l.room.Walls[0]
	}
	if w := l.room.Wall(id); w != nil {
		return w
	}
	return &l.nowhere
}

func (l *layout) in(v L) string { return v.In(l.job.Print) }

func (l *layout) add(s Seat) *Seat {
	l.room.Seats = append(l.room.Seats, s)
	return &l.room.Seats[len(l.room.Seats)-1]
}
