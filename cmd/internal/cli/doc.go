// Package cli is the command line of siltstep: one file a command, and what the commands
// share: the order of words, the output folder, progress, messages and exit codes.
//
// # Assumptions
// An output folder belongs to one plan. Files that siltstep wrote are known by the list
// of checksums it leaves beside them, so a file changed by hand is never replaced.
//
// # Units
// What a person reads follows --units; data files are SI always.
//
// # Limits
// Ctrl-C is heeded between stages and between files, so it can take a few seconds on a
// large elevation model. A killed process (SIGKILL, power) can leave a hidden folder
// ending in .siltstep-part, which may be removed.
//
// # Sources
// None: no figure is computed here.
package cli
