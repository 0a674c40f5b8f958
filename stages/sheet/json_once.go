package sheet

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
)

// A record in a file has every text, list and object that occurs more than once in one place,
// the list "once" at its end; elsewhere stands "§" with its number there, from 1. Nothing in
// that list refers to it.

const (
	onceMark  = "§"
	leastOnce = 16      // bytes of a value below which a reference is no shorter
	mostOnce  = 1 << 16 // bytes of a value beyond which none is looked for
	// mostExpanded is how often longer a record may be than its file: a girder of many
	// stages that repeat is some times as long.
	mostExpanded = 50
)

// once is compact JSON of one object in which each value stands once. Where a text of it
// begins with the mark it is left as it is.
func once(text []byte) []byte {
	end := len(bytes.TrimRight(text, "\n"))
	if end < 2 || text[0] != '{' || bytes.Contains(text, []byte(`"`+onceMark)) {
		return text
	}
	f := folding{text: string(text[:end]), ends: map[int]int{}, count: map[string]int{}, number: map[string]int{}}
	f.measure(0)
	f.members(0)
	if len(f.values) == 0 {
		return text
	}
	out := append(f.out.Bytes()[:f.out.Len()-1], `,"once":[`+strings.Join(f.values, ",")+"]}"...)
	return append(out, text[end:]...)
}

// folding is compact JSON that is being shortened.
type folding struct {
	text   string
	ends   map[int]int    // of the values that may stand once, by where they begin
	count  map[string]int // how often each is there
	number map[string]int // in values, from 1
	values []string
	out    bytes.Buffer
}

// measure finds the end of the value at i and counts it and all within it.
func (f *folding) measure(i int) (end int) {
	switch f.text[i] {
	case '"':
		end = textEnd(f.text, i)
	case '{', '[':
		end = i + 1
		for f.text[end] != '}' && f.text[end] != ']' {
			if f.text[i] == '{' {
				end = textEnd(f.text, end) + 1 // behind the colon
			}
			if end = f.measure(end); f.text[end] == ',' {
				end++
			}
		}
		end++
	default: // a number or a word
		return i + strings.IndexAny(f.text[i:], ",]}")
	}
	if n := end - i; n >= leastOnce && n <= mostOnce {
		f.ends[i] = end
		f.count[f.text[i:end]]++
	}
	return end
}

// textEnd is the end of the text that begins at i.
func textEnd(text string, i int) int {
	for i++; text[i] != '"'; i++ {
		if text[i] == '\\' {
			i++
		}
	}
	return i + 1
}

// value writes the value at i, or its number, and gives its end.
func (f *folding) value(i int) int {
	end := f.ends[i]
	if of := f.text[i:max(i, end)]; f.count[of] > 1 {
		if f.number[of] == 0 {
			f.values = append(f.values, of)
			f.number[of] = len(f.values)
		}
		f.out.WriteString(`"` + onceMark + strconv.Itoa(f.number[of]) + `"`)
		return end
	}
	switch f.text[i] {
	case '{', '[':
		return f.members(i)
	case '"':
		end = textEnd(f.text, i)
	default:
		end = i + strings.IndexAny(f.text[i:], ",]}")
	}
	f.out.WriteString(f.text[i:end])
	return end
}

// members writes the object or the list at i, and gives its end.
func (f *folding) members(i int) int {
	f.out.WriteByte(f.text[i])
	at := i + 1
	for f.text[at] != '}' && f.text[at] != ']' {
		if f.text[i] == '{' {
			key := textEnd(f.text, at) + 1
			f.out.WriteString(f.text[at:key])
			at = key
		}
		if at = f.value(at); f.text[at] == ',' {
			f.out.WriteByte(',')
			at++
		}
	}
	f.out.WriteByte(f.text[at])
	return at + 1
}

// expanded is JSON in which values stand wherever they are meant. The error wraps
// [ErrSheet]: a number that none has, or a record out of proportion to its file.
func expanded(text []byte, values []json.RawMessage) ([]byte, error) {
	if len(values) == 0 {
		return text, nil
	}
	var out bytes.Buffer
	source := string(text)
	for i := 0; i < len(text); i++ {
		if text[i] != '"' {
			out.WriteByte(text[i])
			continue
		}
		end := textEnd(source, i)
		of, err := referred(text[i:end], values)
		if err != nil {
			return nil, err
		}
		out.Write(of)
		if out.Len() > mostExpanded*len(text) {
			return nil, fmt.Errorf("%w: record of more than %d bytes in a file of %d: must be at most %d times as long", ErrSheet, out.Len(), len(text), mostExpanded)
		}
		i = end - 1
	}
	return out.Bytes(), nil
}

// referred is a text of JSON, or the value to which it refers.
func referred(text []byte, values []json.RawMessage) ([]byte, error) {
	var words string
	if len(text) > len(`"\u00a7`)+10 || json.Unmarshal(text, &words) != nil {
		return text, nil
	}
	digits, ok := strings.CutPrefix(words, onceMark)
	if !ok {
		return text, nil
	}
	n, err := strconv.Atoi(digits)
	if err != nil || n < 1 || n > len(values) {
		return nil, fmt.Errorf("%w: %s refers to value %q of %d: must be 1 to %[4]d", ErrSheet, text, digits, len(values))
	}
	return values[n-1], nil
}
