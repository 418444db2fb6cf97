package main

import (
	"fmt"

	"github.com/spf13/cobra"
)

// exactly wants n arguments; anything else is an error of the call.
func exactly(n int) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		if len(args) != n {
			return usage{fmt.Errorf("the call is: %s", c.UseLine())}
		}
		return nil
	}
}
