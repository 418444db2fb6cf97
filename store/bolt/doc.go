// Package bolt is the embedded store: one bbolt file with the layout told in
// package store, and a folder of photos beside it.
//
// # Writing
//
// One goroutine writes. It takes what waits in the queue, checks each request on
// its own inside one transaction, writes those that pass and makes them durable
// together: one fsync for everybody who waited during the last one. Requests for
// the same stream in one transaction see each other; a refused one writes
// nothing and costs its neighbours nothing.
//
// A commit whose context ends while it waits is taken out of the queue; one whose
// writing has begun is waited for, so the caller is always told what is true.
//
// # Reading
//
// A read transaction that stays open keeps every page freed meanwhile, and the
// file grows without end; if the file must be mapped anew it stops the writer
// too. So reads copy one page of records and close, and a backup is first copied
// to a file beside the store and only then sent on its slow way.
//
// # Distrust of the file
//
// bbolt has no checksums but on its two head pages, makes a new store of an empty
// file, and panics (in a goroutine of its own, where nobody can catch it) or dies
// of a memory fault on a torn one. Before bbolt gets to write, [Open] therefore
// reads the whole tree of pages itself, by plain reads: a file that is empty,
// foreign, newer, cut short or torn is an error and stays as it is, byte for
// byte. What lies inside the pages is guarded by the chain: reading verifies it.
//
// The list of free pages is not kept in the file: it is found anew by that walk,
// since a wrong bit in it would make bbolt overwrite records. The price is that
// opening takes time in proportion to the file; see BenchmarkOpen.
//
// If one of the two head pages is damaged, bbolt goes on from the other, which
// can be one transaction older. A crash in the middle of writing looks the same,
// so that is no error; [DB.Warnings] tells it and the check finds it.
package bolt
