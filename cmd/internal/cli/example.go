package cli

// examples holds for each command a line that runs: in the folder that the example of demo makes, or in any.
var examples = map[string]string{
	"inspect":    "inspect dem.tif",
	"screen":     "screen dem.tif --out screening --explain D01",
	"plan":       "plan dem.tif --property property.geojson --settings settings.yaml --out my-plan",
	"profile":    "profile dem.tif --from -104.4376,37.2770 --out my-profile",
	"size":       "size " + sizeExample,
	"peak":       "peak " + peakExample,
	"report":     "report my-plan --for crew",
	"demo":       "demo --out ranch",
	"completion": "completion bash",
}

// exampleHelp returns what the help of a command ends with.
func exampleHelp(command string) string {
	where := ""
	switch command {
	case "inspect", "screen", "plan", "profile":
		where = ", in the folder ranch that siltstep demo --out ranch makes"
	case "report":
		where = ", after the example of plan"
	}
	return "\nExample" + where + ":\n  siltstep " + examples[command] + "\n"
}
