package hydro

import "slices"

// Source is a publication that a method or a number comes from.
type Source struct {
	Key  string // as in the package comments and in Finding.Source
	Text string // author, year, title, place; "from memory" where it was not seen in print
}

// sources is in the order of the keys.
var sources = []Source{
	{"Barnes2014Fill", "Barnes, R., Lehman, C. and Mulla, D., 2014. Priority-flood: an optimal depression-filling and watershed-labeling algorithm for digital elevation models. Computers & Geosciences 62, 117–127. Abstract read."},
	{"Barnes2014Flats", "Barnes, R., Lehman, C. and Mulla, D., 2014. An efficient assignment of drainage direction over flat surfaces in raster digital elevation models. Computers & Geosciences 62, 128–135. Abstract read."},
	{"Barnes2016", "Barnes, R., 2016. Parallel priority-flood depression filling for trillion cell digital elevation models on desktops or clusters. Computers & Geosciences 96, 56–68. Abstract read; volume from memory."},
	{"CVCSwale", "Credit Valley Conservation and Toronto and Region Conservation Authority. Low impact development stormwater management planning and design guide: check dams in swales. Excerpt read."},
	{"EPACheckDam", "United States Environmental Protection Agency. National menu of best management practices for stormwater: check dams. Catchment of 2 to 10 acres read; height of 2 ft from memory."},
	{"GarbrechtMartz1997", "Garbrecht, J. and Martz, L. W., 1997. The assignment of drainage direction over flat surfaces in raster digital elevation models. Journal of Hydrology 193, 204–213. From memory."},
	{"Geyik1986", "Geyik, M. P., 1986. FAO watershed management field manual: gully control. FAO Conservation Guide 13/2. Caption of figure 9 and list of figures read; the rest from memory."},
	{"HEC11", "Federal Highway Administration, 1989. Design of riprap revetment. Hydraulic Engineering Circular 11. Metric form of the stone size and correction factors read; year and title from memory."},
	{"Heede1976", "Heede, B. H., 1976. Gully development and control: the status of our knowledge. United States Department of Agriculture, Forest Service, Research Paper RM-169. From memory."},
	{"HeedeMufich1973", "Heede, B. H. and Mufich, J. G., 1973. Functional relationships and a computer program for structural gully control. Journal of Environmental Management 1, 321–344. From memory."},
	{"IndianaCheckDam", "State of Indiana. Manual of erosion and sediment control: rock check dams. Spacing table and the limit of 8 % read in a copy that quotes it."},
	{"Isbash1936", "Isbash, S. V., 1936. Construction of dams by depositing rock in running water. Second Congress on Large Dams, Washington. From memory; the coefficients 0.86 and 1.20 read in a manual that quotes NCHRP Report 568."},
	{"Jepson1939", "Jepson, H. G., 1939. Prevention and control of gullies. United States Department of Agriculture, Farmers' Bulletin 1813. Read; title from memory."},
	{"Leopold1992", "Leopold, L. B., 1992. Base level rise: gradient of deposition. Israel Journal of Earth Sciences 41, 57. Abstract read; title from memory."},
	{"MartzGarbrecht1999", "Martz, L. W. and Garbrecht, J., 1999. An outlet breaching algorithm for the treatment of closed depressions in a raster DEM. Computers & Geosciences 25, 835–844. Abstract read; pages from memory. Here: cut within limits of length and depth, then fill; the path of least excavation is our own."},
	{"Nichols2016", "Nichols, M. H., Polyakov, V. O., Nearing, M. A. and Hernandez, M., 2016. Semiarid watershed response to low-tech porous rock check dams. Soil Science 181. Abstract read; title and place from memory."},
	{"OCallaghanMark1984", "O'Callaghan, J. F. and Mark, D. M., 1984. The extraction of drainage networks from digital elevation data. Computer Vision, Graphics, and Image Processing 28, 323–344. From memory."},
	{"Polyakov2014", "Polyakov, V. O., Nichols, M. H., McClaran, M. P. and Nearing, M. A., 2014. Effect of check dams on runoff, sediment yield, and retention on small semiarid watersheds. Journal of Soil and Water Conservation 69, 414. Abstract read; title from memory."},
	{"Robinson1998", "Robinson, K. M., Rice, C. E. and Kadavy, K. C., 1998. Design of rock chutes. Transactions of the American Society of Agricultural Engineers 41, 621. Sizes and slopes of the tests read in the paper of 1997; formulas in a design sheet that quotes it; title and place from memory."},
	{"SchwanghartScherler2017", "Schwanghart, W. and Scherler, D., 2017. Bumps in river profiles: uncertainty assessment and smoothing using quantile regression techniques. Earth Surface Dynamics 5, 821–839. Abstract read; loss function from memory."},
	{"SponholtzAnderson2010", "Sponholtz, C. and Anderson, A. C., 2010. Erosion control field guide: one-rock dams. Read; title from memory."},
	{"Strahler1957", "Strahler, A. N., 1957. Quantitative analysis of watershed geomorphology. Transactions of the American Geophysical Union 38, 913–920. From memory."},
	{"ZhouWeiFu2019", "Zhou, G., Wei, H. and Fu, S., 2019. A fast and simple algorithm for calculating flow accumulation matrices from raster digital elevation models. Frontiers of Earth Science 13, 317–326. Abstract read; pages from memory."},
}

// Sources returns the publications behind methods and numbers, by key, for reports to print.
func Sources() []Source { return slices.Clone(sources) }
