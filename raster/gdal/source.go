package gdal

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"
	"strings"

	"github.com/airbusgeo/godal"
)

// tile is the header of one file and its place in the mosaic.
type tile struct {
	path                 string
	driver               string
	cols, rows           int
	geo                  [6]float64 // affine: x0, dx/col, dx/row, y0, dy/col, dy/row
	wkt                  string
	band                 godal.DataType
	blockCols, blockRows int
	scale, offset        float64
	noData               float64
	hasNoData            bool
	masked               bool   // a mask of its own, not one made from the nodata value
	allValid             bool   // no mask of any kind
	unitText             string // as the band states it
	col, row             int    // of its first cell in the mosaic
	warnings             []string
}

// openRaster opens a file for reading with its sidecars.
func openRaster(path string) (ds *godal.Dataset, warnings []string, err error) {
	start()
	var j journal
	ds, err = godal.Open(path, godal.RasterOnly(), godal.SiblingFiles(), godal.ErrLogger(j.note))
	if err != nil {
		return nil, nil, explainOpen(path, j.said(err))
	}
	return ds, j.warnings, nil
}

// readHeader reads the header of a file and refuses what is not one band of heights.
func readHeader(path string) (t tile, err error) {
	if err := mustExist(path); err != nil {
		return t, err
	}
	ds, warnings, err := openRaster(path)
	if err != nil {
		return t, err
	}
	var j journal
	defer ds.Close(godal.ErrLogger(j.note))
	bands := ds.Bands()
	t = tile{path: path, driver: ds.Driver().ShortName(), wkt: ds.Projection(), warnings: warnings}
	if err := t.checkBands(bands, ds); err != nil {
		return t, err
	}
	s := bands[0].Structure()
	t.cols, t.rows, t.blockCols, t.blockRows = s.SizeX, s.SizeY, s.BlockSizeX, s.BlockSizeY
	t.band, t.scale, t.offset = s.DataType, s.Scale, s.Offset
	if t.scale == 0 || math.IsNaN(t.scale+t.offset) || math.IsInf(t.scale+t.offset, 0) {
		return t, wrong("%s: scale %g and offset %g cannot be applied: correct them in the file", path, t.scale, t.offset)
	}
	if t.cols < 3 || t.rows < 3 {
		return t, wrong("%s: %d x %d cells; an elevation model needs at least 3 x 3", path, t.cols, t.rows)
	}
	if t.geo, err = ds.GeoTransform(godal.ErrLogger(j.note)); err != nil || t.geo == [6]float64{0, 1, 0, 0, 0, 1} {
		return t, wrong("%s: the file does not say where its cells lie (no georeference): export it again with one", path)
	}
	if math.Abs(t.geo[1]*t.geo[5]-t.geo[2]*t.geo[4]) == 0 {
		return t, wrong("%s: its cells have no area (a cell side is zero): export it again", path)
	}
	flags := bands[0].MaskFlags()
	t.allValid = flags&maskAllValid != 0
	t.masked = flags&maskPerDataset != 0 && flags&maskNoData == 0
	t.noData, t.hasNoData = bands[0].NoData()
	if t.unitText, err = bandUnit(ds); err != nil {
		return t, wrong("%s: its band cannot be opened: the file is damaged, or a source of it is missing: fetch it again (%w)", path, err)
	}
	return t, nil
}

// Mask flags of the library (GMF_... in gdal.h).
const (
	maskAllValid   = 1
	maskPerDataset = 2
	maskNoData     = 8
)

// checkBands refuses files that are not one band of real numbers with at least 16 bits.
func (t *tile) checkBands(bands []godal.Band, ds *godal.Dataset) error {
	if len(bands) == 0 {
		if sub := ds.Metadatas(godal.Domain("SUBDATASETS")); len(sub) > 0 {
			return wrong("%s: the file is a container of several data sets: name one of them, for instance %s", t.path, sub["SUBDATASET_1_NAME"])
		}
		return wrong("%s: the file holds no raster band", t.path)
	}
	if len(bands) > 1 {
		return wrong("%s: %d bands; an elevation model has one: extract it, for instance with gdal_translate -b 1 (pictures are not heights)", t.path, len(bands))
	}
	switch kind := bands[0].Structure().DataType; kind {
	case godal.Int16, godal.UInt16, godal.Int32, godal.UInt32, godal.Float32, godal.Float64:
	case godal.Byte:
		return wrong("%s: the band holds 8-bit values, as pictures do, and not heights: give the elevation model itself, or convert whole heights with gdal_translate -ot Int16", t.path)
	default:
		return wrong("%s: the band holds %s numbers, which heights cannot be: give real numbers", t.path, kind)
	}
	return nil
}

// mustExist refuses a missing, empty or unreadable file before the library sees it. Names
// inside the library's own file systems are left to it.
func mustExist(path string) error {
	if path == "" {
		return wrong("an input file name is empty")
	}
	if strings.HasPrefix(path, "/vsi") {
		return nil
	}
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist) && strings.Contains(path, ":"):
		return nil // a data set inside a container
	case errors.Is(err, fs.ErrNotExist):
		return wrong("%s: no such file: check the name", path)
	case errors.Is(err, fs.ErrPermission):
		return wrong("%s: no permission to read it", path)
	case err != nil:
		return wrong("%s: cannot be read: %w", path, err)
	case info.Mode().IsRegular() && info.Size() == 0:
		return wrong("%s: the file is empty: fetch it again", path)
	}
	return nil
}

// explainOpen says in plain words why a file did not open.
func explainOpen(path, said string) error {
	info, err := os.Stat(path)
	if err == nil && info.IsDir() {
		return wrong("%s: is a folder: name the raster files inside it", path)
	}
	file, err := os.Open(path)
	if err != nil {
		if errors.Is(err, fs.ErrPermission) {
			return wrong("%s: no permission to read it", path)
		}
		return wrong("%s: cannot be opened as a raster (%s)", path, said)
	}
	defer file.Close()
	head := make([]byte, 512)
	n, _ := io.ReadFull(file, head)
	head = bytes.TrimLeft(head[:n], " \t\r\n\xef\xbb\xbf")
	lower := bytes.ToLower(head)
	switch {
	case bytes.HasPrefix(head, []byte("II*\x00")), bytes.HasPrefix(head, []byte("MM\x00*")),
		bytes.HasPrefix(head, []byte("II+\x00")), bytes.HasPrefix(head, []byte("MM\x00+")):
		return wrong("%s: the TIFF is damaged or cut short: fetch it again (%s)", path, said)
	case bytes.HasPrefix(lower, []byte("<!doctype")), bytes.HasPrefix(lower, []byte("<html")):
		return wrong("%s: holds a web page, not a raster; a download may have failed: fetch it again", path)
	case bytes.HasPrefix(lower, []byte("<vrtdataset")):
		return wrong("%s: the VRT is damaged (%s)", path, said)
	case bytes.HasPrefix(head, []byte("{")):
		return wrong("%s: holds vector or other JSON data, not a raster of heights", path)
	case n > 0 && isText(head):
		return wrong("%s: holds text, not a raster that can be read: an ASCII grid begins with ncols", path)
	}
	return wrong("%s: not a raster that can be read, or a damaged one (%s)", path, said)
}

func isText(head []byte) bool {
	for _, ch := range head {
		if ch < 9 || (ch > 13 && ch < 32) {
			return false
		}
	}
	return true
}

// northUp reports whether rows run straight from north to south and columns west to east.
func (t *tile) northUp() bool {
	return t.geo[2] == 0 && t.geo[4] == 0 && t.geo[1] > 0 && t.geo[5] < 0
}

// noDataText says how a file marks voids.
func (t *tile) noDataText() string {
	switch {
	case t.masked && t.hasNoData:
		return fmt.Sprintf("a mask, and the value %g", t.noData)
	case t.masked:
		return "a mask"
	case t.hasNoData && math.IsNaN(t.noData):
		return "NaN"
	case t.hasNoData:
		return fmt.Sprintf("the value %g", t.noData)
	}
	return "none declared"
}
