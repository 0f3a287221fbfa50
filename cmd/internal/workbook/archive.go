package workbook

import (
	"archive/zip"
	"bytes"
	"errors"
	"io"
	"io/fs"
	"maps"
	"slices"

	"github.com/xuri/excelize/v2"
)

// contentTypes is the part that readers look for first.
const contentTypes = "[Content_Types].xml"

// An archive is a zip file whose parts stand in the order of their names, whatever the order in which they were made, and have no date.
type archive struct {
	to    io.Writer
	parts map[string]*bytes.Buffer
}

func newArchive(to io.Writer) excelize.ZipWriter {
	return &archive{to: to, parts: map[string]*bytes.Buffer{}}
}

// Create begins a part.
func (a *archive) Create(name string) (io.Writer, error) {
	part := new(bytes.Buffer)
	a.parts[name] = part
	return part, nil
}

// AddFS is part of the interface; nothing of a workbook comes from a file system.
func (a *archive) AddFS(fs.FS) error { return errors.ErrUnsupported }

// Close writes the parts.
func (a *archive) Close() error {
	names := slices.Sorted(maps.Keys(a.parts))
	if i := slices.Index(names, contentTypes); i > 0 {
		names = slices.Insert(slices.Delete(names, i, i+1), 0, contentTypes)
	}
	out := zip.NewWriter(a.to)
	for _, name := range names {
		part, err := out.Create(name)
		if err != nil {
			return err
		}
		if _, err := part.Write(a.parts[name].Bytes()); err != nil {
			return err
		}
	}
	return out.Close()
}
