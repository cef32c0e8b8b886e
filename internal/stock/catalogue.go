package stock

import (
	"fmt"
	"strconv"
)

// Catalogue is everything that can be named: the shipped tables, a maker's own library and
// the job's own entries, merged. Lists are sorted by id.
type Catalogue struct {
	Boards    []Board
	Sticks    []Stick
	Edgings   []Edging
	Hardware  []Hardware
	Goods     []Goods
	Materials []Material
	Species   []Species
}

// Material is what a board is made of. Figures are zero where they are not known.
type Material struct {
	ID      string `job:"-"`
	Name    string `job:"name" doc:"what it is called"`
	Density Ratio  `job:"density" doc:"kg/m3"`
	ELong   Ratio  `job:"modulus-along" doc:"bending modulus along the face grain, MPa"`
	EAcross Ratio  `job:"modulus-across" doc:"bending modulus across the face grain, MPa"`
	FLong   Ratio  `job:"strength-along" doc:"bending strength along the face grain, MPa"`
	FAcross Ratio  `job:"strength-across" doc:"bending strength across the face grain, MPa"`
	GPanel  Ratio  `job:"shear-panel" doc:"panel shear modulus, MPa"`
	GPlanar Ratio  `job:"shear-planar" doc:"planar shear modulus, MPa"`
	Gravity Ratio  `job:"specific-gravity" doc:"for fasteners (NDS)"`
	Creep   Ratio  `job:"creep" doc:"final over instantaneous deflection under permanent load, less one"`
	Source  string `job:"source" doc:"where the figures come from"`
	Status  string `job:"status" doc:"published, from memory, or common practice"`
}

// Species is a kind of solid wood or a lumber group.
type Species struct {
	ID      string `job:"-"`
	Name    string `job:"name" doc:"what it is called"`
	Gravity Ratio  `job:"specific-gravity" doc:"for fasteners (NDS)"`
	E       Ratio  `job:"modulus" doc:"bending modulus, MPa"`
	F       Ratio  `job:"strength" doc:"bending strength, MPa"`
	Design  Ratio  `job:"design-bending" doc:"graded lumber: the reference design value in bending, MPa (NDS Fb), which is counted on in place of a share of its strength"`
	Density Ratio  `job:"density" doc:"kg/m3"`
	Creep   Ratio  `job:"creep" doc:"final over instantaneous deflection under permanent load, less one"`
	Source  string `job:"source" doc:"where the figures come from"`
	Status  string `job:"status" doc:"published, from memory, or common practice"`
}

// Ratio is a number as it is written in a catalogue, kept as text so that nothing is lost;
// "" is not known.
type Ratio string

func find[T any](list []T, id string, of func(*T) string) (T, bool) {
	for i := range list {
		if of(&list[i]) == id {
			return list[i], true
		}
	}
	var zero T
	return zero, false
}

// Board gives the board of an id.
func (c Catalogue) Board(id string) (Board, bool) {
	return find(c.Boards, id, func(b *Board) string { return b.ID })
}

// Stick gives the stick of an id.
func (c Catalogue) Stick(id string) (Stick, bool) {
	return find(c.Sticks, id, func(s *Stick) string { return s.ID })
}

// Treated reports whether an id is that of a stick of preservative-treated wood.
func (c Catalogue) Treated(id string) bool {
	s, _ := c.Stick(id)
	return s.Treated
}

// Edging gives the edging of an id.
func (c Catalogue) Edging(id string) (Edging, bool) {
	return find(c.Edgings, id, func(e *Edging) string { return e.ID })
}

// Item gives the hardware of an id.
func (c Catalogue) Item(id string) (Hardware, bool) {
	return find(c.Hardware, id, func(h *Hardware) string { return h.ID })
}

// Material gives the material of an id.
func (c Catalogue) Material(id string) (Material, bool) {
	return find(c.Materials, id, func(m *Material) string { return m.ID })
}

// SpeciesOf gives the species of an id.
func (c Catalogue) SpeciesOf(id string) (Species, bool) {
	return find(c.Species, id, func(s *Species) string { return s.ID })
}

// Float gives the number, and false when it is not known.
func (r Ratio) Float() (float64, bool) {
	if r == "" {
		return 0, false
	}
	f, err := strconv.ParseFloat(string(r), 64)
	return f, err == nil
}

// Wrong says what is wrong with a number as it is written, and how to write it; "" when nothing is.
func (r Ratio) Wrong() (what, remedy string) {
	if f, ok := r.Float(); r != "" && (!ok || f < 0 || f-f != 0) {
		return fmt.Sprintf("%q is no figure", string(r)), "write the figure alone, without a unit, like 690 or 0.42"
	}
	return "", ""
}

// Whole gives the number rounded to a whole one, and false when it is not known.
func (r Ratio) Whole() (int64, bool) {
	f, ok := r.Float()
	return int64(f + 0.5), ok
}
