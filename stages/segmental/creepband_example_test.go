package segmental_test

import (
	"fmt"

	"github.com/tempstage/tempstage/beam/redistribution"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages/segmental"
)

// An interior span of two cantilevers, loaded at 7 days and closed at 60: mid-span moments
// after redistribution, by superposition in time and by EN 1992-2 Annex KK, with the band of creep.
func ExampleInteriorSpan() {
	mix := concrete.EN1992{Fck: 45e6, Cement: concrete.ClassN, Exposure: concrete.Exposure{Humidity: 0.7, NotionalSize: 0.6}}
	span := segmental.InteriorSpan{Change: redistribution.Change{Concrete: mix, Loaded: 7, Changed: 60, Until: 36500}, Span: 60, Weight: 200e3}
	tables, err := span.Tables()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, row := range tables[1].Rows {
		fmt.Printf("creep × %.1f: %.1f %.1f %.1f MN·m\n", row[0], row[1]/1e6, row[2]/1e6, row[3]/1e6)
	}
	// Output:
	// creep × 0.7: 13.9 14.5 13.1 MN·m
	// creep × 1.0: 17.2 17.8 16.1 MN·m
	// creep × 1.3: 19.7 20.2 18.3 MN·m
}
