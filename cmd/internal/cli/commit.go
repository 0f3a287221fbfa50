package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
)

// commit moves the finished files into place, all or none. Errors: the request's, where
// a file in the target is not of an earlier plan or was changed; otherwise the disk's.
func (f *folder) commit() error {
	if err := writeManifest(f.stage); err != nil {
		return fmt.Errorf("--out %s: %w", f.target, err)
	}
	if f.earlier == nil {
		if err := os.Rename(f.part, f.target); err != nil {
			return fmt.Errorf("--out %s: the finished files could not be moved into place: %w", f.target, err)
		}
		f.part, f.parents = "", nil
		return nil
	}
	fresh, err := readManifest(f.stage)
	if err != nil {
		return err
	}
	if err := errors.Join(f.earlier.unchanged(f.target), f.unclaimed(fresh)); err != nil {
		return request(err)
	}
	if err := f.exchange(fresh); err != nil {
		return fmt.Errorf("--out %s: the finished files could not be moved into place, the earlier ones are back: %w", f.target, err)
	}
	f.discard()
	return nil
}

// unclaimed returns an error where a new file would fall on something in the target that
// no earlier plan wrote.
func (f *folder) unclaimed(fresh manifest) error {
	for _, name := range slices.Sorted(maps.Keys(fresh)) {
		if _, ours := f.earlier[name]; ours {
			continue
		}
		place := filepath.Join(f.target, filepath.FromSlash(name))
		if _, err := os.Lstat(place); err == nil {
			return fmt.Errorf("%s was not written by siltstep and would be replaced; move it away, or name a new folder", place)
		}
		for dir := filepath.Dir(place); len(dir) > len(f.target); dir = filepath.Dir(dir) {
			if info, err := os.Lstat(dir); err == nil && !info.IsDir() {
				return fmt.Errorf("%s is in the way of a folder of the plan; move it away, or name a new folder", dir)
			}
		}
	}
	return nil
}

// exchange moves the earlier files out of the target and the new ones in. Where a move
// fails, those before it are undone.
func (f *folder) exchange(fresh manifest) error {
	var done moves
	for _, name := range slices.Sorted(maps.Keys(f.earlier)) {
		local := filepath.FromSlash(name)
		err := done.move(filepath.Join(f.target, local), filepath.Join(f.part, "old", local))
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return errors.Join(err, done.undo())
		}
	}
	for _, name := range slices.Sorted(maps.Keys(fresh)) {
		local := filepath.FromSlash(name)
		if err := done.move(filepath.Join(f.stage, local), filepath.Join(f.target, local)); err != nil {
			return errors.Join(err, done.undo())
		}
	}
	for name := range f.earlier { // folders that are empty now; others refuse to go
		dir := filepath.Dir(filepath.Join(f.target, filepath.FromSlash(name)))
		if dir != f.target {
			os.Remove(dir)
		}
	}
	return nil
}

// moves is a list of renames that were done, each as from and to.
type moves [][2]string

func (m *moves) move(from, to string) error {
	if err := os.MkdirAll(filepath.Dir(to), 0o777); err != nil {
		return err
	}
	if err := os.Rename(from, to); err != nil {
		return err
	}
	*m = append(*m, [2]string{from, to})
	return nil
}

// undo takes the renames back, the last one first.
func (m moves) undo() error {
	var err error
	for _, pair := range slices.Backward(m) {
		err = errors.Join(err, os.Rename(pair[1], pair[0]))
	}
	return err
}
