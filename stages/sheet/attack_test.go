package sheet

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// storedText is the stored record as it lies in its file.
func storedText(t *testing.T) []byte {
	text, err := os.ReadFile("testdata/record-2.json")
	require.NoError(t, err)
	return text
}

// attacks are changes of a record that somebody makes by hand, with the words that
// refuse it.
var attacks = []struct {
	says   string
	change func(*stages.Record, *stages.SituationRecord) // the situation is the last of four, stages 1 to 4
}{
	{"length = 0 m: must be above 0, at most 100000 m", func(r *stages.Record, _ *stages.SituationRecord) { r.Length = 0 }},
	{"length = -12 m: must be above 0", func(r *stages.Record, _ *stages.SituationRecord) { r.Length = -12 }},
	{"length = 1e+300 m", func(r *stages.Record, _ *stages.SituationRecord) { r.Length = 1e300 }},
	{`weight 1 "self-weight": from x = 0 to 12 m: must be on the element, 0 to 11.5 m`, func(r *stages.Record, _ *stages.SituationRecord) { r.Length = 11.5 }},
	{"the mark of the element is empty", func(r *stages.Record, _ *stages.SituationRecord) { r.Element = " " }},
	{"the caution lacks", func(r *stages.Record, _ *stages.SituationRecord) { r.Caution = nil }},
	{`the caution lacks "It is no permit`, func(r *stages.Record, _ *stages.SituationRecord) { r.Caution = r.Caution[:2] }},
	{"the caution lacks", func(r *stages.Record, _ *stages.SituationRecord) { r.Caution[1] = "" }},
	{"it has no stage", func(r *stages.Record, _ *stages.SituationRecord) { r.Stages = nil }},
	{"stage 2 has no situation", func(r *stages.Record, _ *stages.SituationRecord) { r.Stages[1].Situations = nil }},
	{"stage 1 has the number 4: must be 1", func(r *stages.Record, _ *stages.SituationRecord) {
		r.Stages[0], r.Stages[3] = r.Stages[3], r.Stages[0]
	}},
	{"stage 3, situation 1 \"lift\": age = 5 d: must be at least 28 d, when the previous situation ends", func(r *stages.Record, _ *stages.SituationRecord) {
		r.Stages[1], r.Stages[3] = r.Stages[3], r.Stages[1]
		r.Stages[1].Number, r.Stages[3].Number = 2, 4
	}},
	{"age = 3 d: must be at least 5 d, when the previous situation ends", func(r *stages.Record, s *stages.SituationRecord) {
		s.Age, s.Day, r.Stages[3].Age = 3, 3, 3
	}},
	{"stage 4, age = 29 d: must be 28 d, that of its first situation", func(r *stages.Record, _ *stages.SituationRecord) { r.Stages[3].Age = 29 }},
	{"age = -1 d: must be above 0", func(r *stages.Record, _ *stages.SituationRecord) {
		r.Stages[0].Age, r.Stages[0].Situations[0].Age = -1, -1
	}},
	{"until = 27 d: must be 0 (at once) or 28 to 365000 d", func(_ *stages.Record, s *stages.SituationRecord) { s.Until = 27 }},
	{"day = 40 d at age 28 d: must be 28 d, cast on day 0", func(_ *stages.Record, s *stages.SituationRecord) { s.Day = 40 }},
	{`Phase = "flying": must be one of ["stressing" "lifting" "storing" "seating" "hauling" "striking"]`, func(_ *stages.Record, s *stages.SituationRecord) { s.Phase = "flying" }},
	{`field Role = "chair"`, func(_ *stages.Record, s *stages.SituationRecord) {
		s.Supports[0].Role, s.Reactions[0].Role = "chair", "chair"
	}},
	{`support 1: field OneWay = "sideways": must be one of`, func(_ *stages.Record, s *stages.SituationRecord) { s.Supports[0].OneWay = "sideways" }},
	{`support 1: field Holds = "nothing": must be one of`, func(_ *stages.Record, s *stages.SituationRecord) { s.Supports[0].Holds = "nothing" }},
	{"support 2: field X = 12.4 m: must be on the element", func(_ *stages.Record, s *stages.SituationRecord) { s.Supports[1].X = 12.4 }},
	{"reaction 1 of a lift point at x = 0.4 m", func(_ *stages.Record, s *stages.SituationRecord) { s.Reactions[0].Role = stages.LiftPoint }},
	{"2 reactions of 3 supports: must be one for each", func(_ *stages.Record, s *stages.SituationRecord) { s.Reactions = s.Reactions[:2] }},
	{"reaction 2 of a pad at x = 3 m", func(_ *stages.Record, s *stages.SituationRecord) { s.Reactions[1].X = 3 }},
	{"reaction 1: static from", func(_ *stages.Record, s *stages.SituationRecord) { turn(&s.Reactions[0].Static) }},
	{"must be within the characteristic ones", func(_ *stages.Record, s *stages.SituationRecord) {
		s.Reactions[0].Characteristic.Most -= 1e3
	}},
	{"static reactions add up to", func(_ *stages.Record, s *stages.SituationRecord) { s.Total.Least = 0 }},
	{"static reactions add up to", func(_ *stages.Record, s *stages.SituationRecord) {
		s.Reactions[2].Static.Most = s.Reactions[2].Static.Least
		s.Total.Most *= 1.01
	}},
	{"reaction 2: characteristic from", func(_ *stages.Record, s *stages.SituationRecord) { turn(&s.Reactions[1].Characteristic) }},
	{"reaction 3: ultimate from", func(_ *stages.Record, s *stages.SituationRecord) { turn(&s.Reactions[2].Ultimate) }},
	{"total of the reactions from", func(_ *stages.Record, s *stages.SituationRecord) { turn(&s.Total) }},
	{"reaction 1: share from", func(_ *stages.Record, s *stages.SituationRecord) { turn(s.Reactions[0].Share) }},
	{"shares of the total add up to", func(_ *stages.Record, s *stages.SituationRecord) {
		s.Reactions[0].Share.Least += 0.2
		s.Reactions[0].Share.Most += 0.2
	}},
	{"reaction 1: share from", func(_ *stages.Record, s *stages.SituationRecord) {
		s.Reactions[0].Share, s.Reactions[2].Share = s.Reactions[2].Share, s.Reactions[0].Share
	}},
	{"it is bounded and has a share", func(_ *stages.Record, s *stages.SituationRecord) { s.Reactions[0].Bounded = true }},
	{"force along the sling = 0.5", func(_ *stages.Record, s *stages.SituationRecord) { s.Reactions[0].Sling = 0.5 }},
	{"factor on the weight from 1.03 to 0.97", func(_ *stages.Record, s *stages.SituationRecord) { s.Weight = stages.Range{Least: 1.03, Most: 0.97} }},
	{"dynamic factors, minimum Least = 1.2, maximum Most = 1.1", func(_ *stages.Record, s *stages.SituationRecord) { s.Dynamic = stages.Range{Least: 1.2, Most: 1.1} }},
	{"weight = 1 N of the mass", func(_ *stages.Record, s *stages.SituationRecord) { s.Mass.Weight = 1 }},
	{"weight = -1 N", func(_ *stages.Record, s *stages.SituationRecord) { s.Mass.Weight = -1 }},
	{"centre of gravity at x = 50 m", func(_ *stages.Record, s *stages.SituationRecord) { s.Mass.X = 50 }},
	{"strength = -1 Pa", func(_ *stages.Record, s *stages.SituationRecord) { s.Strength = -1 }},
	{"field Roll = -0.1 rad", func(_ *stages.Record, s *stages.SituationRecord) { s.Roll = -0.1 }},
	{`direction "up"`, func(_ *stages.Record, s *stages.SituationRecord) { s.Loads[0].Direction = "up" }},
	{"presence from 1 to 0", func(_ *stages.Record, s *stages.SituationRecord) { s.Loads[0].Presence.Most = 0 }},
	{`weight 2 "end block": from x = 1.3 to 0.5 m: must be from left to right`, func(r *stages.Record, _ *stages.SituationRecord) {
		r.Weights[1].From, r.Weights[1].To = r.Weights[1].To, r.Weights[1].From
	}},
	{`state "fine": must be "pass", "fail", "conditional" or "not evaluated"`, func(_ *stages.Record, s *stages.SituationRecord) { s.Checks[0].State = "fine" }},
	{`sense "": must be "at most" or "at least"`, func(_ *stages.Record, s *stages.SituationRecord) { s.Checks[0].Sense = "" }},
	{"has no name", func(_ *stages.Record, s *stages.SituationRecord) { s.Checks[0].Name = "" }},
	{"margin = ", func(_ *stages.Record, s *stages.SituationRecord) { s.Checks[0].Margin *= -1 }},
	{"utilisation = 0.01", func(_ *stages.Record, s *stages.SituationRecord) { s.Checks[0].Utilisation = 0.01 }},
	{`state "pass" at a margin of -1e+06 Pa: must be "fail"`, func(_ *stages.Record, s *stages.SituationRecord) {
		s.Checks[0] = compression(19e6, 18e6)
		s.Checks[0].State = stages.Pass
	}},
	{"σ_c_max = 3e+07 Pa: must be the result of a line or a table under it", func(_ *stages.Record, s *stages.SituationRecord) {
		c := &s.Checks[0]
		c.Limit.Value = 30e6
		c.Margin, c.Utilisation = c.Limit.Value-c.Demand.Value, c.Demand.Value/c.Limit.Value
	}},
	{"σ_comp = 1e+06 Pa: must be the result of a line or a table under it", func(_ *stages.Record, s *stages.SituationRecord) {
		c := &s.Checks[0]
		c.Demand.Value = 1e6
		c.Margin, c.Utilisation = c.Limit.Value-c.Demand.Value, c.Demand.Value/c.Limit.Value
	}},
	{"x = -3 m: must be on the element, 0 to 12 m", func(_ *stages.Record, s *stages.SituationRecord) { s.Checks[0].X = -3 }},
	{"must have a hold point that asks for as much", func(r *stages.Record, _ *stages.SituationRecord) { r.Stages[0].Situations[0].HoldPoints = nil }},
	{"must have a hold point that asks for as much", func(_ *stages.Record, s *stages.SituationRecord) {
		s.HoldPoints = nil
	}},
	{"as tested: must be", func(r *stages.Record, _ *stages.SituationRecord) {
		r.Stages[0].Situations[0].HoldPoints[0].Tested[1].Value = 5e6
	}},
	{"strengths as tested: must be 3", func(r *stages.Record, _ *stages.SituationRecord) {
		r.Stages[0].Situations[0].HoldPoints[0].Tested = nil
	}},
	{"strength assumed = 9e+07 Pa", func(r *stages.Record, _ *stages.SituationRecord) {
		r.Stages[0].Situations[0].HoldPoints[0].Assumed.Value = 90e6
	}},
	{"section state 1 at x = -7 m", func(r *stages.Record, _ *stages.SituationRecord) { r.Sections[0].X = -7 }},
	{"cut 1 at x = 70 m", func(r *stages.Record, _ *stages.SituationRecord) { r.Flows[0].X = 70 }},
	{"in a standing situation: must be 1", func(_ *stages.Record, s *stages.SituationRecord) { s.Dynamic.Most = 1.2 }},
	{`force of tendon "T1": -1 N at the left`, func(_ *stages.Record, s *stages.SituationRecord) { s.Tendons[0].Left = -1 }},
	{"table 999: must be 1 to", func(_ *stages.Record, s *stages.SituationRecord) { s.Checks[0].Tables = []int{999} }},
	{"line 0: must be 1 to", func(_ *stages.Record, s *stages.SituationRecord) { s.Checks[0].Lines = []int{0} }},
	{"strength: line -3: must be 1 to", func(_ *stages.Record, s *stages.SituationRecord) { s.Concrete = []int{-3} }},
	{"line 5000: must be 1 to", func(r *stages.Record, _ *stages.SituationRecord) { r.Inputs[0].Lines[0] = 5000 }},
	{"source 77 of line 2: must be 1 to", func(r *stages.Record, _ *stages.SituationRecord) { r.Lines[1].Source = 77 }},
	{"symbol 0: must be 1 to", func(r *stages.Record, _ *stages.SituationRecord) { r.Lines[1].Result.Symbol = 0 }},
	{"row on section state 88: must be 1 to", func(r *stages.Record, _ *stages.SituationRecord) { r.Tables[0].Rows[0].On = 88 }},
	{"table 1 has the number 3: must be 1", func(r *stages.Record, _ *stages.SituationRecord) { r.Tables[0].Number = 3 }},
	{"section state 1 has the number 2", func(r *stages.Record, _ *stages.SituationRecord) { r.Sections[0].Number = 2 }},
	{"section state 1: A = 0 m²", func(r *stages.Record, _ *stages.SituationRecord) { r.Sections[0].A = 0 }},
	{"the products add up to", func(r *stages.Record, _ *stages.SituationRecord) { r.Tables[0].Sum.Value *= 2 }},
	{"has no row", func(r *stages.Record, _ *stages.SituationRecord) { r.Tables[0].Rows = nil }},
	{"last digit of y at 1e-2000000: must be within 1e±30", func(r *stages.Record, _ *stages.SituationRecord) { r.Tables[0].YAt = -2000000 }},
	{"from its printed numbers and", func(r *stages.Record, _ *stages.SituationRecord) {
		for i := range r.Lines {
			if r.Lines[i].Expression != "" {
				r.Lines[i].Result.Value *= 2
				return
			}
		}
	}},
	{"stations: x = ", func(_ *stages.Record, s *stages.SituationRecord) {
		v := s.Stations.Values
		v[1], v[2] = v[2], v[1]
	}},
	{"diagram: x = 99 m: must be on the element", func(_ *stages.Record, s *stages.SituationRecord) { s.Diagram.Values[0][0] = 99 }},
	{`stations: column 2 "colour"`, func(_ *stages.Record, s *stages.SituationRecord) { s.Stations.Columns[1] = "colour" }},
	{"stations: row 1 has 1 numbers", func(_ *stages.Record, s *stages.SituationRecord) { s.Stations.Values[0] = s.Stations.Values[0][:1] }},
	{"stresses at x = ", func(_ *stages.Record, s *stages.SituationRecord) {
		c := s.Stations.Columns
		for i := range c {
			switch c[i] {
			case "topLeast":
				c[i] = "topMost"
			case "topMost":
				c[i] = "topLeast"
			}
		}
	}},
	{`force of tendon "T9": must be a tendon of the record`, func(_ *stages.Record, s *stages.SituationRecord) { s.Tendons[0].Mark = "T9" }},
	{`force of tendon "T1", `, func(_ *stages.Record, s *stages.SituationRecord) { s.Tendons[0].Along[0][0] = 14 }},
	{`tendon "T1", point 2`, func(r *stages.Record, _ *stages.SituationRecord) { r.Tendons[0].Points[1].X = -5 }},
	{`hold point 1 "strength": check 99: must be 1 to`, func(r *stages.Record, _ *stages.SituationRecord) { r.Stages[0].Situations[0].HoldPoints[0].Check = 99 }},
	{`hold point 3 "friction": asks for 0 `, func(r *stages.Record, _ *stages.SituationRecord) {
		r.Stages[0].Situations[0].HoldPoints[2].Required.Value = 0
	}},
	{`in Equipment[0] "P1": field Supports has number 4: must be 1 to 3`, onPier(func(e *stages.EquipmentItem) { e.Supports[0] = 4 })},
	{`in Equipment[0] "P1": field Kind = "rocket": must be one of`, onPier(func(e *stages.EquipmentItem) { e.Kind = "rocket" })},
	{`field Outline, line 1, point 2: x = 1e+300 m, z = 0 m: must be`, onPier(func(e *stages.EquipmentItem) { e.Outline[0][1][0] = 1e300 })},
	{`in Facts[0] "level": value = 1e+13 m: must be within ±1e+12 m`, onPier(func(e *stages.EquipmentItem) { e.Facts[0].Value = 1e13 })},
	{`in Facts[0] "level": unit "furlong": must be one of`, onPier(func(e *stages.EquipmentItem) { e.Facts[0].Unit = "furlong" })},
	{`mark has 0 letters: must be 1 to 40`, onPier(func(e *stages.EquipmentItem) { e.Mark = "" })},
	{"figure 1: title is empty", func(_ *stages.Record, s *stages.SituationRecord) { s.Figures = []stages.Figure{{}} }},
	{`check "nothing": passes without a demand and a limit`, func(_ *stages.Record, s *stages.SituationRecord) {
		s.Checks = []stages.Check{{Name: "nothing", State: stages.Pass, Sense: limits.AtMost}}
	}},
	{`demand in "Pa" and limit in "N"`, func(_ *stages.Record, s *stages.SituationRecord) { s.Checks[0].Limit.Unit = formula.Newton }},
}

// onPier puts a pier under the first support and spoils it.
func onPier(spoil func(*stages.EquipmentItem)) func(*stages.Record, *stages.SituationRecord) {
	return func(_ *stages.Record, s *stages.SituationRecord) {
		s.Equipment = []stages.EquipmentItem{{Mark: "P1", Kind: stages.Pier, Supports: []int{1}, Outline: [][][2]float64{{{0, -1}, {1, 0}}}, Facts: []stages.Fact{{Name: "level", Value: 8.25, Unit: formula.Metre}}}}
		spoil(&s.Equipment[0])
	}
}

// turn puts a range the wrong way round.
func turn(r *stages.Range) { r.Least, r.Most = r.Most+1e-3, r.Least }

// What somebody changed in a record is refused in words, by the reader and by the writer.
func TestARecordThatWasChangedIsRefused(t *testing.T) {
	for i, a := range attacks {
		t.Run(fmt.Sprint(i+1, " ", a.says), func(t *testing.T) {
			record := storedRecord(t)
			a.change(&record, &record.Stages[3].Situations[0])
			text, err := encoded(record)
			require.NoError(t, err)
			_, err = ReadJSON(bytes.NewReader(text))
			require.ErrorIs(t, err, ErrSheet)
			require.ErrorContains(t, err, a.says)
			var out bytes.Buffer
			require.EqualError(t, WriteJSON(&out, record), err.Error())
			require.Zero(t, out.Len(), "nothing is written")
		})
	}
}

// A file holds one record of this format.
func TestAFileHoldsOneRecordOfThisFormat(t *testing.T) {
	text := string(storedText(t))
	for says, broken := range map[string]string{
		"more follows behind the record, from byte":                            text + "{}",
		"must be one record in a file":                                         text + text,
		"format 3: must be format 2; a newer version of this library wrote it": strings.Replace(text, `"format":2`, `"format":3,"colour":1`, 1),
		"format 1: must be format 2; run its calculation again":                strings.Replace(text, `"format":2`, `"format":1`, 1),
		"no record": "half a page", "json: unknown field": strings.Replace(text, `"format":2`, `"format":2,"colour":1`, 1),
	} {
		_, err := ReadJSON(strings.NewReader(broken))
		require.ErrorIs(t, err, ErrSheet, says)
		require.ErrorContains(t, err, says)
	}
	_, err := ReadJSON(strings.NewReader(text + "\n \n"))
	require.NoError(t, err)
}

// longest is how long reading and rendering may take: a hundred times what it does, for
// a machine that has other work.
const longest = 20 * time.Second

// Whatever byte or number of a record is changed, reading it does not panic, and what is
// read is rendered in all forms without what is no number.
func TestAChangedByteOrNumberDoesNoHarm(t *testing.T) {
	text := storedText(t)
	random := rand.New(rand.NewPCG(11, 4))
	read := 0
	try := func(name string, changed []byte) {
		begin := time.Now()
		record, err := ReadJSON(bytes.NewReader(changed))
		if err != nil {
			require.ErrorIs(t, err, ErrSheet, name)
			return
		}
		read++
		a, err := newAuthor(record, Settings{Units: []Units{SI, US}[read%2]})
		require.NoError(t, err, name)
		for form, page := range rendered(a) {
			require.NotContains(t, page, "NaN", "%s in %s", name, form)
		}
		require.Less(t, time.Since(begin), longest, name)
	}
	for range 50 {
		at, to := random.IntN(len(text)), byte(random.IntN(256))
		changed := bytes.Clone(text)
		changed[at] = to
		try(fmt.Sprintf("byte %d to %q", at, to), changed)
	}
	numbers := numbersIn(text)
	require.Greater(t, len(numbers), 2000)
	values := []float64{0, -1, 1, 5e-324, -5e-324, 1e-300, 1e-30, 1e6, -1e9, 1e30, -1e150, 1e300, 1.7e308, 0.3, 12}
	for range 60 {
		at := numbers[random.IntN(len(numbers))]
		with := strconv.FormatFloat(values[random.IntN(len(values))], 'g', -1, 64)
		changed := slices.Concat(text[:at[0]], []byte(with), text[at[1]:])
		try(fmt.Sprintf("%s for %s at byte %d", with, text[at[0]:at[1]], at[0]), changed)
	}
	require.Greater(t, read, 10, "some changes are no fault")
	require.Less(t, read, 90, "most are")
}

// numbersIn are the places of the numbers of a JSON text, from and to.
func numbersIn(text []byte) [][2]int64 {
	var places [][2]int64
	decoder := json.NewDecoder(bytes.NewReader(text))
	for {
		token, err := decoder.Token()
		if err != nil {
			return places
		}
		if _, ok := token.(float64); !ok {
			continue
		}
		to := decoder.InputOffset()
		from := to
		for strings.ContainsRune("0123456789+-.eE", rune(text[from-1])) {
			from--
		}
		places = append(places, [2]int64{from, to})
	}
}
