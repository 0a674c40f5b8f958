package section

import "fmt"

// unsettled says why the boundary nodes that there may be do not settle J; best is
// the last solution.
func (s Shape) unsettled(best Torsion) error {
	corners, sharp := 0, 0
	for _, o := range s.outlines {
		for i := range o {
			corners++
			if o.sharp(i) {
				sharp++
			}
		}
	}
	of := fmt.Sprintf("torsion of an outline with %d corners", corners)
	limits := fmt.Sprintf("up to about 40 corners that turn more than %g rad (has %d), about 400 in all, walls up to about 200 thicknesses long", gentlest, sharp)
	_, few := s.cut(coarsest, boundary{}, s.Properties().Centroid, mostNodes)
	switch {
	case best.Nodes == 0 && few:
		return fmt.Errorf("%w: %s: the equations of its boundary give no J: must be edges and walls that are not minute beside the whole", ErrShape, of)
	case best.Nodes == 0:
		return fmt.Errorf("%w: %s: its coarsest division takes more than %d boundary nodes: must be %s", ErrShape, of, mostNodes, limits)
	case best.Change == 1: // nothing to compare it with
		return fmt.Errorf("%w: %s: takes %d boundary nodes, and halving every element more than %d: must be %s", ErrShape, of, best.Nodes, mostNodes, limits)
	}
	return fmt.Errorf("%w: torsion constant not settled: it changes by %.2g of its value with %d boundary nodes: must be at most %g with %d, which takes %s",
		ErrShape, best.Change, best.Nodes, enoughChange, mostNodes, limits)
}
