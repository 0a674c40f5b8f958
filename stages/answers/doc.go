// Package answers solves the checks of a plan for another letter: the least strength at
// which a stage may begin, the window of lift points, the largest wind, the reserve of
// weight.
//
// A question is asked of a [stages.Case]; every trial runs the stages before it too.
// [Solve] tries a range, finds every interval in which the stage passes and returns an
// [Answer] with its proof: the governing check and its reserve at each end and just beyond
// it. The relative reserve at an end is within 1e-6 above zero, or the margin jumps there
// and the check that fails beyond is named. What is not evaluated, and a value that the
// plan refuses, does not pass.
//
// An aid: a licensed engineer must confirm every result.
//
// # Neglected
//
// Between the values that are tried, a failure, or a pass, that begins and ends is found
// where the reserve has an extreme there, not where it jumps twice. The governing check
// of one stage answers; the stages after it must be asked on their own.
package answers
