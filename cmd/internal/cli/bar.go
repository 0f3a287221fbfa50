package cli

import (
	"io"
	"sync/atomic"

	"github.com/vbauerster/mpb/v8"
	"github.com/vbauerster/mpb/v8/decor"
)

// barReporter draws a bar on a terminal: stages done of all, the name of the one under
// way, and the time so far. It is wiped when the work ends, so that the summary stands alone.
type barReporter struct {
	pool  *mpb.Progress
	bar   *mpb.Bar
	stage atomic.Value // string; the bar is drawn by a goroutine of its own
	done  int64        // stages
}

// stageSteps is how finely the bar can show a part of a stage.
const stageSteps = 100

// newBarReporter draws on w. total is the number of stages expected; more or fewer only
// make the bar jump.
func newBarReporter(w io.Writer, total int) *barReporter {
	r := &barReporter{pool: mpb.New(mpb.WithOutput(w), mpb.WithWidth(48), mpb.WithAutoRefresh())}
	r.stage.Store("")
	name := decor.Any(func(decor.Statistics) string { return r.stage.Load().(string) },
		decor.WC{W: 14, C: decor.DindentRight})
	r.bar = r.pool.New(int64(total)*stageSteps, mpb.BarStyle().Lbound("[").Filler("=").Tip(">").Padding(" ").Rbound("]"),
		mpb.PrependDecorators(name),
		mpb.AppendDecorators(decor.Elapsed(decor.ET_STYLE_MMSS)),
		mpb.BarRemoveOnComplete())
	return r
}

func (r *barReporter) begin(stage string) { r.stage.Store(stage) }

func (r *barReporter) part(done, total int) {
	r.bar.SetCurrent(r.done*stageSteps + stageSteps*int64(done)/int64(max(total, 1)))
}

func (r *barReporter) finish(stageRecord) {
	r.done++
	r.bar.SetCurrent(r.done * stageSteps)
}

func (r *barReporter) close() {
	r.bar.Abort(true)
	r.pool.Wait()
}
