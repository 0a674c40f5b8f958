package section_test

import (
	"testing"

	"github.com/tempstage/tempstage/section"
)

func BenchmarkWalls(b *testing.B) {
	for name, shape := range wallShapes(b) {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := shape.Mirrored().Walls(); err != nil { // a shape keeps what was found of it
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkFlowsBetweenTwoSections(b *testing.B) {
	shape := wallShapes(b)["box"]
	walls := wallsOf(b, shape)
	change := section.Change{Distance: 0.1, Before: shape, After: shape, To: section.Forces{My: 1e5}}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := walls.Between(change); err != nil {
			b.Fatal(err)
		}
	}
}
