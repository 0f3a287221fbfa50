package gdal

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// FileSum is the fingerprint of one input file.
type FileSum struct {
	Path   string
	Bytes  int64
	SHA256 string // lower-case hexadecimal
}

// sidecarAfter are endings added to the whole name of a raster, sidecarInstead those that
// take the place of its own ending.
var (
	sidecarAfter   = []string{".aux.xml", ".msk", ".ovr"}
	sidecarInstead = []string{".tfw", ".wld", ".prj", ".hdr", ".aux", ".rrd", ".clr"}
)

// Checksum returns the SHA-256 of a file. Errors: a file that is missing or no file
// (ErrInput), or cannot be read.
func Checksum(path string) (FileSum, error) {
	file, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return FileSum{}, wrong("%s: no such file: check the name", path)
	}
	if err != nil {
		return FileSum{}, fmt.Errorf("checksum: %w", err)
	}
	defer file.Close()
	if info, err := file.Stat(); err == nil && !info.Mode().IsRegular() {
		return FileSum{}, wrong("%s: is not a file", path)
	}
	sum := sha256.New()
	n, err := io.Copy(sum, file)
	if err != nil {
		return FileSum{}, fmt.Errorf("checksum: %w", err)
	}
	return FileSum{Path: path, Bytes: n, SHA256: hex.EncodeToString(sum.Sum(nil))}, nil
}

// Sidecars returns the files beside a raster that can change what it says: statistics and
// masks, world file, projection, header. In a fixed order; nothing where there is none.
func Sidecars(path string) []string {
	bare := strings.TrimSuffix(path, filepath.Ext(path))
	var names []string
	for _, ending := range sidecarAfter {
		names = append(names, path+ending)
	}
	for _, ending := range sidecarInstead {
		names = append(names, bare+ending)
	}
	var found []string
	for _, name := range names {
		if info, err := os.Stat(name); err == nil && info.Mode().IsRegular() && name != path {
			found = append(found, name)
		}
	}
	return found
}
