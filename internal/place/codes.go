package place

import "stowright/internal/finding"

// Codes of findings that placing gives.
const (
	// RunTooLong: a run's widths add to more than its wall has.
	// Example: three cases of 30 in on a wall of 84 in pass it by 6 in.
	RunTooLong finding.Code = "run-too-long"
	// RunGap: cases between standing things leave room, or do not fit.
	// Example: cases of 700 mm and 762 mm in a gap of 1 500 mm leave 38 mm.
	RunGap finding.Code = "run-gap"
	// RunStart: a run does not start where the job says, because it has something that stands already.
	// Example: start: 2 in, and a case of 30 in before a standing one at 60 in.
	RunStart finding.Code = "run-start"
	// FillerWide: a filler would be wider than wanted.
	// Example: 5 in are left between a run and the wall, 3 in is the widest filler.
	FillerWide finding.Code = "filler-wide"
	// GapSize: the size that a case takes from a measured gap.
	// Example: widths of 917, 912 and 910 mm less 3 mm make 907 mm.
	GapSize finding.Code = "gap-size"
	// GapUneven: a gap's neighbours do not share their top line or front.
	// Example: the left one is 868 mm high, the right one 860 mm.
	GapUneven finding.Code = "gap-uneven"
	// GapDiffers: the widths measured of a gap are not what the survey leaves between its neighbours.
	// Example: 20 in measured, 10 in between the two as surveyed.
	GapDiffers finding.Code = "gap-differs"
	// GapStated: a case in a gap says a size that the gap does not give it.
	// Example: a width of 30 in in a gap that gives 29-7/8.
	GapStated finding.Code = "gap-stated"
	// UnfixNeighbour: a case goes into its gap only when a neighbour is unfixed and drawn aside.
	// Example: a gap of 900 mm at the floor and 880 mm in front, for a case of 890 mm.
	UnfixNeighbour finding.Code = "unfix-neighbour"
	// KneeSmall: a knee space is too small for what it is for.
	// Example: a case of 24 in is to roll into 24 in.
	KneeSmall finding.Code = "knee-small"
	// TopsDiffer: a counter lies on cases whose tops are not in one line, or a run does not share
	// the upper edge of the run that it is aligned with.
	// Example: 34-1/2 in and 34 in under one counter.
	TopsDiffer finding.Code = "tops-differ"
	// CounterWalls: a counter is to lie on cases of more than one wall.
	// Example: over: [north run, west run], two runs that meet in a corner.
	CounterWalls finding.Code = "counter-walls"
	// CounterHeight: a counter is not at the height that was asked for.
	// Example: 36-3/4 in where 36 in is wanted.
	CounterHeight finding.Code = "counter-height"
	// BedLevel: a counter that should be level with a machine's bed is not.
	// Example: the bed is at 38-1/8 in, the counter at 38 in.
	BedLevel finding.Code = "bed-level"
	// MachineStands: how high what a machine stands on must be.
	// Example: the saw stands 33-7/8 in above the level line for its bed to be level.
	MachineStands finding.Code = "machine-stands"
	// NothingUnder: a counter, base or hutch lies on nothing, or has no size.
	// Example: a hutch stands on a counter that lies on no case.
	NothingUnder finding.Code = "nothing-under"
	// CounterButts: a counter ends at the front of the one round the corner, or cannot.
	// Example: two counters of walls that meet at 94 degrees, which leave a wedge of 42 mm.
	CounterButts finding.Code = "counter-butts"
	// BaseAsStick: a base is as high as its stick is wide, which is hardly other than what was said.
	// Example: 89 mm of a 2x4, which is 88.9 mm wide.
	BaseAsStick finding.Code = "base-as-stick"
	// NotPlaced: a case is in no run and has no place.
	// Example: a case that no run lists and that has no at:.
	NotPlaced finding.Code = "not-placed"
	// SurveyLacks: facts that the survey does not give, all in one line.
	// Example: studs of wall back, height of wall side.
	SurveyLacks finding.Code = "survey-lacks"
)
