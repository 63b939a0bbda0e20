package main

import (
	"github.com/spf13/cobra"

	"mottle/sim/site"
)

func newSchema() *cobra.Command {
	return &cobra.Command{
		Use:   "schema",
		Short: "Write the JSON schema of the field file, for editors",
		Long: `Schema writes the JSON schema (draft 2020-12) of field files to standard output.
An editor that knows it completes the keys, explains them and underlines what is
misspelt or has no unit. Files written by init name it in their first line:

  # yaml-language-server: $schema=mottle.schema.json

It holds every key with its form, meaning and default; ranges, and what must go
together, are told by check.`,
		Example: "  mottle schema > mottle.schema.json",
		Args:    noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return site.WriteSchema(cmd.OutOrStdout())
		},
	}
}
