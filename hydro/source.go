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
	{"Fischenich2001", "Fischenich, C., 2001. Stability thresholds for stream restoration materials. United States Army Engineer Research and Development Center, ERDC TN-EMRRP-SR-29. Summary of ranges read; single values and title from memory."},
	{"Flint1974", "Flint, J. J., 1974. Stream gradient as a function of order, magnitude, and discharge. Water Resources Research 10, 969–973. From memory."},
	{"FortierScobey1926", "Fortier, S. and Scobey, F. C., 1926. Permissible canal velocities. Transactions of the American Society of Civil Engineers 89, 940–984. From memory."},
	{"GarbrechtMartz1997", "Garbrecht, J. and Martz, L. W., 1997. The assignment of drainage direction over flat surfaces in raster digital elevation models. Journal of Hydrology 193, 204–213. From memory."},
	{"GilWerman1993", "Gil, J. and Werman, M., 1993. Computing 2-D min, median, and max filters. IEEE Transactions on Pattern Analysis and Machine Intelligence 15, 504–507. From memory."},
	{"HeedeMufich1973", "Heede, B. H. and Mufich, J. G., 1973. Functional relationships and a computer program for structural gully control. Journal of Environmental Management 1, 321–344. From memory."},
	{"IndianaCheckDam", "State of Indiana. Manual of erosion and sediment control: rock check dams. Spacing table and the limit of 8 % read in a copy that quotes it."},
	{"Jepson1939", "Jepson, H. G., 1939. Prevention and control of gullies. United States Department of Agriculture, Farmers' Bulletin 1813. Read; title from memory."},
	{"Leopold1992", "Leopold, L. B., 1992. Base level rise: gradient of deposition. Israel Journal of Earth Sciences 41, 57. Abstract read; title from memory."},
	{"MartzGarbrecht1999", "Martz, L. W. and Garbrecht, J., 1999. An outlet breaching algorithm for the treatment of closed depressions in a raster DEM. Computers & Geosciences 25, 835–844. Abstract read; pages from memory. Here: cut within limits of length and depth, then fill; the path of least excavation is our own."},
	{"Nichols2016", "Nichols, M. H., Polyakov, V. O., Nearing, M. A. and Hernandez, M., 2016. Semiarid watershed response to low-tech porous rock check dams. Soil Science 181. Abstract read; title and place from memory."},
	{"OCallaghanMark1984", "O'Callaghan, J. F. and Mark, D. M., 1984. The extraction of drainage networks from digital elevation data. Computer Vision, Graphics, and Image Processing 28, 323–344. From memory."},
	{"PerronRoyden2013", "Perron, J. T. and Royden, L., 2013. An integral approach to bedrock river profile analysis. Earth Surface Processes and Landforms 38, 570–576. Formula read in teaching notes; paper from memory."},
	{"SchwanghartScherler2017", "Schwanghart, W. and Scherler, D., 2017. Bumps in river profiles: uncertainty assessment and smoothing using quantile regression techniques. Earth Surface Dynamics 5, 821–839. Abstract read; loss function from memory."},
	{"Sen1968", "Sen, P. K., 1968. Estimates of the regression coefficient based on Kendall's tau. Journal of the American Statistical Association 63, 1379–1389. From memory."},
	{"Serra1982", "Serra, J., 1982. Image analysis and mathematical morphology. Academic Press, London. From memory."},
	{"Strahler1957", "Strahler, A. N., 1957. Quantitative analysis of watershed geomorphology. Transactions of the American Geophysical Union 38, 913–920. From memory."},
	{"Theil1950", "Theil, H., 1950. A rank-invariant method of linear and polynomial regression analysis. Proceedings of the Royal Netherlands Academy of Sciences 53. From memory."},
	{"TorriPoesen2014", "Torri, D. and Poesen, J., 2014. A review of topographic threshold conditions for gully head development in different environments. Earth-Science Reviews 130, 73–85. From memory."},
	{"VanHerk1992", "van Herk, M., 1992. A fast algorithm for local minimum and maximum filters on rectangular and octagonal kernels. Pattern Recognition Letters 13, 517–521. From memory."},
	{"Vandaele1996", "Vandaele, K., Poesen, J., Govers, G. and van Wesemael, B., 1996. Geomorphic threshold conditions for ephemeral gully incision. Geomorphology 16, 161–173. Abstract read; title and last page from memory."},
	{"Wilkinson2015", "Wilkinson and others, 2015, and the gully guide of New South Wales: a gully is a channel cut more than 0.3 m. Excerpts read; titles not noted."},
	{"Yochum2014", "Yochum and others, 2014. United States Department of Agriculture, Forest Service, RMRS-GTR-323: roughness of steep streams, 0.048 to 0.30 at bankfull flow. Excerpt read; title not noted."},
	{"ZhouWeiFu2019", "Zhou, G., Wei, H. and Fu, S., 2019. A fast and simple algorithm for calculating flow accumulation matrices from raster digital elevation models. Frontiers of Earth Science 13, 317–326. Abstract read; pages from memory."},
}

// Sources returns the publications behind methods and numbers, by key, for reports to print.
func Sources() []Source { return slices.Clone(sources) }
