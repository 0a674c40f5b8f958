package stages

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// caution opens every sheet.
var caution = []string{
	"This calculation is an aid. A licensed engineer must confirm every result before it is used.",
	"Local codes, the equipment maker's manual and the appointed lifting team govern.",
	"It is no permit to lift, to stress or to load.",
}

// basisPoint says how some of the numbers were got, and in which runs there are any.
type basisPoint struct {
	words   string
	applies func(*run) bool
}

func always(*run) bool { return true }

// basisPoints say how the numbers were got.
var basisPoints = []basisPoint{
	{"Axes: x along the element from its left end, y to the left looking along +x, z up. Sections are seen looking along +x.", always},
	{"Axis curved in plan: y of supports, actions, corners and places of checks is from the axis at that x, + to the left; that of the centre of gravity and of parts of the self-weight is from the chord between the ends, as moments need one line. The arc is taken as a parabola, x·(L − x)/(2·R) beside the chord.", func(r *run) bool { return r.girder.Radius != 0 }},
	{"Signs: tension +, sagging moment +, shear V = dM/dx, reactions + upwards, loads + downwards.", always},
	{"Sections: exact polygon sums.", always},
	{"Ducts: net section with all ducts out until a tendon is grouted, then transformed with its steel at Ep/Ecm(t).", (*run).postTensioned},
	{"Pretensioned strands: bonded from the beginning; the force just before release acts on the section transformed with their gripped area, which gives the elastic loss exactly. Over the transmission length force and gripped area grow linearly, and stresses are checked with its long and its short value.", (*run).anyStrands},
	{"External tendons: no hole and no bond. They act on the section at their own place in it, as the forces at their anchors and deviators do; later stressing, creep and shrinkage change their force by the mean strain of the concrete between the places where they are held (deviators with friction hold).", (*run).anyExternal},
	{"Further pulls of a tendon: losses so far, as a mean along it, are inside the force measured at the jack; time-dependent losses are counted from the last pull.", (*run).pulledAgain},
	{"Stress is a sum of entries, each on the section properties at its date: weight with the reactions of each set of supports and its change, each stressing, elastic and time-dependent losses, levels, actions.", always},
	{"Extremes are sought over the ranges of all causes (weight, dynamic factor, prestress, actions, levels), entries of one cause together, at every corner of the outline along the element; near anchors between the corners as well.", always},
	{"Anchorage zones: the force of an anchor spreads at tan β = 2/3 along the walls (EN 1992-1-1:2004, 8.10.3(5)). Until a point is within the spread, the part of that tendon in its stress counts with any factor from 0 to 1; its shear counts in full at once.", (*run).postTensioned},
	{"Anchorage zones of two tendons that mirror each other in a symmetric section: by symmetry each half of the section carries its own, so that a point within the spread of either has the effect of both in full.", func(r *run) bool { return r.girder.Paired }},
	{"Walls: shear by the flows of the walls under both shears and torsion about the shear centre, on the wall thickness normal to the wall less the allowance for ducts. Where the section varies, the forces of inclined slabs are part of the flow. Thin-wall flows differ from the exact solution by up to 4 %.", always},
	{"Walls of elements that act as one: each entry by the flows of the section on which it acts, the element alone or the joined outline, each part with its modulus, on the same line across the wall; shear in walls that have another direction is added by magnitude. The limit is that of the concrete of the place, of a stitch its own.", (*run).anyAsOne},
	{"Open walls: torsion at the face is added by magnitude.", (*run).anyOpen},
	{"Supports: forces by statics; where they share by stiffness and level, by the flexibility of the element in bending and torsion; where nothing is stated, the extremes over every statically determinate set (bounded).", always},
	{"Reactions: static for readings, characteristic with dynamic factors against rated capacities, ULS for ground, concrete and stacks.", always},
	{"Prestress in reactions of supports that share by stiffness: static at its mean value, for readings; characteristic over its range at serviceability (r_inf to r_sup of the stresses); ULS and EQU with their own factor.", func(r *run) bool { return r.sharesByStiffness() && len(r.tendons) > 0 }},
	{"Equilibrium: every part of the weight is split where its lever or its influence changes sign, each side with its factor; an element standing on supports has a nominal horizontal force of 2.5 % of its weight, or 1 % beside known horizontal forces (BS 5975).", always},
	{"Tendon forces: friction and unintentional angular displacement by exp(−μ(θ + k·s)) with θ in space and s along the tendon, draw-in with friction reversed, elastic loss by tendons stressed later at the same section.", (*run).postTensioned},
	{"Creep, shrinkage and relaxation: EN 1992-1-1:2004 (5.46) from the stressing of each tendon to the age of the situation, the creep of each lasting change of stress by itself; the loss acts on the concrete beside the steel.", (*run).longTerm},
	{"Movements: the curvature of each lasting change of stress on the modulus at its date, times 1 + φ if it came at once and 1 + 0.8·φ if it grew (E by which φ is divided as in (5.46)), integrated twice, referred to the supports as rigid and level; band: creep ±30 %.", always},
	{"Redistribution: what has crept since the last situation is imposed on the system of that time as curvature and twist, on the age-adjusted modulus with χ = 0.8; its forces have the factors of what creeps.", func(r *run) bool { return r.longTerm() && r.sharesByStiffness() }},
	{"Plane sections; no shear lag, no cracking.", always},
	{"Bonded bars are left out of the section properties.", (*run).anyBars},
	{"Warping torsion: in open sections B·ω/C_w is part of the stress (Vlasov 1940), ends and supports free to warp, ω and C_w by thin-wall theory; a tendon works on the warping of its wall. In sections with voids, and where warping dies out within half a section, it is negligible and left out.", (*run).anyOpen},
}

// basis are the points that apply to this run.
func (r *run) basis() []string {
	var words []string
	for _, p := range basisPoints {
		if p.applies(r) {
			words = append(words, p.words)
		}
	}
	return words
}

func (r *run) anyExternal() bool {
	return slices.ContainsFunc(r.tendons, func(t tendon.Tendon) bool { return t.External })
}

// postTensioned is true when there is a tendon in a duct or outside the concrete.
func (r *run) postTensioned() bool { return len(r.tendons) > len(r.layers) }

// anyUngrouted is true when a tendon in a duct is not grouted when it is stressed: every one.
func (r *run) anyUngrouted() bool {
	for i, t := range r.tendons {
		if !t.External && !r.pretensioned(i) {
			return true
		}
	}
	return false
}

// ungroutedRise is what the forces of tendons leave out until they are grouted.
const ungroutedRise = "rise of the force of tendons and bars in ducts by weight and actions that come before they are grouted: left out; it is Ep/Ecm times the change of the concrete stress beside them, some per cent of a force, and the range of the prestress (r_sup) is to cover it"

func (r *run) anyStrands() bool { return len(r.layers) > 0 }

// pulledAgain is true when a tendon is jacked more than once, or let down.
func (r *run) pulledAgain() bool {
	return slices.ContainsFunc(r.situations, func(s *situation) bool {
		return slices.ContainsFunc(r.pullsIn(s), func(p pull) bool { return p.how != firstPull })
	})
}

// sharesByStiffness is true when the supports of a situation share by stiffness.
func (r *run) sharesByStiffness() bool {
	return slices.ContainsFunc(r.situations, func(s *situation) bool {
		return slices.ContainsFunc(s.acts, func(a *arrangement) bool { return a.elastic })
	})
}

// anyOpen is true when an element has no void at mid-length.
func (r *run) anyOpen() bool {
	return slices.ContainsFunc(r.girder.Pieces, func(p Piece) bool { return len(p.Element.Section.At(p.Element.Length/2).Voids()) == 0 })
}

// anyAsOne is true where elements at the same place ever act as one section.
func (r *run) anyAsOne() bool {
	return slices.ContainsFunc(r.ledger.States, func(s *ledger.State) bool { return r.sideBySide(&body{pieces: s.Pieces}) })
}

func (r *run) anyBars() bool {
	return slices.ContainsFunc(r.girder.Pieces, func(p Piece) bool { return len(p.Element.Bars) > 0 })
}

// notChecked are what no run of this package checks, and what this one leaves out.
func (r *run) notChecked() []string {
	var words []string
	if r.anyExternal() {
		words = append(words, "change of force of external tendons when weight, actions or supports change: only later stressing and losses are followed", "vibration of the free lengths of external tendons, and their deflection with the element")
	}
	if r.anyUngrouted() {
		words = append(words, ungroutedRise)
	}
	if !r.longTerm() {
		words = append(words, "time-dependent losses: creep, shrinkage and relaxation are left out of every force and stress")
	}
	if r.longTerm() {
		words = append(words, "redistribution by creep of the effects of differential support level, and where nothing says how supports share")
	}
	for _, t := range r.tendons {
		if r.longTerm() && t.Strand.Relaxation == 0 {
			words = append(words, "relaxation of tendon "+t.Mark+": the class of its steel is not stated")
		}
	}
	if len(r.girder.Pieces) > 1 && r.longTerm() {
		words = append(words, "differential creep and shrinkage between elements that act as one: neglected; a stitch that shrinks 0.2 mm/m more than the halves it joins gets a tension of several MPa before it relaxes")
	}
	if r.anyOpen() {
		words = append(words, "shear stress of warping torsion in open sections: the walls carry the whole torsional moment as Saint-Venant's; creep and losses by the stress of warping; supports and diaphragms that restrain warping; warping of elements that are joined side by side")
	}
	if r.anyAsOne() {
		words = append(words, "sliding along the joint between elements that act as one (EN 1992-1-1:2004, 6.2.5): roughness of the joint and bars across it; the elastic shear that passes it is looked at in the walls on both sides")
	}
	words = append(append(words, r.girder.unlikeConcretes()...), r.unstressed()...)
	return append(words, neverChecked...)
}

// unstressed are the tendons and layers that no stage of the plan stresses, of each sort in one line.
func (r *run) unstressed() (words []string) {
	var strands, external, ducts []string
	for i, t := range r.tendons {
		switch {
		case slices.ContainsFunc(r.steps, func(s step) bool { return slices.Contains(s.tendons, i) }):
		case r.pretensioned(i):
			strands = append(strands, t.Mark)
		case t.External:
			external = append(external, t.Mark)
		default:
			ducts = append(ducts, t.Mark)
		}
	}
	say := func(marks []string, one, more, why, whyMore string) {
		switch n := len(marks); {
		case n == 1:
			words = append(words, one+" "+marks[0]+": "+why)
		case n > 3:
			words = append(words, fmt.Sprintf("%s %s, %s and %d more: %s", more, marks[0], marks[1], n-2, whyMore))
		case n > 1:
			words = append(words, more+" "+strings.Join(marks, ", ")+": "+whyMore)
		}
	}
	const bed = "no stage releases them from the bed, their force is left out of every stress"
	say(strands, "strands", "strands", bed, bed)
	say(external, "tendon", "tendons", "no stage stresses it, its force is left out of every stress", "no stage stresses them, their forces are left out of every stress")
	say(ducts, "tendon", "tendons", "no stage stresses it, its duct is a hole and its force is left out of every stress", "no stage stresses them, their ducts are holes and their forces are left out of every stress")
	return words
}

// neverChecked are what no run checks.
var neverChecked = []string{
	"limits of deflection, camber and bow: movements are given, not checked",
	"anchorage zones, with the forces and lengths of each situation: bursting and spalling reinforcement, bearing under the anchors, shear between web and flange; they must be designed for",
	"slings, hoists, cranes, dunnage, ground and bearings under the reactions given, where no chart, mat or limit of theirs is stated",
	"transverse bending of slabs and webs, local bending and punching at lift points and supports, distortion of the section",
	"lateral buckling: stability of the element as a flexible beam while it is suspended or stands on soft bearings, where its bow is not stated",
	"flexural and shear strength at the ultimate limit state beyond the wall stresses given",
	"states between the tendons of one step of stressing",
}

// spreading is the size of what is excluded in the anchorage zones of a situation: the
// zones of the same tendons in one sentence. In a brief one it is said of the tendons that are
// stressed in it: of others it was said before.
func (r *run) spreading(s *situation) []string {
	pulls := r.pullsIn(s)
	var marks, zones []string
	for _, end := range r.ledger.Zones() {
		force := 0.0
		var names []string
		for _, i := range end.Tendons {
			if s.Brief && !slices.ContainsFunc(pulls, func(p pull) bool { return p.tendon == i }) {
				continue
			}
			if f, _ := r.ledger.TendonForce(s.cases[0].ledger, r.inside(end.Anchor+end.Ahead*2*ledger.Inset*r.girder.Length()), i); f > 0 {
				force, names = force+f, append(names, r.tendons[i].Mark)
			}
		}
		if force == 0 {
			continue
		}
		from, to := math.Min(end.Anchor, end.End), math.Max(end.Anchor, end.End)
		if i := slices.Index(marks, strings.Join(names, ", ")); i >= 0 {
			zones[i] += fmt.Sprintf(", another %.0f kN over x = %.2f to %.2f m", force/1e3, from, to)
			continue
		}
		marks, zones = append(marks, strings.Join(names, ", ")), append(zones, fmt.Sprintf("%.0f kN spreads over x = %.2f to %.2f m", force/1e3, from, to))
	}
	list := make([]string, len(marks))
	for i := range marks {
		list[i] = fmt.Sprintf("anchorage zones of %s: %s", marks[i], zones[i])
	}
	return list
}
