package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Marks that run on are named by the first and the last, those of several segments once.
func TestMarksThatRunOn(t *testing.T) {
	for words, marks := range map[string][]string{
		"":                                      nil,
		"T1":                                    {"T1"},
		"T1, T2":                                {"T2", "T1"},
		"T1 to T3":                              {"T1", "T2", "T3"},
		"T1, T2, T4":                            {"T1", "T2", "T4"},
		"west, east":                            {"west", "east"},
		"T01, T02":                              {"T01", "T02"},
		"TL1L to TL3L, TL1R, TL2R":              {"TL1L", "TL1R", "TL2L", "TL2R", "TL3L"},
		"B_L5_1 to B_L5_3":                      {"B_L5_1", "B_L5_2", "B_L5_3"},
		"B_L5_1 to B_L5_2, B_R5_1":              {"B_L5_1", "B_L5_2", "B_R5_1"},
		"B_L1, B_L2, B_R1, B_R2, each _1 to _3": {"B_L2_1", "B_L2_2", "B_L2_3", "B_L1_1", "B_L1_2", "B_L1_3", "B_R1_1", "B_R1_2", "B_R1_3", "B_R2_1", "B_R2_2", "B_R2_3"},
		"T1, T9; B_L1 to B_L3, each _1 to _2":   {"T1", "B_L1_1", "B_L1_2", "B_L2_1", "B_L2_2", "B_L3_1", "B_L3_2", "T9"},
		"B_L1_1 to B_L1_2, B_L2_1 to B_L2_3":    {"B_L1_1", "B_L1_2", "B_L2_1", "B_L2_2", "B_L2_3"},
		"99999999999999999999 of A, 1234567890123": {"99999999999999999999 of A", "1234567890123"},
	} {
		require.Equal(t, words, alikeMarks(marks))
	}
}
