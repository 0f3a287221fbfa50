package cli

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
)

// partSuffix ends the name of the hidden folder in which output grows until it is complete.
const partSuffix = ".siltstep-part"

// A folder is an output folder in the making. Files grow in a hidden folder on the same
// file system; commit moves them into place all at once, discard removes them.
type folder struct {
	target  string   // where the files end up
	part    string   // hidden folder; empty once committed or discarded
	stage   string   // inside part, or part itself: laid out as the target will be
	parents []string // folders made on the way to the target, outermost first
	earlier manifest // files of the plan to be replaced; nil for a new target
}

// openFolder begins an output folder. An existing target is refused unless replace is set;
// then it must be empty or hold an unchanged earlier plan. All errors are of the request,
// and leave nothing behind.
func openFolder(target string, replace bool) (*folder, error) {
	if target == "" {
		return nil, requestf("--out is missing; name the folder to make, as in --out plan")
	}
	info, err := os.Stat(target)
	switch {
	case err == nil && !info.IsDir():
		return nil, requestf("--out %s is a file; name a new folder", target)
	case err == nil && !replace:
		return nil, requestf("--out %s exists already; name a new folder, or add --replace to replace an earlier plan there", target)
	case err == nil:
		return openReplacement(target)
	}
	f := &folder{target: filepath.Clean(target)}
	if f.parents, err = makeParents(filepath.Dir(f.target)); err == nil {
		f.part, err = makePart(filepath.Dir(f.target), filepath.Base(f.target))
	}
	if err != nil {
		f.discard()
		return nil, requestf("--out %s cannot be made: %w; name a folder in a place you may write to", target, bare(err))
	}
	f.stage = f.part
	return f, nil
}

// openReplacement begins the replacement of an earlier plan. The hidden folder is inside
// the target, so that it is on the same file system even where the target is a mount.
func openReplacement(target string) (*folder, error) {
	f := &folder{target: filepath.Clean(target)}
	entries, err := os.ReadDir(target)
	if err != nil {
		return nil, requestf("--out %s cannot be read: %w", target, bare(err))
	}
	switch f.earlier, err = readManifest(target); {
	case err == nil:
	case !errors.Is(err, fs.ErrNotExist):
		return nil, requestf("--out %s cannot be replaced: %w; name a new folder", target, err)
	case len(entries) > 0:
		return nil, requestf("--out %s holds no plan that siltstep wrote; name a new folder", target)
	default:
		f.earlier = manifest{}
	}
	if err := f.earlier.unchanged(target); err != nil {
		return nil, request(err)
	}
	if f.part, err = makePart(target, ""); err != nil {
		return nil, requestf("--out %s cannot be written: %w; name a folder in a place you may write to", target, bare(err))
	}
	f.stage = filepath.Join(f.part, "new")
	if err := os.Mkdir(f.stage, 0o777); err != nil {
		f.discard()
		return nil, requestf("--out %s cannot be written: %w", target, bare(err))
	}
	return f, nil
}

// guard refuses a replacement that would take away what the user still needs: the work of another
// command, told by mark, a file that every run of this one writes; or an input of this very run.
func (f *folder) guard(mark string, inputs ...string) error {
	if len(f.earlier) == 0 {
		return nil
	}
	if _, ours := f.earlier[mark]; !ours {
		return requestf("--out %s holds what another command of siltstep wrote, not an earlier %s; name a new folder", f.target, mark)
	}
	for _, input := range inputs {
		info, err := os.Stat(input)
		if err != nil {
			continue // it is not there, or no plain file: whoever reads it will say so
		}
		for name := range f.earlier {
			if old, err := os.Stat(filepath.Join(f.target, filepath.FromSlash(name))); err == nil && os.SameFile(info, old) {
				return requestf("%s is an input and lies among the files that --replace would take away; copy it elsewhere, or name a new folder", input)
			}
		}
	}
	return nil
}

// path returns where to write the file of a slash-separated name, and makes its folder.
func (f *folder) path(name string) (string, error) {
	path := filepath.Join(f.stage, filepath.FromSlash(name))
	return path, os.MkdirAll(filepath.Dir(path), 0o777)
}

// write makes one file from what fill writes. Errors of writing name the file.
func (f *folder) write(name string, fill func(io.Writer) error) error {
	path, err := f.path(name)
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	file, err := os.Create(path)
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	buffer := bufio.NewWriterSize(file, 1<<16)
	err = fill(buffer)
	if err == nil {
		err = buffer.Flush()
	}
	if closed := file.Close(); err == nil {
		err = closed
	}
	if err != nil {
		return fmt.Errorf("%s could not be written: %w", name, bare(err))
	}
	return nil
}

// inner returns the folder of a name inside f, to write into; f alone is committed.
func (f *folder) inner(name string) *folder {
	return &folder{target: filepath.Join(f.target, name), stage: filepath.Join(f.stage, name)}
}

// discard removes all that was begun; after commit it does nothing.
func (f *folder) discard() {
	if f.part != "" {
		os.RemoveAll(f.part)
		f.part = ""
	}
	for i := len(f.parents) - 1; i >= 0; i-- {
		os.Remove(f.parents[i])
	}
	f.parents = nil
}

// bare returns the cause of an error of the file system without the path, which may be of
// a hidden folder that the user never named.
func bare(err error) error {
	var at *fs.PathError
	if errors.As(err, &at) {
		return at.Err
	}
	return err
}

// makeParents makes a folder and those above it that are missing, and returns the ones it
// made, outermost first, also where it fails.
func makeParents(dir string) (made []string, err error) {
	var missing []string
	for {
		_, err := os.Stat(dir)
		if err == nil {
			break
		}
		if !errors.Is(err, fs.ErrNotExist) {
			return nil, err
		}
		missing = append(missing, dir)
		dir = filepath.Dir(dir)
	}
	for i := len(missing) - 1; i >= 0; i-- {
		if err := os.Mkdir(missing[i], 0o777); err != nil {
			return made, err
		}
		made = append(made, missing[i])
	}
	return made, nil
}

// makePart makes a hidden folder with a name that is not taken.
func makePart(parent, base string) (string, error) {
	for {
		path := filepath.Join(parent, fmt.Sprintf(".%s-%08x%s", base, rand.Uint32(), partSuffix))
		if err := os.Mkdir(path, 0o777); !errors.Is(err, fs.ErrExist) {
			if err != nil {
				return "", err
			}
			return path, nil
		}
	}
}
