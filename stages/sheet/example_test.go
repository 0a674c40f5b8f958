package sheet_test

import (
	"bytes"
	"fmt"
	"os"
	"strings"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/sheet"
)

// Calculation, operation sheets, record and figures of an element in a folder.
func ExampleWriteFiles() {
	record, _ := slab(1500e-6)
	folder, _ := os.MkdirTemp("", "sheets")
	defer func() { _ = os.RemoveAll(folder) }()
	names, err := sheet.WriteFiles(folder, record, sheet.Settings{Project: "Estuary Link", Revision: "A"})
	fmt.Println(strings.Join(names[:6], "\n"), err)
	// Output:
	// S-1--b-a9be9e-calculation.html
	// S-1--b-a9be9e-calculation.md
	// S-1--b-a9be9e-operation.html
	// S-1--b-a9be9e-operation.md
	// S-1--b-a9be9e-record.json
	// S-1--b-a9be9e-sequence.svg <nil>
}

// The operation sheet of a stage that fails names no limit.
func ExampleWriteOperationMarkdown() {
	record, _ := slab(1e-6)
	var out strings.Builder
	err := sheet.WriteOperationMarkdown(&out, record, sheet.Settings{})
	_, refusal, _ := strings.Cut(out.String(), "**DO NOT")
	fmt.Println("DO NOT" + strings.Join(strings.SplitN(refusal, "\n", 5)[:4], "\n"))
	fmt.Println(err)
	// Output:
	// DO NOT PROCEED**
	//
	// - store: bonded bars in the tension zone fails
	//
	// <nil>
}

// A record read back from JSON has the fingerprint of the one written.
func ExampleFingerprint() {
	record, _ := slab(1500e-6)
	var data bytes.Buffer
	err := sheet.WriteJSON(&data, record)
	fmt.Println(err)
	back, err := sheet.ReadJSON(&data)
	fmt.Println(err)
	one, _ := sheet.Fingerprint(record)
	two, _ := sheet.Fingerprint(back)
	_, err = sheet.Fingerprint(stages.Record{})
	fmt.Println(one == two, err)
	// Output:
	// <nil>
	// <nil>
	// true <nil>
}
