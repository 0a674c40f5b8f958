module github.com/tempstage/tempstage

go 1.25

require (
	github.com/google/go-cmp v0.7.0
	github.com/stretchr/testify v1.11.1
	gonum.org/v1/gonum v0.17.0
)

require (
	github.com/davecgh/go-spew v1.1.1 // indirect
	github.com/pmezard/go-difflib v1.0.0 // indirect
	gopkg.in/yaml.v3 v3.0.1 // indirect
)
