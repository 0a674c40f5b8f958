package sheet

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// fill puts a value of its own into every exported field below v: each string another
// word, each number another number, each list one item.
func fill(v reflect.Value, n *int) {
	*n++
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				fill(v.Field(i), n)
			}
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 1, 1))
		fill(v.Index(0), n)
	case reflect.Array:
		for i := range v.Len() {
			fill(v.Index(i), n)
		}
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		fill(v.Elem(), n)
	case reflect.String:
		v.SetString("word " + string(rune('a'+*n%26)) + strings.Repeat("x", *n%7))
	case reflect.Int, reflect.Int64:
		v.SetInt(int64(*n))
	case reflect.Float64:
		v.SetFloat(float64(*n) + 0.1)
	case reflect.Bool:
		v.SetBool(true)
	}
}

// full is a record with a value in every field; it is no calculation.
func full() stages.Record {
	var record stages.Record
	n := 0
	fill(reflect.ValueOf(&record).Elem(), &n)
	record.Format = stages.Format
	t := &record.Tables[0] // numbers are written down to a digit that they have
	t.YAt, t.ZAt, t.Value.Last, t.Columns[0].Last, t.SumAt = -4, -3, -2, -1, -5
	record.Stages[0].Situations[0].Checks[0].Sense = limits.AtLeast
	return record
}

// No field of a record is lost on the way to JSON and back, none is mixed up with
// another, and the fingerprint is the same.
func TestNoFieldOfARecordIsLost(t *testing.T) {
	record := full()
	text, err := encoded(record)
	require.NoError(t, err)
	back, err := decoded(text)
	require.NoError(t, err)
	require.Empty(t, cmp.Diff(record, back, cmpopts.IgnoreUnexported(stages.Check{})))
	one, err := Fingerprint(record)
	require.NoError(t, err)
	two, err := Fingerprint(back)
	require.NoError(t, err)
	require.Equal(t, one, two)
}

// leaves calls see for each number, word and truth below v.
func leaves(v reflect.Value, path string, see func(path string, v reflect.Value)) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() {
				leaves(v.Field(i), path+"."+f.Name, see)
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			leaves(v.Index(i), path+"[]", see)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			leaves(v.Elem(), path, see)
		}
	case reflect.Func: // a stiffness that varies is no data
	default:
		see(path, v)
	}
}

// A change of any field changes the fingerprint: no two records share sheets.
func TestEveryFieldIsInTheFingerprint(t *testing.T) {
	record := full()
	one, err := Fingerprint(record)
	require.NoError(t, err)
	seen := 0
	leaves(reflect.ValueOf(&record).Elem(), "", func(path string, v reflect.Value) {
		before := reflect.ValueOf(v.Interface())
		switch v.Kind() {
		case reflect.String:
			v.SetString(v.String() + "!")
		case reflect.Int, reflect.Int64:
			v.SetInt(v.Int() + 1)
		case reflect.Float64:
			v.SetFloat(v.Float() + 1)
		case reflect.Bool:
			v.SetBool(!v.Bool())
		}
		other, err := Fingerprint(record)
		require.NoError(t, err, path)
		require.NotEqual(t, one, other, path)
		v.Set(before)
		seen++
	})
	require.Greater(t, seen, 200)
	again, err := Fingerprint(record)
	require.NoError(t, err)
	require.Equal(t, one, again, "all is as it was")
}

// The fingerprint is the beginning of the SHA-256 of the record's JSON, in four groups.
func TestTheFormOfTheFingerprint(t *testing.T) {
	one, err := Fingerprint(rectangle())
	require.NoError(t, err)
	require.Regexp(t, `^[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}$`, one)
	record := rectangle()
	record.Length = math.Inf(1)
	_, err = Fingerprint(record)
	require.ErrorIs(t, err, ErrSheet)
}

// A number that is not finite is refused wherever it stands, and nothing is written.
func TestNoNumberThatIsNotFiniteIsPrinted(t *testing.T) {
	record := full()
	leaves(reflect.ValueOf(&record).Elem(), "", func(path string, v reflect.Value) {
		if v.Kind() != reflect.Float64 {
			return
		}
		before := v.Float()
		for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
			v.SetFloat(bad)
			_, err := Fingerprint(record)
			require.ErrorIs(t, err, ErrSheet, path)
			var out bytes.Buffer
			require.ErrorIs(t, WriteJSON(&out, record), ErrSheet, path)
			require.Zero(t, out.Len(), path)
		}
		v.SetFloat(before)
	})
}

// What is no record of this format is refused with what it must be.
func TestJSONThatIsNoRecord(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, WriteJSON(&out, rectangle()))
	text := strings.TrimSpace(out.String())
	for broken, says := range map[string]string{
		text[:len(text)-1]: "unexpected end",
		text + text:        "after top-level value",
		strings.Replace(text, `"element"`, `"elemnt"`, 1):        "elemnt",
		strings.Replace(text, `"length":20`, `"length":"20"`, 1): "length",
		`{"format":0}`:   "record of format 0: must be format 2; run its calculation again",
		`null`:           "record of format 0",
		`{"format":2.5}`: "number 2.5",
	} {
		_, err := ReadJSON(strings.NewReader(broken))
		require.ErrorIs(t, err, ErrSheet, says)
		require.ErrorContains(t, err, says)
	}
	_, err := ReadJSON(failing{})
	require.ErrorIs(t, err, ErrSheet)
	require.ErrorContains(t, err, "worn out")
}

// failing is a reader and a writer that fails.
type failing struct{}

func (failing) Read([]byte) (int, error)  { return 0, errors.New("worn out") }
func (failing) Write([]byte) (int, error) { return 0, errors.New("worn out") }

// JSON is compact, in one line, with marks as they were written.
func TestTheFormOfTheJSON(t *testing.T) {
	record := rectangle()
	record.Element = "G<3>&"
	var out bytes.Buffer
	require.NoError(t, WriteJSON(&out, record))
	require.Equal(t, 1, strings.Count(out.String(), "\n"))
	require.Contains(t, out.String(), `"element":"G<3>&"`)
	require.True(t, json.Valid(out.Bytes()))
	require.ErrorIs(t, WriteJSON(failing{}, record), ErrSheet)
}
