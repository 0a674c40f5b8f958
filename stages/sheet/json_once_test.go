package sheet

import (
	"bytes"
	"encoding/json"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// What is repeated stands once at the end of the file, and comes back where it was; a reader
// that finds a number that none has, or a file that would grow out of proportion, refuses it.
func TestWhatIsRepeatedStandsOnce(t *testing.T) {
	const long = "the same words at two places"
	text := []byte(`{"format":2,"a":"` + long + `","b":[{"x":1,"y":"` + long + `"},{"x":1,"y":"` + long + `"},"\"x§\\"],"c":"short","d":"short"}` + "\n")
	folded := once(text)
	require.Equal(t, `{"format":2,"a":"§1","b":["§2","§2","\"x§\\"],"c":"short","d":"short","once":["`+long+`",{"x":1,"y":"`+long+`"}]}`+"\n", string(folded))
	require.Equal(t, strings.Replace(string(text), "}\n", `,"once":["`+long+`",{"x":1,"y":"`+long+`"}]}`+"\n", 1), unfolded(t, folded))
	for _, plain := range []string{`{"a":1}`, `{}`, `{"a":"§1","b":"` + long + `","c":"` + long + `"}`, `null`} {
		require.Equal(t, plain, string(once([]byte(plain))), "nothing is repeated, or a text begins with the mark")
	}
	_, err := expanded([]byte(`{"a":"§3"}`), []json.RawMessage{[]byte("1")})
	require.ErrorIs(t, err, ErrSheet)
	require.ErrorContains(t, err, `refers to value "3" of 1: must be 1 to 1`)
	_, err = expanded([]byte(`{"a":"\u00a70"}`), []json.RawMessage{[]byte("1")})
	require.ErrorContains(t, err, "must be 1 to 1")
	bomb := []byte(`["` + strings.Repeat(`§1","`, 1000) + `"]`)
	_, err = expanded(bomb, []json.RawMessage{bytes.Repeat([]byte("1"), 1000)})
	require.ErrorContains(t, err, "must be at most 50 times as long")
}

func unfolded(t *testing.T, text []byte) string {
	t.Helper()
	var head struct{ Once []json.RawMessage }
	require.NoError(t, json.Unmarshal(text, &head))
	back, err := expanded(text, head.Once)
	require.NoError(t, err)
	return string(back)
}

// JSON of any shape comes back as it was.
func TestAnyJSONComesBack(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 9))
	var value func(depth int) any
	value = func(depth int) any {
		switch n := random.IntN(8); {
		case n < 2 && depth > 0:
			list := make([]any, random.IntN(4))
			for i := range list {
				list[i] = value(depth - 1)
			}
			return list
		case n < 5 && depth > 0:
			object := map[string]any{}
			for range random.IntN(4) {
				object[strings.Repeat(`k\"`, random.IntN(3))] = value(depth - 1)
			}
			return object
		case n < 6:
			return float64(random.IntN(3)) / 4
		case n < 7:
			return nil
		}
		return []string{"", `\`, `"]}{,:`, "a word that is rather long", "ein § und noch eines", "other words with \" and \\"}[random.IntN(6)]
	}
	for range 300 {
		text, err := json.Marshal(map[string]any{"all": value(6), "more": value(5)})
		require.NoError(t, err)
		var want, back map[string]any
		require.NoError(t, json.Unmarshal(text, &want))
		require.NoError(t, json.Unmarshal([]byte(unfolded(t, once(bytes.Clone(text)))), &back))
		delete(back, "once")
		require.Equal(t, want, back)
	}
}

// The record of the stored calculation is shorter by a fifth and reads back.
func TestAStoredRecordIsShorter(t *testing.T) {
	record := storedRecord(t)
	text, err := encoded(record)
	require.NoError(t, err)
	plain, err := json.Marshal(record)
	require.NoError(t, err)
	require.Less(t, len(text), len(plain)*4/5)
	back, err := ReadJSON(bytes.NewReader(text))
	require.NoError(t, err)
	require.Equal(t, record, back)
	plainBack, err := ReadJSON(bytes.NewReader(plain))
	require.NoError(t, err, "a record in which nothing stands once is read as well")
	require.Equal(t, record, plainBack)
}
