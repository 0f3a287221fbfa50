package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// openAmendment begins to add files to a finished folder of siltstep, or to write some of them again. All errors are of the
// request, and leave nothing behind.
func openAmendment(target string) (*folder, error) {
	f := &folder{target: filepath.Clean(target)}
	var err error
	switch f.earlier, err = readManifest(target); {
	case errors.Is(err, fs.ErrNotExist):
		return nil, requestf("%s holds no plan that siltstep wrote; name the folder of a finished plan", target)
	case err != nil:
		return nil, requestf("%s cannot be added to: %w; make the plan anew", target, err)
	}
	if f.part, err = makePart(target, ""); err != nil {
		return nil, requestf("%s cannot be written: %w; copy the plan to a place you may write to", target, bare(err))
	}
	f.stage = filepath.Join(f.part, "new")
	if err := os.Mkdir(f.stage, 0o777); err != nil {
		f.discard()
		return nil, requestf("%s cannot be written: %w", target, bare(err))
	}
	return f, nil
}

// amend moves the finished files into place, all or none, and lists them with the others. Errors: the request's, where a file to be replaced was
// changed or is not of siltstep; otherwise the disk's.
func (f *folder) amend() error {
	if err := writeManifest(f.stage); err != nil {
		return fmt.Errorf("%s: %w", f.target, err)
	}
	fresh, err := readManifest(f.stage)
	if err != nil {
		return err
	}
	all, old := maps.Clone(f.earlier), manifest{}
	for name, sum := range fresh {
		if before, ours := f.earlier[name]; ours {
			old[name] = before
		}
		all[name] = sum
	}
	if err := errors.Join(old.unchanged(f.target), f.unclaimed(fresh)); err != nil {
		return request(err)
	}
	if err := all.write(f.stage); err != nil {
		return fmt.Errorf("%s: %w", f.target, err)
	}
	f.earlier = old
	if err := f.exchange(fresh); err != nil {
		return fmt.Errorf("%s: the finished files could not be moved into place, the earlier ones are back: %w", f.target, err)
	}
	f.discard()
	return nil
}

// write writes a manifest of files alone into a folder.
func (m manifest) write(dir string) error {
	var text strings.Builder
	for _, name := range slices.Sorted(maps.Keys(m)) {
		if m[name] != "" {
			fmt.Fprintf(&text, "%s  %s\n", m[name], name)
		}
	}
	return os.WriteFile(filepath.Join(dir, manifestName), []byte(text.String()), 0o666)
}
