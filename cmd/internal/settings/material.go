package settings

import "siltstep/hydro/erosion"

// noMaterial stands in a settings file for no bed material.
const noMaterial = "none"

// bedMaterials lists the words for what a bed is made of.
func bedMaterials() []string {
	words := []string{noMaterial}
	for _, m := range erosion.Materials() {
		words = append(words, m.Name)
	}
	return words
}

func bedMaterial(c Settings) string {
	if c.Erosion.Material == "" {
		return noMaterial
	}
	return c.Erosion.Material
}

func setBedMaterial(c *Settings, text string) {
	c.Erosion.Material = text
	if text == noMaterial {
		c.Erosion.Material = ""
	}
}
