module steelyard

go 1.26.0

require (
	github.com/BurntSushi/toml v1.4.1-0.20240526193622-a339e1f7089c // indirect
	github.com/adrg/xdg v0.5.3 // indirect
	github.com/agnivade/levenshtein v1.2.2 // indirect
	github.com/alecthomas/kong v1.17.0 // indirect
	github.com/alecthomas/participle/v2 v2.1.4 // indirect
	github.com/chzyer/readline v1.5.1 // indirect
	github.com/clipperhouse/uax29/v2 v2.2.0 // indirect
	github.com/google/go-cmp v0.7.0 // indirect
	github.com/google/renameio/v2 v2.0.2 // indirect
	github.com/martinlindhe/unit v0.0.0-20230420213220-4adfd7d0a0d6 // indirect
	github.com/mattn/go-runewidth v0.0.31 // indirect
	github.com/rogpeppe/go-internal v1.16.0 // indirect
	golang.org/x/exp/typeparams v0.0.0-20231108232855-2478ac86f678 // indirect
	golang.org/x/mod v0.42.0 // indirect
	golang.org/x/sync v0.25.0 // indirect
	golang.org/x/sys v0.50.0 // indirect
	golang.org/x/term v0.48.0 // indirect
	golang.org/x/text v0.44.0 // indirect
	golang.org/x/tools v0.52.0 // indirect
	gonum.org/v1/gonum v0.17.0 // indirect
	honnef.co/go/tools v0.8.2 // indirect
	pgregory.net/rapid v1.3.0 // indirect
)

tool honnef.co/go/tools/cmd/staticcheck
