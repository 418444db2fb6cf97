// Command chargehand is a site assistant for renewing a small flat roof.
package main

import "os"

func main() { os.Exit(run(os.Args[1:], realWorld())) }
