// Package sheet prints a [stages.Record]: a calculation sheet for an independent
// checker, operation sheets for the site, figures, and JSON for a program.
//
// It renders a Record: it reads no value out of words or symbols, and computes nothing
// but the largest force along a sling. Units are converted here and nowhere else; the
// zero value of [Settings] prints in SI. Numbers have four significant figures,
// coordinates are to the millimetre, ages to a thousandth of a day, and limits are
// rounded to the safe side. Both sheets carry the [Fingerprint] of the Record.
// [Command] is the command line of the example programs; [WriteFiles] is its flag -o.
//
// An aid: a licensed engineer must confirm every result.
//
// # Figures
//
// Cross-section, elevation of each situation, bending moment and shear, stress at top
// and bottom with the limits of that age, tendon force, and the figures of an
// operation, see [stages.Figure]. They are black on white.
//
// # Equipment
//
// The positions of an item are a table below its form: a row for each, a column for each fact.
// The form of an operation sheet has a row for these facts of [stages.EquipmentItem]; any
// other fact has a row of its own, and what is not stated is left blank:
//
//   - crane: configuration; radius at pick, radius at slew, radius at
//     set; measured at pick, measured at slew, measured at set; chart radius, chart capacity, share of chart,
//     derated capacity; gross load, deductions, utilisation; outrigger maximum; mat length, mat width, permissible ground pressure;
//     crane level, crane level measured; tail swing, exclusion radius; rope out of plumb, tolerance of CoG
//   - gantry: position, legs; anchor bars, anchor force; trolley left, trolley right; last span
//   - straddle carrier: route, ground; wheel load; travel speed
//   - gantry and straddle carrier: hoist arrangement; rated capacity, deductions, deductions are,
//     derated capacity
//   - these three: rigging sketch, rigging WLL, sling angles, equalised legs; lifting anchors,
//     anchor WLL
//   - girder carrier and trailer: axle groups, groups linked; rated capacity, axle load;
//     restraint; speed limit; route
//   - all of these: wind limit, wind limit parked; wind basis
//   - pier: level, concrete strength; access
//   - jacks: linked; jack numbers; rated force, horizontal capacity; stroke, residual stroke; lowered in all,
//     packing out at a stroke; stack height, stack base; difference along, difference across;
//     packing beside, gap; packing beside, capacity
//   - stack: height, packing, lock rings; vertical capacity, horizontal capacity
//   - falsework: document, limit of a bearing; inspected by; lowering gear
//   - lifting frame: weight; anchor bars, anchor preload
//   - segment: weight; weighed
//
// # A step of a balanced cantilever
//
// The sheet of a stage in which a [stages.Erected] segment is stated has two pages: the work,
// and the record of stressing with hold points of its own. A movement is a row with what a
// pier receives after it; hold points that repeat stand once with their strictest value;
// target levels are the rows that a table of results states for the stage. These facts are
// printed, as package segmental writes them:
//
//   - segment: weight, minimum weight, maximum weight; CoG from the joint; lifted by; strength to lift; joint;
//     mean pressure, minimum pressure, each also required; bars released
//   - lifting frame: weight; front feet behind the face, rear feet behind the face; anchor bars, anchor preload, anchor capacity;
//     permissible on the front feet; of its positions front feet, rear feet, pull on the anchors, force of an anchor bar
//   - pier: rows apart, permissible force of a row, permissible moment; ties at each row, tie preload, tie capacity;
//     working load, one arm; working load, other arm; of its positions left arm, right arm, vertical force, out-of-balance moment,
//     maximum out-of-balance moment, minimum force of a row, maximum force of a row, maximum force of a tie
//
// # Neglected
//
// Words of the Record are printed as they are, but for measures in them, which are
// converted to US units where they are recognised, with the metric value behind in
// brackets; sources are quoted as they are. Numbers inside a formula are in N, m, Pa
// and days in every sheet. Tendons are drawn straight between the ends of their
// segments. Movements of the Record are not printed. Whether an operation sheet fits
// one page depends on how many operations and supports its stage has.
package sheet
