package segmental

import (
	"fmt"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Frame is a lifting frame that stands on the tip of an arm and lifts a segment in front of
// it. Distances are measured from the face of the tip back into the deck.
type Frame struct {
	Mark     string
	Weight   float64  // N, 1e3 to 20e6
	CoG      float64  // of its centre of gravity, m, −10 (in front of the tip) to 50
	Front    float64  // of its front feet, m, 0 to 20
	Rear     float64  // of its rear feet and anchors, m, beyond Front, to 50
	Foot     float64  // permissible force of the front feet together, N; 0: by document
	Anchors  *Anchors // at its rear feet; nil: none
	Travel   *Travel  // on its way; nil: its overturning there is left to a document
	Document string   // maker's manual
}

// Anchors are the bars that hold the rear feet of a frame down while it lifts.
type Anchors struct {
	Number   int     // 1 to 40
	Preload  float64 // of each, N, 0 to Capacity
	Capacity float64 // working load limit of one with its anchorage, N, 1e3 to 10e6
	Document string
}

// checkFrames reports the first field of a frame that is not as it must be.
func (d Deck) checkFrames() error {
	marks := map[string]bool{}
	for _, f := range d.Frames {
		if f.Mark == "" || marks[f.Mark] {
			return fmt.Errorf("%w: frame mark %q is empty or used before: must be marks that differ", ErrSegmental, f.Mark)
		}
		marks[f.Mark] = true
		of := "Frame " + f.Mark + " "
		if err := within(of, bound{"Weight", f.Weight, "N", 1e3, 20e6}, bound{"CoG", f.CoG, "m", -10, 50}, bound{"Front", f.Front, "m", 0, 20}, bound{"Rear", f.Rear, "m", f.Front + 0.5, 50}, bound{"Foot", f.Foot, "N", 0, 50e6}); err != nil {
			return err
		}
		if err := f.Travel.check(of + "Travel."); err != nil {
			return err
		}
		if f.Anchors == nil {
			continue
		}
		if err := within(of+"Anchors.", bound{"Number", float64(f.Anchors.Number), "", 1, 40}, bound{"Capacity", f.Anchors.Capacity, "N", 1e3, 10e6}, bound{"Preload", f.Anchors.Preload, "N", 0, f.Anchors.Capacity}); err != nil {
			return err
		}
	}
	return nil
}

// feet are the forces on the front and the rear feet (N, + on the deck) of a load that acts
// a distance before the tip (m).
func (f Frame) feet(load, before float64) (front, rear float64) {
	rear = -load * (before + f.Front) / (f.Rear - f.Front)
	return load - rear, rear
}

// standing is where a frame stands.
type standing struct {
	frame Frame
	at    int // segment at whose outer face it stands
	arm   int // −1 on a left arm, +1 on a right one
}

// tip is the outer face of the segment on which a frame stands (m) and the sense outwards.
func (d Deck) tip(segment int, arm int) float64 {
	at := d.at()
	if arm < 0 {
		return at[segment]
	}
	return at[segment+1]
}

// onFeet are the points at which a load before the tip acts on the deck.
func (d Deck) onFeet(f Frame, segment, arm int, load, before float64) []loads.Point {
	front, rear := f.feet(load, before)
	x, back := d.tip(segment, arm), -float64(arm)
	return []loads.Point{{At: x + back*f.Front, Force: front}, {At: x + back*f.Rear, Force: rear}}
}

// own is the weight of a frame on the deck, carried forward until it advances.
func (d Deck) own(s standing) stages.Action {
	return stages.Action{Mark: "frame " + s.frame.Mark + " on " + d.Segments[s.at].Element.Mark, Kind: limits.Equipment, Least: 1, Most: 1, Stays: true,
		Loads: loads.Set{Points: d.onFeet(s.frame, s.at, s.arm, s.frame.Weight, -s.frame.CoG)}}
}
