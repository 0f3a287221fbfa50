package hydro

import "slices"

// Source is a publication that a method or a number comes from.
type Source struct {
	Key  string // as in the package comments and in Finding.Source
	Text string // author, year, title, place; "from memory" where it was not seen in print
}

// sources is in the order of the keys.
var sources = []Source{
	{"AASHTODrainage", "American Association of State Highway and Transportation Officials. Drainage guidelines, and state manuals that follow them: additive runoff coefficients of rural land, pasture, frequency factors. From memory."},
	{"AustinDrainage", "City of Austin. Drainage criteria manual, table 2-6: type III storm by five minutes. Excerpt read."},
	{"Barnes2014Fill", "Barnes, R., Lehman, C. and Mulla, D., 2014. Priority-flood: an optimal depression-filling and watershed-labeling algorithm for digital elevation models. Computers & Geosciences 62, 117–127. Abstract read."},
	{"Barnes2014Flats", "Barnes, R., Lehman, C. and Mulla, D., 2014. An efficient assignment of drainage direction over flat surfaces in raster digital elevation models. Computers & Geosciences 62, 128–135. Abstract read."},
	{"Barnes2016", "Barnes, R., 2016. Parallel priority-flood depression filling for trillion cell digital elevation models on desktops or clusters. Computers & Geosciences 96, 56–68. Abstract read; volume from memory."},
	{"CVCSwale", "Credit Valley Conservation and Toronto and Region Conservation Authority. Low impact development stormwater management planning and design guide: check dams in swales. Excerpt read."},
	{"Chow1959", "Chow, V. T., 1959. Open-channel hydraulics. McGraw-Hill, New York. Roughness of natural streams and the procedure of Cowan seen in copies; the rest from memory."},
	{"ChowMaidmentMays1988", "Chow, V. T., Maidment, D. R. and Mays, L. W., 1988. Applied hydrology. McGraw-Hill, New York. From memory."},
	{"Cleveland2012", "Cleveland, T. G. and others, 2012. Times of concentration on low slopes, as the hydraulic manual of the Texas Department of Transportation adopts them. Read there; title not seen."},
	{"Desta2005", "Desta, G. and others, 2005. Brushwood check dams: gullies less than 3 m wide and 100 m long. Read in a copy that quotes it; title and place not seen."},
	{"Dinkelbach1967", "Dinkelbach, W., 1967. On nonlinear fractional programming. Management Science 13, 492–498. From memory."},
	{"EPACheckDam", "United States Environmental Protection Agency. National menu of best management practices for stormwater: check dams. Catchment of 2 to 10 acres read; height of 2 ft from memory."},
	{"Fischenich2001", "Fischenich, C., 2001. Stability thresholds for stream restoration materials. United States Army Engineer Research and Development Center, ERDC TN-EMRRP-SR-29. Summary of ranges read; single values and title from memory."},
	{"Flint1974", "Flint, J. J., 1974. Stream gradient as a function of order, magnitude, and discharge. Water Resources Research 10, 969–973. From memory."},
	{"FortierScobey1926", "Fortier, S. and Scobey, F. C., 1926. Permissible canal velocities. Transactions of the American Society of Civil Engineers 89, 940–984. From memory."},
	{"GarbrechtMartz1997", "Garbrecht, J. and Martz, L. W., 1997. The assignment of drainage direction over flat surfaces in raster digital elevation models. Journal of Hydrology 193, 204–213. From memory."},
	{"Genereux2003", "Genereux, D. P., 2003. Estimates of the 50-year peak discharge of a small rural watershed by several methods. Environmental Geology 44. Figures read; title and place from memory."},
	{"Geyik1986", "Geyik, M. P., 1986. FAO watershed management field manual: gully control. FAO Conservation Guide 13/2. Caption of figure 9 and list of figures read; the rest from memory."},
	{"GilWerman1993", "Gil, J. and Werman, M., 1993. Computing 2-D min, median, and max filters. IEEE Transactions on Pattern Analysis and Machine Intelligence 15, 504–507. From memory."},
	{"HEC11", "Federal Highway Administration, 1989. Design of riprap revetment. Hydraulic Engineering Circular 11. Metric form of the stone size and correction factors read; year and title from memory."},
	{"HEC15", "Federal Highway Administration. Design of roadside channels with flexible linings. Hydraulic Engineering Circular 15. Range and one constant of the roughness of stone read, shear on sides seen in a copy; the rest from memory."},
	{"Hawkins2002", "Hawkins, R. H., Jiang, R., Woodward, D. E. and others, 2002. Runoff curve number method: examination of the initial abstraction ratio. Read in part; conversion of S in a copy; year and place from memory."},
	{"Heede1976", "Heede, B. H., 1976. Gully development and control: the status of our knowledge. United States Department of Agriculture, Forest Service, Research Paper RM-169. From memory."},
	{"HeedeMufich1973", "Heede, B. H. and Mufich, J. G., 1973. Functional relationships and a computer program for structural gully control. Journal of Environmental Management 1, 321–344. From memory."},
	{"IndianaCheckDam", "State of Indiana. Manual of erosion and sediment control: rock check dams. Spacing table and the limit of 8 % read in a copy that quotes it."},
	{"Isbash1936", "Isbash, S. V., 1936. Construction of dams by depositing rock in running water. Second Congress on Large Dams, Washington. From memory; the coefficients 0.86 and 1.20 read in a manual that quotes NCHRP Report 568."},
	{"Jarrett1984", "Jarrett, R. D., 1984. Hydraulics of high-gradient streams. Journal of Hydraulic Engineering 110, 1519–1539. From memory."},
	{"Jepson1939", "Jepson, H. G., 1939. Prevention and control of gullies. United States Department of Agriculture, Farmers' Bulletin 1813. Read; title from memory."},
	{"Keown1977", "Keown, M. P. and others, 1977. Velocities that do not scour, as a river manual of the Federal Highway Administration prints them (table 3.5). Seen in a copy."},
	{"Kerby1959", "Kerby, W. S., 1959. Time of concentration for overland flow. Civil Engineering 29. From memory."},
	{"Kirpich1940", "Kirpich, Z. P., 1940. Time of concentration of small agricultural watersheds. Civil Engineering 10, 362. Formula read in TxDOTHydraulic; the data behind it from memory."},
	{"Leopold1992", "Leopold, L. B., 1992. Base level rise: gradient of deposition. Israel Journal of Earth Sciences 41, 57. Abstract read; title from memory."},
	{"MPCASwale", "Minnesota Pollution Control Agency. Minnesota stormwater manual: check dams in swales. Volume formula and example read."},
	{"MartzGarbrecht1999", "Martz, L. W. and Garbrecht, J., 1999. An outlet breaching algorithm for the treatment of closed depressions in a raster DEM. Computers & Geosciences 25, 835–844. Abstract read; pages from memory. Here: cut within limits of length and depth, then fill; the path of least excavation is our own."},
	{"McCuenSpiess", "McCuen, R. H. and Spiess, J. M., 1995. Assessment of kinematic wave time of concentration. Journal of Hydraulic Engineering 121. From memory."},
	{"NOAAAtlas2", "National Oceanic and Atmospheric Administration, 1973. Precipitation-frequency atlas of the western United States. NOAA Atlas 2. Ratios of short rain to one-hour rain from memory."},
	{"NRCSNEH630", "United States Department of Agriculture, Natural Resources Conservation Service. National engineering handbook, part 630: hydrology, chapters 15 and 16. Unit hydrograph and two velocities seen in copies; the rest from memory."},
	{"NRCSTechNote40", "United States Department of Agriculture, Natural Resources Conservation Service. Technical Note 40: hand-built structures in sagebrush meadows, headcuts and channels under 1.2 m. Limits read; title from memory."},
	{"NWSUnitHydrograph", "National Weather Service. Unit hydrograph manual. Read in part."},
	{"NemhauserUllmann1969", "Nemhauser, G. L. and Ullmann, Z., 1969. Discrete dynamic programming and capital allocation. Management Science 15, 494–505. From memory."},
	{"Nichols2016", "Nichols, M. H., Polyakov, V. O., Nearing, M. A. and Hernandez, M., 2016. Semiarid watershed response to low-tech porous rock check dams. Soil Science 181. Abstract read; title and place from memory."},
	{"OCallaghanMark1984", "O'Callaghan, J. F. and Mark, D. M., 1984. The extraction of drainage networks from digital elevation data. Computer Vision, Graphics, and Image Processing 28, 323–344. From memory."},
	{"PerronRoyden2013", "Perron, J. T. and Royden, L., 2013. An integral approach to bedrock river profile analysis. Earth Surface Processes and Landforms 38, 570–576. Formula read in teaching notes; paper from memory."},
	{"Polyakov2014", "Polyakov, V. O., Nichols, M. H., McClaran, M. P. and Nearing, M. A., 2014. Effect of check dams on runoff, sediment yield, and retention on small semiarid watersheds. Journal of Soil and Water Conservation 69, 414. Abstract read; title from memory."},
	{"Ponce1989", "Ponce, V. M., 1989. Engineering hydrology: principles and practices. Prentice Hall, Englewood Cliffs. Formulas, exercises and solutions read; year from memory."},
	{"Robinson1998", "Robinson, K. M., Rice, C. E. and Kadavy, K. C., 1998. Design of rock chutes. Transactions of the American Society of Agricultural Engineers 41, 621. Sizes and slopes of the tests read in the paper of 1997; formulas in a design sheet that quotes it; title and place from memory."},
	{"SCS1986", "United States Department of Agriculture, Soil Conservation Service, 1986. Urban hydrology for small watersheds. Technical Release 55. Runoff equation and sheet flow read; other tables in copies or from memory, as each says."},
	{"SchwanghartScherler2017", "Schwanghart, W. and Scherler, D., 2017. Bumps in river profiles: uncertainty assessment and smoothing using quantile regression techniques. Earth Surface Dynamics 5, 821–839. Abstract read; loss function from memory."},
	{"Sen1968", "Sen, P. K., 1968. Estimates of the regression coefficient based on Kendall's tau. Journal of the American Statistical Association 63, 1379–1389. From memory."},
	{"Serra1982", "Serra, J., 1982. Image analysis and mathematical morphology. Academic Press, London. From memory."},
	{"SponholtzAnderson2010", "Sponholtz, C. and Anderson, A. C., 2010. Erosion control field guide: one-rock dams. Read; title from memory."},
	{"Strahler1957", "Strahler, A. N., 1957. Quantitative analysis of watershed geomorphology. Transactions of the American Geophysical Union 38, 913–920. From memory."},
	{"Theil1950", "Theil, H., 1950. A rank-invariant method of linear and polynomial regression analysis. Proceedings of the Royal Netherlands Academy of Sciences 53. From memory."},
	{"Thompson2007", "Thompson, D. B., 2007. The rational method (draft). Read."},
	{"TorriPoesen2014", "Torri, D. and Poesen, J., 2014. A review of topographic threshold conditions for gully head development in different environments. Earth-Science Reviews 130, 73–85. From memory."},
	{"TxDOTHydraulic", "Texas Department of Transportation. Hydraulic design manual. Excerpts read."},
	{"VanHerk1992", "van Herk, M., 1992. A fast algorithm for local minimum and maximum filters on rectangular and octagonal kernels. Pattern Recognition Letters 13, 517–521. From memory."},
	{"Vandaele1996", "Vandaele, K., Poesen, J., Govers, G. and van Wesemael, B., 1996. Geomorphic threshold conditions for ephemeral gully incision. Geomorphology 16, 161–173. Abstract read; title and last page from memory."},
	{"Veronese1937", "Veronese, A., 1937. Erosioni di fondo a valle di uno scarico. Annali dei Lavori Pubblici 75, 717. Formula, title and place from memory."},
	{"VirginiaCheckDam", "Virginia Department of Conservation and Recreation, 1992. Virginia erosion and sediment control handbook, standard 3.20, rock check dams: logs to 2 acres, rock to 10. From memory."},
	{"Wilkinson2015", "Wilkinson and others, 2015, and the gully guide of New South Wales: a gully is a channel cut more than 0.3 m. Excerpts read; titles not noted."},
	{"Yochum2014", "Yochum, S. E. and others, 2014. Photographic guidance for selecting flow resistance coefficients in high-gradient channels. United States Forest Service, RMRS-GTR-323. Figures read; title from memory."},
	{"ZhouWeiFu2019", "Zhou, G., Wei, H. and Fu, S., 2019. A fast and simple algorithm for calculating flow accumulation matrices from raster digital elevation models. Frontiers of Earth Science 13, 317–326. Abstract read; pages from memory."},
}

// Sources returns the publications behind methods and numbers, by key, for reports to print.
func Sources() []Source { return slices.Clone(sources) }
