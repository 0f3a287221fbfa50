package cli

import (
	"bufio"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
)

// manifestName is the hidden file that lists what siltstep wrote into a folder, one
// "checksum  name" a line, in the form that sha256sum -c reads.
const manifestName = ".siltstep-files"

// A manifest holds the SHA-256 checksum, in hex, of each file that siltstep wrote into a
// folder, by slash-separated name. Manifests themselves are listed without checksum.
type manifest map[string]string

// writeManifest lists the files of a folder that siltstep has just filled. Files below an
// inner folder with a manifest of its own are left to that one.
func writeManifest(dir string) error {
	listed := manifest{}
	err := filepath.WalkDir(dir, func(place string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		name, err := filepath.Rel(dir, place)
		if err != nil {
			return err
		}
		name = filepath.ToSlash(name)
		if !entry.IsDir() {
			listed[name], err = checksum(place)
			return err
		}
		if _, err := os.Lstat(filepath.Join(place, manifestName)); err == nil && name != "." {
			listed[path.Join(name, manifestName)] = ""
			return fs.SkipDir
		}
		return nil
	})
	if err != nil {
		return err
	}
	var text strings.Builder
	for _, name := range slices.Sorted(maps.Keys(listed)) {
		if listed[name] == "" {
			fmt.Fprintf(&text, "# %s\n", name)
			continue
		}
		fmt.Fprintf(&text, "%s  %s\n", listed[name], name)
	}
	return os.WriteFile(filepath.Join(dir, manifestName), []byte(text.String()), 0o666)
}

// readManifest returns all that siltstep wrote into a folder and the inner folders with
// manifests of their own. The error is fs.ErrNotExist where nothing says that siltstep
// wrote there.
func readManifest(dir string) (manifest, error) {
	file, err := os.Open(filepath.Join(dir, manifestName))
	if err != nil {
		return nil, err
	}
	defer file.Close()
	listed := manifest{manifestName: ""}
	lines := bufio.NewScanner(file)
	for lines.Scan() {
		if inner, ok := strings.CutPrefix(lines.Text(), "# "); ok {
			if err := listed.addInner(dir, inner); err != nil {
				return nil, err
			}
			continue
		}
		sum, name, ok := strings.Cut(lines.Text(), "  ")
		if !ok || len(sum) != 2*sha256.Size || !filepath.IsLocal(filepath.FromSlash(name)) {
			return nil, fmt.Errorf("%s is damaged", filepath.Join(dir, manifestName))
		}
		listed[name] = sum
	}
	return listed, lines.Err()
}

// addInner adds the files of the inner folder whose manifest has the given name; a folder
// that is gone adds nothing.
func (m manifest) addInner(dir, name string) error {
	if !filepath.IsLocal(filepath.FromSlash(name)) || path.Base(name) != manifestName || name == manifestName {
		return fmt.Errorf("%s is damaged", filepath.Join(dir, manifestName))
	}
	inner := path.Dir(name)
	files, err := readManifest(filepath.Join(dir, filepath.FromSlash(inner)))
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	for file, sum := range files {
		m[path.Join(inner, file)] = sum
	}
	return err
}

// unchanged returns an error that names the first file, by name, that is no longer what
// siltstep wrote. A file that is gone is no fault.
func (m manifest) unchanged(dir string) error {
	for _, name := range slices.Sorted(maps.Keys(m)) {
		place := filepath.Join(dir, filepath.FromSlash(name))
		info, err := os.Lstat(place)
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil {
			return err
		}
		sum := ""
		if info.Mode().IsRegular() && m[name] != "" {
			if sum, err = checksum(place); err != nil {
				return err
			}
		}
		if !info.Mode().IsRegular() || sum != m[name] {
			return fmt.Errorf("%s was changed after siltstep wrote it; move it away, or name a new folder", place)
		}
	}
	return nil
}

func checksum(place string) (string, error) {
	file, err := os.Open(place)
	if err != nil {
		return "", err
	}
	defer file.Close()
	sum := sha256.New()
	if _, err := io.Copy(sum, file); err != nil {
		return "", err
	}
	return hex.EncodeToString(sum.Sum(nil)), nil
}
