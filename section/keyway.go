package section

import "fmt"

// Keyway is a groove along an upright face, for the concrete of a stitch or a
// grouted joint: a trapezium, wider at its mouth, each dimension up to 200 m.
type Keyway struct {
	Depth float64 // into the concrete, m; zero: no keyway
	Mouth float64 // height at the face, m
	Base  float64 // height at its bottom, m; zero for a V
	Level float64 // z of its middle, m; zero: half-way up the face
}

// cut is the corners of the groove from below upwards, in a face at u from foot to
// head, with the concrete towards inwards (1 or −1); none for the zero Keyway.
func (k Keyway) cut(u, foot, head, inwards float64) []Point {
	if k.Depth == 0 {
		return nil
	}
	z := k.Level
	if z == 0 {
		z = (foot + head) / 2
	}
	in := u + inwards*k.Depth
	return []Point{{u, z - k.Mouth/2}, {in, z - k.Base/2}, {in, z + k.Base/2}, {u, z + k.Mouth/2}}
}

// check refuses a groove that has no mouth or leaves the face from foot to head.
func (k Keyway) check(shape, name string, foot, head float64) error {
	if k == (Keyway{}) {
		return nil
	}
	if err := firstOf(
		positive(shape, dimension{name + ".Depth", k.Depth}, dimension{name + ".Mouth", k.Mouth}),
		notNegative(shape, dimension{name + ".Base", k.Base}),
		fit(shape, atMost{dimension{name + ".Base", k.Base}, k.Mouth}),
	); err != nil {
		return err
	}
	groove := k.cut(0, foot, head, 1)
	if low, high := groove[0].Z, groove[3].Z; !(low > foot && high < head) {
		return fmt.Errorf("%w: %s.%s from z = %.4g m to %.4g m: must be within the face from %.4g m to %.4g m", ErrShape, shape, name, low, high, foot, head)
	}
	return nil
}

// Knee is the change of slope of the lower face of a cantilever slab, each dimension up
// to 200 m.
type Knee struct {
	Out       float64 // from the outer web face under the cantilever root, m; zero: one slope
	Thickness float64 // of the slab there, m
}

// check compares a knee with the cantilever: how far it reaches beyond the web, and
// its thickness at root and tip.
func (k Knee) check(shape string, reach, root, tip float64) error {
	if k == (Knee{}) {
		return nil
	}
	if err := positive(shape, dimension{"CantileverKnee.Out", k.Out}, dimension{"CantileverKnee.Thickness", k.Thickness}); err != nil {
		return err
	}
	if !(k.Out < reach) {
		return fmt.Errorf("%w: %s.CantileverKnee.Out = %.4g m: must be less than the cantilever's %.4g m", ErrShape, shape, k.Out, reach)
	}
	if !(k.Thickness >= tip && k.Thickness <= root) {
		return fmt.Errorf("%w: %s.CantileverKnee.Thickness = %.4g m: must be between CantileverTip = %.4g m and CantileverRoot = %.4g m",
			ErrShape, shape, k.Thickness, tip, root)
	}
	return nil
}

// chamfered is the lower outer corner of the web.
func (w web) chamfered(chamfer Haunch) []Point {
	if chamfer.Width == 0 {
		return []Point{{w.foot, 0}}
	}
	return []Point{{w.foot - chamfer.Width, 0}, {w.outer(chamfer.Height), chamfer.Height}}
}

// checkChamfer refuses a chamfer with one side only or beyond what is given.
func checkChamfer(chamfer Haunch, shape, name string, width, height float64) error {
	if err := chamfer.check(shape, name); err != nil || chamfer.Width == 0 {
		return err
	}
	if !(chamfer.Width < width && chamfer.Height < height) {
		return fmt.Errorf("%w: %s.%s = %g × %g m: must be less than %.4g × %.4g m", ErrShape, shape, name, chamfer.Width, chamfer.Height, width, height)
	}
	return nil
}
